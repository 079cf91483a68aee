"""The command line as a person meets it: help, one-line errors, exit status, and a quick start."""

import errno
import json
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import msgspec
import pytest

from bitepoint import __version__, cli
from bitepoint.bank.version import bank_digest
from bitepoint.cli import terminal
from bitepoint.errors import CannotRun
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import learner_id, read_identity, write_identity

COMMANDS = ("open", "hand-in", "mark", "rehearse", "check-machine")


@pytest.fixture
def opened(monkeypatch: pytest.MonkeyPatch) -> list[dict[str, Any]]:
    """What `bitepoint open` would have opened, with no server started."""
    calls: list[dict[str, Any]] = []

    def note(folder: Path, identity: Identity, **options: Any) -> None:
        calls.append({"folder": folder, "identity": identity} | options)

    monkeypatch.setattr("bitepoint.workbook.opening.open_workbook", note)
    return calls


def told(capsys: pytest.CaptureFixture[str]) -> str:
    """The one line on stderr; nothing may stand on stdout."""
    out, err = capsys.readouterr()
    assert out == ""
    assert err.count("\n") == 1
    assert "Traceback" not in err
    return err.strip()


@pytest.mark.parametrize("command", COMMANDS)
def test_every_command_has_help_with_examples(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    """The help of each ends with lines one can type."""
    assert cli.main([command, "--help"]) == 0
    examples = capsys.readouterr().out.partition("Examples:")[2]
    assert f"  bitepoint {command}" in examples


def test_the_help_names_every_command_and_the_exit_status(capsys: pytest.CaptureFixture[str]) -> None:
    """One screen says who uses what."""
    assert cli.main(["--help"]) == 0
    shown = capsys.readouterr().out
    assert [name for name in COMMANDS if f"bitepoint {name}" not in shown] == []
    assert "Exit status" in shown


def test_the_version_is_the_packages(capsys: pytest.CaptureFixture[str]) -> None:
    """`bitepoint --version` says name, version and bank, the same on every computer that asks the same questions."""
    assert cli.main(["--version"]) == 0
    assert capsys.readouterr().out == f"bitepoint {__version__}, bank {bank_digest()}\n"


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["opne"], "No such command 'opne'"),
        (["open", "--prot", "3"], "No such option"),
        (["open", "--port", "80"], "--port"),
        (["mark"], "HANDINS"),
        (["mark", "not-there"], "not-there is not there"),
        (["rehearse"], "--out"),
        (["rehearse", "--learners", "many", "--out", "x"], "many"),
        (["rehearse", "--learners", "1000", "--out", "x"], "1000 is not in the range 1<=x<=999"),
        (["hand-in", "not-there"], "not-there: is no course folder"),
        (["open", "--class-word", "autumn", "new"], "add --learner"),
        (["open", "--class-word", "a b", "--learner", "ann", "new"], "class word 'a b' cannot be used"),
        (["open", "--learner", "an n", "new"], "learner id 'an n' cannot be used"),
        (["open", "--class-file", "no.toml", "--learner", "ann", "new"], "no.toml cannot be read"),
        (["open", "--class-file", "no.toml", "--class-word", "autumn"], "not both"),
    ],
)
def test_wrong_use_is_one_line_and_status_2(
    arguments: list[str],
    part: str,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    opened: list[dict[str, Any]],
) -> None:
    """One line on stderr, nothing else, nothing opened, nothing made."""
    monkeypatch.chdir(tmp_path)
    assert cli.main(arguments) == 2
    assert part in told(capsys)
    assert opened == []
    assert list(tmp_path.iterdir()) == []


