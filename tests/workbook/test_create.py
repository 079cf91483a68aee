"""A workbook is made whole, completed later, and never written over."""

from pathlib import Path

import pytest

from bitepoint.errors import BadInput, CannotRun
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import read_identity
from bitepoint.workbook.create import make_workbook, owner

from .small_course import LEARNER, notebook, read, ship, write


def test_a_new_workbook_has_the_lessons_and_says_whose_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each shipped lesson is copied as it is, and workbook.toml names the learner."""
    course = ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"), second=notebook("2 + 2"))
    folder = tmp_path / "Übung 1 ö"
    said = make_workbook(folder, LEARNER)
    assert said == []
    assert (course / "first.ipynb").read_bytes() == (folder / "first.ipynb").read_bytes()
    assert read_identity(folder / "workbook.toml").learner == "ann"


def test_a_lesson_that_is_there_is_never_written_over(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A second making puts the missing lesson in, says so, and leaves the learner's own work."""
    ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"), second=notebook("2 + 2"))
    folder = tmp_path / "work"
    make_workbook(folder, LEARNER)
    write(folder / "first.ipynb", notebook("my own work"))
    (folder / "second.ipynb").unlink()
    said = make_workbook(folder, LEARNER)
    assert said == ["second.ipynb was not there; a fresh one was put in."]
    assert notebook("my own work") == read(folder / "first.ipynb")


def test_a_folder_with_other_files_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Lessons are not strewn among somebody's other files."""
    ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"))
    folder = tmp_path / "documents"
    folder.mkdir()
    (folder / "letter.txt").write_text("dear", encoding="utf-8")
    with pytest.raises(BadInput, match="has other files in it and is no course folder"):
        make_workbook(folder, LEARNER)
    assert [path.name for path in folder.iterdir()] == ["letter.txt"]


def test_a_file_is_no_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A file in the place of the folder is refused."""
    ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"))
    (tmp_path / "work").write_text("x", encoding="utf-8")
    with pytest.raises(BadInput, match="is a file, not a folder"):
        make_workbook(tmp_path / "work", LEARNER)


def test_a_folder_with_answers_is_not_given_to_another_learner(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Once something is answered the folder keeps its learner; before that it can change."""
    ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"))
    folder = tmp_path / "work"
    make_workbook(folder, LEARNER)
    ben = Identity(learner="ben", class_word="autumn")
    make_workbook(folder, ben)
    found = owner(folder)
    assert found is not None
    assert found.learner == "ben"
    monkeypatch.setattr("bitepoint.workbook.create.read_folder", lambda _: {"star": ["a line"]})
    with pytest.raises(BadInput, match="holds the answers of ben in class autumn"):
        make_workbook(folder, LEARNER)


def test_an_installation_without_lessons_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No lessons: nothing is made."""
    ship(tmp_path / "course", monkeypatch)
    with pytest.raises(CannotRun, match="Install bitepoint again"):
        make_workbook(tmp_path / "work", LEARNER)
    assert not (tmp_path / "work").exists()
