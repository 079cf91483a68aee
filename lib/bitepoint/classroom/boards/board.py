"""The board: a class followed in its workbooks, or read once from its hand-ins, and shown as a page."""

import threading
import time
import tomllib
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path

from msgspec import Struct

from bitepoint.classroom.boards.cells import ClassBoard
from bitepoint.classroom.boards.codes import Codes
from bitepoint.classroom.boards.files import News, Watch
from bitepoint.classroom.boards.page import View, fragment, whole_page
from bitepoint.classroom.boards.tables import lesson_keys
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name
from bitepoint.marking.reading.handins import find_sources, read_source
from bitepoint.marking.registry.tables import read_table
from bitepoint.marking.roster import key_of, read_roster
from bitepoint.marking.rules import read_rules

BUDGET_SECONDS, FIRST_BUDGET_SECONDS = 0.5, 2.0
"""How long one refresh reads on before the folder is looked at again: as a rule, and until all was read once."""
EVERY_SECONDS = 1.0
CODES_SECONDS = 10.0


class Group(Struct, frozen=True, kw_only=True):
    """What the instructor says about the class; all of it may be left out.

    `roster` holds the learner ids, `called` display names by case-folded id (only when asked for).
    """

    title: str = ""
    class_word: str = ""
    lessons: tuple[str, ...] = ()
    roster: tuple[str, ...] = ()
    called: Mapping[str, str] = {}


def group_of(class_file: Path | None, roster: Path | None, *, display_names: bool = False) -> Group:
    """Read class file and roster.

    Raises
    ------
    BadInput
        One cannot be used; names the file and what is wrong.
    """
    title, word, lessons = _class_of(class_file) if class_file else ("", "", ())
    if display_names and not roster:
        raise BadInput("The display names stand in the roster. Add it: --roster roster.csv")
    enrolled = tuple(e.learner for e in read_roster(roster).values()) if roster else ()
    called = {}
    if display_names and roster:
        rows = read_table(roster, ("learner", "name"))
        called = {key_of(row["learner"]): row.get("name", "")[:60] for _, row in rows if row.get("learner")}
    return Group(title=title, class_word=word, lessons=lessons, roster=enrolled, called=called)


def _class_of(path: Path) -> tuple[str, str, tuple[str, ...]]:
    lessons = read_rules(path).lessons
    found = tomllib.loads(path.read_text(encoding="utf-8"))
    title, word = found.get("title", ""), found.get("class_word", "")
    if not isinstance(title, str):
        raise BadInput(f"{path.name}: title must be a text in quotes.")
    try:
        return title[:120], checked_name(word, "The class word") if word else "", lessons
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None


class Board:
    """A class and its pages. One thread refreshes, any may ask for a page."""

    def __init__(self, folder: Path, group: Group | None = None, *, codes: Path | None = None) -> None:
        self.group = group or Group()
        self.lessons = lesson_keys(self.group.lessons)
        self.watch = Watch(folder)
        self.board = ClassBoard(self.group.class_word)
        self.codes = Codes(codes) if codes else None
        self.problems: list[str] = []
        self.ready = False
        self.trouble = ""
        self._lock = threading.Lock()
        self._pages: dict[View, tuple[str, str]] = {}
        self._codes_at = float("-inf")

    def refresh(self) -> bool:
        """Read what is new in the workbooks; return whether everything is read."""
        budget = BUDGET_SECONDS if self.ready else FIRST_BUDGET_SECONDS
        for news in self.watch.news(time.monotonic() + budget):
            with self._lock:
                self.board.take(news)
        self.ready = self.ready or not self.watch.waiting
        return not self.watch.waiting

    def note_codes(self, *, at_once: bool = False) -> None:
        """Note check codes where a file was named for them, at most every ten seconds.

        Raises
        ------
        BadInput
            The file cannot be written.
        """
        if self.codes is None or not self.ready:
            return
        with self._lock:
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
            for hand_in in read_source(source):
                self.problems += [*hand_in.problems, *hand_in.breaks]
                self.board.take(News(file=hand_in.name, folder=hand_in.name, lines=list(hand_in.lines), chained=False))
            if progress:
                progress(done, len(sources))
        self.ready = True
        return len(sources)

    def said(self) -> list[str]:
        """Return what a person should look at, one sentence each."""
        return [*self.problems, *self.watch.said(), *self.board.said()]

    def opened(self) -> list[str]:
        """Return whose workbooks are there, as the workbooks say."""
        found = []
        for book in list(self.watch.books.values()):
            try:
                found.append(checked_name(book.hint(), "The learner id"))
            except BadInput:
                continue
        return found

    def part(self, view: View, now: datetime | None = None) -> tuple[str, str]:
        """Return (version, fragment) of a view; the same version means the same fragment."""
        now = now or datetime.now(UTC)
        with self._lock:
            version = f"{self.board.changed}.{self.watch.waiting}.{now:%H%M}.{bool(self.trouble):d}"
            if self._pages.get(view, ("",))[0] != version:
                self._pages[view] = (version, fragment(self, view, now))
            return self._pages[view]

    def page(
        self, view: View, *, now: datetime | None = None, address: str = "", links: Mapping[str, str] | None = None
    ) -> str:
        """Return a whole page; with an address it refreshes itself from there."""
        version, inside = self.part(view, now)
        return whole_page(self, view, inside, version=version, address=address, links=links or {})
