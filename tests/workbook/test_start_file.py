"""The file to double-click starts this Python's bitepoint on the folder it lies in."""

import subprocess
from pathlib import Path

import pytest

from bitepoint.workbook.start_file import shortcut, start_file, write_shortcut, write_start_file


@pytest.mark.parametrize(
    ("platform", "name"),
    [("darwin", "Open my course.command"), ("win32", "Open my course.bat"), ("linux", "Open my course.sh")],
)
def test_each_system_gets_the_kind_it_opens_by_a_double_click(platform: str, name: str) -> None:
    """The name's ending is the one of the system, and the text names the Python asked for."""
    found, text = start_file(platform, python="/opt/py 3/bin/python")
    assert name == found
    assert "/opt/py 3/bin/python" in text
    assert "-P -m bitepoint open" in text


def test_the_windows_file_doubles_percent_signs_and_ends_lines_as_windows_does() -> None:
    """A per cent sign in the path is not taken for a variable."""
    _, text = start_file("win32", python=r"C:\100%\python.exe")
    assert r'"C:\100%%\python.exe" -P -m bitepoint open "%~dp0."' in text.split("\r\n")


def test_it_opens_its_own_folder_from_anywhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Started from another folder, it passes on the folder it lies in, blanks and accents included."""
    folder = tmp_path / "Übung 1 ö"
    folder.mkdir()
    told = tmp_path / "told by $HOME"
    told.write_text('#!/bin/sh\nprintf "%s|" "$@"\n', encoding="utf-8")
    told.chmod(0o755)
    monkeypatch.setattr("bitepoint.workbook.start_file.start_file", lambda: start_file("linux", python=str(told)))
    path = write_start_file(folder)
    run = subprocess.run([path], cwd="/", capture_output=True, text=True, encoding="utf-8", check=True)
    assert f"-P|-m|bitepoint|open|{folder}|" == run.stdout


def test_writing_it_again_changes_nothing(tmp_path: Path) -> None:
    """A second writing leaves the same file."""
    first = write_start_file(tmp_path).read_bytes()
    assert first == write_start_file(tmp_path).read_bytes()
    names = {path.name for path in tmp_path.iterdir()}
    assert {first_name for first_name in names if not first_name.endswith(".desktop")} == {start_file()[0]}


def test_a_failure_is_told_by_its_status(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the program ends with is what the file ends with; nobody is waited for where nobody can press a key."""
    monkeypatch.setattr("bitepoint.workbook.start_file.start_file", lambda: start_file("linux", python="false"))
    path = write_start_file(tmp_path)
    assert 1 == subprocess.run([path], stdin=subprocess.DEVNULL, check=False).returncode


@pytest.mark.parametrize(
    ("platform", "name", "line"),
    [
        ("darwin", "Open my course.command", "exec sh '/home/ann/100% \"ö\" $x/clutch-course/start'"),
        ("win32", "Open my course.bat", 'call "/home/ann/100%% "ö" $x/clutch-course/start"'),
        ("linux", "Open my course.desktop", r'Exec=sh "/home/ann/100%% \\"ö\\" \\$x/clutch-course/start"'),
    ],
)
def test_a_shortcut_calls_the_file_in_the_workbook(platform: str, name: str, line: str) -> None:
    """Blanks, quotes, signs of a shell and places for a name are taken as they are; a moved workbook is not begun anew."""
    found, text = shortcut(Path('/home/ann/100% "ö" $x/clutch-course/start'), platform)
    assert name == found
    assert line in text.splitlines()


def test_another_learners_shortcut_has_another_name(tmp_path: Path) -> None:
    """Two learners of one computer have two shortcuts."""
    assert (
        "Open my course (clutch-course-L08-J).desktop" == shortcut(tmp_path / "clutch-course-L08-J" / "x", "linux")[0]
    )


def test_shortcuts_are_written_where_they_are_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """On the desktop by its name in the user's language, and among the programs; without a desktop there alone."""
    monkeypatch.setattr("bitepoint.workbook.start_file.sys.platform", "linux")
    monkeypatch.setattr(Path, "home", lambda: tmp_path)
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    work = tmp_path / "work"
    [programs] = write_shortcut(work)
    assert tmp_path / "data" / "applications" == programs.parent
    (tmp_path / "config").mkdir()
    (tmp_path / "config" / "user-dirs.dirs").write_text('XDG_DESKTOP_DIR="$HOME/Schreibtisch ö"\n', encoding="utf-8")
    (tmp_path / "Schreibtisch ö").mkdir()
    assert [tmp_path / "Schreibtisch ö" / "Open my course (work).desktop", programs] == write_shortcut(work)
