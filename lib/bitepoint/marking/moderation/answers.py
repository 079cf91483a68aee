"""Which answers of a learner a second person marks: the ones that count, some of them chosen, the rest by lot."""

from collections.abc import Sequence

from msgspec import Struct

from bitepoint.marking.appeals import line_of
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.moderation.strata import lot
from bitepoint.marking.result import Result


class ToMark(Struct, frozen=True, kw_only=True):
    """One answer to mark a second time: whose, in practice ("") or in which sitting, and its line."""

    learner: str
    word: str
    exercise: str
    line: MarkedLine


def to_mark(result: Result, lines: Sequence[MarkedLine], *, seed: int, most: int) -> list[ToMark]:
    """Return up to `most` answers of a learner, in the order of the bank.

    They are of the sitting that counts, where there is one, else of practice. Up to half are those in which something
    critical was answered or that a person marked; all others are drawn, so that nobody can tell why one is there.
    """
    rows = [r for r in (result.sitting_rows or result.rows) if r.last_score is not None]
    by_lot = sorted(rows, key=lambda r: (lot(seed, result.class_word, result.name, r.exercise), r.exercise))
    picked = [r for r in by_lot if r.critical_made or r.override][: (most + 1) // 2]
    picked += [r for r in by_lot if r not in picked][: most - len(picked)]
    found = []
    for row in rows:
        line = line_of(row, lines) if row in picked else None
        if line:
            found.append(ToMark(learner=result.name, word=row.sitting, exercise=row.exercise, line=line))
    return found
