"""One logbook file: appended line by line, locked, on the disk before it is acknowledged."""

import os
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, BinaryIO

from filelock import FileLock, Timeout

from bitepoint.errors import NotRecorded
from bitepoint.logbook.record import Line, Record, read_line, write_line

FOLDER = "logbook"
_LOCK_SECONDS = 20
_POLL_SECONDS = 0.005
_BLOCK = 65536


def utc_now() -> str:
    """Return the time as a logbook line holds it."""
    return datetime.now(UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


class Logbook:
    """The file `<lesson>.<device>.jsonl` in the logbook folder of a workbook.

    Two notebooks may write at once: an advisory lock lets one in after the other.
    """

    def __init__(self, workbook: Path, *, lesson: str, device: str) -> None:
        self.path = workbook / FOLDER / f"{lesson}.{device}.jsonl"
        self.device = device

    def append(self, fields: dict[str, Any]) -> Line:
        """Write one line and return it; it is on the disk when this returns.

        A torn last line (power cut, full disk) is first set aside in a file of its own.

        Raises
        ------
        NotRecorded
            The workbook is gone, or folder or disk do not take it; what was written before is untouched.
        """
        try:
            self._refuse_links()
            # Its parents are not made: a workbook that was moved would come back as a ghost.
            self.path.parent.mkdir(exist_ok=True)
            lock = FileLock(self.path.with_suffix(".lock"), timeout=_LOCK_SECONDS, poll_interval=_POLL_SECONDS)
            with lock, open(self.path, "a+b", buffering=0) as file:
                return self._append_locked(file, fields)
        except Timeout:
            raise NotRecorded(
                f"Your answer was not recorded: {self.path.name} is held by another program. Answer once more."
            ) from None
        except NotRecorded:
            raise
        except FileNotFoundError:
            raise folder_gone(self.path.parent.parent) from None
        except OSError as error:
            why = error.strerror or type(error).__name__
            raise NotRecorded(
                f"Your answer was not recorded: {self.path.name} cannot be written ({why}). "
                "Make room on the disk or move the course folder to a place where you may write, then answer again."
            ) from None

    def _refuse_links(self) -> None:
        """Refuse to write through a link: it leads out of the workbook."""
        for path in (self.path.parent, self.path, self.path.with_suffix(".lock")):
            if path.is_symlink():
                raise NotRecorded(
                    f"Your answer was not recorded: {path.name} is a link to another place. "
                    "Ask your instructor to look at this course folder."
                )

    def _append_locked(self, file: BinaryIO, fields: dict[str, Any]) -> Line:
        end = self._set_torn_line_aside(file)
        last = self._last_record(file, end)
        n, prev = (last.n + 1, last.hash) if last else (1, "")
        text = write_line(fields, n=n, prev=prev)
        try:
            _write_all(file, text.encode("ascii") + b"\n")
            os.fsync(file.fileno())
        except OSError:
            os.ftruncate(file.fileno(), end)
            raise
        return read_line(text.encode("ascii"))

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

    def _last_record(self, file: BinaryIO, end: int) -> Record | None:
        while end > 0:
            start = _line_start(file, end - 1)
            line = read_line(_read_exactly(file, start, end).rstrip(b"\r\n"))
            if line.record:
                return line.record
            end = start
        return None

    def lines(self) -> list[Line]:
        """Return the lines of this file; a torn last line is left out."""
        return list(read_file(self.path))


def folder_gone(workbook: Path) -> NotRecorded:
    """Return the error for a workbook that is not where it was."""
    return NotRecorded(
        f"Your answer was not recorded: the course folder {workbook.name} was moved, renamed or deleted. Close the course "
        "(Ctrl+C in its window), then open the folder where it is now: bitepoint open FOLDER"
    )


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


def read_file(path: Path) -> Iterator[Line]:
    """Yield the whole lines of one logbook file; a file that is not there has none."""
    try:
        with open(path, "rb") as file:
            for raw in file:
                if raw.endswith(b"\n") and raw.strip():
                    yield read_line(raw.rstrip(b"\r\n"))
    except FileNotFoundError:
        return


def read_folder(workbook: Path, lesson: str = "*") -> dict[str, list[Line]]:
    """Return the lines of every logbook file of a lesson (or all), by file name."""
    folder = workbook / FOLDER
    return {path.name: list(read_file(path)) for path in sorted(folder.glob(f"{lesson}.*.jsonl")) if path.is_file()}
