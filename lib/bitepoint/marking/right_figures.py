"""The figures that are right for each learner, to look for copies: each is drawn in one process and known in the others."""

from collections.abc import Collection, Iterable, Sequence
from contextlib import suppress
from typing import NamedTuple

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.logbook.record import Record
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.line_marking import Asked, MarkedLine, asked_in, drawn, drawn_once
from bitepoint.questions.kinds import interaction, kind_of
from bitepoint.questions.question import Question
from bitepoint.workshop.datafiles import DataFiles, data_files

_MOST_FIGURES = 65_536


class RightFigure(Struct, frozen=True, gc=False):
    """The figure that is right in a question, how far off still counts, and its unit."""

    answer: float
    width: float
    unit: str


class AskedOfAll(NamedTuple):
    """What was asked, whoever was asked it."""

    exercise: str
    class_word: str
    turn: int
    sitting: str
    revision: int
    edition: int
    cars: tuple[str, ...]


Who = tuple[str, str]
"""A learner's id, and the letter of the car recorded for them, "" where none is."""
Figures = dict[AskedOfAll, dict[Who, RightFigure | None]]
"""Right figures of some learners by what was asked; None where it asks for none."""


class _Kept:
    """Figures of all who answered, by the data files they were drawn from: so small that those of a large class are kept."""

    def __init__(self) -> None:
        self.by_files: dict[DataFiles, Figures] = {}
        self.count = 0

    def keep(self, files: DataFiles, place: AskedOfAll, who: Who, right: RightFigure | None) -> RightFigure | None:
        if self.count >= _MOST_FIGURES:
            self.clear()
        rights = self.by_files.setdefault(files, {}).setdefault(place, {})
        self.count += who not in rights
        rights[who] = right
        return right

    def clear(self) -> None:
        self.by_files.clear()
        self.count = 0


_figures = _Kept()


def figures_for(record: Record, cars: ClassCars, others: Sequence[Who]) -> list[RightFigure | None]:
    """Return the figures that are right in what others got in the place of a line, each None where it asks for none."""
    files, place = data_files(), _place(record, record.class_cars)
    known = _figures.by_files.get(files, {}).get(place, {})
    return [known[who] if who in known else _drawn_for(record, cars, place, who, files) for who in others]


def _drawn_for(record: Record, cars: ClassCars, place: AskedOfAll, who: Who, files: DataFiles) -> RightFigure | None:
    asked = asked_in(record, cars, learner=who[0])
    return _figures.keep(files, place, who, figure_in(drawn_once(asked, files))) if asked else None


def figures_of(marked: Iterable[MarkedLine], cars: ClassCars) -> Figures:
    """Return the right figures of the questions that these lines answer, and keep them: others' are compared with them later.

    One that an error gets in the way of costs nobody a mark: it is not kept, and the check that looks for it says so.
    """
    files, found = data_files(), Figures()
    for line in marked:
        if interaction(line.kind) != "numeric":
            continue
        asked = asked_in(line.record, cars)
        if asked is not None:
            place, who = _place(asked, asked.cars), (asked.learner, asked.vehicle)
            there = found.setdefault(place, {})
            if who not in there:
                with suppress(Exception):
                    there[who] = _figures.keep(files, place, who, figure_in(drawn(asked)))
    return found


def keep_figures(figures: Figures) -> None:
    """Keep figures that another process drew from the data files in use here."""
    files = data_files()
    for place, rights in figures.items():
        for who, right in rights.items():
            _figures.keep(files, place, who, right)


def figures_known(words: Collection[str]) -> Figures:
    """Return the figures kept of the classes with these case-folded words, drawn from the data files in use."""
    known = _figures.by_files.get(data_files(), {})
    return {place: rights for place, rights in known.items() if key_of(place.class_word) in words}


def figure_in(question: Question | None) -> RightFigure | None:
    """Return the figure that is right in a question, None where it asks for none."""
    found = kind_of(question).figure(question) if question else None
    return RightFigure(found.answer, found.within.width(found.answer), found.unit) if found else None


def _place(of: Record | Asked, cars: tuple[str, ...]) -> AskedOfAll:
    return AskedOfAll(of.exercise, of.class_word, of.turn, of.sitting, of.revision, of.edition, cars)
