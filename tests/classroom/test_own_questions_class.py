"""A class with its college's own questions, by the commands that staff and learners type."""

import csv
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.bank import exercise_named, exercises_of
from bitepoint.bank.lessons import OWN_NOTEBOOK
from bitepoint.cli import main
from bitepoint.logbook.handin import make_hand_in
from bitepoint.marking.rehearsal.rehearse import rehearse
from bitepoint.page import asking, output, summing_up
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.own_lesson import put_own_lesson
from bitepoint.workbook.owner import identity_in
from bitepoint.workshop.datafiles import DataFiles, data_files, use_from_now, using
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet
from bitepoint.workshop.questioning.checking import record_check
from bitepoint.workshop.vehicles import vehicles

QUESTIONS = Path(__file__).parents[1] / "bank" / "own" / "data" / "questions.toml"


@pytest.fixture(autouse=True)
def _shipped_again() -> Iterator[None]:
    """The shipped files are in use again afterwards."""
    yield
    use_from_now(None)


@pytest.fixture
def college(own_pack: Path, tmp_path: Path) -> Path:
    """A class's own folder of this test's, with one own sheet."""
    return Path(shutil.copytree(own_pack, tmp_path / "college"))


@pytest.fixture
def group(tmp_path: Path) -> Path:
    """A class of three that was set up with the twelve questions."""
    folder = tmp_path / "millbrook"
    said = ["class", "new", str(folder), "--title", "Millbrook", "--class-word", "elm-2026", "--learners", "3"]
    assert main([*said, "--questions", str(QUESTIONS)]) == 0
    use_from_now(None)
    return folder


