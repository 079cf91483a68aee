"""Logbooks under a folder, followed as they grow: new bytes are read once; nothing is written, locked or renamed."""

import os
import time
from collections.abc import Iterator
from pathlib import Path
from typing import BinaryIO

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.book import FOLDER
from bitepoint.logbook.identity import FILE
from bitepoint.logbook.record import MAX_LINE, Line, read_line
from bitepoint.marking.reading.files import open_regular
from bitepoint.marking.reading.gather import Gatherer
from bitepoint.marking.reading.guard import unforeseen
from bitepoint.marking.reading.handins import MAX_FOLDERS
from bitepoint.marking.reading.limits import MAX_BYTES, MAX_ENTRIES
from bitepoint.printable import printable

MAX_WORKBOOKS = 2_000
AT_ONCE = 131_072
"""Bytes read of one file before the others have their turn; more only to find the end of a long line."""
LOOK_SECONDS = 2.0
"""How often the folder is searched for new workbooks."""
_MAX_FOLDERS_SEEN = 20_000
_END = 64

Stamp = tuple[int, int, int]
"""Inode, size, time of change [ns]."""


class News(Struct, frozen=True, kw_only=True):
    """New lines of one file; `afresh`: they take the place of all before; `complete`: nothing is left to read.

    `chained`: the lines stand as in one logbook file, each after the one before it.
    """

    file: str
    folder: str
    lines: list[Line]
    afresh: bool = False
    complete: bool = True
    chained: bool = True


class Tail:
    """One logbook file and how far it has been read; a last line without its end waits."""

    def __init__(self, path: Path, name: str, folder: str) -> None:
        self.path, self.name, self.folder = path, name, folder
        self.offset = 0
        self.stamp: Stamp = (0, 0, 0)
        self._read: Stamp | None = None
        self._end = b""
        self._skipping = False

    def is_due(self, stamp: Stamp) -> bool:
        """Whether the file differs from what was read; keeps the stamp."""
        self.stamp = stamp
        return stamp != self._read

    @property
    def left(self) -> int:
        """Bytes not read yet, as far as the size tells."""
        return self.stamp[1] - self.offset

    def set_aside(self) -> None:
        """Leave the file alone until it changes."""
        self._read = self.stamp

    def news(self, limit: int) -> News:
        """Read on, at most `limit` bytes.

        Raises
        ------
        BadInput
            It is no regular file or cannot be opened.
        """
        with open_regular(self.path) as file:
            found = os.fstat(file.fileno())
            stamp = (found.st_ino, found.st_size, found.st_mtime_ns)
            afresh = self._is_rewritten(file, stamp)
            if afresh:
                self.offset, self._end, self._skipping = 0, b"", False
            file.seek(self.offset)
            data = file.read(min(limit, AT_ONCE))
            while b"\n" not in data and len(data) <= MAX_LINE and (more := file.read(min(limit - len(data), AT_ONCE))):
                data += more
        all_read = self.offset + len(data) >= found.st_size
        lines = self._whole_lines(data)
        self._read = stamp if all_read else (stamp[0], -1, 0)
        return News(file=self.name, folder=self.folder, lines=lines, afresh=afresh, complete=all_read)

    def _is_rewritten(self, file: BinaryIO, stamp: Stamp) -> bool:
        """Whether what was read before is no longer what the file begins with."""
        if self._read is None or not self.offset:
            return False
        inode, size, changed = self._read
        if stamp[0] != inode or stamp[1] < self.offset or (stamp[1] == size and stamp[2] != changed):
            return True
        file.seek(self.offset - len(self._end))
        return bool(file.read(len(self._end)) != self._end)

    def _whole_lines(self, data: bytes) -> list[Line]:
        whole = data.rfind(b"\n") + 1
        if not whole and len(data) > MAX_LINE:
            self._skipping, whole = True, len(data)
            self._step(data)
            return []
        lines = []
        for raw in data[:whole].split(b"\n")[:-1]:
            if self._skipping:
                self._skipping = False
                lines.append(Line("", None, "longer than 1 MB"))
            elif raw.strip():
                lines.append(read_line(raw.removesuffix(b"\r")))
        self._step(data[:whole])
        return lines

    def _step(self, data: bytes) -> None:
        self.offset += len(data)
        self._end = (self._end + data[-_END:])[-_END:]


