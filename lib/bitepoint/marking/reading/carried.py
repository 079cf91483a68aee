"""A source with its bytes, for a process that does not see this computer's disk."""

import os
import stat
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.book import FOLDER
from bitepoint.logbook.identity import FILE
from bitepoint.marking.reading.files import open_regular
from bitepoint.marking.reading.handins import HandInSource
from bitepoint.marking.reading.limits import MAX_BYTES, MAX_ENTRIES

_READ = (".jsonl", ".ipynb")


class Carried(Struct, frozen=True):
    """A source and what is read of it: its files by name, as (name, bytes)."""

    source: HandInSource
    files: tuple[tuple[str, bytes], ...]


def carried(source: HandInSource) -> Carried | None:
    """Return a source with its bytes; None where it is swollen or not all plain files, so that it is to be read where it lies.

    What is read and said of it elsewhere is then the same: nothing that reading it here would refuse is carried.
    """
    try:
        paths = list(_paths(source)) if source.kind == "workbook" else [source.path]
        if len(paths) > MAX_ENTRIES // 2:
            return None
        left, files = MAX_BYTES, []
        for path in paths:
            with open_regular(path) as file:
                content = file.read(left + 1)
            left -= len(content)
            if left < 0:
                return None
            files.append((path.relative_to(source.path).as_posix() if path != source.path else path.name, content))
    except (BadInput, OSError):
        return None
    return Carried(source, tuple(files))


def _paths(source: HandInSource) -> Iterator[Path]:
    """Yield every file that is read of a workbook.

    Raises
    ------
    OSError
        It is one that may say something about its folders: a link, or too much in them.
    """
    seen = 0
    for folder in (source.path, source.path / FOLDER):
        if folder == source.path / FOLDER and not os.path.lexists(folder):
            return
        if not stat.S_ISDIR(folder.lstat().st_mode):
            raise OSError("a link, or no folder")
        for path in folder.iterdir():
            seen += 1
            if seen > MAX_ENTRIES // 2:
                raise OSError("too many files")
            if path.name == FILE or path.suffix.casefold() in _READ:
                yield path


def put_down(piece: Carried, folder: Path) -> HandInSource:
    """Put a source that was carried into a folder of this computer, and return where it lies now."""
    source = piece.source
    place = folder / source.path.name
    if source.kind != "workbook":
        place.write_bytes(piece.files[0][1])
        return HandInSource(source.name, place, source.kind)
    (place / FOLDER).mkdir(parents=True)
    for name, content in piece.files:
        (place / name).write_bytes(content)
    return HandInSource(source.name, place, source.kind)


@contextmanager
def in_a_folder() -> Iterator[Path]:
    """Give a folder that is gone again after use."""
    with tempfile.TemporaryDirectory(prefix="bitepoint-") as folder:
        yield Path(folder)
