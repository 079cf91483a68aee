"""How far first and second marks agree, and what was agreed on where they did not."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.figures.statistics import agreement
from bitepoint.marking.registry.entries import Entry, overriding
from bitepoint.marking.result import Result, Row

COMPUTED = "computed"


class Compared(Struct, frozen=True, kw_only=True):
    """A mark that a second person gave too. `first_by` is who gave the first one, “computed” where nobody did.

    `first` is None where there is no first mark. `second` and `resolution` are entries of the register; the newest count.
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
        return self.pair is not None and agreement([self.pair]).startswith("1")

    @property
    def pair(self) -> tuple[float, float] | None:
        """Both marks, where there are two."""
        if self.first is None or self.second.score is None:
            return None
        return (self.first, self.second.score)

    @property
    def settled(self) -> bool:
        """Whether nothing is left to agree on: no difference, or a resolution that is newer than the second mark."""
        return self.agrees or self.resolution is not None


def compared(result: Result) -> list[Compared]:
    """Return every mark of a learner that was given a second time, practice first, then each sitting."""
    found = list(_of(result, result.rows, ""))
    for work in result.sittings:
        found += _of(result, work.rows, work.word)
    return found


def _of(result: Result, rows: Sequence[Row], word: str) -> Iterator[Compared]:
    own = [e for e in result.entries if key_of(e.word) == key_of(word)]
    first_given = overriding(own, resolved=False)
    seconds = {e.exercise: (n, e) for n, e in enumerate(own) if e.kind == "second mark"}
    agreed = {e.exercise: (n, e) for n, e in enumerate(own) if e.kind == "resolution"}
    for row in rows:
        if row.exercise not in seconds:
            continue
        n, second = seconds[row.exercise]
        place, resolution = agreed.get(row.exercise, (-1, None))
        given = first_given.get(row.exercise)
        yield Compared(
            learner=result.name,
            exercise=row.exercise,
            word=word,
            first=given.score if given else row.last_score,
            first_by=given.by if given else COMPUTED,
            second=second,
            resolution=resolution if place > n else None,
        )


def in_words(all_compared: Sequence[Compared]) -> str:
    """Return in how many marks the two agree, as “n of m”, "" where nothing was marked a second time.

    A mark without a first one is none of them.
    """
    pairs = [c.pair for c in all_compared if c.pair]
    return agreement(pairs) if pairs else ""
