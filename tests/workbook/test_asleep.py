"""A lesson in a workbook shows nobody's figures until it has run for its learner."""

from pathlib import Path

import pytest

from bitepoint.bank.lessons import JOB_NOTEBOOK, KEEP_NOTEBOOK
from bitepoint.workbook.asleep import LINES, asleep
from bitepoint.workbook.create import make_workbook, shipped_lessons
from bitepoint.workbook.notebooks import Notebook, fingerprint, joined, read_notebook

from .small_course import LEARNER


@pytest.fixture(scope="module")
def work(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workbook with the course as shipped."""
    folder = tmp_path_factory.mktemp("asleep") / "work"
    make_workbook(folder, LEARNER)
    return folder


@pytest.mark.parametrize("shipped", shipped_lessons(), ids=lambda path: path.stem)
def test_what_is_somebodys_gives_way_to_a_line(work: Path, shipped: Path) -> None:
    """Each question and the end of each lesson is one line; all else, pictures and calculators too, is as shipped."""
    then, now = _cells(shipped), _cells(work / shipped.name)
    assert fingerprint(read_notebook(shipped)) == fingerprint(read_notebook(work / shipped.name))
    lines = 0
    for before, after in zip(then, now, strict=True):
        kind = "keep_it" if before["id"] == "keep-it" else before["id"].partition("-")[0]
        if before["cell_type"] == "code" and kind in LINES:
            [output] = after["outputs"]
            assert LINES[kind] == joined(output["data"]["text/plain"])
            lines += 1
        else:
            assert before == after
    assert lines > 4 or (shipped.stem, lines) in ((JOB_NOTEBOOK, 0), (KEEP_NOTEBOOK, 1))
    assert "practice learner" not in (work / shipped.name).read_text(encoding="utf-8")


def test_a_lesson_that_was_never_run_stays_as_it_is() -> None:
    """Where nothing is shown nothing has to give way."""
    cell = {"cell_type": "code", "id": "ask-one", "source": 'ask("a.b")', "execution_count": None, "outputs": []}
    assert {"cells": [cell]} == asleep({"cells": [cell]})


def _cells(path: Path) -> list[Notebook]:
    found = read_notebook(path)
    assert found is not None
    cells: list[Notebook] = found["cells"]
    return cells
