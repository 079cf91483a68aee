"""Worked solutions: the learner's own figures, right, complete, and safe to open."""

from pathlib import Path

import pytest

from bitepoint.bank import exercises_of
from bitepoint.bank.lessons import LESSONS
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import learner_id
from bitepoint.marking.pages.solutions import write_solutions

WORD = "oak-2026"
LEARNER = learner_id(WORD, 7)


def test_a_lesson_by_number_or_key_gives_the_same_page(tmp_path: Path) -> None:
    """“8” and “star” are one lesson."""
    (one,) = write_solutions(tmp_path / "a", class_word=WORD, learner=LEARNER, lesson="8")
    (two,) = write_solutions(tmp_path / "b", class_word=WORD, learner=LEARNER, lesson="star")
    assert one.name == "solutions-08-star-tightening.html"
    assert one.read_bytes() == two.read_bytes()


@pytest.mark.parametrize("key", list(LESSONS))
def test_every_exercise_stands_there_with_answer_and_mistakes(tmp_path: Path, key: str) -> None:
    """Each exercise of the lesson is there by id, with this learner's answer and the names of its known mistakes."""
    (path,) = write_solutions(tmp_path, class_word=WORD, learner=LEARNER, lesson=key, turns=1)
    page = path.read_text(encoding="utf-8")
    for exercise in exercises_of(key):
        assert f"{exercise.id} · turn 1" in page
    assert page.count("<b>Answer:</b>") == len(exercises_of(key))
    assert page.count("Known mistakes") == len(exercises_of(key))
    assert "Content-Security-Policy" in page
    assert "<script" not in page


def test_another_learner_has_other_figures(tmp_path: Path) -> None:
    """The page belongs to one learner."""
    (one,) = write_solutions(tmp_path / "a", class_word=WORD, learner=LEARNER, lesson="torque")
    (two,) = write_solutions(tmp_path / "b", class_word=WORD, learner=learner_id(WORD, 8), lesson="torque")
    assert one.read_bytes() != two.read_bytes()


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"lesson": "99"}, "There is no lesson '99'. Choose one of 0 (start)"),
        ({"learner": "../x"}, "The learner id '../x' cannot be used"),
        ({"learner": "L07-A"}, "does not fit class oak-2026"),
    ],
)
def test_bad_input_is_one_clear_line(tmp_path: Path, changed: dict[str, str], told: str) -> None:
    """A wrong lesson or id names what is wrong, and nothing is written."""
    with pytest.raises(BadInput) as raised:
        write_solutions(tmp_path / "out", **{"class_word": WORD, "learner": LEARNER, **changed})
    assert told in str(raised.value)
