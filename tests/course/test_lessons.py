"""The shipped lessons: canonical, complete, honest about their minutes, and right in every way they can be answered."""

import math
import re
from pathlib import Path

import pytest

from bitepoint.bank import exercise_named, exercises, exercises_of
from bitepoint.bank.lessons import LESSONS
from bitepoint.logbook import Identity
from bitepoint.page.cards import Card
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.workbook.canonical import is_canonical

from .lessons import NOTEBOOKS, calls, notebook, prose, source

ALL = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda p: p.stem)
BY_NOTEBOOK = {lesson.notebook: lesson for lesson in LESSONS.values()}


def outcomes(lesson: str) -> list[str]:
    """Return the outcomes of a lesson's exercises in the order in which they first appear."""
    return list(dict.fromkeys(e.outcome for e in exercises_of(lesson) if not e.beyond))


def test_every_lesson_of_the_list_is_there() -> None:
    """The list of lessons and the course folder name the same notebooks."""
    assert sorted(BY_NOTEBOOK) == [path.name for path in NOTEBOOKS]


@ALL
def test_a_lesson_is_canonical(path: Path) -> None:
    """Stored as the developers' command stores it: outputs there, ids by hand, nothing stray."""
    assert is_canonical(notebook(path)) == []


@ALL
def test_a_lesson_asks_each_of_its_exercises_once(path: Path) -> None:
    """The asks of a notebook are the bank's exercises of that lesson."""
    asked = [args[0] for args in calls(path, "ask")]
    assert sorted(e.id for e in exercises_of(BY_NOTEBOOK[path.name].key)) == sorted(asked)


@ALL
def test_figures_are_stored_with_alt_text(path: Path) -> None:
    """Each show() has its picture in the stored output, in HTML, with alt text that differs from the caption."""
    wanted = len(calls(path, "show"))
    figures = []
    for cell in notebook(path)["cells"]:
        for output in cell.get("outputs", []):
            figures += re.findall(
                r'<img alt="([^"]+)" src="data:image/[^"]+"[^>]*>(?:<figcaption[^>]*>([^<]*))?',
                "".join(output.get("data", {}).get("text/html", "")),
            )
    assert len(figures) >= wanted
    assert all(alt and alt != caption for alt, caption in figures)


@ALL
def test_a_lesson_weighs_less_than_2_mb(path: Path) -> None:
    """With all its stored figures, so that it opens quickly and fits into a hand-in."""
    assert path.stat().st_size < 2_000_000


@ALL
def test_headings_never_jump(path: Path) -> None:
    """One H1, in the first cell, and no heading level is left out."""
    cells = [source(c) for c in notebook(path)["cells"] if c["cell_type"] == "markdown"]
    levels = [len(marks) for text in cells for marks in re.findall(r"^(#+) ", text, re.M)]
    assert 1 == levels[0] == cells[0].count("\n# ") + cells[0].startswith("# ")
    assert levels.count(1) == 1
    assert all(b <= a + 1 for a, b in zip(levels, levels[1:], strict=False))


@ALL
def test_stated_minutes_are_words_and_exercises(path: Path) -> None:
    """Minutes in the first cell are words / 120 plus the exercises' minutes, rounded up to the next five."""
    asked = [exercise_named(args[0]) for args in calls(path, "ask")]
    minutes = len(prose(path).split()) / 120 + sum(e.minutes for e in asked if not e.beyond)
    stated = re.search(r"(\d+) minutes", source(notebook(path)["cells"][0]))
    assert stated
    assert math.ceil(minutes / 5) * 5 == int(stated[1]), f"It takes {minutes:.1f} minutes: state the next five."


@ALL
def test_the_outcomes_are_promised_and_repeated(path: Path) -> None:
    """What a learner will be able to do stands before the steps and again in the recap, in the same order."""
    text = re.sub(r"\s+", " ", prose(path)).casefold()
    for outcome in outcomes(BY_NOTEBOOK[path.name].key):
        assert text.count(outcome.casefold()) >= 2, outcome


@ALL
def test_paragraphs_are_short(path: Path) -> None:
    """No paragraph is longer than 120 words."""
    blocks = [b for b in prose(path).split("\n\n") if len(b.split()) > 120 and "\n" not in b.strip()]
    assert blocks == []


@ALL
def test_nothing_of_this_machine_or_of_python_shows(path: Path) -> None:
    """No input(), no magics, no sleeping, no absolute path, no address in a lesson."""
    text = "\n".join(source(c) for c in notebook(path)["cells"])
    assert re.findall(r"\binput\(|^[%!]|time\.sleep|https?://|(?<![\w.])/(?:home|root|tmp|work)/", text, re.M) == []


def practice(id: str) -> ExerciseSession:
    return ExerciseSession(exercise_named(id), Identity(learner="practice", class_word="practice"))


@pytest.mark.parametrize("id", sorted(exercises()))
def test_an_exercise_unanswered_right_and_mistaken(id: str) -> None:
    """Unanswered the card says so; the bank's right answer is right; each known mistake shows its own feedback."""
    assert "not answered yet" in repr(Card(practice(id)))
    right = practice(id)
    right.answer(right.question().right_answer(), how="typed")
    assert right.feedback()[:2] == ("right", "Right.")
    for answer, name in right.question().known_mistakes():
        session = practice(id)
        session.answer(answer, how="typed")
        verdict = session.answers()[0].verdict
        assert name in verdict.mistakes
        assert verdict.feedback in session.feedback()[2]


@ALL
def test_no_stored_output_says_that_something_cannot_be_shown(path: Path) -> None:
    """A picture or exercise that is not there would show as a polite card; no lesson is shipped with one."""
    stored = [str(output.get("data", {})) for cell in notebook(path)["cells"] for output in cell.get("outputs", [])]
    assert [text for text in stored if "Cannot do that." in text] == []


@ALL
def test_no_lesson_calls_anybody_competent(path: Path) -> None:
    """What a person can do is for a person to say; the word stands nowhere, stored outputs included."""
    assert "competent" not in path.read_text(encoding="utf-8").casefold()
