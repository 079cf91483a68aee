"""What one learner answered in recall in one exercise, as the board counts it: apart from the lesson's cell."""

from collections.abc import Sequence
from datetime import datetime, timedelta

from msgspec import Struct

from bitepoint.logbook.standing import Marked
from bitepoint.marking.figures.forgetting import RecallCount
from bitepoint.recall.times import read_time


class RecallCell(Struct, frozen=True, kw_only=True):
    """Counts for the class, and what was dangerous: "" where nothing dangerous is open; `at` is the last answer's time."""

    counts: tuple[RecallCount, ...]
    critical: str
    at: str


def recall_cell(exercise: str, lesson: Sequence[Marked], recalled: Sequence[Marked]) -> RecallCell:
    """Return the cell of an exercise; a danger is open until a later right answer, here as in marking."""
    in_order = sorted((*lesson, *recalled), key=lambda m: (_time(m) is None, _time(m) or 0, m.record.n))
    again = {m.record.hash for m in recalled}
    counts, critical, at, before = [], "", "", None
    for marked in in_order:
        time, verdict = _time(marked), marked.verdict
        if marked.record.hash in again:
            counts.append(RecallCount(exercise, _days(before, time), verdict.right, next(iter(verdict.mistakes), "")))
            at = marked.record.at
            if verdict.critical:
                critical = verdict.reason
        if verdict.right and not marked.record.solution_shown:
            critical = ""
        before = time or before
    return RecallCell(counts=tuple(counts), critical=critical, at=at)


def _time(marked: Marked) -> datetime | None:
    return read_time(marked.record.at)


def _days(before: datetime | None, at: datetime | None) -> float | None:
    return (at - before) / timedelta(days=1) if before and at else None
