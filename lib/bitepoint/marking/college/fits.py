"""Whose right figures, in one class, the wrong figures of other classes are."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterator
from functools import lru_cache
from pathlib import Path
from typing import NamedTuple

import msgspec
from msgspec import Struct

from bitepoint import units
from bitepoint.marking.college.folder import ClassPlace
from bitepoint.marking.college.traces import AskedFor
from bitepoint.marking.flagging.neighbours import COPIED, named
from bitepoint.marking.line_marking import Asked, drawn
from bitepoint.marking.registry.register import Register, deleted
from bitepoint.marking.rehearsal.place import CLASS, ROSTER
from bitepoint.marking.right_figures import RightFigure, figure_in
from bitepoint.marking.roster import Enrolled, key_of, read_roster
from bitepoint.marking.rules import ClassRules, rules_of


class Typed(Struct, frozen=True, array_like=True):
    """Wrong figures to one question in one unit, smallest first: values, their numbers, and who gave each, by number."""

    unit: str | None
    values: list[float]
    numbers: list[int]
    learners: list[int]


class FiguresGiven(Struct, frozen=True, array_like=True):
    """One question and the wrong figures that were given to it."""

    asked: AskedFor
    typed: list[Typed]


class Sought(Struct, frozen=True):
    """All that is compared: the questions, and by the number of a learner the class word."""

    questions: list[FiguresGiven]
    words: list[str]


class Fit(NamedTuple):
    """One learner, by number, whose wrong figures, by number, are right for a learner of this class."""

    learner: int
    owner: str
    numbers: list[int]


class Fits(NamedTuple):
    """Of one class: how many of it each figure fits, and who has three or more that fit one."""

    name: str
    counts: dict[int, int]
    found: list[Fit]


@lru_cache(maxsize=1)
def _sought(path: Path) -> Sought:
    return msgspec.msgpack.decode(path.read_bytes(), type=Sought)


def fits_in(place: ClassPlace, sought: Path) -> Fits:
    """Return whose right figures the figures in a file are, among the learners of one class, drawn with its own files."""
    rules = rules_of(place.folder / CLASS)
    gone = deleted(Register(place.register).entries()) if place.register else {}
    asked = _sought(sought)
    # Under one class word everybody is compared in the class already, or, in rehearsals, asked for the same figures.
    own = key_of(place.word)
    counts: dict[int, int] = {}
    found: list[Fit] = []
    for enrolled in read_roster(place.folder / ROSTER).values():
        fitting: dict[int, list[int]] = {}
        for question in asked.questions:
            right = _right(question.asked, place.word, enrolled, rules)
            for number, learner in _within(question, right) if right else ():
                if asked.words[learner] != own:
                    counts[number] = counts.get(number, 0) + 1
                    fitting.setdefault(learner, []).append(number)
        owner = named(enrolled.learner, gone)
        found += [Fit(learner, owner, numbers) for learner, numbers in fitting.items() if len(numbers) >= COPIED]
    return Fits(place.name, counts, found)


def _right(asked: AskedFor, word: str, enrolled: Enrolled, rules: ClassRules) -> RightFigure | None:
    return figure_in(
        drawn(
            Asked(
                exercise=asked.exercise,
                class_word=enrolled.class_word or word,
                learner=enrolled.learner,
                turn=asked.turn,
                sitting=asked.sitting,
                revision=asked.revision,
                vehicle=enrolled.vehicle,
                edition=asked.edition,
                cars=enrolled.cars or rules.vehicles,
            )
        )
    )


def _within(question: FiguresGiven, right: RightFigure) -> Iterator[tuple[int, int]]:
    """Yield the figures, by number, that would be right, and who gave each."""
    for typed in question.typed:
        unit = right.unit if typed.unit is None else typed.unit
        if units.dimension_of(unit) != units.dimension_of(right.unit):
            continue
        ends = sorted(units.convert(right.answer + side * right.width, right.unit, unit) for side in (-1, 1))
        for i in range(bisect_left(typed.values, ends[0]), bisect_right(typed.values, ends[1])):
            yield typed.numbers[i], typed.learners[i]