class Book:
    """One workbook: its logbook files, whose it says it is, and what is wrong with it, by file."""

    def __init__(self, folder: Path, name: str) -> None:
        self.folder, self.name = folder, name
        # As text: making a path anew for each look costs more than the look.
        self._logbook, self._toml = str(folder / FOLDER), str(folder / FILE)
        self.tails: dict[str, Tail] = {}
        self.problems: dict[str, str] = {}
        self._hint: tuple[Stamp, str] = ((0, 0, 0), "")

    def due(self) -> list[Tail]:
        """Return the files that changed since they were read."""
        found: list[Tail] = []
        there: set[str] = set()
        try:
            with os.scandir(self._logbook) as entries:
                for count, entry in enumerate(entries, start=1):
                    if count > MAX_ENTRIES:
                        self._say(
                            FOLDER, f"holds more than {MAX_ENTRIES:,} files; the rest is not read. Look at it by hand."
                        )
                        break
                    if entry.name.casefold().endswith(".jsonl") and not entry.name.startswith("."):
                        there.add(entry.name)
                        found += self._if_due(entry)
        except OSError as error:
            if self.tails:
                self._say(FOLDER, f"cannot be listed ({error.strerror}). What was read before still stands.")
            return []
        for name in self.tails.keys() - there:
            self._say(name, "was there before and is gone. What was read before still stands.")
        return found

    def _if_due(self, entry: os.DirEntry[str]) -> list[Tail]:
        try:
            # Not entry.stat(): on Windows it is the directory's copy, which lags behind an open file.
            now = os.stat(entry.path, follow_symlinks=False)
        except OSError:
            return []
        tail = self.tails.get(entry.name)
        if tail is None:
            tail = self.tails[entry.name] = Tail(Path(entry.path), f"{self.name}/{entry.name}", self.name)
        return [tail] if tail.is_due((now.st_ino, now.st_size, now.st_mtime_ns)) else []

    def read(self, tail: Tail) -> News | None:
        """Read on in one file, within what may be read of one workbook; None where it cannot be read."""
        room = MAX_BYTES - sum(min(t.offset, t.stamp[1]) for t in self.tails.values())
        key, before = tail.path.name, tail.offset
        try:
            news = tail.news(room) if room > 0 else None
            if news is None or not (news.complete or news.afresh or tail.offset > before):
                limit = f"{MAX_BYTES // 1_000_000} MB"
                self._say(FOLDER, f"holds more than {limit}; the rest is not read. Look at it by hand.")
                tail.set_aside()
                return None
        except BadInput as error:
            self._say(key, str(error))
            tail.set_aside()
            return None
        except OSError as error:
            self._say(key, f"cannot be read ({error.strerror}). It is tried again.")
            return None
        # Whatever it is, one file does not keep the others off the board.
        except Exception as error:
            self._say(key, unforeseen("cannot be read", error))
            tail.set_aside()
            return None
        self.problems.pop(key, None)
        return news

    def hint(self) -> str:
        """Return the learner that workbook.toml names, "" when it names none; never trusted."""
        try:
            now = os.stat(self._toml, follow_symlinks=False)
            stamp = (now.st_ino, now.st_size, now.st_mtime_ns)
            if stamp != self._hint[0]:
                gatherer = Gatherer(self.name)
                with open_regular(Path(self._toml)) as file:
                    gatherer.add(FILE, file)
                self._hint = (stamp, gatherer.result().hint)
        except (OSError, BadInput):
            return ""
        return self._hint[1]

    def _say(self, what: str, problem: str) -> None:
        self.problems[what] = printable(f"{self.name}, {what}: {problem}")


class Watch:
    """The workbooks under a folder, at most two folders deep; links are not followed."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.books: dict[str, Book] = {}
        self.waiting = 0
        self.problems: dict[str, str] = {}
        self._looked = float("-inf")

    def news(self, until: float) -> Iterator[News]:
        """Yield what is new, latest written first, until the time `until` (of the monotonic clock); then the rest waits."""
        if time.monotonic() - self._looked >= LOOK_SECONDS:
            self._look()
            self._looked = time.monotonic()
        due = [(book, tail) for book in self.books.values() for tail in book.due()]
        # Who has much to read waits for the others, so that nobody can hold up the board.
        due.sort(key=lambda item: (item[1].left > AT_ONCE, -item[1].stamp[2]))
        unfinished = 0
        for count, (book, tail) in enumerate(due):
            if time.monotonic() > until:
                unfinished += len(due) - count
                break
            if (news := book.read(tail)) is not None:
                unfinished += not news.complete
                yield news
        self.waiting = unfinished

    def said(self) -> list[str]:
        """Return what is wrong, one sentence each."""
        # Lists, because another thread may be reading on.
        found = list(self.problems.values())
        return found + [text for book in list(self.books.values()) for text in list(book.problems.values())]

    def _look(self) -> None:
        self.problems.clear()
        self._seen = 0
        try:
            self._walk(self.root, "", 0)
        except OSError as error:
            self.problems[""] = (
                f"{self.root.name}: cannot be listed ({error.strerror}). What was read before still stands."
            )

    def _walk(self, folder: Path, name: str, depth: int) -> None:
        self._seen += 1
        with os.scandir(folder) as entries:
            inside = [e for e in entries if not e.name.startswith(".")]
        if any(e.name in (FILE, FOLDER) for e in inside):
            self._add(folder, name or folder.name)
            return
        if depth > MAX_FOLDERS or self._seen > _MAX_FOLDERS_SEEN:
            return
        for entry in sorted(inside, key=lambda e: e.name):
            if not entry.is_dir(follow_symlinks=False):
                continue
            below = f"{name}/{entry.name}" if name else entry.name
            if below in self.books:
                continue
            try:
                self._walk(Path(entry.path), below, depth + 1)
            except OSError as error:
                self.problems[below] = f"{below}: cannot be listed ({error.strerror}). Ask for the right to read it."

    def _add(self, folder: Path, name: str) -> None:
        if name in self.books:
            return
        if len(self.books) >= MAX_WORKBOOKS:
            self.problems["many"] = (
                f"More than {MAX_WORKBOOKS:,} workbooks; the rest is not read. Name a smaller folder."
            )
        elif (folder / FOLDER).is_symlink():
            self.problems[name] = f"{name}, {FOLDER}: is a link and was not followed."
        else:
            self.books[name] = Book(folder, name)
