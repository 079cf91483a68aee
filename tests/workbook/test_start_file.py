"""The file to double-click starts this Python's bitepoint on the folder it lies in."""

import subprocess
from pathlib import Path

import pytest

from bitepoint.workbook.start_file import start_file, write_start_file


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
    assert len(list(tmp_path.iterdir())) == 1
