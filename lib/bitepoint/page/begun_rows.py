"""Orders of work on the page: what each pick did, and the row begun, kept while the kernel runs."""

from typing import Any

from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.questions.bench import Pick
from bitepoint.questions.staged_work import GO_ON, StagedWork
from bitepoint.questions.work_order import WorkOrder

Told = dict[str, Any]
_BEGUN: dict[tuple[object, ...], list[str]] = {}
"""Rows begun and not handed in yet: a cell that runs again, or a page loaded anew, finds its cards where they lay."""


def told(question: WorkOrder | StagedWork, row: object) -> Told:
    """Return what each pick of an unfinished row did; an empty row has none.

    Of the whole job also whether the open stage has all its cards, and then why the others do not belong there.
    """
    if not isinstance(row, list) or not row:
        return {"picks": []}
    if isinstance(question, WorkOrder):
        return {"picks": [_said(pick) for pick in question.picks(row, sent_back=True)]}
    work = question.work(row, sent_back=True)
    stage = row.count(GO_ON)
    picks = [_said(pick) for picks in work.picks for pick in picks]
    for at in (place for place, token in enumerate(row) if token == GO_ON):
        picks.insert(at, {"letter": GO_ON, "safe": True, "says": ""})
    finished = not work.left[stage]
    strangers = [_said(pick) for pick in question.strangers(stage)] if finished else []
    return {"picks": picks, "finished": finished, "strangers": strangers}


def _said(pick: Pick) -> Told:
    said = {"letter": pick.letter, "safe": pick.safe, "says": "" if pick.safe else pick.says}
    return said | ({"critical": True} if pick.critical else {})


def keep(session: ExerciseSession, row: object) -> None:
    """Remember the row of the open turn as it lies now."""
    if isinstance(row, list) and all(isinstance(token, str) for token in row):
        _BEGUN[_whose(session)] = row


def begun(session: ExerciseSession) -> list[str]:
    """Return the row of the open turn as it lay when it was last seen in this kernel."""
    return list(_BEGUN.get(_whose(session), ()))


def forget() -> None:
    """Put all cards of all drills back."""
    _BEGUN.clear()


def _whose(session: ExerciseSession) -> tuple[object, ...]:
    who = session.identity
    name = (who.class_word.casefold(), who.learner.casefold(), who.sitting)
    return (session.exercise.id, *name, session.turn, session.question().facts_digest())
