"""Which sitting counts where a lesson was sat more than once, and which are more than the class allows."""

from collections.abc import Iterator, Sequence

from bitepoint.bank import exercises
from bitepoint.marking.passing import UNSUPERVISED, is_supervised
from bitepoint.marking.result import Row, SittingWork
from bitepoint.marking.rules import ClassRules
from bitepoint.workshop.datafiles import once_a_set


def counting_rows(works: Sequence[SittingWork], rules: ClassRules) -> list[Row]:
    """Return the rows of the sitting that counts in each lesson, in the order of the bank.

    Of retakes the class's `counts` says which: the last, or the best (fewest critical mistakes open, then most right).
    Those after the retakes that the class allows do not count. One whose time waits counts only where none was supervised,
    and a sitting that the register does not have shows only where there is no other.
    """
    found: list[Row] = []
    for lesson in _lessons() if works else ():
        attempts = _pool(works, lesson)
        if rules.retakes is not None:
            attempts = attempts[: rules.retakes + 1]
        others = attempts or [w for w in works if w.standing == UNSUPERVISED]
        if others:
            best = rules.counts == "best"
            chosen = max(others, key=lambda w: _worth(w, lesson)) if best else others[-1]
            found += [row for row in chosen.rows if _lesson(row) == lesson]
    return found


def _pool(works: Sequence[SittingWork], lesson: str) -> list[SittingWork]:
    """Return the sittings from which the one that counts in a lesson is taken: while a time waits, the supervised ones."""
    attempts = [w for w in attempts_of(works, lesson) if w.standing != UNSUPERVISED]
    return [w for w in attempts if is_supervised(w.standing)] or attempts


@once_a_set
def _lessons() -> tuple[str, ...]:
    return tuple(dict.fromkeys(e.lesson for e in exercises().values()))


def attempts_of(works: Sequence[SittingWork], lesson: str) -> list[SittingWork]:
    """Return the sittings that were about a lesson, in their order."""
    return [w for w in works if not w.lessons or lesson in w.lessons]


def _worth(work: SittingWork, lesson: str) -> tuple[int, float]:
    rows = [row for row in work.rows if _lesson(row) == lesson]
    return (-sum(row.critical_open for row in rows), sum(row.mark or 0 for row in rows))


def _lesson(row: Row) -> str:
    return row.exercise.partition(".")[0]


def too_many(works: Sequence[SittingWork], rules: ClassRules) -> Iterator[SittingWork]:
    """Yield the sittings that do not count because the class allows fewer retakes."""
    if rules.retakes is None:
        return
    for work in works:
        if work.standing != UNSUPERVISED and min(_places(work, works), default=0) > rules.retakes:
            yield work


def _places(work: SittingWork, works: Sequence[SittingWork]) -> Iterator[int]:
    """Yield, for each lesson of a sitting, how many that count in it were before."""
    for lesson in _lessons():
        if work in attempts_of(works, lesson):
            before = works[: works.index(work)]
            yield sum(w in before for w in _pool(works, lesson))
