"""A new version of a lesson replaces an untouched one and stands beside a touched one."""

from pathlib import Path

import pytest

from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.notebooks import Notebook, fingerprint
from bitepoint.workbook.shipped_lessons import FILE
from bitepoint.workbook.update import update_lessons

from .small_course import LEARNER, notebook, read, ship, write

OLD, NEW, NEWEST, MINE = notebook("1 + 1"), notebook("1 + 2"), notebook("1 + 3"), notebook("my own work")


def ran(content: Notebook) -> Notebook:
    """The same notebook after a run: other outputs and counts, the same cells."""
    outputs = [{"output_type": "stream", "name": "stdout", "text": ["2\n"]}]
    cells = [
        c | {"outputs": outputs, "execution_count": 7} if c["cell_type"] == "code" else c for c in content["cells"]
    ]
    return content | {"cells": cells}


@pytest.fixture
def work(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A workbook made from the old version of one lesson."""
    ship(tmp_path / "course", monkeypatch, star=OLD)
    make_workbook(tmp_path / "work", LEARNER)
    return tmp_path / "work"


def test_the_fingerprint_sees_cells_not_outputs() -> None:
    """A run changes nothing, a changed source or id does; lines or one string are the same."""
    lines = notebook("1 + 1")
    lines["cells"][1]["source"] = ["1 +", " 1"]
    assert fingerprint(OLD) == fingerprint(ran(OLD)) == fingerprint(lines)
    renamed = notebook("1 + 1")
    renamed["cells"][1]["id"] = "other"
    assert len({fingerprint(OLD), fingerprint(NEW), fingerprint(renamed)}) == 3
    assert fingerprint(None) == ""


def test_nothing_new_says_nothing(work: Path) -> None:
    """An update without a new version leaves every byte."""
    before = (work / "star.ipynb").read_bytes()
    assert update_lessons(work) == []
    assert before == (work / "star.ipynb").read_bytes()


def test_a_lesson_only_run_is_replaced(work: Path) -> None:
    """Running a lesson is not changing it."""
    write(work / "star.ipynb", ran(OLD))
    write(work.parent / "course" / "star.ipynb", NEW)
    assert update_lessons(work) == ["star.ipynb was brought up to date; you had changed nothing in it."]
    assert read(work / "star.ipynb") == NEW


def test_a_changed_lesson_stays_and_the_new_one_is_put_beside(work: Path) -> None:
    """The learner's file keeps its content; the new version is offered once."""
    write(work / "star.ipynb", MINE)
    write(work.parent / "course" / "star.ipynb", NEW)
    said = update_lessons(work)
    assert said == ["star.ipynb has a new version. Yours stays as it is; the new one is beside it: star (new).ipynb"]
    assert read(work / "star.ipynb") == MINE
    assert read(work / "star (new).ipynb") == NEW
    assert update_lessons(work) == []


def test_a_file_beside_is_replaced_only_if_untouched(work: Path) -> None:
    """An untouched “new” file makes room for a newer one; a touched one gets a neighbour."""
    write(work / "star.ipynb", MINE)
    write(work.parent / "course" / "star.ipynb", NEW)
    update_lessons(work)
    write(work.parent / "course" / "star.ipynb", NEWEST)
    update_lessons(work)
    assert read(work / "star (new).ipynb") == NEWEST
    write(work / "star (new).ipynb", MINE)
    write(work.parent / "course" / "star.ipynb", OLD)
    update_lessons(work)
    assert read(work / "star (new).ipynb") == MINE
    assert read(work / "star (new 2).ipynb") == OLD


@pytest.mark.parametrize("damage", ["", "{", '{"files": 3}', "[]"])
def test_without_its_record_a_lesson_counts_as_touched(work: Path, damage: str) -> None:
    """A lost or damaged record never costs work."""
    (work / FILE).write_text(damage, encoding="utf-8")
    write(work.parent / "course" / "star.ipynb", NEW)
    update_lessons(work)
    assert read(work / "star.ipynb") == OLD
    assert read(work / "star (new).ipynb") == NEW


@pytest.mark.parametrize("damage", [b"", b"{", b"[]", b'{"cells": 1}', b"\xff\xfe"])
def test_a_damaged_lesson_counts_as_touched(work: Path, damage: bytes) -> None:
    """What is no notebook any more is the learner's to look at, not ours to replace."""
    (work / "star.ipynb").write_bytes(damage)
    write(work.parent / "course" / "star.ipynb", NEW)
    update_lessons(work)
    assert damage == (work / "star.ipynb").read_bytes()
    assert read(work / "star (new).ipynb") == NEW
