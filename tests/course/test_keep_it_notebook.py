"""The page of recall: canonical, one verb, fixed words for the practice learner, and no lesson anywhere."""

import re

from bitepoint import places
from bitepoint.bank.lessons import KEEP_NOTEBOOK, LESSONS
from bitepoint.page.page_order import as_on_the_page
from bitepoint.workbook.canonical import is_canonical
from bitepoint.workbook.create import shipped_lessons

from .lessons import NO_LESSONS, asked_in, notebook, prose, source

PATH = places.course() / f"{KEEP_NOTEBOOK}.ipynb"


def test_it_is_shipped_beside_the_lessons_and_is_none() -> None:
    """A workbook gets it; no lesson's list has it, so neither marks nor board nor posters know of it."""
    assert PATH in shipped_lessons()
    assert PATH.name in NO_LESSONS
    assert PATH.name not in [lesson.notebook for lesson in LESSONS.values()]


def test_it_has_one_verb_and_asks_no_exercise_of_a_lesson() -> None:
    """What is due is found when it runs."""
    cells = notebook(PATH)["cells"]
    assert [asked for cell in cells for asked in asked_in(cell)] == []
    code = [source(cell) for cell in cells if cell["cell_type"] == "code"]
    assert code == ["# Setup: what is due\nfrom bitepoint import keep_it", "keep_it()"]
    assert {e.id for key in LESSONS for e in as_on_the_page(key)}.isdisjoint(source(c) for c in cells)


def test_it_is_canonical_and_stands_without_a_kernel() -> None:
    """Stored as the developers' command stores it; what it shows says what the page does, and one question as an example."""
    assert is_canonical(notebook(PATH)) == []
    shown = str([cell.get("outputs") for cell in notebook(PATH)["cells"]])
    for words in ("Ten minutes, so that it stays", "An example, not recorded", "not answered yet", "Shift and Enter"):
        assert words in shown


def test_nothing_in_it_hangs_on_the_day_or_the_machine() -> None:
    """No date, no year, no path, no address."""
    text = str(notebook(PATH)["cells"])
    assert re.findall(r"\b20[2-9]\d\b|https?://|(?<![\w.])/(?:home|root|tmp|work)/|competent", text) == []
    days = "Mon|Tues|Wednes|Thurs|Fri|Satur|Sun"
    assert re.findall(rf"\b(?:{days})day\b|\btomorrow\b", text) == []


def test_it_says_what_a_learner_must_know() -> None:
    """One answer, what comes first, that no mark changes, that nobody but a person reads own words; no jargon."""
    words = prose(PATH)
    for said in (
        "One answer each",
        "repair data",
        "Stop and ask",
        "changes the mark of a lesson",
        "Nobody but a person",
    ):
        assert said in words
    assert re.findall(r"(?i)spaced|retention|stability|algorithm|interleav", str(notebook(PATH)["cells"])) == []
