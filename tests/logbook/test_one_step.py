"""Files replaced in one step: a reader sees the old one or the new one, whatever stops the writer."""

import errno
import os
from pathlib import Path

import pytest

from bitepoint.errors import NotRecorded
from bitepoint.logbook.book import Logbook
from bitepoint.logbook.one_step import write_in_one_step, write_together


def refuse(monkeypatch: pytest.MonkeyPatch, name: str) -> None:
    """Let no file of this name be replaced, as where another program has it open."""
    replace = os.replace

    def refusing(source: Path, target: Path) -> None:
        if name in (Path(source).name, Path(target).name):
            raise PermissionError(13, "Permission denied", str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", refusing)


def test_a_file_is_replaced_and_nothing_is_left_beside_it(tmp_path: Path) -> None:
    """New where there was none, and new in place of an old one."""
    for content in (b"one", b"two"):
        write_in_one_step(tmp_path / "a.csv", content)

        assert content == (tmp_path / "a.csv").read_bytes()
        assert [tmp_path / "a.csv"] == list(tmp_path.iterdir())


def test_a_name_as_long_as_a_system_takes_is_written(tmp_path: Path) -> None:
    """255 bytes leave no room for an ending of the part that is written first."""
    for name in ("n" * 255, "ü" * 127 + "n"):
        write_in_one_step(tmp_path / name, b"new")
    assert {"n" * 255, "ü" * 127 + "n"} == {path.name for path in tmp_path.iterdir()}


def test_a_file_that_cannot_be_replaced_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The old one is whole, and no part lies beside it."""
    (tmp_path / "a.csv").write_bytes(b"old")
    refuse(monkeypatch, "a.csv")

    with pytest.raises(PermissionError):
        write_in_one_step(tmp_path / "a.csv", b"new")
    assert [("a.csv", b"old")] == [(p.name, p.read_bytes()) for p in tmp_path.iterdir()]


@pytest.mark.parametrize("code", ["EINVAL", "ENOSYS", "EOPNOTSUPP"])
def test_a_file_system_that_cannot_be_told_to_keep_a_file_takes_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: str
) -> None:
    """A share may know no such request: files and answers are written there all the same."""

    def unknown(descriptor: int) -> None:
        raise OSError(getattr(errno, code), os.strerror(getattr(errno, code)))

    monkeypatch.setattr(os, "fsync", unknown)
    write_in_one_step(tmp_path / "a.csv", b"new")
    Logbook(tmp_path, lesson="star", device="0a1b2c3d").append({"exercise": "star.six-bolts", "answer": "1"})

    assert b"new" == (tmp_path / "a.csv").read_bytes()
    assert b'"answer":"1"' in (tmp_path / "logbook" / "star.0a1b2c3d.jsonl").read_bytes()


def test_a_disk_that_fails_to_keep_a_line_is_told_and_the_line_taken_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """What may not be on the disk is not acknowledged, and does not stand in the file either."""

    def fails(descriptor: int) -> None:
        raise OSError(errno.EIO, os.strerror(errno.EIO))

    monkeypatch.setattr(os, "fsync", fails)
    with pytest.raises(NotRecorded, match="cannot be written \\(Input/output error\\)"):
        Logbook(tmp_path, lesson="star", device="0a1b2c3d").append({"exercise": "star.six-bolts", "answer": "1"})
    assert b"" == (tmp_path / "logbook" / "star.0a1b2c3d.jsonl").read_bytes()


def test_files_that_belong_together_are_all_written_before_one_is_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A disk that is full at the second leaves the first as it was."""
    files = {tmp_path / "a.csv": b"new", tmp_path / "b.csv": b"new"}
    for path in files:
        path.write_bytes(b"old")
    synced: list[int] = []

    def full(descriptor: int) -> None:
        synced.append(descriptor)
        if len(synced) == 2:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match="No space left"):
        write_together(files)
    assert [("a.csv", b"old"), ("b.csv", b"old")] == sorted((p.name, p.read_bytes()) for p in tmp_path.iterdir())


def test_a_planted_link_leads_no_writing_elsewhere(tmp_path: Path) -> None:
    """The part is a new one, and a link in the file's place is replaced, not followed."""
    other = tmp_path / "letter.txt"
    other.write_text("dear", encoding="utf-8")
    for name in (".star.ipynb.part", "star.ipynb"):
        (tmp_path / name).symlink_to(other)
    write_in_one_step(tmp_path / "star.ipynb", b"new")
    assert ("dear", "new") == tuple(p.read_text(encoding="utf-8") for p in (other, tmp_path / "star.ipynb"))
