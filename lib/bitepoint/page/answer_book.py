"""The logbook as a page writes into it: one chain of one learner, read anew at each answer, refused once when lines are gone."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

from bitepoint import __version__
from bitepoint.errors import NotRecorded, NotUnderstood
from bitepoint.logbook import Identity, Line, Logbook, Record, read_folder
from bitepoint.logbook.book import utc_now
from bitepoint.logbook.device import device_name
from bitepoint.logbook.presence import check_presence, lines_gone, lines_missing, remember
from bitepoint.logbook.record import MAX_ANSWER, read_line, write_line

_told_missing: dict[tuple[Path | None, str], int] = {}
"""How many missing lines the learner was told of, by workbook and chain."""


def refuse_long(answer: object) -> None:
    """Refuse what a logbook line may not hold: it would be set aside unread when marked.

    Raises
    ------
    NotUnderstood
        It is too long.
    """
    length = len(answer if isinstance(answer, str) else json.dumps(answer, ensure_ascii=False))
    if length > MAX_ANSWER:
        raise NotUnderstood(
            f"The answer is {length:,} characters long; {MAX_ANSWER:,} is the most. Nothing is recorded: write it shorter."
        )


class AnswerBook:
    """One chain of a learner's logbook; `name` is the first part of its files' names, a lesson or recall's own.

    Of the practice learner nothing is kept: the lines live as long as the session.
    """

    def __init__(self, identity: Identity, name: str) -> None:
        self.identity, self.name = identity, name
        self._missing, self._told = 0, _told_missing.get(self._place, 0)

    @property
    def _place(self) -> tuple[Path | None, str]:
        return self.identity.folder, self.name

    def lines(self, mine: Callable[[Record | None], bool]) -> list[Line]:
        """Return the kept lines that are meant, of every device, and see whether some are gone."""
        folder = self.identity.folder
        if folder is None:
            return []
        files = read_folder(folder, self.name)
        self._missing = lines_missing(folder, self.name, files)
        return [line for lines in files.values() for line in lines if mine(line.record)]

    def lines_before_answer(self, mine: Callable[[Record | None], bool]) -> list[Line]:
        """Return the lines as they are now, for another page may have answered meanwhile.

        Raises
        ------
        NotRecorded
            The workbook is gone or somebody else's; or lines are gone, said once in each form that was open: a new logbook
            is never begun without a word.
        """
        check_presence(self.identity)
        found = self.lines(mine)
        if self._missing > self._told:
            _told_missing[self._place] = self._missing
            raise NotRecorded(
                f"Your answer was not recorded: {lines_gone(self._missing)} "
                "Then run this cell again and answer once more."
            )
        return found

    def fields(self, **more: Any) -> dict[str, Any]:
        """Return the fields of a line: when and who, then what it is about, then by which program."""
        return {
            "at": utc_now(),
            "learner": self.identity.learner,
            "class": self.identity.class_word,
            "device": device_name() if self.identity.kept else "practice",
            **more,
            "solution_shown": False,
            "tool": f"bitepoint {__version__}",
        }

    def append(self, fields: dict[str, Any], *, after: int) -> Line:
        """Write a line and return it as written; `after` how many the session has, where nothing is kept.

        Raises
        ------
        NotRecorded
            The logbook does not take it.
        """
        if self.identity.folder is None:
            return read_line(write_line(fields, n=after + 1, prev="").encode("ascii"))
        book = Logbook(self.identity.folder, lesson=self.name, device=fields["device"])
        line = book.append(fields)
        if line.record:
            remember(self.identity.folder, book.path.name, line.record.n)
        return line
