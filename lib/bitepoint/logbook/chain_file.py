"""One file of chained lines: appended line by line, locked, on the disk before it is acknowledged."""

import os
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, BinaryIO, Generic, TypeVar

from filelock import Timeout
from msgspec import Struct

from bitepoint.errors import NotRecorded
from bitepoint.logbook.locking import locked
from bitepoint.logbook.one_step import sync_file
from bitepoint.logbook.record import ChainedLine, write_line

_LOCK_SECONDS = 20
_POLL_SECONDS = 0.005
_BLOCK = 65536

L = TypeVar("L", bound=ChainedLine)


class Refusals(Struct, frozen=True):
    """How a person is told that a line was not written: what was not, and what to do next in each case."""

    not_recorded: str
    held: str
    no_room: str
    link: str


class ChainFile(Generic[L]):
    """A file of chained lines, read by `read`. Two programs may write at once: an advisory lock lets one in after the other."""

    def __init__(self, path: Path, *, read: Callable[[bytes], L], refusals: Refusals) -> None:
        self.path, self._read, self._refusals = path, read, refusals

    def append(self, fields: dict[str, Any], *, check: Callable[[Sequence[L]], None] | None = None) -> L:
        """Write one line and return it; it is on the disk when this returns.

        A torn last line (power cut, full disk) is first set aside in a file of its own. `check` sees every line while nobody
        else can write, and raises where this one may not follow them.

        Raises
        ------
        NotRecorded
            The folder is gone, or folder or disk do not take it; what was written before is untouched.
        """
        told = self._refusals
        try:
            self._refuse_links()
            self._make_folder()
            lock = self.path.with_suffix(".lock")
            with (
                locked(lock, timeout=_LOCK_SECONDS, poll_interval=_POLL_SECONDS),
                open(self.path, "a+b", buffering=0) as file,
            ):
                if check:
                    check(self.lines())
                return self._append_locked(file, fields)
        except Timeout:
            raise NotRecorded(
                f"{told.not_recorded}: {self.path.name} is held by another program. {told.held}"
            ) from None
        except NotRecorded:
            raise
        except FileNotFoundError:
            raise self._gone() from None
        except OSError as error:
            why = error.strerror or type(error).__name__
            raise NotRecorded(
                f"{told.not_recorded}: {self.path.name} cannot be written ({why}). {told.no_room}"
            ) from None

    def lines(self) -> list[L]:
        """Return the lines of this file; a torn last line is left out."""
        return [self._read(raw) for raw in whole_lines(self.path)]

    def _gone(self) -> NotRecorded:
        """Return the error for a folder that is not where it was."""
        return NotRecorded(f"{self._refusals.not_recorded}: {self.path.parent.name} was moved, renamed or deleted.")

    def _make_folder(self) -> None:
        """Make what may be made before the file; nothing here."""

    def _linked(self) -> tuple[Path, ...]:
        return (self.path, self.path.with_suffix(".lock"))

    def _refuse_links(self) -> None:
        """Refuse to write through a link: it leads out of the folder."""
        for path in self._linked():
            if path.is_symlink():
                told = self._refusals
                raise NotRecorded(f"{told.not_recorded}: {path.name} is a link to another place. {told.link}")

    def _append_locked(self, file: BinaryIO, fields: dict[str, Any]) -> L:
        end = self._set_torn_line_aside(file)
        last = self._last_link(file, end)
        n, prev = (last[0] + 1, last[1]) if last else (1, "")
        text = write_line(fields, n=n, prev=prev)
        try:
            _write_all(file, text.encode("ascii") + b"\n")
            sync_file(file.fileno())
        except OSError:
            os.ftruncate(file.fileno(), end)
            raise
        return self._read(text.encode("ascii"))

    def _set_torn_line_aside(self, file: BinaryIO) -> int:
        """Cut a last line without line end off the file, keeping it beside; return the new end."""
        end: int = file.seek(0, os.SEEK_END)
        if end == 0:
            return 0
        file.seek(end - 1)
        if file.read(1) == b"\n":
            return end
        whole = _line_start(file, end)
        torn = _read_exactly(file, whole, end)
        aside = self.path.with_suffix(f".torn-{datetime.now(UTC):%Y%m%d-%H%M%S-%f}")
        aside.write_bytes(torn)
        os.ftruncate(file.fileno(), whole)
        return whole

    def _last_link(self, file: BinaryIO, end: int) -> tuple[int, str] | None:
        while end > 0:
            start = _line_start(file, end - 1)
            line = self._read(_read_exactly(file, start, end).rstrip(b"\r\n"))
            if line.record:
                return line.record.n, line.record.hash
            end = start
        return None


def _write_all(file: Any, data: bytes) -> None:
    """Write unbuffered: a buffer that a full disk refused would be written again when the file is closed."""
    while data:
        data = data[file.write(data) :]


def _read_exactly(file: Any, start: int, end: int) -> bytes:
    file.seek(start)
    data = b""
    while len(data) < end - start:
        block = file.read(end - start - len(data))
        if not block:
            break
        data += block
    return data


def _line_start(file: BinaryIO, end: int) -> int:
    """Return where the line that ends before `end` starts."""
    while end > 0:
        start = max(0, end - _BLOCK)
        at = _read_exactly(file, start, end).rfind(b"\n")
        if at >= 0:
            return start + at + 1
        end = start
    return 0


def whole_lines(path: Path) -> Iterator[bytes]:
    """Yield the whole lines of a file without their ends; a file that is not there has none."""
    try:
        with open(path, "rb") as file:
            for raw in file:
                if raw.endswith(b"\n") and raw.strip():
                    yield raw.rstrip(b"\r\n")
    except FileNotFoundError:
        return
