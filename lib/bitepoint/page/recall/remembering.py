"""What this learner's logbook says of what is remembered: the items of recall, and the time they are compared with."""

from collections.abc import Sequence
from datetime import UTC, datetime, time, timedelta

from msgspec import Struct

from bitepoint.logbook import Identity, Record, read_folder
from bitepoint.logbook.identity import same_name
from bitepoint.recall.choosing import Item, items_of
from bitepoint.recall.reviews import reviews_of
from bitepoint.recall.times import present, times_of


class Remembered(Struct, frozen=True):
    """A learner's lines, oldest first, what was learned, the longest due first, and the time that due dates are compared with [UTC]."""

    records: Sequence[Record]
    items: Sequence[Item]
    now: datetime

    def lines_of(self, exercise: str) -> list[Record]:
        """Return the lines about one exercise, oldest first."""
        return [record for record in self.records if record.exercise == exercise]


def utc_clock() -> datetime:
    """Return the time now [UTC]."""
    return datetime.now(UTC)


def end_of_day(at: datetime) -> datetime:
    """Return when the day ends on this computer's own clock [UTC].

    What is due on a day can be asked on all of it: whoever answered in the evening may come back in the afternoon.
    """
    tomorrow = at.astimezone().date() + timedelta(days=1)
    return datetime.combine(tomorrow, time.min).astimezone(UTC) - datetime.resolution


def records_of(identity: Identity) -> list[Record]:
    """Return what this learner's lines say, of every lesson and device."""
    files = read_folder(identity.folder).values() if identity.folder else ()
    found = (line.record for lines in files for line in lines)
    return [
        r
        for r in found
        if r and same_name(r.learner, identity.learner) and same_name(r.class_word, identity.class_word)
    ]


def remembered(identity: Identity, clock: datetime) -> Remembered:
    """Return what the logbook of a workbook tells; `clock` is what this computer's clock shows [UTC]."""
    mine = records_of(identity)
    times = times_of(mine, clock)
    now = present(times.values(), clock)
    placed = sorted((r for r in mine if r.hash in times), key=lambda r: (times[r.hash], r.device, r.n))
    return Remembered(placed, items_of(reviews_of(mine, clock), identity.vehicles), now)