@pytest.fixture
def work(group: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The workbook of a learner who opened the course with their start file; nothing is in use yet, as in a new kernel."""
    start = next((group / "start").iterdir())
    folder = tmp_path / "work"
    make_workbook(folder, identity_in(folder, class_file=start))
    put_own_lesson(folder, data_files())
    monkeypatch.setattr(output, "_STARTED", folder)
    monkeypatch.chdir(folder)
    use_from_now(None)
    return folder


def test_a_file_that_cannot_be_used_sets_up_no_class(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The first fault in one line, how many more there are, what says all of it; nothing is written."""
    bad = tmp_path / "bad.toml"
    text = QUESTIONS.read_text(encoding="utf-8")
    bad.write_text(
        text.replace("percent = 1 }", "percent = 0 }").replace('kind = "several"', 'kind = "all"'), encoding="utf-8"
    )
    said = ["class", "new", str(tmp_path / "mill"), "--title", "M", "--class-word", "elm-2026", "--learners", "3"]
    assert main([*said, "--questions", str(bad)]) == 2
    told = capsys.readouterr().err
    assert told.count("\n") == 1
    assert "bad.toml: question 'before-lifting': kind: 'all' cannot stand here" in told
    assert "2 more like it. All of it says: bitepoint exercise check" in told
    assert not (tmp_path / "mill").exists()


def test_the_first_cell_of_a_new_kernel_knows_the_class_s_questions(
    work: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Whose workbook it is is read before the question or the lesson is looked up."""
    assert (work / OWN_NOTEBOOK).is_file()
    asking.ask("own.dust")
    assert "Dust: not answered yet" in capsys.readouterr().out
    use_from_now(None)
    summing_up.summary("own")
    assert "0 of 12 exercises done" in capsys.readouterr().out


def test_answers_are_marked_with_the_class_s_file(group: Path, work: Path, tmp_path: Path) -> None:
    """Answered, handed in, marked by two processes with class.toml: twelve right."""
    asking.ask("own.dust")
    for exercise in exercises_of("own"):
        asking.ask(exercise.id, ExerciseSession(exercise, output.who_asks()).question().right_answer())
    make_hand_in(work, into=tmp_path)
    [hand_in] = tmp_path.glob("*.zip")
    use_from_now(None)
    out = tmp_path / "marks"
    said = ["mark", str(hand_in), "--class-file", str(group / "class.toml"), "--out", str(out), "--workers", "2"]
    assert main(said) == 0
    with (out / "marks.csv").open(encoding="utf-8", newline="") as file:
        marks = {row["exercise"]: row["mark"] for row in csv.DictReader(file)}
    assert {"1"} == set(marks.values())
    assert 12 == len(marks)


def test_questions_are_about_the_class_s_own_sheet(college: Path) -> None:
    """On an own sheet the figure is that sheet's."""
    (college / "questions.toml").write_bytes(QUESTIONS.read_bytes())
    with using(DataFiles(places.assets(), college)):
        asked = exercise_named("own.crow-foot-own").draw(class_word="x", learner="ada", vehicle="K7V", cars=("K7V",))
        torque = vehicles()["K7V"].flywheel.tightening.final_nm
    assert "K7V" == asked.vehicle
    assert f"{torque:g} N·m" in asked.ask + str(asked.table)


def test_a_rehearsed_class_on_an_own_sheet_with_own_questions_has_its_true_marks(tmp_path: Path, college: Path) -> None:
    """Sheet and questions of the college together: 24 learners, every mark that of the truth."""
    sheet = college / "vehicles" / "k7v.toml"
    record_check(sheet, "C. Second")
    own = {
        "vehicles/k7v.toml": sheet.read_bytes(),
        "questions.toml": QUESTIONS.read_bytes(),
    }
    folder, out = tmp_path / "class", tmp_path / "marks"
    rehearse(folder, learners=24, seed=5, cars=("K7V", "B"), own=own, lessons=("own",))
    use_from_now(None)
    said = ["mark", str(folder / "hand-ins"), "--roster", str(folder / "roster.csv"), "--out", str(out)]
    assert main([*said, "--class-file", str(folder / "class.toml")]) in (0, 1)
    tables = []
    for path in (folder / "truth.csv", out / "marks.csv"):
        with path.open(encoding="utf-8", newline="") as file:
            tables.append(
                {(r["learner"], r["exercise"], r["last_score"]) for r in csv.DictReader(file) if r["last_score"]}
            )
    assert tables[0] == tables[1]
    assert 12 == len({exercise for _, exercise, _ in tables[0]})


def test_a_figure_that_the_own_sheet_lacks_is_asked_of_the_next_car(college: Path) -> None:
    """What says “look it up” is never a figure: another car of the class serves, or the exercise is left out by name."""
    text = QUESTIONS.read_text(encoding="utf-8").replace(
        "friction = { list", 'friction = { sheet = "clutch.mu_design" } # ', 1
    )
    (college / "questions.toml").write_text(text, encoding="utf-8")
    with using(DataFiles(places.assets(), college)):
        capacity = exercise_named("own.capacity")
        assert "clutch.mu_design" in capacity.left_out(("K7V",))
        assert not capacity.left_out(("K7V", "B"))
        assert "B" == capacity.draw(class_word="x", learner="ada", vehicle="K7V", cars=("K7V", "B")).vehicle


def test_questions_are_tried_on_the_cars_of_the_class(
    college: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """What the sheet of the class's only car lacks is told before; a letter that is no car is one line."""
    sheet, lacking = tmp_path / "van.toml", tmp_path / "questions.toml"
    text = (college / "vehicles" / "k7v.toml").read_text(encoding="utf-8")
    figures = read_own_sheet(college / "vehicles" / "k7v.toml").figures
    sheet.write_text(
        f'{text}\n[checked]\nby = "C. Second"\ndate = 2026-11-03\nfigures = "{figures}"\n', encoding="utf-8"
    )
    asked = QUESTIONS.read_text(encoding="utf-8").replace(
        "friction = { list", 'friction = { sheet = "clutch.mu_design" } # ', 1
    )
    lacking.write_text(asked, encoding="utf-8")
    assert main(["exercise", "check", str(QUESTIONS), "--vehicles", f"A,{sheet}"]) == 0
    capsys.readouterr()
    assert main(["exercise", "check", str(lacking), "--vehicles", str(sheet)]) == 1
    assert (
        "'capacity': is left out in this class: no car of this class has: clutch.mu_design" in capsys.readouterr().err
    )
    assert main(["exercise", "check", str(QUESTIONS), "--vehicles", "A,Z"]) == 2
    assert "names 'Z', which is no training vehicle" in capsys.readouterr().err


def test_a_file_that_was_changed_since_is_refused(
    group: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """class.toml names the digest of what the class was set up with."""
    own = group / "own" / "questions.toml"
    own.write_text(own.read_text(encoding="utf-8").replace("crack inside", "flaw inside"), encoding="utf-8")
    (tmp_path / "in").mkdir()
    said = ["mark", str(tmp_path / "in"), "--class-file", str(group / "class.toml"), "--out", str(tmp_path / "marks")]
    assert main(said) == 2
    assert "answers to questions that changed by it get no mark" in capsys.readouterr().err
