"""What a learner has begun and not handed over: cards put down, bolts pulled, places marked, readings noted."""

from typing import Any

from bitepoint.logbook.draft import Owner, keep_draft, read_draft
from bitepoint.logbook.identity import key_of
from bitepoint.page.exercise_session import ExerciseSession

_OF_PRACTICE: dict[Owner, Any] = {}
"""What the practice learner has begun, of whom nothing is kept on the disk: it lasts as long as the kernel."""


def keep(session: ExerciseSession, begun: Any) -> None:
    """Keep what is begun of the open turn, as it lies now."""
    if session.identity.folder is None:
        _OF_PRACTICE[_owner(session)] = begun
    else:
        keep_draft(session.identity.folder, _owner(session), begun)


def begun(session: ExerciseSession) -> Any:
    """Return what was begun of the open turn; None where nothing is kept, or not of this learner and question."""
    if session.identity.folder is None:
        return _OF_PRACTICE.get(_owner(session))
    return read_draft(session.identity.folder, _owner(session))


def forget() -> None:
    """Forget what the practice learner has begun."""
    _OF_PRACTICE.clear()


def _owner(session: ExerciseSession) -> Owner:
    who = session.identity
    return Owner(
        learner=key_of(who.learner),
        class_word=key_of(who.class_word),
        sitting=session.sitting,
        exercise=session.draft_name,
        turn=session.turn,
        facts=session.question().facts_digest(),
    )
