"""A warm-up: five questions of what a class has forgotten most, on screens, a sheet and a page of answers."""

import csv
import re
import shutil
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from bitepoint.bank import exercises
from bitepoint.classroom.warm_ups.missed import Missed, read_missed
from bitepoint.classroom.warm_ups.pages import ANSWERS, SCREENS, SHEET, write_warm_up
from bitepoint.classroom.warm_ups.questions import WarmUpQuestion, warm_up_questions
from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.logbook.record import RECALL
from bitepoint.marking import mark_hand_ins
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.questions.draw import STANDARD
from bitepoint.recall.choosing import is_asked_again

DAY = date(2026, 9, 11)
ANYTHING = [Missed(exercise=e.id, right=0, answers=9, mistake="") for e in exercises().values() if is_asked_again(e)]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The marks of a class that was asked again, in `again`, and of one that was not, in `plain`."""
    found = tmp_path_factory.mktemp("warm-up")
    for name, weeks in (("again", 8), ("plain", 0)):
        rehearse(found / f"{name}-class", learners=6, seed=2, weeks=weeks, lessons=("safe", "torque", "star"))
        mark_hand_ins([found / f"{name}-class" / "hand-ins"], out=found / name)
    return found


def drawn(day: date = DAY) -> list[WarmUpQuestion]:
    """Return questions from anything."""
    return warm_up_questions(ANYTHING, class_word="oak-2026", cars=STANDARD, day=day)


def test_what_was_forgotten_most_is_asked(folder: Path, tmp_path: Path) -> None:
    """The exercises with the lowest shares in recall.csv that a wall can ask, at most two of a lesson."""
    with (folder / "again" / "recall.csv").open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    missed = read_missed(folder / "again")
    assert missed.from_recall
    weakest = missed.exercises[0]
    own = [r for r in rows if r["exercise"] == weakest.exercise]
    assert (weakest.answers, weakest.right) == (len(own), sum(r["right"] == "yes" for r in own))
    assert [m.share for m in missed.exercises] == sorted(m.share for m in missed.exercises)
    found = warm_up_questions(missed.exercises, class_word="x", cars=STANDARD, day=DAY)
    assert len(found) == 5
    lessons = [q.id.partition(".")[0] for q in found]
    assert all(lessons.count(lesson) <= 2 for lesson in lessons)
    order = [m.exercise for m in missed.exercises]
    assert [order.index(q.id) for q in found] == sorted(order.index(q.id) for q in found)


def test_without_recall_the_lessons_are_asked_and_one_line_says_so(
    folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What was missed most at the first answer; the three pages are there."""
    assert main(["warm-up", str(folder / "plain"), "--out", str(tmp_path / "w"), "--day", "2026-09-11"]) == 0
    out, err = capsys.readouterr()
    assert [Path(line).stem for line in out.splitlines()] == [SCREENS, SHEET, ANSWERS]
    assert err.splitlines() == ["Nobody was asked again yet: these are the questions most missed in the lessons."]
    assert "missed most at the first answer" in (tmp_path / "w" / f"{ANSWERS}.html").read_text("utf-8")


def test_no_learners_figures_and_no_turn_of_anybody_is_given_away() -> None:
    """What a warm-up asks with figures is not what any learner of a class gets in the first turns of lesson or recall."""
    for question in drawn():
        exercise = exercises()[question.id]
        if question.kind != "number":
            continue
        for number in range(1, 25):
            for turn in (1, 2):
                for word in ("", RECALL):
                    own = exercise.draw(
                        class_word="oak-2026",
                        learner=f"L{number:02}",
                        turn=turn,
                        sitting=word,
                        vehicle="A",
                        cars=STANDARD,
                    )
                    assert "\n\n".join(question.ask) != own.ask or question.picture


def test_the_same_day_gives_the_same_questions_and_another_day_others() -> None:
    """So the sheet printed today goes with the screens of tomorrow."""
    first, again, later = drawn(), drawn(), drawn(date(2026, 9, 18))
    assert first == again
    assert [q.ask for q in first] != [q.ask for q in later]


def test_screens_ask_first_and_answer_on_the_next(folder: Path, tmp_path: Path) -> None:
    """A screen a question, its answer on the one after; sheet and screens before the answer do not hold the reason."""
    write_warm_up(folder / "again", tmp_path, cars=STANDARD, day=DAY, title="Autumn")
    screens, sheet, answers = (
        unescape((tmp_path / f"{name}.html").read_text("utf-8")) for name in (SCREENS, SHEET, ANSWERS)
    )
    assert re.findall(r'<section id="(\w+)">', screens) == ["begin", *(f"{x}{n}" for n in range(1, 6) for x in "qa")]
    missed = read_missed(folder / "again")
    for n, q in enumerate(
        warm_up_questions(missed.exercises, class_word=missed.class_word, cars=STANDARD, day=DAY), start=1
    ):
        asked = screens[screens.index(f'<section id="q{n}">') : screens.index(f'<section id="a{n}">')]
        assert q.title in asked
        assert q.why not in asked
        assert q.why not in sheet
        assert q.ask[0] in sheet
        assert q.why in answers
        assert q.answer in answers
    assert all("INVENTED FIGURES" in page for page in (screens, sheet, answers))
    assert "Warm-up: Autumn" in sheet


def test_a_college_own_order_of_cars_is_asked_of_those_cars() -> None:
    """A class on one car gets no other."""
    found = warm_up_questions(ANYTHING, class_word="x", cars=("B",), day=DAY)
    assert {q.car for q in found} == {"B"}


def test_what_cannot_be_used_is_one_line(folder: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """No results, a changed table, a file where a folder goes, nothing answered: what, where and what to do."""
    assert main(["warm-up", str(tmp_path / "none"), "--out", str(tmp_path / "w")]) == 2
    assert "holds no marked class. Run: bitepoint mark HANDINS" in capsys.readouterr().err
    (tmp_path / "file").write_text("mine", "utf-8")
    with pytest.raises(BadInput, match="is a file. Name a folder for the warm-up"):
        write_warm_up(folder / "plain", tmp_path / "file", cars=STANDARD, day=DAY)
    changed = shutil.copytree(folder / "plain", tmp_path / "changed")
    (changed / "recall.csv").write_text("learner\n", "utf-8")
    with pytest.raises(BadInput, match=r"recall\.csv was changed since it was marked"):
        read_missed(changed)
    (tmp_path / "hand-ins").mkdir()
    (tmp_path / "hand-ins" / "L1.jsonl").write_text("", "utf-8")
    mark_hand_ins([tmp_path / "hand-ins"], out=tmp_path / "marks")
    with pytest.raises(BadInput, match="nobody has answered anything that a warm-up can ask"):
        write_warm_up(tmp_path / "marks", tmp_path / "w", cars=STANDARD, day=DAY)
