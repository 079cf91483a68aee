"""Days of entries against each other and against today: nothing is recorded of a day to come, nothing decided before it came."""

from collections.abc import Sequence
from datetime import date, timedelta

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import key_of
from bitepoint.marking.registry.entries import Entry

_MADE = date(2026, 11, 29)
"""A computer that says an earlier day than this has a wrong clock, so its day refuses nothing."""


def last_day(today: date) -> str:
    """Return the last day that an entry of today may be of: tomorrow, since elsewhere it may be a day later already."""
    return (max(today, _MADE) + timedelta(days=1)).isoformat()


def check_days(entry: Entry, there: Sequence[Entry]) -> None:
    """Let a checked entry pass, unless it is of a day to come or decides an appeal that had not come in.

    Raises
    ------
    BadInput
        Says which day it is about, and what to do.
    """
    last = last_day(date.today())
    # With an earlier class the day is until when answers there count, and that may be agreed on before.
    if entry.date > last and not entry.earlier_class:
        option = "--from" if entry.kind == "sitting" else "--date"
        raise BadInput(
            f"{option} {entry.date} is still to come: by this computer today is {date.today()}. "
            "Look at the year, or enter it when it has happened."
        )
    if entry.decided > last:
        raise BadInput(f"--decided {entry.decided} is still to come. Give the day on which the appeal was decided.")
    if entry.kind == "appeal" and entry.outcome:
        _check_received(entry, there)


def _check_received(entry: Entry, there: Sequence[Entry]) -> None:
    came = [e.date for e in there if _is_received(e, entry)]
    about = entry.exercise or "everything"
    if not came:
        raise BadInput(
            f"No appeal of {entry.learner} about {about} was received, so none can be decided. "
            "Enter first what came in: the same command without --outcome and --decided."
        )
    if entry.decided < min(came):
        raise BadInput(
            f"--decided {entry.decided} is before {min(came)}, when the appeal of {entry.learner} about {about} was received."
        )


def _is_received(earlier: Entry, decision: Entry) -> bool:
    """Whether an entry is the appeal that is decided; one about everything may be decided exercise by exercise."""
    same = earlier.kind == "appeal" and key_of(earlier.learner) == key_of(decision.learner)
    return same and not earlier.outcome and earlier.exercise in ("", decision.exercise)
