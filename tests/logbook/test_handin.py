"""The hand-in zip of a workbook."""

import errno
import io
import os
import time
import zipfile
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadInput
from bitepoint.logbook.book import Logbook
from bitepoint.logbook.handin import HAND_IN_FOLDER, MADE_WITH, last_made, make_hand_in, pack_hand_in
from bitepoint.logbook.identity import Identity, write_identity

FIELDS: dict[str, Any] = {
    "at": "2026-04-14T08:00:00.000Z",
    "learner": "L07-K",
    "class": "oak-2026",
    "device": "0a1b2c3d",
    "exercise": "star.six-bolts",
    "revision": 1,
    "turn": 1,
    "facts": "5c2dbcd5910b59bf",
    "how": "drill",
    "answer": "1 4 2 5 3 6",
}


def workbook(folder: Path) -> Path:
    """Return a workbook with one answer, a lesson, a picture and a link."""
    folder.mkdir(exist_ok=True)
    write_identity(Identity(learner="L07-K", class_word="oak-2026"), folder)
    Logbook(folder, lesson="star", device="0a1b2c3d").append(FIELDS)
    (folder / "08-star-tightening.ipynb").write_text("{}", encoding="utf-8")
    (folder / "photo.png").write_bytes(b"x")
    (folder / "link.ipynb").symlink_to(folder / "08-star-tightening.ipynb")
    return folder


def test_it_holds_the_record_the_lessons_and_who_it_is_from(tmp_path: Path) -> None:
    """Nothing else goes in but which bank it was made with: no locks, no pictures, no links."""
    path = make_hand_in(workbook(tmp_path), now=datetime(2026, 6, 30, 12, 0))

    assert path.name == "L07-K-20260630-120000.zip"
    with zipfile.ZipFile(path) as archive:
        kept = ["workbook.toml", "logbook/star.0a1b2c3d.jsonl", "08-star-tightening.ipynb"]
        assert [*kept, MADE_WITH] == archive.namelist()
        assert f'bank = "{bank_digest()}"' in archive.read(MADE_WITH).decode("utf-8")


@pytest.mark.parametrize("year", [1938, 1970, 1979, 2038, 2108, 2900])
def test_a_clock_that_is_wrong_by_years_stops_no_hand_in(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, year: int
) -> None:
    """A laptop whose battery was empty says 1970, and its files do: a zip cannot hold such a day, and is made all the same."""
    then = datetime(year, 1, 3, 12, 0)
    work = workbook(tmp_path)
    for path in (work / "workbook.toml", *(work / "logbook").iterdir()):
        os.utime(path, 2 * ((then - datetime(1970, 1, 1)).total_seconds(),))
    monkeypatch.setattr(time, "time", lambda: (then - datetime(1970, 1, 1)).total_seconds())
    with zipfile.ZipFile(make_hand_in(work, now=then)) as archive:
        assert archive.testzip() is None
        assert [0o100644] * 4 == [entry.external_attr >> 16 for entry in archive.infolist()]


def test_without_answers_there_is_nothing_to_hand_in(tmp_path: Path) -> None:
    """The learner is told to answer first."""
    write_identity(Identity(learner="L07-K", class_word="oak-2026"), tmp_path)

    with pytest.raises(BadInput, match="Nothing was answered yet"):
        make_hand_in(tmp_path)


def test_another_folder_is_no_workbook(tmp_path: Path) -> None:
    """The message says which folder to name."""
    with pytest.raises(BadInput, match="is no course folder"):
        make_hand_in(tmp_path)


def test_a_folder_that_takes_no_file_still_gives_the_record(tmp_path: Path) -> None:
    """The bytes hold who it is from and the logbook, not the lessons; nothing half written is left; another folder takes it."""
    book = workbook(tmp_path / "stick")
    (book / HAND_IN_FOLDER).write_text("in the way", encoding="utf-8")

    made = pack_hand_in(book)

    assert (made.path, bool(made.refused)) == (None, True)
    with zipfile.ZipFile(io.BytesIO(made.content)) as archive:
        assert ["workbook.toml", "logbook/star.0a1b2c3d.jsonl", MADE_WITH] == archive.namelist()
    with pytest.raises(BadInput, match="--into FOLDER"):
        make_hand_in(book)
    assert make_hand_in(book, into=tmp_path / "Übung ö").is_file()
    assert [] == [path for path in book.iterdir() if path.name.endswith(".part")]


def test_a_full_disk_is_named(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What the system says of it stands in the sentence."""
    book = workbook(tmp_path)

    def full(path: Path, content: bytes) -> None:
        raise OSError(errno.ENOSPC, "No space left on device", str(path))

    monkeypatch.setattr("bitepoint.logbook.handin.write_in_one_step", full)
    assert "No space left on device" == pack_hand_in(book).refused
    with pytest.raises(BadInput, match="No space left on device"):
        make_hand_in(book)


def test_what_was_made_when_is_told_and_what_came_since(tmp_path: Path) -> None:
    """The newest counts; an answer after it is one that was not handed in; other files in the folder are passed over."""
    book = workbook(tmp_path)
    assert last_made(book) is None
    answered = datetime.fromisoformat(FIELDS["at"]).astimezone().replace(tzinfo=None)
    make_hand_in(book, now=answered - timedelta(hours=1))
    (book / HAND_IN_FOLDER / "L07-K-99999999-999999.zip").write_bytes(b"")
    (book / HAND_IN_FOLDER / "photos.zip").write_bytes(b"")
    last = last_made(book)
    assert last is not None
    assert (answered - timedelta(hours=1), 1, 1) == (last.at, last.made, last.answers_since)
    make_hand_in(book, now=answered + timedelta(hours=1))
    last = last_made(book)
    assert last is not None
    assert (answered + timedelta(hours=1), 2, 0) == (last.at, last.made, last.answers_since)
