"""A class followed in its workbooks, or read once from its hand-ins."""

import threading
import time
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

from bitepoint.classroom.boards.cells import ClassBoard
from bitepoint.classroom.boards.codes import Codes
from bitepoint.classroom.boards.files import News, Watch
from bitepoint.classroom.boards.group import Group
from bitepoint.classroom.boards.tables import lesson_keys
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name
from bitepoint.marking.reading.guard import first_of, unforeseen
from bitepoint.marking.reading.handins import find_sources, read_source
from bitepoint.printable import printable

BUDGET_SECONDS, FIRST_BUDGET_SECONDS = 0.5, 2.0
"""How long one refresh reads on before the folder is looked at again: as a rule, and until all was read once."""
CODES_SECONDS = 10.0


class FollowedClass:
    """A class as its files say. One thread refreshes; whoever reads along holds `lock`."""

    def __init__(self, folder: Path, group: Group | None = None, *, codes: Path | None = None) -> None:
        self.group = group or Group()
        self.lessons = lesson_keys(self.group.lessons)
        self.watch = Watch(folder)
        self.board = ClassBoard(self.group.class_word)
        self.codes = Codes(codes) if codes else None
        self.problems: list[str] = []
        self.ready = False
        self.trouble = ""
        self.lock = threading.Lock()
        self._codes_at = float("-inf")

    def refresh(self) -> bool:
        """Read what is new in the workbooks; return whether everything is read."""
        budget = BUDGET_SECONDS if self.ready else FIRST_BUDGET_SECONDS
        for news in self.watch.news(time.monotonic() + budget):
            with self.lock:
                self._take(news)
        self.ready = self.ready or not self.watch.waiting
        return not self.watch.waiting

    def _take(self, news: News) -> None:
        """Put new lines on the board; what an error keeps off it is told, and the others stand."""
        try:
            self.board.take(news)
        except Exception as error:
            self.problems.append(printable(f"{news.file}: {unforeseen('cannot be put on the board', error)}"))

    def note_codes(self, *, at_once: bool = False) -> None:
        """Note check codes where a file was named for them, at most every ten seconds.

        Raises
        ------
        BadInput
            The file cannot be written.
        """
        if self.codes is None or not self.ready:
            return
        with self.lock:
            self.codes.update(self.board, datetime.now(UTC))
            if at_once or time.monotonic() - self._codes_at >= CODES_SECONDS:
                self._codes_at = time.monotonic()
                self.codes.write(self.board)

    def read_once(self, progress: Callable[[int, int], None] | None = None) -> int:
        """Read hand-ins (zips, folders, notebooks, logbooks) or workbooks once; return how many were read.

        Raises
        ------
        BadInput
            There is nothing to read.
        """
        sources, problems = find_sources([self.watch.root])
        if not sources:
            raise BadInput(problems[0] if problems else f"{self.watch.root.name}: holds no hand-in and no workbook.")
        self.problems += problems
        for done, source in enumerate(sources, start=1):
            told: list[str] = []
            for hand_in in read_source(source):
                told += [*hand_in.problems, *hand_in.breaks]
                self._take(News(file=hand_in.name, folder=hand_in.name, lines=list(hand_in.lines), chained=False))
            self.problems += first_of(told, source.name, rest="Marking keeps them all.")
            if progress:
                progress(done, len(sources))
        self.ready = True
        return len(sources)

    def said(self) -> list[str]:
        """Return what a person should look at, one sentence each."""
        return [*self.problems, *self.watch.said(), *self.board.said()]

    def workbook_learners(self) -> list[str]:
        """Return whose workbooks are there, as the workbooks say."""
        found = []
        for book in list(self.watch.books.values()):
            try:
                found.append(checked_name(book.hint(), "The learner id"))
            except BadInput:
                continue
        return found
