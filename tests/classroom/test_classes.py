"""A new class: its files are read by opening, marking and sheets, and an existing class is never replaced."""

import codecs
import os
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import msgspec
import pytest

from bitepoint.bank.version import bank_digest
from bitepoint.classroom.bench_sheets.observing import STANDARD
from bitepoint.classroom.classes import CARDS, CLASS, ROSTER, START, NewClass, write_class
from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import learner_id
from bitepoint.marking.roster import read_roster
from bitepoint.marking.rules import read_rules
from bitepoint.questions.draw import own_letter
from bitepoint.workbook.class_file import read_class_file
from bitepoint.workbook.owner import check_bank

ARGUMENTS = ["--title", 'Autumn "ö" <class>', "--class-word", "oak-2026", "--learners", "12"]


def new(folder: Path, *more: str) -> int:
    return main(["class", "new", str(folder), *ARGUMENTS, *more])


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[Identity]:
    """Who would have opened the course, with no server started."""
    found: list[Identity] = []

    def note(folder: Path, identity: Identity, **options: Any) -> None:
        found.append(identity)

    monkeypatch.setattr("bitepoint.workbook.opening.open_workbook", note)
    return found


def test_start_file_and_class_file_open_the_course_as_the_class_decided(tmp_path: Path, opened: list[Identity]) -> None:
    """Title, feedback and sitting word travel in both; the start file says who it is too."""
    assert new(tmp_path / "k", "--feedback", "after hand-in", "--sitting", "red") == 0
    learner = learner_id("oak-2026", 7)
    own, whole = (str(tmp_path / "k" / name) for name in (f"{START}/{learner}.toml", CLASS))
    assert main(["open", str(tmp_path / "w"), "--class-file", own]) == 0
    assert main(["open", str(tmp_path / "w"), "--class-file", whole, "--learner", learner]) == 0
    expected = Identity(
        learner=learner,
        class_word="oak-2026",
        title='Autumn "ö" <class>',
        feedback="after hand-in",
        sitting="red",
        vehicle=own_letter("oak-2026", learner),
        bank=bank_digest(),
    )
    assert [expected, msgspec.structs.replace(expected, vehicle="")] == opened


def test_a_start_file_is_one_learners_alone(
    tmp_path: Path, opened: list[Identity], capsys: pytest.CaptureFixture[str]
) -> None:
    """With another id it is refused; one for each learner of the roster, and an altered one is told."""
    assert new(tmp_path) == 0
    files = {path.stem: path for path in (tmp_path / START).iterdir()}
    ids = [learner_id("oak-2026", number) for number in range(1, 13)]
    assert sorted(ids) == sorted(files)
    capsys.readouterr()
    open_ = ["open", str(tmp_path / "w"), "--class-file", str(files[ids[6]])]
    assert main([*open_, "--learner", ids[7]]) == 2
    assert f"{ids[6]}.toml is the start file of {ids[6]}." in capsys.readouterr().err
    files[ids[6]].write_text('class_word = "elm"\nlearner = "L07-Q"\n', encoding="utf-8")
    assert main(open_) == 2
    assert f"{ids[6]}.toml: L07-Q does not fit class elm" in capsys.readouterr().err
    assert opened == []


def test_class_toml_gives_marking_its_rules(tmp_path: Path) -> None:
    """Pass share, due date, lessons and criteria come back as they were typed."""
    more = [
        "--zone",
        "UTC",
        "--pass-share",
        "0.75",
        "--due",
        "2026-06-30",
        "--lessons",
        "start,star",
        "--criterion",
        'Says "stop"',
    ]
    assert new(tmp_path, *more, "--supervisor", "A. Assessor") == 0
    rules = read_rules(tmp_path / CLASS)
    assert 0.75 == rules.pass_share
    assert datetime(2026, 6, 30, 23, 59, 59, tzinfo=UTC) == rules.due
    assert ("start", "star") == rules.lessons
    assert ('Says "stop"',) == rules.criteria
    assert "A. Assessor" == rules.supervisor


