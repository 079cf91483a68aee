"""A figure found by stepping a dial gauge round a part."""

from typing import Any

from markupsafe import Markup

from bitepoint.page import html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds.number import number_spec, typed_number
from bitepoint.page.kinds.view import Begun, KindView, Spec, as_understood, nothing_offered
from bitepoint.pictures import Drawing
from bitepoint.questions.sweep import Sweep

_WORDS = "All readings in one picture, if there is nothing to turn below"
_NOTE_LETTERS = 8


def _spec(question: Sweep, title: str, at_once: bool) -> Spec:
    gauge = {"held": list(question.held), "loose": list(question.loose)}
    return number_spec(question, title, at_once) | {"kind": "sweep", "sweep": gauge}


def _control(session: ExerciseSession, spec: Spec) -> Any:
    from bitepoint.page import widgets

    return widgets.SweepForm(spec=spec, told={}, said={}, step={})


def _resume(widget: Any, session: ExerciseSession, step: Any) -> None:
    question: Any = session.question()
    if not isinstance(step, dict) or type(step.get("held")) is not bool or type(step.get("at")) is not int:
        return
    notes = step.get("notes")
    fits = isinstance(notes, list) and len(notes) == len(question.held) and all(map(_is_note, notes))
    if fits and 0 <= step["at"] <= question.places:
        widget.step = {key: step[key] for key in ("at", "held", "notes")}


def _is_note(text: object) -> bool:
    return isinstance(text, str) and len(text) <= _NOTE_LETTERS


def _all_at_once(drawing: Drawing) -> Markup:
    """Return every reading of a sweep; where the learner takes them one by one in the control it is hidden on screen."""
    return html.folded(_WORDS, html.figure(drawing), is_open=True)


VIEW = KindView(
    question=Sweep,
    offer=nothing_offered,
    typed=typed_number,
    spec=_spec,
    control=_control,
    fresh=("told", "step"),
    draws=True,
    record=as_understood,
    tells_understood=True,
    figure=_all_at_once,
    begun=Begun(trait="step", resume=_resume, is_the_answer=False),
)
