"""What the check of a college's file asks a person to look at, and that what it gives to start from is good."""

import os
from pathlib import Path

import pytest

from bitepoint.bank.own import FILE, exercises_made, read_questions, template
from bitepoint.bank.own_checks import LEARNERS, TURNS, check_questions
from bitepoint.cli import main
from bitepoint.workshop.vehicles import vehicles

DATA = Path(__file__).parent / "data" / FILE


def written(folder: Path, text: str) -> Path:
    """Return a file with this text."""
    path = folder / FILE
    path.write_text(text, encoding="utf-8")
    return path


def test_what_is_written_to_start_from_passes_the_check(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """`exercise new`, then `exercise check`: one question a kind, status 0, nothing on stderr."""
    monkeypatch.chdir(tmp_path)
    assert main(["exercise", "new", FILE]) == 0
    assert main(["exercise", "check", FILE]) == 0
    told = capsys.readouterr()
    assert told.err == ""
    assert [f": {kind}, " in told.out for kind in ("choice", "several", "order", "number")] == [True] * 4
    assert os.linesep not in (tmp_path / FILE).read_text(encoding="utf-8").replace("\n", "")


def test_a_file_that_is_there_is_never_written_over(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One line, status 2, every byte as it was."""
    path = written(tmp_path, "mine")
    assert main(["exercise", "new", str(path)]) == 2
    assert "is there already" in capsys.readouterr().err
    assert path.read_text(encoding="utf-8") == "mine"


def test_twelve_good_questions_pass() -> None:
    """Each drawn three hundred times; nothing to look at."""
    found = check_questions(DATA)
    assert found.questions
    assert ((), ()) == (found.refused, found.look)
    assert 12 == len(found.told)
    assert 300 == LEARNERS * len(TURNS)
    assert all("300 draws marked as they should be" in line for line in found.told)


@pytest.mark.parametrize("letter", "ABCD")
def test_a_class_on_one_car_is_asked_about_that_car(letter: str) -> None:
    """The torque that the question prints is the one of the class's car."""
    exercise = exercises_made(read_questions(DATA))["own.crow-foot-own"]
    question = exercise.draw(class_word="oak", learner="ada", vehicle=letter, cars=(letter,))
    torque = vehicles()[letter].flywheel.tightening.final_nm
    assert f"{torque:g} N·m" in question.ask + str(question.table)
    assert letter == question.vehicle


def test_a_question_about_what_no_car_of_the_class_has_is_left_out_by_name(tmp_path: Path) -> None:
    """A cable car has no slave bolts: a person should look, and the rest is checked."""
    path = written(
        tmp_path,
        DATA.read_text(encoding="utf-8").replace("flywheel.tightening.final_nm", "release.slave_bolts.torque_nm"),
    )
    found = check_questions(path, cars=("A",))
    assert not found.refused
    [line] = found.look
    assert "'crow-foot-own': is left out in this class" in line
    assert 11 == len(found.told)


LONG = "which the sheet of the maker names for these very splines and for no others of this or any other car"
TO_LOOK_AT = {
    "the right option always the longest": (
        template().replace("A thin film of the grease that the sheet names, the rest", f"A thin film {LONG}, the rest").replace(
            "The one that the sheet names, thinly", f"The one {LONG}, thinly"
        ),
        "'wrong-grease': the right option is the longest in every draw",
    ),
    "every right option longer": (
        template().replace("Everybody stands clear of the car", "Everybody stands well clear of the car and says so aloud"),
        "'before-the-ramp': every right option is longer than every wrong one",
    ),
    "longest too often": (
        template().replace("The one that the sheet names, thinly", f"The one {LONG}, thinly"),
        "the right option is the longest in 48% of the choices drawn, and 35% is the most",
    ),
    "a long sentence": (
        template().replace("Dry splines bind. The plate", "Dry splines bind " + "and bind " * 14 + "and then the plate"),
        "option 'dry', says: a sentence has 41 words, and 30 is the most",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", TO_LOOK_AT)
def test_what_gives_a_question_away_is_one_line_and_status_1(
    case: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """It can be used all the same; a person should look."""
    text, says = TO_LOOK_AT[case]
    assert main(["exercise", "check", str(written(tmp_path, text))]) == 1
    told = capsys.readouterr()
    assert told.err.count("\n") == 1
    assert says in told.err
    assert "own.crow-foot: number" in told.out


def test_calculators_are_listed_with_fields_and_units(capsys: pytest.CaptureFixture[str]) -> None:
    """All, or those that mention a word; a word that none mentions is one line."""
    assert main(["exercise", "calculators", "crow-foot"]) == 0
    told = capsys.readouterr().out
    assert "wrench_setting_nm: Wrench setting when a crow-foot" in told
    assert "    angle_deg (°, may be left out)" in told
    assert main(["exercise", "calculators"]) == 0
    whole = capsys.readouterr().out
    assert "math" not in whole
    assert whole.count(":") >= 50
    assert main(["exercise", "calculators", "xyzzy"]) == 2
