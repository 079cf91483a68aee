"""Orders of work on the page: the row begun, kept while the kernel runs."""

from bitepoint.page.exercise_session import ExerciseSession

_BEGUN: dict[tuple[object, ...], list[str]] = {}
"""Rows begun and not handed in yet: a cell that runs again, or a page loaded anew, finds its cards where they lay."""


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
