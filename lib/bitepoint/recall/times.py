"""When each line of a logbook was written, as far as a laptop's clock can be believed.

Due dates hang on these times alone, so a clock that was wrong for a while must move none of them for good.
"""

from collections.abc import Iterable
from datetime import UTC, datetime, timedelta

from bitepoint.logbook.record import Record

_SLACK = timedelta(days=1)
_LONGEST_PAUSE = timedelta(days=400)
"""A line further on than this from the line before it, and in the future too, was written with a wrong clock (our choice)."""


def times_of(records: Iterable[Record], now: datetime) -> dict[str, datetime]:
    """Return the time of each line [UTC] by its hash; a line whose time nothing tells is left out.

    Within one chain the number orders: a line counts as no earlier than the line before it, so a clock set back turns
    nothing round. One that cannot be read, or that leaps more than 400 days ahead and past `now`, has the time of
    the line before it.
    """
    found: dict[str, datetime] = {}
    latest: dict[tuple[str, str], datetime] = {}
    for record in sorted(records, key=lambda r: (r.n, r.at)):
        chain = (record.device, record.book)
        before, at = latest.get(chain), read_time(record.at)
        if at is None or _leaps(at, before, now):
            at = before
        if at is not None:
            found[record.hash] = latest[chain] = max(at, before or at)
    return found


def _leaps(at: datetime, before: datetime | None, now: datetime) -> bool:
    return at > now + _SLACK and (before is None or at - before > _LONGEST_PAUSE) and at - now > _LONGEST_PAUSE


def read_time(text: str) -> datetime | None:
    """Return the time that a line holds [UTC], None where it is none."""
    try:
        found = datetime.fromisoformat(text)
        return (found if found.tzinfo else found.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, OverflowError):
        return None


def present(times: Iterable[datetime], now: datetime) -> datetime:
    """Return the time that due dates are compared with: `now`, or the newest line's where the clock was set back since."""
    return max((now, *times))
