"""Where a learner stopped is found again, and a file that cannot be used is as good as none."""

from pathlib import Path

import pytest

from bitepoint.logbook.book import Logbook
from bitepoint.logbook.bookmark import FILE, keep_bookmark, lesson_stopped_in, read_bookmark

ANSWERED = {
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


def test_a_place_is_kept_and_the_last_one_counts(tmp_path: Path) -> None:
    """Lesson, cell and offset come back; an unknown lesson and a cell without a name leave what was there."""
    keep_bookmark(tmp_path, "star", "outcomes", -12)
    keep_bookmark(tmp_path, "fault", "try-drill", -40)
    keep_bookmark(tmp_path, "no-such-lesson", "title", 0)
    keep_bookmark(tmp_path, "star", "", 0)
    mark = read_bookmark(tmp_path)
    assert mark is not None
    assert ("fault", "try-drill", -40) == (mark.lesson, mark.cell, mark.by)
    assert "fault" == lesson_stopped_in(tmp_path)


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        '{"lesson": "star"}',
        '{"lesson": "../x", "cell": "title", "by": 0, "at": 0}',
        '{"lesson": "star", "cell": "title", "by": "0", "at": 0}',
        '{"lesson": "star", "cell": "' + "x" * 65 + '", "by": 0, "at": 0}',
        "[" * 1001,
    ],
)
def test_a_bookmark_that_cannot_be_used_is_none(tmp_path: Path, text: str) -> None:
    """Cut, swollen, of another lesson or kind: it is passed over."""
    (tmp_path / FILE).write_text(text, encoding="utf-8")
    assert read_bookmark(tmp_path) is None
    assert "" == lesson_stopped_in(tmp_path)


def test_nothing_is_written_through_a_link_or_into_a_folder_that_is_gone(tmp_path: Path) -> None:
    """A link in its place is replaced, what it led to stays; a moved workbook does not come back as a ghost."""
    other = tmp_path / "other"
    other.write_text("mine", encoding="utf-8")
    (tmp_path / FILE).symlink_to(other)
    assert read_bookmark(tmp_path) is None
    keep_bookmark(tmp_path, "star", "title", 0)
    assert ("mine", False) == (other.read_text(encoding="utf-8"), (tmp_path / FILE).is_symlink())
    keep_bookmark(tmp_path / "gone", "star", "title", 0)
    assert not (tmp_path / "gone").exists()


def test_without_a_bookmark_the_last_answer_tells(tmp_path: Path) -> None:
    """Where the page kept no place, the lesson answered last is the one."""
    Logbook(tmp_path, lesson="star", device="0a1b2c3d").append(ANSWERED)
    Logbook(tmp_path, lesson="kit", device="0a1b2c3d").append(
        ANSWERED | {"exercise": "kit.label", "at": "2026-04-14T08:00:01.000Z"}
    )
    assert "kit" == lesson_stopped_in(tmp_path)