@pytest.mark.parametrize("more", [(), ("--sitting", "June", "--supervisor", "A. Assessor", "--lessons", "star")])
def test_what_a_class_file_offers_can_be_written(tmp_path: Path, more: tuple[str, ...]) -> None:
    """Every key is known, also those in front of which only a “#” is to be taken away."""
    assert new(tmp_path, *more) == 0
    text = (tmp_path / CLASS).read_text("utf-8")
    (tmp_path / CLASS).write_text(re.sub(r"(?m)^# (?=\w+ = )", "", text), "utf-8")

    assert (1, "last") == (read_rules(tmp_path / CLASS).retakes, read_rules(tmp_path / CLASS).counts)
    for path in (tmp_path / CLASS, *(tmp_path / START).iterdir()):
        assert "oak-2026" == read_class_file(path).class_word


def test_a_class_that_says_nothing_observes_the_standard_criteria(tmp_path: Path) -> None:
    """Every lesson counts and no date is set."""
    assert new(tmp_path) == 0
    rules = read_rules(tmp_path / CLASS)
    assert (tuple(STANDARD), (), None) == (rules.criteria, rules.lessons, rules.due)


def test_the_roster_is_read_by_marking(tmp_path: Path) -> None:
    """Ids with check letters, names left for the instructor."""
    assert new(tmp_path) == 0
    ids = [learner_id("oak-2026", number) for number in range(1, 13)]
    assert ids == [entry.learner for entry in read_roster(tmp_path / ROSTER).values()]
    assert "learner,name,vehicle,cars" == (tmp_path / ROSTER).read_text(encoding="utf-8-sig").splitlines()[0]
    assert (tmp_path / ROSTER).read_bytes().startswith(codecs.BOM_UTF8)


def test_each_learners_car_is_written_down_once(tmp_path: Path, opened: list[Identity]) -> None:
    """Cars are shared out in turn, the roster, the start file and the workbook agree, and class.toml lists them."""
    assert new(tmp_path, "--vehicles", "b, D") == 0
    ids = [learner_id("oak-2026", number) for number in range(1, 13)]
    assert ["B", "D"] * 6 == [entry.vehicle for entry in read_roster(tmp_path / ROSTER).values()]
    assert {("B", "D")} == {entry.cars for entry in read_roster(tmp_path / ROSTER).values()}
    assert ("B", "D") == read_rules(tmp_path / CLASS).vehicles
    for learner, letter in zip(ids[:2], "BD", strict=True):
        file = str(tmp_path / START / f"{learner}.toml")
        assert main(["open", str(tmp_path / learner), "--class-file", file]) == 0
        assert (letter, ("B", "D")) == (opened[-1].vehicle, opened[-1].vehicles)


def test_other_cars_need_a_start_file(
    tmp_path: Path, opened: list[Identity], capsys: pytest.CaptureFixture[str]
) -> None:
    """The class file alone does not say whose car is whose; unknown and doubled cars are refused when the class is made."""
    assert new(tmp_path / "k", "--vehicles", "B,D") == 0
    learner = learner_id("oak-2026", 1)
    assert main(["open", str(tmp_path / "w"), "--class-file", str(tmp_path / "k" / CLASS), "--learner", learner]) == 2
    assert "which one is yours stands in your own start file" in capsys.readouterr().err
    assert opened == []
    for letters, said in (("B,Q", "'Q', which is no training vehicle"), ("B,B", "names B twice"), (",", "a list of")):
        assert new(tmp_path / "x", "--vehicles", letters) == 2
        assert said in capsys.readouterr().err


