"""Everyone whom a learner may have copied from, and for whom of them a typed figure is right."""

from array import array
from collections.abc import Collection, Mapping, Sequence
from typing import NamedTuple

from bitepoint import units
from bitepoint.errors import NotUnderstood
from bitepoint.logbook.record import Record
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.right_figures import figures_for
from bitepoint.marking.roster import Roster, key_of
from bitepoint.workshop.datafiles import DataFiles, data_files

_MAX_CLASS = 500
_MOST_QUESTIONS = 256
"""Questions whose right figures are kept for a whole class."""

_Question = tuple[str, str, int, str, int, int, str, DataFiles]


class _Right(NamedTuple):
    """What is right in one question in one unit: for whom, which figure, and how far off still counts."""

    names: list[str]
    answers: "array[float]"
    widths: "array[float]"


class Classmates:
    """Learners by class word, those of the class first, as they may have been copied from.

    Parameters
    ----------
    by_word
        Learner ids by case-folded class word.
    cars
        Which cars the class has, and who has which.
    gone
        Case-folded ids of who was deleted on request: they stay among the others, unnamed.
    """

    def __init__(
        self, by_word: Mapping[str, Sequence[str]], cars: ClassCars = ORDINARY, gone: Collection[str] = ()
    ) -> None:
        self.cars, self.gone = cars, gone
        self._keys = {word: {id: key_of(id) for id in ids[:_MAX_CLASS]} for word, ids in by_word.items()}
        self._right: dict[_Question, dict[str, _Right]] = {}

    def others(self, class_word: str, learner: str) -> list[str]:
        """Return everyone under a class word but this learner."""
        own = key_of(learner)
        return [id for id, key in self._keys.get(key_of(class_word), {}).items() if key != own]

    def most(self, class_words: Collection[str]) -> int:
        """Return how many there are under that one of some class words which has most."""
        return max((len(self._keys.get(key_of(word), ())) for word in class_words), default=0)

    def fitting(self, record: Record, typed: units.Quantity) -> set[str]:
        """Return the others for whom a typed figure is right in the place of a line."""
        own, keys = key_of(record.learner), self._keys.get(key_of(record.class_word), {})
        found: set[str] = set()
        for unit, (names, answers, widths) in self._right_in(record).items():
            value = _value_in(unit, typed)
            if value is not None:
                found.update([n for n, a, w in zip(names, answers, widths, strict=True) if abs(value - a) <= w])
        return {id for id in found if keys[id] != own}

    def _right_in(self, record: Record) -> dict[str, _Right]:
        """Return by unit what is right for the whole class in the question of a line that was marked.

        A class is asked the same few questions again and again, so the figures are gathered once for each.
        """
        r = record
        key = (r.exercise, r.class_word, r.turn, r.sitting, r.revision, r.edition, r.cars, data_files())
        if key not in self._right:
            if len(self._right) >= _MOST_QUESTIONS:
                del self._right[next(iter(self._right))]
            self._right[key] = self._gathered(record)
        return self._right[key]

    def _gathered(self, record: Record) -> dict[str, _Right]:
        found: dict[str, _Right] = {}
        ids = self._keys.get(key_of(record.class_word), {})
        rights = figures_for(record, self.cars, [(id, self.cars.of(id)) for id in ids])
        for id, right in zip(ids, rights, strict=True):
            if right is not None:
                names, answers, widths = found.setdefault(right.unit, _Right([], array("d"), array("d")))
                names.append(id)
                answers.append(right.answer)
                widths.append(right.width)
        return found


def _value_in(unit: str, typed: units.Quantity) -> float | None:
    """Return a typed figure in a unit; None where it measures something else, or is too large there to be right for anybody."""
    try:
        return units.convert(typed.value, unit if typed.unit is None else typed.unit, unit)
    except NotUnderstood:
        return None


def by_word(
    roster: Roster, classes: Mapping[str, Mapping[str, str]], not_counting: Mapping[str, Mapping[str, str]]
) -> dict[str, list[str]]:
    """Return by class word everyone whom a learner may have copied from, those of the class first.

    A roster without class words says of nobody under which word; who has not handed in, or whose answers are held
    or stand in another one's hand-in, was a neighbour all the same.

    Parameters
    ----------
    roster
        Enrolled by case-folded id.
    classes, not_counting
        Ids by case-folded class word and case-folded id, of those whose lines count and of those whose do not.
    """
    unplaced = {k: e.learner for k, e in roster.items() if not e.class_word}
    found = {}
    for word, ids in classes.items():
        own = {**unplaced, **ids}
        others = {k: x for k, x in not_counting.get(word, {}).items() if k not in own}
        found[word] = [*sorted(own.values()), *sorted(others.values())]
    return found


def keep_deleted(classes: Mapping[str, dict[str, str]], deleted: Mapping[str, Entry]) -> None:
    """Count who was deleted, and is in no roster and no hand-in any more, to every class word: the register has none."""
    placed = {key for ids in classes.values() for key in ids}
    for key, entry in deleted.items():
        if key not in placed:
            for ids in classes.values():
                ids[key] = entry.learner
