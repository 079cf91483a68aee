"""A bench of work cards: what an order of work and the whole job share."""

from collections.abc import Callable
from contextlib import suppress
from typing import Any

from bitepoint.errors import BitepointError
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds.view import Begun, Message, Spec
from bitepoint.questions.bench import Pick
from bitepoint.questions.question import Question

Told = dict[str, Any]
Judge = Callable[[Any, list[Any]], Told]
"""Says what each pick of an unfinished row did."""
FRESH = ("picked", "told")


def told(judge: Judge, session: ExerciseSession, row: object) -> Told:
    """Return what is said of a row so far: nothing in a class that is told after the hand-in; an empty row has no picks."""
    if session.withheld:
        return {}
    return judge(session.question(), row) if isinstance(row, list) and row else {"picks": []}


def control(judge: Judge, session: ExerciseSession, spec: Spec) -> Any:
    """Return the widget with every card on its bench."""
    from bitepoint.page import widgets

    return widgets.WorkBench(spec=spec, picked=[], told={}, said={})


def begun(judge: Judge) -> Begun:
    """Return how a row of cards is kept and laid out again."""

    def resume(widget: Any, session: ExerciseSession, row: Any) -> None:
        if isinstance(row, list) and all(isinstance(token, str) and len(token) == 1 for token in row):
            with suppress(BitepointError):
                session.question().read(row)
                widget.told = told(judge, session, row)
                widget.picked = row

    return Begun(trait="picked", resume=resume)


def tell(judge: Judge, widget: Any, session: ExerciseSession, message: Message) -> None:
    """Say what the newest pick did."""
    if message.get("do") == "pick":
        widget.told = told(judge, session, message.get("picked"))


def said(pick: Pick) -> Told:
    """Return one pick as the control hears it: the words only where it was refused."""
    heard = {"letter": pick.letter, "safe": pick.safe, "says": "" if pick.safe else pick.says}
    return heard | ({"critical": True} if pick.critical else {})


def record(question: Question, understood: str) -> str:
    """Return a row of letters in the words of a job record: how many operations it was."""
    return f"{sum(map(str.isalpha, understood.split()))} operations, no step too early"