def test_without_arguments_open_is_self_study_in_the_home_folder(
    opened: list[dict[str, Any]], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """A learner on their own types two words."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    assert cli.main(["open"]) == 0
    call = opened[0]
    assert (tmp_path / "clutch-course").resolve() == call["folder"]
    assert Identity(learner="self-study", class_word="self-study") == call["identity"]
    assert (call["port"], call["browser"]) == (8888, True)


def test_a_class_file_gives_class_and_feedback_and_the_letter_is_checked(
    opened: list[dict[str, Any]], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The right letter opens; a wrong one is refused and says which class it does not fit."""
    path = tmp_path / "class.toml"
    path.write_text('class_word = "autumn"\ntitle = "Töne"\nfeedback = "after hand-in"\n', encoding="utf-8")
    right = learner_id("autumn", 7)
    arguments = ["open", str(tmp_path / "Übung 1 ö"), "--class-file", str(path), "--no-browser", "--learner"]
    assert cli.main([*arguments, right]) == 0
    expected = Identity(learner=right, class_word="autumn", title="Töne", feedback="after hand-in")
    assert expected == opened[0]["identity"]
    assert opened[0]["browser"] is False
    wrong = "L07-" + ("A" if right[-1] != "A" else "B")
    assert cli.main([*arguments, wrong]) == 2
    assert f"{wrong} does not fit class autumn" in told(capsys)
    assert cli.main(arguments[:-1]) == 2
    assert "add --learner" in told(capsys)


def test_keep_goes_with_every_way_of_opening(
    opened: list[dict[str, Any]], monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """Alone, for a folder and a learner, on the wall and for staff; without it nothing of it is asked for."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    named = [str(tmp_path / "mine"), "--learner", "ann", "--class-word", "autumn"]
    for more in ([], named, ["--projector"], ["--staff"]):
        assert cli.main(["open", "--keep", *more]) == 0
        assert opened.pop()["keep"] is True
    assert cli.main(["open", *named]) == 0
    assert opened.pop()["keep"] is False


def test_the_projector_shows_the_practice_learner_in_a_folder_of_its_own(
    opened: list[dict[str, Any]], monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Nobody's answers are on the wall: with a learner, or in a learner's folder, it is refused."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    assert cli.main(["open", "--projector"]) == 0
    call = opened.pop()
    assert (tmp_path / "clutch-course-projector").resolve() == call["folder"]
    assert Identity(learner="practice", class_word="practice") == call["identity"]
    assert call["projector"] is True
    assert cli.main(["open", "--projector", "--learner", "ann"]) == 2
    assert "--projector and --staff show the practice learner." in told(capsys)
    assert cli.main(["open", "--staff", "--projector"]) == 0
    call = opened.pop()
    assert (tmp_path / "clutch-course-staff").resolve() == call["folder"]
    assert (True, True) == (call["staff"], call["projector"])
    (tmp_path / "anns").mkdir()
    write_identity(Identity(learner="ann", class_word="autumn"), tmp_path / "anns")
    assert cli.main(["open", str(tmp_path / "anns"), "--projector"]) == 2
    assert "is the course folder of ann. Name another" in told(capsys)
    assert opened == []


def test_a_workbook_keeps_its_learner(
    opened: list[dict[str, Any]], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Opened again it is the same person; for another the whole line to type is given and nothing is opened."""
    folder = tmp_path / "Übung 1" / "anns"
    folder.mkdir(parents=True)
    ann = Identity(learner="ann", class_word="autumn")
    write_identity(ann, folder)
    assert cli.main(["open", str(folder)]) == 0
    assert read_identity(folder / "workbook.toml") == opened.pop()["identity"]
    assert cli.main(["open", str(folder), "--learner", "ben"]) == 2
    line = f'bitepoint open "{folder}-ben" --learner ben --class-word autumn'
    expected = f"bitepoint: {folder} is the course folder of ann in class autumn. For ben in class autumn type: {line}"
    assert expected == told(capsys)
    assert cli.main(["open", f"{folder}-ben", "--learner", "ben", "--class-word", "autumn"]) == 0
    assert Identity(learner="ben", class_word="autumn") == opened.pop()["identity"]
    assert cli.main(["open", str(folder), "--learner", "ann", "--class-word", "spring"]) == 2
    assert told(capsys).endswith(f'type: bitepoint open "{folder}-ann" --learner ann --class-word spring')
    assert (opened, ann.learner) == ([], read_identity(folder / "workbook.toml").learner)


def test_a_folder_named_by_an_id_has_a_neighbour_named_by_an_id(
    opened: list[dict[str, Any]], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """As on a share: beside ann lies ben; where ben's is of another class, the class stands in the name."""
    for name in ("ann", "ben"):
        (tmp_path / name).mkdir()
        write_identity(Identity(learner=name, class_word="autumn", feedback="after hand-in"), tmp_path / name)
    assert cli.main(["open", str(tmp_path / "ann"), "--learner", "ben"]) == 2
    assert told(capsys).endswith(f"open {tmp_path / 'ben'} --class-file ben.toml (your own start file)")
    assert cli.main(["open", str(tmp_path / "ann"), "--learner", "ben", "--class-word", "spring"]) == 2
    assert told(capsys).endswith(f"open {tmp_path / 'ben-spring'} --learner ben --class-word spring")
    path = tmp_path / "start.toml"
    path.write_text('class_word = "spring"\nlearner = "eve"\n', encoding="utf-8")
    assert cli.main(["open", str(tmp_path / "ann"), "--class-file", str(path)]) == 2
    assert told(capsys).endswith(f"type: bitepoint open {tmp_path / 'eve'} --class-file {path}")
    assert [] == opened


def test_the_second_learner_on_a_computer_gets_a_folder_of_their_own(
    opened: list[dict[str, Any]], monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The line on the card names no folder: the first learner's stays theirs, and nothing of it is handed on."""
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setenv("USERPROFILE", str(tmp_path))
    first = tmp_path / "clutch-course"
    first.mkdir()
    write_identity(Identity(learner="ann", class_word="autumn", feedback="after hand-in", vehicle="B"), first)
    for _ in range(2):
        assert cli.main(["open", "--learner", "ben"]) == 0
        call = opened.pop()
        own = (tmp_path / "clutch-course-ben").resolve()
        assert own == call["folder"]
        assert Identity(learner="ben", class_word="autumn", feedback="after hand-in") == _without_folder(
            call["identity"]
        )
        assert f"{first.resolve()} is another learner's. The folder of ben is {own}" in capsys.readouterr().out
        own.mkdir(exist_ok=True)
        write_identity(call["identity"], own)
    assert cli.main(["open"]) == 0
    assert "ann" == opened.pop()["identity"].learner


def _without_folder(identity: Identity) -> Identity:
    return msgspec.structs.replace(identity, folder=None)


def test_a_damaged_workbook_file_is_told_in_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The line names the file."""
    (tmp_path / "workbook.toml").write_text("learner =", encoding="utf-8")
    assert cli.main(["open", str(tmp_path)]) == 2
    assert "workbook.toml" in told(capsys)


@pytest.mark.parametrize(
    "error",
    [CannotRun("It does not start."), OSError(28, "No space left on device"), PermissionError(13, "Denied", "x")],
)
def test_what_the_machine_cannot_do_is_status_3(
    error: Exception, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    """One line too, with another status, so that a script can tell."""

    def fail(*_: object, **__: object) -> None:
        raise error

    monkeypatch.setattr("bitepoint.workbook.opening.open_workbook", fail)
    assert cli.main(["open", str(tmp_path / "work")]) == 3
    assert told(capsys).startswith("bitepoint: ")


@pytest.mark.parametrize("command", ["warm-up marks --out file/deep", "bundle file/deep", "rehearse --out file/deep"])
def test_a_file_where_a_folder_is_wanted_is_another_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], command: str
) -> None:
    """Nothing is wrong with the machine: the line says what lies there and what to name."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert cli.main(["rehearse", "--learners", "2", "--out", "class"]) == 0
    assert cli.main(["mark", "class/hand-ins", "--out", "marks"]) in (0, 1)
    capsys.readouterr()
    assert cli.main(command.split()) == 2
    told = capsys.readouterr().err
    assert 1 == told.count("\n")
    assert "Not a directory" in told
    assert re.search(r"Name (another|a) folder", told)


@pytest.mark.parametrize(
    ("command", "file"),
    [
        ("board hand-ins --once b.html", "b.html"),
        ("sheets --posters --out p", "p/fault-tree.html"),
        ("sheets --vehicle A --out s", "s/a-measuring.html"),
        ("sheets --review --out r", "r/review-00.html"),
        ("exercise new e.toml", "e.toml"),
    ],
)
def test_a_full_disk_is_one_line_and_leaves_what_was_there(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], command: str, file: str
) -> None:
    """What was printed before stays whole; where nothing was, nothing lies half written."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "hand-ins").mkdir()
    (tmp_path / "hand-ins" / "a.zip").write_bytes(b"")
    before = "" if command.startswith("exercise") else "printed before"
    if before:
        (tmp_path / file).parent.mkdir(exist_ok=True)
        (tmp_path / file).write_text(before, encoding="utf-8")

    def full(descriptor: int) -> None:
        raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))

    monkeypatch.setattr(os, "fsync", full)
    assert cli.main(command.split()) in (2, 3)
    told = capsys.readouterr().err
    assert 1 == told.count("\n")
    assert "No space left on device" in told
    assert "check-machine" not in told
    left = [path for path in tmp_path.rglob("*") if path.is_file() and path.name != "a.zip"]
    assert [before] * bool(before) == [path.read_text(encoding="utf-8") for path in left]


def test_ctrl_c_is_no_traceback(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """Stopping a long marking says so."""

    def stop(*_: object, **__: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr("bitepoint.marking.rehearsal.rehearse.rehearse", stop)
    assert cli.main(["rehearse", "--out", "rehearsal-that-is-never-made"]) == 130
    out, err = capsys.readouterr()
    assert (out, err.strip()) == ("", "bitepoint: stopped.")


def test_rehearsed_hand_ins_are_marked(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """From invented class to report, in a folder with blanks and accents, and once more into the same results."""
    place = tmp_path / "Übung 1 ö"
    assert cli.main(["rehearse", "--learners", "3", "--seed", "7", "--out", str(place / "class")]) == 0
    arguments = ["mark", str(place / "class"), "--out", str(place / "marks")]
    first = cli.main(arguments)
    assert first in (0, 1)
    made = {"marks.csv", "learners.csv", "marks.jsonl", "report.html", "manifest.json", ".lock"}
    made |= {"learners", "assessor", "evidence", "progress.html", "recall.csv", "term.jsonl"}
    assert made == {p.name for p in (place / "marks").iterdir()}
    assert first == cli.main(arguments)
    assert made | {"former"} == {p.name for p in (place / "marks").iterdir()}
    assert capsys.readouterr().out.splitlines()[-1] == str(place / "marks" / "report.html")


def test_results_are_not_put_among_other_files(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder with anything but earlier results is refused, for marks and for a rehearsal."""
    (tmp_path / "hand-ins").mkdir()
    (tmp_path / "out").mkdir()
    (tmp_path / "out" / "letter.txt").write_text("dear", encoding="utf-8")
    assert cli.main(["mark", str(tmp_path / "hand-ins"), "--out", str(tmp_path / "out")]) == 2
    assert "has other files in it (letter.txt)" in told(capsys)
    assert cli.main(["rehearse", "--out", str(tmp_path / "out")]) == 2
    assert "is not empty" in told(capsys)
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["letter.txt"]


def test_flags_are_status_1_and_problems_go_to_stderr(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The marks are there; a person should look."""
    from bitepoint.marking import Outcome

    outcome = Outcome(learners=1, rows=1, flags=0, problems=["a.zip: cannot be read\nat all"], unread=1)
    monkeypatch.setattr("bitepoint.marking.mark_hand_ins", lambda *_, **__: outcome)
    assert cli.main(["mark", str(tmp_path), "--out", str(tmp_path / "marks")]) == 1
    out, err = capsys.readouterr()
    counted = "Learners: 1. Marks: 1. For a person to look at: flags 0, held or not readable 1."
    assert err.splitlines() == ["bitepoint: a.zip: cannot be read at all", counted]
    assert out == f"{tmp_path / 'marks' / 'report.html'}\n"


def test_no_bar_where_nobody_watches(capsys: pytest.CaptureFixture[str]) -> None:
    """stderr is no terminal here: there is no progress to report to, and nothing is drawn."""
    with terminal.progress_bar() as progress:
        assert progress is None
    assert capsys.readouterr() == ("", "")


def test_the_modules_run_as_a_program(tmp_path: Path) -> None:
    """`python -m bitepoint` is the command, also from a folder with blanks and accents and a file named like ours."""
    folder = tmp_path / "Übung 1 ö"
    folder.mkdir()
    (folder / "json.py").write_text("raise SystemExit(9)", encoding="utf-8")
    line = [sys.executable, "-P", "-m", "bitepoint", "hand-in", "."]
    run = subprocess.run(line, cwd=folder, capture_output=True, text=True, encoding="utf-8", check=False)
    assert (run.returncode, run.stdout) == (2, "")
    assert run.stderr.startswith("bitepoint: Übung 1 ö: is no course folder")
    assert run.stderr.count("\n") == 1


@pytest.mark.parametrize(
    ("module", "heavy"),
    [
        ("bitepoint", {"matplotlib", "numpy", "IPython", "ipywidgets", "anywidget", "nbformat", "pint", "click"}),
        ("bitepoint.marking", {"matplotlib", "numpy", "IPython", "ipywidgets", "anywidget", "nbformat", "pint"}),
        ("bitepoint.cli", {"matplotlib", "numpy", "IPython", "nbformat", "nbclient", "pint", "jinja2", "msgspec"}),
        ("bitepoint.workbook.save_hook", {"matplotlib", "numpy", "IPython", "nbformat", "nbclient", "msgspec"}),
    ],
)
def test_a_quick_start_needs_nothing_heavy(module: str, heavy: set[str]) -> None:
    """Importing it loads none of the slow packages."""
    code = f"import {module}, sys, json; print(json.dumps(sorted({{m.partition('.')[0] for m in sys.modules}})))"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert set() == heavy & set(json.loads(run.stdout))
