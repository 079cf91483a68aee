"""Drafts: what is begun is found again by its owner alone, whole and small, and nothing else is ever read or touched."""

import json
import os
from pathlib import Path

import pytest
from msgspec import structs

from bitepoint.logbook.draft import FOLDER, MAX_BYTES, Owner, keep_draft, read_draft
from bitepoint.logbook.identity import FILE

OWNER = Owner(learner="l07-k", class_word="oak", sitting="", exercise="torque.order", turn=1, facts="0123456789abcdef")
ROW = ["c", "a", "/"]


@pytest.fixture
def workbook(tmp_path: Path) -> Path:
    (tmp_path / FILE).write_text("", encoding="utf-8")
    return tmp_path


def _file(workbook: Path) -> Path:
    return workbook / FOLDER / "torque.order.json"


@pytest.mark.parametrize("begun", [ROW, {"row": ["b"]}, [{"bolt": 1, "setting": None}], {"at": 3, "held": True}])
def test_what_was_begun_is_found_again(workbook: Path, begun: object) -> None:
    """As it was; the newest in place of the one before, and no other file is left."""
    keep_draft(workbook, OWNER, ["before"])
    keep_draft(workbook, OWNER, begun)
    assert read_draft(workbook, OWNER) == begun
    assert [path.name for path in (workbook / FOLDER).iterdir()] == ["torque.order.json"]


@pytest.mark.parametrize(
    "other",
    [{"learner": "l08-k"}, {"class_word": "elm"}, {"sitting": "may"}, {"turn": 2}, {"facts": "f" * 16}],
)
def test_nobody_elses_draft_is_read(workbook: Path, other: dict[str, object]) -> None:
    """Another learner, class, sitting, turn, or a question that changed: nothing is there."""
    keep_draft(workbook, structs.replace(OWNER, **other), ROW)
    assert read_draft(workbook, OWNER) is None


@pytest.mark.parametrize("begun", [[], {}, None, ["x" * MAX_BYTES], ["\ud800"]])
def test_nothing_or_too_much_keeps_nothing(workbook: Path, begun: object) -> None:
    """A row put back or grown out of all measure leaves no file that a later page would take for it."""
    keep_draft(workbook, OWNER, ROW)
    keep_draft(workbook, OWNER, begun)
    assert read_draft(workbook, OWNER) in (None, ROW if begun == ["\ud800"] else None)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"no json",
        b"[" * 9000,
        b'{"owner":{},"begun":[],"check":""}',
        b"x" * (MAX_BYTES + 1),
        b"\xff\xfe",
    ],
)
def test_what_is_no_draft_is_not_read(workbook: Path, content: bytes) -> None:
    """Damaged, swollen or nested without end: as if nothing were there."""
    keep_draft(workbook, OWNER, ROW)
    _file(workbook).write_bytes(content)
    assert read_draft(workbook, OWNER) is None


def test_an_edited_draft_is_not_read(workbook: Path) -> None:
    """Row, owner or check changed by hand: as if nothing were there."""
    keep_draft(workbook, OWNER, ROW)
    written = json.loads(_file(workbook).read_text(encoding="utf-8"))
    for change in ({"begun": ["b"]}, {"owner": written["owner"] | {"turn": 2}}, {"check": "0" * 16}):
        _file(workbook).write_text(json.dumps(written | change), encoding="utf-8")
        assert read_draft(workbook, OWNER) is None
        assert read_draft(workbook, structs.replace(OWNER, turn=2)) is None


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="links")
def test_nothing_is_written_or_read_through_a_link(workbook: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    """Neither a folder nor a file that leads out of the workbook."""
    away = tmp_path_factory.mktemp("away")
    (workbook / FOLDER).symlink_to(away, target_is_directory=True)
    keep_draft(workbook, OWNER, ROW)
    assert list(away.iterdir()) == []
    (away / "torque.order.json").write_text("mine", encoding="utf-8")
    keep_draft(workbook, OWNER, [])
    assert read_draft(workbook, OWNER) is None
    (workbook / FOLDER).unlink()
    (workbook / FOLDER).mkdir()
    _file(workbook).symlink_to(away / "torque.order.json")
    assert read_draft(workbook, OWNER) is None
    keep_draft(workbook, OWNER, ROW)
    assert (away / "torque.order.json").read_text(encoding="utf-8") == "mine"
    assert read_draft(workbook, OWNER) == ROW


def test_a_moved_workbook_does_not_come_back(tmp_path: Path) -> None:
    """No folder is made where the workbook was, and nobody is stopped."""
    keep_draft(tmp_path / "gone", OWNER, ROW)
    assert list(tmp_path.iterdir()) == []
