"""Check codes noted by the board itself: the latest of each learner and lesson, in the form that note-codes reads."""

import csv
import io
from collections.abc import Iterable
from datetime import datetime
from pathlib import Path

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.classroom.boards.cells import ClassBoard, File
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.logbook.record import check_code
from bitepoint.marking.marks import BOM, cell
from bitepoint.marking.registry.tables import read_table

COLUMNS = ("learner", "lesson", "code", "noted at", "folder")


class Note(Struct, frozen=True):
    """One noted code; `folder` says whose logbook it was read in."""

    learner: str
    lesson: str
    code: str
    at: str
    folder: str = ""


class Codes:
    """The codes of a class, one for each logbook file.

    A newer code takes the place of an older one only while the older line is still in the file. After a rewriting
    both stay, so that marking can tell.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._kept: list[Note] = _read(path)
        self._now: dict[str, tuple[str, Note]] = {}
        self._written = ""

    def update(self, board: ClassBoard, now: datetime) -> None:
        """Note what is new."""
        lessons = {e.lesson for e in exercises().values()}
        for name, file in board.files.items():
            if file.last is None or self._now.get(name, ("",))[0] == file.last[2]:
                continue
            learner, lesson, hash = file.last
            if lesson not in lessons or not _is_name(learner):
                continue
            older = self._now.get(name)
            if older and older[0] not in file.lines:
                self._kept.append(older[1])
            note = Note(learner, lesson, check_code(hash), now.isoformat(timespec="seconds"), file.folder)
            self._now[name] = (hash, note)

    def notes(self, board: ClassBoard) -> list[Note]:
        """Return every note that stands, those of earlier days too unless a newer one of the same logbook covers them."""
        wanted = {(n.learner.casefold(), n.lesson, n.code) for n in self._kept}
        covered = _codes_in(board.files.values(), wanted)
        kept = [n for n in self._kept if (n.learner.casefold(), n.lesson, n.code) not in covered]
        found = {(n.learner, n.lesson, n.code): n for n in (*kept, *(note for _, note in self._now.values()))}
        return sorted(found.values(), key=lambda n: (n.learner.casefold(), n.lesson, n.at, n.code))

    def write(self, board: ClassBoard) -> bool:
        """Write the file in one step; return whether it changed.

        Raises
        ------
        BadInput
            It cannot be written.
        """
        out = io.StringIO(newline="")
        out.write(BOM)
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(COLUMNS)
        writer.writerows([n.learner, n.lesson, n.code, n.at, cell(n.folder)] for n in self.notes(board))
        text = out.getvalue()
        if text == self._written:
            return False
        try:
            write_in_one_step(self.path, text.encode("utf-8"))
        except OSError as error:
            raise BadInput(
                f"{self.path.name}: the check codes cannot be written ({error.strerror}). Close it in other programs."
            ) from None
        self._written = text
        return True


def _codes_in(files: Iterable[File], wanted: set[tuple[str, str, str]]) -> set[tuple[str, str, str]]:
    """Return which of the wanted (learner, lesson, code) are the code of a line that is there."""
    who = {(learner, lesson) for learner, lesson, _ in wanted}
    found = set()
    for file in files:
        if file.last and (key := (file.last[0].casefold(), file.last[1])) in who:
            found |= {(*key, code) for hash in file.lines if (code := _code(hash))}
    return found & wanted


def _code(hash: str) -> str:
    try:
        return check_code(hash)
    except ValueError:
        return ""


def _is_name(learner: str) -> bool:
    try:
        return bool(checked_name(learner, "The learner id"))
    except BadInput:
        return False


def _read(path: Path) -> list[Note]:
    """Return the notes of earlier days; a file that is not there has none."""
    if not path.exists():
        return []
    rows = read_table(path, COLUMNS[:4], may_be_empty=True)
    return [Note(r["learner"], r["lesson"], r["code"], r["noted at"], r.get("folder", "")) for _, r in rows]
