"""A bench of work cards: what an order of work and the whole job share, with the row kept while the kernel runs."""

from collections.abc import Callable
from typing import Any

from bitepoint.page import begun_rows
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds.view import Message, Spec
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
    """Return the widget with the row as it lay when it was last seen in this kernel."""
    from bitepoint.page import widgets

    row = begun_rows.begun(session)
    return widgets.WorkBench(spec=spec, picked=row, told=told(judge, session, row) if row else {}, said={})


def tell(judge: Judge, widget: Any, session: ExerciseSession, message: Message) -> None:
    """Say what the newest pick did and keep the row."""
    if message.get("do") == "pick":
        widget.told = told(judge, session, message.get("picked"))
        begun_rows.keep(session, message.get("picked"))


def said(pick: Pick) -> Told:
    """Return one pick as the control hears it: the words only where it was refused."""
    heard = {"letter": pick.letter, "safe": pick.safe, "says": "" if pick.safe else pick.says}
    return heard | ({"critical": True} if pick.critical else {})


def record(question: Question, understood: str) -> str:
    """Return a row of letters in the words of a job record: how many operations it was."""
    return f"{sum(map(str.isalpha, understood.split()))} operations, no step too early"
