"""What an entry about a sitting or a hand-in must look like: times with their zone, lessons, the start of a SHA-256."""

import re
from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

from bitepoint.bank import exercises
from bitepoint.errors import BadInput

LONGEST = timedelta(days=1)
_HEX = re.compile(r"[0-9a-f]{12,64}", re.ASCII)


def checked_window(begins: str, ends: str) -> tuple[str, str]:
    """Return begin and end of a sitting as written, both or neither.

    Raises
    ------
    BadInput
        One is missing, is no time with its zone, the end is not after the begin, or more than a day lies between.
    """
    if not begins and not ends:
        return "", ""
    first, last = _with_zone(begins, "--from"), _with_zone(ends, "--to")
    if last <= first:
        raise BadInput(f"--to {ends[:40]} is not after --from {begins[:40]}. Give begin and end of the sitting.")
    if last - first > LONGEST:
        raise BadInput("A sitting lasts at most a day. Enter one for each day, each with a word of its own.")
    return first.isoformat(), last.isoformat()


def _with_zone(text: str, option: str) -> datetime:
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        found = None
    if found is None or found.tzinfo is None:
        raise BadInput(
            f"{option} must be a time with its zone, such as 2026-06-30T09:00+02:00 (or …T07:00Z for UTC), "
            f"but you gave {text[:40]!r}."
        )
    return found


def utc_time(text: str) -> datetime | None:
    """Return a time as recorded, UTC where no zone is said; None when it cannot be read."""
    try:
        found = datetime.fromisoformat(text)
        return (found if found.tzinfo else found.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, OverflowError):
        return None


def checked_lessons(keys: Sequence[str]) -> tuple[str, ...]:
    """Return keys of lessons.

    Raises
    ------
    BadInput
        One is no lesson.
    """
    known = list(dict.fromkeys(e.lesson for e in exercises().values()))
    for key in keys:
        if key not in known:
            raise BadInput(f"There is no lesson {key[:40]!r}. Choose from {', '.join(known)}.")
    return tuple(keys)


def checked_hand_in(text: str) -> str:
    """Return the start of a hand-in's SHA-256, in small letters.

    Raises
    ------
    BadInput
        It is no such start, or too short to name one hand-in.
    """
    plain = text.strip().casefold()
    if plain and not _HEX.fullmatch(plain):
        raise BadInput(f"--hand-in must be at least 12 characters 0 to 9 and a to f, but you gave {text[:40]!r}.")
    return plain
