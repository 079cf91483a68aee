"""A lesson fits its parts: words, exercises and minutes as the course promises them."""

import re
from pathlib import Path

import pytest

from bitepoint.bank import exercise_named
from bitepoint.bank.lessons import LESSONS

from .lessons import NOTEBOOKS, asked_in, notebook, prose, source, words_in

ALL = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda p: p.stem)
_SITTING_MIN = {"12-the-whole-job": 35.0}
_PARTS = {"00-start-here": 1, "12-the-whole-job": 3}
_MINUTES = {"12-the-whole-job": 105}
_EXERCISES = {"00-start-here": (6, 14), "12-the-whole-job": (12, 18)}


def parts(path: Path) -> list[float]:
    """Return the minutes of each part, Go deeper left out."""
    minutes = [0.0]
    for cell in notebook(path)["cells"]:
        text = source(cell)
        if text.startswith("## Go deeper"):
            break
        if cell["cell_type"] == "markdown":
            if re.match(r"#+ STOP", text):
                minutes.append(0.0)
            minutes[-1] += words_in(text) / 120
        minutes[-1] += sum(e.minutes for e in map(exercise_named, asked_in(cell)) if not e.beyond)
    return minutes


@ALL
def test_a_part_is_at_most_25_minutes(path: Path) -> None:
    """Two parts with a marked stop between; the first lesson has one, the whole job three longer ones."""
    found = parts(path)
    assert len(found) == _PARTS.get(path.stem, 2), (
        "A heading that begins with STOP ends a part; other numbers of parts stand in _PARTS."
    )
    assert [m for m in found if m > _SITTING_MIN.get(path.stem, 25.0)] == []


@ALL
def test_a_lesson_has_10_to_14_exercises_in_the_pass_rule(path: Path) -> None:
    """Fewer prove little, more are hurried through."""
    asked = [id for cell in notebook(path)["cells"] for id in asked_in(cell) if not exercise_named(id).beyond]
    least, most = _EXERCISES.get(path.stem, (10, 14))
    assert least <= len(asked) <= most, (
        "A full lesson takes one more with beyond=True under “Go deeper”, or in the place of another; "
        "a lesson of another size stands in _EXERCISES."
    )


@ALL
def test_a_lesson_has_600_to_1500_words(path: Path) -> None:
    """Long enough to teach, short enough to be read; figures and signs of a worked line are no words, and count as time."""
    words = [word for word in prose(path).split() if any(map(str.isalpha, word))]
    assert 600 <= len(words) <= 1500


@ALL
def test_a_lesson_takes_at_most_50_minutes(path: Path) -> None:
    """As its first cell states them; the whole job is three stages long."""
    stated = re.search(r"(\d+) minutes", source(notebook(path)["cells"][0]))
    assert stated
    assert int(stated[1]) <= _MINUTES.get(path.stem, 50)


def test_every_lesson_has_a_title_of_its_own() -> None:
    """The list of lessons would not tell two of one title apart."""
    assert len({lesson.title for lesson in LESSONS.values()}) == len(LESSONS)
