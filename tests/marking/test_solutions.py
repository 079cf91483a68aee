"""Worked solutions: the learner's own figures, right, complete, and safe to open."""

from html import unescape
from pathlib import Path

import pytest

from bitepoint.bank import exercises_of
from bitepoint.bank.lessons import LESSONS
from bitepoint.cli import main
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
    (path,) = write_solutions(tmp_path, class_word=WORD, learner=LEARNER, lesson=key, turns=(1,))
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


def test_a_class_on_other_cars_has_the_figures_of_the_recorded_car(tmp_path: Path) -> None:
    """Car, cars and sitting decide the figures as they do for the learner; what is left out stands there with its reason."""
    cars = ("B", "D")
    (path,) = write_solutions(
        tmp_path, class_word=WORD, learner=LEARNER, lesson="star", turns=(1,), vehicle="D", cars=cars, sitting="june"
    )
    page = unescape(path.read_text(encoding="utf-8"))
    kept = [e for e in exercises_of("star") if not e.left_out(cars)]
    assert page.count("<b>Answer:</b>") == len(kept) < len(exercises_of("star"))
    for exercise in exercises_of("star"):
        if reason := exercise.left_out(cars):
            assert f"{exercise.id}: {reason}" in page
            continue
        asked = exercise.draw(class_word=WORD, learner=LEARNER, vehicle="D", cars=cars, sitting="june")
        assert asked.mark(asked.right_answer()).understood in page
    assert "training vehicle D" in page


def test_the_command_takes_a_start_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A start file names learner, car, cars and sitting; without it class word and learner are both asked for."""
    start = tmp_path / "start.toml"
    start.write_text(f'class_word = "{WORD}"\nvehicles = ["B", "D"]\nlearner = "{LEARNER}"\nvehicle = "D"\n')
    out, own = tmp_path / "out", tmp_path / "own"
    assert 0 == main(["solutions", "--class-file", str(start), "--lesson", "star", "--out", str(out)])
    (page,) = out.iterdir()
    write_solutions(own, class_word=WORD, learner=LEARNER, lesson="star", vehicle="D", cars=("B", "D"))
    assert (own / page.name).read_bytes() == page.read_bytes()
    assert 2 == main(["solutions", "--class-word", WORD, "--out", str(out)])
    said = capsys.readouterr().err
    assert "Whose figures? Give --class-file start/L07-K.toml, or --class-word and --learner." in said


def test_any_turn_of_any_sitting(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The seventh turn with the sitting's word has the figures that the learner was asked; a word that cannot be one is told."""
    asked = [
        "solutions",
        "--class-word",
        WORD,
        "--learner",
        LEARNER,
        "--lesson",
        "star",
        "--out",
        str(tmp_path / "out"),
    ]
    assert 0 == main([*asked, "--sitting", "red-kite", "--turn", "7"])
    (path,) = (tmp_path / "out").iterdir()
    page = unescape(path.read_text(encoding="utf-8"))
    for exercise in exercises_of("star"):
        question = exercise.draw(class_word=WORD, learner=LEARNER, sitting="red-kite", turn=7)
        assert f"{exercise.id} · turn 7" in page
        assert question.mark(question.right_answer()).understood in page
    assert "turn 1<" not in page
    assert 2 == main([*asked, "--sitting", "../x"])
    assert 2 == main([*asked, "--turn", "0"])
    assert "The sitting word '../x' cannot be used." in capsys.readouterr().err
