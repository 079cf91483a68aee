"""The hand-in zip of a workbook."""

import zipfile
from datetime import datetime
from pathlib import Path

import pytest

from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadInput
from bitepoint.logbook.book import Logbook
from bitepoint.logbook.handin import MADE_WITH, make_hand_in
from bitepoint.logbook.identity import Identity, write_identity

FIELDS = {
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


def test_without_answers_there_is_nothing_to_hand_in(tmp_path: Path) -> None:
    """The learner is told to answer first."""
    write_identity(Identity(learner="L07-K", class_word="oak-2026"), tmp_path)

    with pytest.raises(BadInput, match="Nothing was answered yet"):
        make_hand_in(tmp_path)


def test_another_folder_is_no_workbook(tmp_path: Path) -> None:
    """The message says which folder to name."""
    with pytest.raises(BadInput, match="is no course folder"):
        make_hand_in(tmp_path)
