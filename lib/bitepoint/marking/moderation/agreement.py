"""How far first and second marks agree, and what was agreed on where they did not."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.figures.statistics import agreement
from bitepoint.marking.registry.entries import Entry, overriding
from bitepoint.marking.result import Result, Row
from bitepoint.workshop.people import same_person

COMPUTED, SECOND = "computed", "second mark"


class Compared(Struct, frozen=True, kw_only=True):
    """A mark that another person gave too, beside the one that stood when they gave it.

    `first` is that one, None where there is none, and `first_by` whose: “computed” where nobody gave it, and “agreed on by …”
    where a resolution stood already. `second` and `resolution` are entries of the register.
    """

    learner: str
    exercise: str
    word: str
    first: float | None
    first_by: str
    second: Entry
    resolution: Entry | None = None

    @property
    def agrees(self) -> bool:
        """Whether both marks are the same; a hundredth is no difference."""
        return self._both is not None and agreement([self._both]).startswith("1")

    @property
    def pair(self) -> tuple[float, float] | None:
        """Both marks, where there are two and the other one is a second mark."""
        return self._both if self.second.kind == SECOND else None

    @property
    def settled(self) -> bool:
        """Whether nothing is left to agree on: no difference, or a resolution that is newer than the second mark."""
        return self.agrees or self.resolution is not None

    @property
    def _both(self) -> tuple[float, float] | None:
        if self.first is None or self.second.score is None:
            return None
        return (self.first, self.second.score)


class _Round(Struct, frozen=True):
    """The marks given between two resolutions of an exercise, the newest of each person; None where there is none."""

    before: Entry | None
    marks: tuple[Entry, ...]
    after: Entry | None


def compared(result: Result) -> list[Compared]:
    """Return every mark that was given a second time, each person's by itself; practice first, then each sitting."""
    found = list(_of(result, result.rows, ""))
    for work in result.sittings:
        found += _of(result, work.rows, work.word)
    return found


def _of(result: Result, rows: Sequence[Row], word: str) -> Iterator[Compared]:
    own = [e for e in result.entries if key_of(e.word) == key_of(word)]
    if not own:
        return
    given = overriding(own, resolved=False)
    for row in rows:
        for one in _rounds([e for e in own if e.exercise == row.exercise]):
            first, first_by = _stood(one.before, given.get(row.exercise), row)
            for mark in one.marks:
                yield Compared(
                    learner=result.name,
                    exercise=row.exercise,
                    word=word,
                    first=first,
                    first_by=first_by,
                    second=mark,
                    resolution=one.after,
                )


def _rounds(own: Sequence[Entry]) -> Iterator[_Round]:
    """Yield what was marked a second time and then agreed on, round by round; a resolution ends one.

    An override that came after a resolution is another mark to agree on: it changes neither.
    """
    before: Entry | None = None
    after: Entry | None = None
    marks: list[Entry] = []
    for entry in own:
        if entry.kind == "resolution":
            after = entry
        elif entry.kind == SECOND or (entry.kind == "override" and (before or after)):
            if after:
                if marks:
                    yield _Round(before, tuple(marks), after)
                before, after, marks = after, None, []
            marks = [*(m for m in marks if not same_person(m.by, entry.by)), entry]
    if marks:
        yield _Round(before, tuple(marks), after)


def _stood(agreed: Entry | None, given: Entry | None, row: Row) -> tuple[float | None, str]:
    """Return the mark that stood before a second one, and whose it is."""
    if agreed:
        return agreed.score, f"agreed on by {agreed.by}"
    return (given.score, given.by) if given else (row.last_score, COMPUTED)


def in_words(all_compared: Sequence[Compared]) -> str:
    """Return in how many marks the two agree, as “n of m”, "" where nothing was marked a second time.

    A mark without a first one is none of them.
    """
    pairs = [c.pair for c in all_compared if c.pair]
    return agreement(pairs) if pairs else ""
