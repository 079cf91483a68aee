"""Where a learner stopped reading: one small file of the workbook, so that it goes with it to another computer.

It is convenience alone. Nothing is marked by it, and whatever is wrong with it, it counts as not there.
"""

import contextlib
import time
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.bank.lessons import lessons_in_use
from bitepoint.logbook.book import read_folder
from bitepoint.logbook.one_step import write_in_one_step

FILE = ".bookmark.json"
_MOST_BYTES = 1000
_LONGEST_CELL_ID = 64


class Bookmark(Struct, frozen=True):
    """A place in a lesson: the cell at the top of the screen, how far below the top it begins [px], when [ms since 1970]."""

    lesson: str
    cell: str
    by: int
    at: int


def keep_bookmark(workbook: Path, lesson: str, cell: str, by: int) -> None:
    """Write where the learner is; a folder that cannot be written keeps none."""
    mark = Bookmark(lesson, cell, by, time.time_ns() // 1_000_000)
    if _is_usable(mark) and workbook.is_dir():
        with contextlib.suppress(OSError):
            write_in_one_step(workbook / FILE, msgspec.json.encode(mark))


def read_bookmark(workbook: Path) -> Bookmark | None:
    """Return where the learner stopped, None where nothing usable says so."""
    path = workbook / FILE
    try:
        if path.is_symlink() or not path.is_file() or path.stat().st_size > _MOST_BYTES:
            return None
        mark = msgspec.json.decode(path.read_bytes(), type=Bookmark)
    except (OSError, ValueError, RecursionError):
        return None
    return mark if _is_usable(mark) else None


def lesson_stopped_in(workbook: Path) -> str:
    """Return the key of the lesson read last, else of the one answered last; "" where nobody began."""
    if mark := read_bookmark(workbook):
        return mark.lesson
    records = (line.record for lines in read_folder(workbook).values() for line in lines)
    answered = [(record.at, record.exercise.partition(".")[0]) for record in records if record and not record.is_recall]
    last = max(answered, default=("", ""))[1]
    return last if last in lessons_in_use() else ""


def _is_usable(mark: Bookmark) -> bool:
    return mark.lesson in lessons_in_use() and 0 < len(mark.cell) <= _LONGEST_CELL_ID
