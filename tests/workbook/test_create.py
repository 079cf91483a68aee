"""A workbook is made whole, completed later, and never written over."""

from pathlib import Path

import pytest

from bitepoint.errors import BadData, BadInput, CannotRun
from bitepoint.logbook import Identity, Logbook
from bitepoint.logbook.identity import FILE, read_identity
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.own_folder import own_folder

from .small_course import LEARNER, notebook, read, ship, write

ANSWER = {
    "at": "2026-04-14T08:00:00.000Z",
    "learner": "anna",
    "class": "oak-2026",
    "device": "0a1b2c3d",
    "exercise": "star.six-bolts",
    "revision": 1,
    "turn": 1,
    "facts": "5c2dbcd5910b59bf",
    "how": "drill",
    "answer": "1 4 2 5 3 6",
}


def test_a_new_workbook_has_the_lessons_and_says_whose_it_is(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Each shipped lesson is put in, and workbook.toml names the learner."""
    course = ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"), second=notebook("2 + 2"))
    folder = tmp_path / "Übung 1 ö"
    said = make_workbook(folder, LEARNER)
    assert said == []
    assert read(course / "first.ipynb") == read(folder / "first.ipynb")
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


def test_a_folder_is_never_given_to_another_learner(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """It keeps its learner, answered or not; nothing in it changes."""
    ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"))
    folder = tmp_path / "work"
    make_workbook(folder, LEARNER)
    for other in (Identity(learner="ben", class_word="autumn"), Identity(learner="ann", class_word="spring")):
        with pytest.raises(BadInput, match="is the course folder of ann in class autumn. Name another folder for"):
            make_workbook(folder, other)
    assert ("ann", "autumn") == (read_identity(folder / FILE).learner, read_identity(folder / FILE).class_word)
    assert [] == make_workbook(folder, Identity(learner="ANN", class_word="autumn", feedback="after hand-in"))


def test_a_folder_in_which_nobody_has_begun_can_become_somebodys(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is said; once something was answered there it stays as it is."""
    ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"))
    nobody = Identity(learner="self-study", class_word="self-study")
    for name in ("one", "two"):
        make_workbook(tmp_path / name, nobody)
    said = make_workbook(tmp_path / "one", LEARNER)
    assert [f"Nobody had said who works in {tmp_path / 'one'}. Now it is ann in class autumn."] == said
    (tmp_path / "two" / "logbook").mkdir()
    (tmp_path / "two" / "logbook" / "star.x.jsonl").write_text("a line\n", encoding="ascii")
    with pytest.raises(BadInput, match="is the course folder of self-study"):
        make_workbook(tmp_path / "two", LEARNER)


@pytest.mark.parametrize("left", [b"", b"\0" * 300, b'learner = "L07', b"\xff\xfel\0", b'learner = "L07-K"\n'])
def test_a_workbook_file_that_cannot_be_read_is_put_right_by_who_says_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, left: bytes
) -> None:
    """What a power cut left of it is told with the line that mends it; another learner's folder is not taken over."""
    work = tmp_path / "work"
    ship(tmp_path / "course", monkeypatch, first=notebook("1 + 1"))
    make_workbook(work, Identity(learner="anna", class_word="oak-2026"))
    Logbook(work, lesson="star", device="0a1b2c3d").append(ANSWER)
    (work / FILE).write_bytes(left)
    with pytest.raises(BadData, match="bitepoint open FOLDER --learner ID --class-word WORD, or --class-file"):
        own_folder(work, named=True)
    with pytest.raises(BadInput, match="is the course folder of anna in class oak-2026"):
        own_folder(work, named=True, learner="bert", class_word="oak-2026")
    place, identity = own_folder(work, named=True, learner="Anna", class_word="oak-2026")
    said = make_workbook(place, identity)

    assert [f"{FILE} could not be read any more. Now it says again who works here: Anna."] == said
    assert ("Anna", "oak-2026") == (read_identity(work / FILE).learner, read_identity(work / FILE).class_word)


def test_an_installation_without_lessons_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """No lessons: nothing is made."""
    ship(tmp_path / "course", monkeypatch)
    with pytest.raises(CannotRun, match="Install bitepoint again"):
        make_workbook(tmp_path / "work", LEARNER)
    assert not (tmp_path / "work").exists()
