"""Opening what a learner sent: regular files only, once, read through a counter; no declared size is believed."""

import os
import stat
from collections.abc import Iterator
from pathlib import Path
from typing import Any, BinaryIO, Protocol

from bitepoint.errors import BadInput
from bitepoint.logbook.record import MAX_LINE
from bitepoint.marking.reading.limits import Counter

BLOCK = 65_536
_MAX_SINGLE_READ = 2_000_000


class Readable(Protocol):
    """Anything with `read(n) -> bytes`."""

    def read(self, size: int, /) -> bytes: ...


def open_regular(path: Path) -> BinaryIO:
    """Open a file that is no link, pipe or device, without waiting for anyone.

    Raises
    ------
    BadInput
        It is no regular file, or cannot be opened.
    """
    flags = os.O_RDONLY
    for name in ("O_NOFOLLOW", "O_NONBLOCK", "O_CLOEXEC", "O_BINARY"):
        flags |= getattr(os, name, 0)
    try:
        if not stat.S_ISREG(os.lstat(path).st_mode):
            raise BadInput("is a link, a pipe or a device, not a file, and was not opened. Ask for the file itself.")
        descriptor = os.open(path, flags)
    except (OSError, ValueError) as error:
        if isinstance(error, BadInput):
            raise
        why = getattr(error, "strerror", None) or type(error).__name__
        raise BadInput(f"cannot be opened ({why}). Check that it is there and that you may read it.") from None
    if not stat.S_ISREG(os.fstat(descriptor).st_mode):
        os.close(descriptor)
        raise BadInput("is not a regular file and was not read. Ask for the file itself.")
    return os.fdopen(descriptor, "rb")


class Guarded:
    """A zip file as the unpacker sees it: a table of contents too big for an honest hand-in is not read."""

    def __init__(self, file: Any) -> None:
        self._file = file
        self.seek, self.tell = file.seek, file.tell

    def seekable(self) -> bool:
        """Say that the file can be read anywhere."""
        return True

    def read(self, size: int = -1) -> bytes:
        """Read at most `size` bytes; only a swollen table of contents asks for more than 2 MB at once."""
        data: bytes = self._file.read(_MAX_SINGLE_READ + 1 if size < 0 else min(size, _MAX_SINGLE_READ + 1))
        if len(data) > _MAX_SINGLE_READ:
            raise BadInput("has a table of contents too big for a hand-in and was not read. Ask for a new hand-in.")
        return data


def blocks(source: Readable, counter: Counter) -> Iterator[bytes]:
    """Yield a file block by block, counting."""
    while block := source.read(BLOCK):
        counter.take(len(block))
        yield block


def whole(source: Readable, counter: Counter) -> bytes:
    """Return all of a file, counting while it is read."""
    return b"".join(blocks(source, counter))


def lines(stream: Iterator[bytes]) -> Iterator[tuple[bytes, bool]]:
    """Yield (line without its end, whether it is whole); a line over 1 MB comes cut just above that length.

    A last line without line end is not whole.
    """
    rest = b""
    for block in stream:
        first, *others = block.split(b"\n")
        rest = _joined(rest, first)
        if others:
            yield rest.removesuffix(b"\r"), True
            rest = _joined(b"", others.pop())
        for other in others:
            yield other[: MAX_LINE + 2].removesuffix(b"\r"), True
    if rest.strip():
        yield rest, False


def _joined(rest: bytes, more: bytes) -> bytes:
    return rest if len(rest) > MAX_LINE else rest + more[: MAX_LINE + 2]
