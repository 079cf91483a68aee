"""The notebook of a job on a car: canonical, with its logic in the package, its cautions first, and no exercise."""

import re

from bitepoint import places
from bitepoint.bank.lessons import JOB_NOTEBOOK
from bitepoint.workbook.canonical import is_canonical
from bitepoint.workbook.create import shipped_lessons

from .lessons import NO_LESSONS, asked_in, notebook, prose, source

PATH = places.course() / f"{JOB_NOTEBOOK}.ipynb"


def test_it_is_shipped_beside_the_lessons_and_is_none() -> None:
    """A workbook gets it; it is in the table of what is no lesson, and that table names nothing that is not there."""
    assert PATH in shipped_lessons()
    assert PATH.name in NO_LESSONS
    assert {path.name for path in shipped_lessons()} >= set(NO_LESSONS)


def test_it_is_canonical_and_stands_without_a_kernel() -> None:
    """Stored as the developers' command stores it, with words that say what to do."""
    cells = notebook(PATH)["cells"]
    assert is_canonical(notebook(PATH)) == []
    assert any("Job's folder" in str(cell.get("outputs")) for cell in cells)


def test_it_asks_nothing_and_has_one_verb() -> None:
    """No exercise, and no logic of its own."""
    cells = notebook(PATH)["cells"]
    assert [asked for cell in cells for asked in asked_in(cell)] == []
    code = [source(cell) for cell in cells if cell["cell_type"] == "code"]
    assert code == ["# Setup: the forms of a job\nfrom bitepoint.page.job import job_forms", "job_forms()"]


def test_the_first_cell_says_what_comes_first() -> None:
    """Repair data and local rules, the training record, who answers, what to keep off, what to press."""
    first = source(notebook(PATH)["cells"][0])
    for words in (
        "repair data and local rules come first",
        "training record",
        "supervisor answers",
        "48 V",
        "stop and ask",
    ):
        assert words in first
    assert "Run All Cells" in first


def test_nothing_of_this_machine_shows_and_nobody_is_called_competent() -> None:
    """No absolute path, no address, no such word, outputs included; paragraphs are short."""
    text = str(notebook(PATH)["cells"])
    assert re.findall(r"https?://|(?<![\w.])/(?:home|root|tmp|work)/|competent", text) == []
    assert [p for p in prose(PATH).split("\n\n") if len(p.split()) > 120 and "\n" not in p.strip()] == []
