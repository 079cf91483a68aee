"""Put in order."""

from contextlib import suppress
from typing import Any

from bitepoint.errors import BitepointError
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import form
from bitepoint.page.kinds.options import offered, offered_spec
from bitepoint.page.kinds.view import Begun, KindView, as_understood
from bitepoint.questions.keys import letters_for
from bitepoint.questions.order import ADVICE_ONLY, Order


def _typed(question: Order) -> str:
    return repr(" ".join(letters_for(len(question.steps))))


def _mark(widget: Any, session: ExerciseSession) -> None:
    """Show at the step that the verdict names which rule it broke; nothing in a class that is told after the hand-in."""
    answers = session.answers(session.turn)
    question: Any = session.question()
    last = [] if session.withheld or session.right or not answers else question.broken(answers[-1].record.answer)
    letter = dict(zip(question.steps, letters_for(len(question.steps)), strict=True))
    rows = [
        {"key": letter[r.then], "first": letter[r.first], "says": r.says, "critical": r.critical}
        for r in last
        if r.kind not in ADVICE_ONLY
    ]
    widget.told = {"broken": rows[:1]}


def _resume(widget: Any, session: ExerciseSession, step: Any) -> None:
    row = step.get("row") if isinstance(step, dict) else None
    if isinstance(row, list) and all(isinstance(key, str) and len(key) == 1 for key in row):
        with suppress(BitepointError):
            widget.step = {"row": session.question().read(row)}


VIEW = KindView(
    question=Order,
    offer=offered,
    typed=_typed,
    spec=offered_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    record=as_understood,
    mark=_mark,
    begun=Begun(trait="step", resume=_resume),
)
