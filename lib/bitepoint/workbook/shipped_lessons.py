"""What was put into a workbook, so that a later version knows which lessons the learner has touched.

Kept in the workbook, where it travels with the lessons. Whoever can write in the folder can forge it, so nothing is run
on its word. Lost, it makes every lesson count as touched; forged, it lets a lesson be replaced by the shipped one, or
keeps an old one.
"""

from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.workbook.asleep import asleep
from bitepoint.workbook.notebooks import Notebook, as_text, fingerprint, read_notebook

FILE = ".bitepoint-lessons.json"


class LessonFiles(Struct, kw_only=True):
    """The record of one workbook.

    `files`: file name to the fingerprint it had when we put it there. `offered`: lesson to the fingerprint of
    the latest version the learner was given, in place or beside.
    """

    files: dict[str, str] = {}
    offered: dict[str, str] = {}

    def put(self, path: Path, lesson: Path) -> None:
        """Put a shipped lesson into the workbook under this name, asleep, and note its fingerprint."""
        notebook = read_notebook(lesson)
        if notebook:
            self.put_notebook(path, notebook)
            return
        write_in_one_step(path, lesson.read_bytes())
        self.files[path.name] = fingerprint(None)

    def put_notebook(self, path: Path, notebook: Notebook) -> str:
        """Put a lesson into the workbook under this name, asleep; note its fingerprint and return it."""
        write_in_one_step(path, as_text(asleep(notebook)).encode("utf-8"))
        self.files[path.name] = fingerprint(notebook)
        return self.files[path.name]


def read_lesson_files(workbook: Path) -> LessonFiles:
    """Return the record; an empty one if it is missing or unreadable."""
    path = workbook / FILE
    try:
        return msgspec.json.decode(path.read_bytes(), type=LessonFiles) if path.is_file() else LessonFiles()
    except (OSError, msgspec.MsgspecError, ValueError, RecursionError):
        return LessonFiles()


def write_lesson_files(workbook: Path, record: LessonFiles) -> None:
    """Keep the record."""
    write_in_one_step(workbook / FILE, msgspec.json.format(msgspec.json.encode(record), indent=1))
