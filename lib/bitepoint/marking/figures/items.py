"""Item statistics gathered while results come in: first scores and times by exercise, pairs of two markers."""

from array import array
from collections.abc import Sequence
from math import nan
from typing import Protocol

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.marking.figures.reliability import reliability_words
from bitepoint.marking.figures.statistics import (
    FEW_FOR_ITEM,
    agreement,
    item_rest,
    item_rest_between,
    judged,
    mean_first_score,
    rest_means,
    time_on_task,
)


class ItemLine(Struct, frozen=True, kw_only=True):
    """One exercise over first scores: their mean, how far it tells strong from weak, median time [s], what is odd about it.

    `between` says where the correlation with the rest may lie, over all exercises that are compared.
    """

    id: str
    outcome: str
    answered: int
    right_first: float
    item_rest: float | None
    between: tuple[float, float] | None
    seconds: float | None
    capped: int
    says: str

    @property
    def stands_out(self) -> bool:
        """Whether it is named: something is odd that chance does not explain."""
        return bool(self.says) and not self.says.startswith("too few")


class FirstScore(Protocol):
    """What a row must offer here."""

    @property
    def exercise(self) -> str: ...
    @property
    def first_score(self) -> float | None: ...
    @property
    def seconds(self) -> float | None: ...


class ItemStatistics:
    """Keeps a row of numbers for each learner who handed something in."""

    def __init__(self) -> None:
        self._place = {id: n for n, id in enumerate(exercises())}
        self._scores: list[array[float]] = []
        self._seconds: dict[str, array[float]] = {id: array("d") for id in self._place}
        self._pairs: list[tuple[float, float]] = []

    def add(self, rows: Sequence[FirstScore], pairs: Sequence[tuple[float, float]] = ()) -> None:
        """Take one learner's results, and each mark that was given a second time with the first one."""
        row = array("d", [nan] * len(self._place))
        for found in rows:
            if found.first_score is not None:
                row[self._place[found.exercise]] = found.first_score
                if found.seconds is not None:
                    self._seconds[found.exercise].append(found.seconds)
        if any(value == value for value in row):
            self._scores.append(row)
        self._pairs += pairs

    def _table(self) -> list[list[float | None]]:
        return [[None if value != value else value for value in row] for row in self._scores]

    def lines(self) -> list[ItemLine]:
        """Return a line for each exercise that someone answered, in the order of the bank."""
        table, found = self._table(), []
        means = list(map(rest_means, table))
        compared = len({n for row in table for n, score in enumerate(row) if score is not None})
        for id, exercise in exercises().items():
            column = [row[self._place[id]] for row in table]
            share = mean_first_score(column)
            if share is None:
                continue
            answered = sum(s is not None for s in column)
            against_rest = item_rest(table, self._place[id], means)
            seconds, capped = time_on_task(self._seconds[id])
            found.append(
                ItemLine(
                    id=id,
                    outcome=exercise.outcome,
                    answered=answered,
                    right_first=share,
                    item_rest=against_rest,
                    between=_between(against_rest, answered, compared),
                    seconds=seconds,
                    capped=capped,
                    says=judged(answered, share, against_rest, compared=compared),
                )
            )
        return found

    def reliability(self) -> list[tuple[str, str]]:
        """Return (lesson, KR-20 in words) over first answers of those who answered every exercise of the lesson."""
        table, found = self._table(), []
        lessons = dict.fromkeys(e.lesson for e in exercises().values())
        for lesson in lessons:
            places = [self._place[e.id] for e in exercises().values() if e.lesson == lesson]
            used = [i for i in places if any(row[i] is not None for row in table)]
            rows = [[row[i] for i in used] for row in table]
            whole = [[float(s >= 1) for s in row if s is not None] for row in rows if None not in row]
            if len(used) > 1:
                found.append((lesson, reliability_words(whole)))
        return found

    def agreement(self) -> str:
        """Return how far first and second marking agree, "" when nothing was marked a second time."""
        return agreement(self._pairs) if self._pairs else ""


def _between(found: float | None, answered: int, compared: int) -> tuple[float, float] | None:
    if found is None or answered < FEW_FOR_ITEM:
        return None
    return item_rest_between(found, answered, compared=compared)
