"""What an exercise asks was taught before: each line of a taught.toml names a cell of text that says it."""

import re
from pathlib import Path
from typing import Any

import pytest

from bitepoint import places
from bitepoint.bank import exercises_of
from bitepoint.bank.lessons import LESSONS
from bitepoint.bank.taught import Taught, read_taught, taught_file

from .lessons import asked_in, notebook, source, without_marks

WITH_TABLE = [key for key in LESSONS if taught_file(key).exists()]
"""A lesson that has no table yet is left out; one that has it has it whole."""


def cells_of(lesson: str) -> list[dict[str, Any]]:
    """Return the cells of a lesson's notebook."""
    path: Path = places.course() / LESSONS[lesson].notebook
    cells: list[dict[str, Any]] = notebook(path)["cells"]
    return cells


def plain(text: str) -> str:
    """Return a text as it is compared: no marks of Markdown, single spaces, small letters."""
    return re.sub(r"\s+", " ", without_marks(text)).strip().casefold()


def fault(lesson: str, id: str, taught: Taught) -> str:
    """Return what is wrong with a line of a lesson's table; "" when it holds."""
    order = list(LESSONS)
    if order.index(taught.lesson) > order.index(lesson):
        return f"{id}: lesson {taught.lesson} comes later"
    cells = cells_of(taught.lesson)
    at = {cell["id"]: i for i, cell in enumerate(cells) if cell["cell_type"] == "markdown"}
    if taught.cell not in at:
        return f"{id}: {taught.lesson} has no cell of text with the id {taught.cell!r}"
    if plain(taught.says) not in plain(source(cells[at[taught.cell]])):
        return f"{id}: cell {taught.cell!r} does not say {taught.says!r}"
    asked = [i for i, cell in enumerate(cells_of(lesson)) if id in asked_in(cell)]
    if taught.lesson == lesson and not (asked and at[taught.cell] < asked[0]):
        return f"{id}: cell {taught.cell!r} does not stand before it is asked"
    return ""


@pytest.mark.parametrize("lesson", list(LESSONS))
def test_every_exercise_of_a_lesson_with_a_table_was_taught_before(lesson: str) -> None:
    """Each exercise is in the table, and each line names a cell before it, in this lesson or an earlier one."""
    if lesson not in WITH_TABLE:
        return
    table = read_taught(taught_file(lesson))
    assert sorted(e.id for e in exercises_of(lesson)) == sorted(table)
    faults = [fault(lesson, id, taught) for id, cells in table.items() for taught in cells]
    assert [] == [told for told in faults if told]


@pytest.mark.parametrize(
    ("lesson", "id", "taught", "told"),
    [
        ("torque", "torque.preload", Taught("star", "outcomes", "any words here"), "comes later"),
        ("torque", "torque.preload", Taught("torque", "no-such", "any words here"), "no cell of text"),
        ("torque", "torque.preload", Taught("torque", "outcomes", "words nobody wrote"), "does not say"),
        ("torque", "torque.preload", Taught("torque", "sources", "Sources and cautions"), "does not stand before"),
        ("torque", "torque.preload", Taught("torque", "outcomes", "What you will be able"), ""),
    ],
)
def test_a_line_that_does_not_hold_is_named(lesson: str, id: str, taught: Taught, told: str) -> None:
    """A later lesson, a cell that is not there, other words, or a cell behind the exercise: each is said."""
    found = fault(lesson, id, taught)
    assert bool(told) == bool(found)
    assert told in found