def test_a_sitting_is_refused_by_another_bank(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A release that changes in the middle of a sitting does not open it, and says both banks."""
    identity = Identity(
        learner="L1", class_word="oak-2026", sitting="red", feedback="after hand-in", bank="0123456789ab"
    )
    with pytest.raises(BadInput, match=f"bound to the bank 0123456789ab, but this installation has {bank_digest()}"):
        check_bank(identity)
    check_bank(msgspec.structs.replace(identity, bank=bank_digest()))
    check_bank(msgspec.structs.replace(identity, sitting=""))


@pytest.mark.parametrize("more", [(), ("--sitting", "red"), ("--feedback", "after hand-in")])
def test_each_slip_has_one_command_that_opens_the_course(
    more: tuple[str, ...], tmp_path: Path, opened: list[Identity], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Typed as printed, it gives the feedback and the sitting of the class; the file is needed only where they differ."""
    assert new(tmp_path, *more) == 0
    cards = (tmp_path / CARDS).read_text(encoding="utf-8")
    commands = [part.partition("</code>")[0] for part in cards.split("<code>")[1:]]
    assert 12 == len(commands)
    assert bool(more) == (f"--class-file {learner_id('oak-2026', 1)}.toml" in commands[0])
    monkeypatch.chdir(tmp_path / START)
    words = commands[6].split()
    assert ("~/sitting-red" in words) == ("--sitting" in more)
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    assert main(words[1:]) == 0
    feedback, sitting = ("after hand-in" if more else "at once"), ("red" if "--sitting" in more else "")
    seen = opened[0]
    assert (learner_id("oak-2026", 7), "oak-2026", feedback, sitting) == (
        seen.learner,
        seen.class_word,
        seen.feedback,
        seen.sitting,
    )
    assert "Autumn &#34;ö&#34; &lt;class&gt;" in cards
    assert '<meta http-equiv="Content-Security-Policy" content="default-src \'none\';' in cards


def test_a_full_disk_leaves_no_half_a_class(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What could not be written whole is not there at all, and the same command makes the class once there is room."""
    autumn = NewClass(title="Autumn", class_word="oak-2026", learners=3)
    synced: list[int] = []

    def full(descriptor: int) -> None:
        synced.append(descriptor)
        if len(synced) == 5:
            raise OSError(28, "No space left on device")

    with monkeypatch.context() as patched:
        patched.setattr(os, "fsync", full)
        with pytest.raises(OSError, match="No space left"):
            write_class(tmp_path / "autumn", autumn, paper="A4")
    assert [] == [path for path in (tmp_path / "autumn").rglob("*") if path.is_file()]
    write_class(tmp_path / "autumn", autumn, paper="A4")
    assert 3 == len(list((tmp_path / "autumn" / "start").iterdir()))


def test_an_existing_class_is_refused_and_stays_as_it_is(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """One of its files is enough, and none of the others is written."""
    (tmp_path / ROSTER).write_text("mine", encoding="utf-8")
    assert new(tmp_path) == 2
    err = capsys.readouterr().err
    assert 1 == err.count("\n")
    assert f"has a class already ({ROSTER})" in err
    assert [ROSTER] == [path.name for path in tmp_path.iterdir()]


@pytest.mark.parametrize(
    ("more", "told"),
    [
        (["--learners", "0"], "--learners must be between 1 and 999, but you gave 0."),
        (["--class-word", "o k"], "The class word 'o k' cannot be used."),
        (["--sitting", "r!"], "The sitting word 'r!' cannot be used."),
        (["--pass-share", "80"], "--pass-share must be a number above 0 and up to 1, but you gave 80"),
        (["--lessons", "moon"], "There is no lesson 'moon'. Choose from start"),
        (["--due", "June"], "does not match the format"),
        (["--title", "two\nlines"], "--title must be one line of 1 to 120 characters"),
    ],
)
def test_what_cannot_be_used_is_told_in_one_line_and_nothing_is_written(
    more: list[str], told: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The last value of an option counts, so each case replaces a good one."""
    assert new(tmp_path / "k", *more) == 2
    err = capsys.readouterr().err
    assert 1 == err.count("\n")
    assert told in err
    assert not (tmp_path / "k").exists()
