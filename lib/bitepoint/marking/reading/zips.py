"""Hand-ins in zip files, read in memory entry by entry; in a zip of zips each zip is one hand-in."""

import stat
import struct
import zipfile
import zlib
from collections.abc import Iterator
from hashlib import sha256
from io import BytesIO
from pathlib import PurePosixPath
from typing import Any

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import FILE
from bitepoint.marking.reading.files import Guarded, blocks, whole
from bitepoint.marking.reading.gather import Gatherer, HandIn
from bitepoint.marking.reading.guard import is_own
from bitepoint.marking.reading.limits import (
    MAX_CLASS_BYTES,
    MAX_INNER_ZIP,
    Counter,
    HandInCounter,
    Share,
    share_inside,
    share_of_class,
    share_of_zip,
)

_SMALL = 1_000_000
_PLAIN = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_DAMAGE = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    OSError,
    RuntimeError,
    ValueError,
    OverflowError,
    IndexError,
    struct.error,
)


def read_zip(name: str, file: Any, *, share: Share | None = None) -> Iterator[HandIn]:
    """Yield the hand-ins in an opened zip: one, or one for each zip it holds.

    Declared sizes are not believed: reading stops when a counter is used up. `share` is that of a zip in a zip.
    """
    inner = share is not None
    digest = ""
    gatherer = Gatherer(name, share)
    try:
        size = file.seek(0, 2)
        file = _at_hand(file, size)
        digest = _digest(file)
        gatherer = Gatherer(name, share or share_of_zip(size))
        with zipfile.ZipFile(Guarded(file)) as archive:
            entries = _entries(archive, gatherer)
            zips = [e for e in entries if e.filename.casefold().endswith(".zip")]
            is_class = bool(zips) and not any(_base(e) == FILE for e in entries)
            if is_class and not inner:
                yield from _each_inside(name, archive, zips, share_of_class(size))
            elif is_class:
                gatherer.problem("holds zips inside a zip inside a zip, which are not read. Ask for the plain hand-in.")
            for entry in sorted(entries, key=_logbooks_first):
                _add(archive, entry, gatherer)
            others = [e for e in entries if _kind(e)]
            if is_class and not inner and not others:
                return
    except BadInput as error:
        gatherer.problem(str(error))
    except _DAMAGE as error:
        if is_own(error):
            raise
        gatherer.problem("is no zip file, or is cut off or damaged. Ask for the hand-in again.")
    yield gatherer.result(digest)


def _at_hand(file: Any, size: int) -> Any:
    """Return the zip in memory where it is small: it is hashed, listed and unpacked, each from its beginning."""
    file.seek(0)
    return BytesIO(file.read(size)) if size <= _SMALL else file


def _digest(file: Any) -> str:
    digest = sha256()
    file.seek(0)
    for block in blocks(file, Counter(MAX_CLASS_BYTES)):
        digest.update(block)
    file.seek(0)
    return digest.hexdigest()


def _name(entry: zipfile.ZipInfo) -> str:
    """Return an entry's name with strokes of one kind: some programs on Windows write the other."""
    return entry.filename.replace("\\", "/")


def _base(entry: zipfile.ZipInfo) -> str:
    return _name(entry).rpartition("/")[2].casefold()


def _kind(entry: zipfile.ZipInfo) -> str:
    base = _base(entry)
    if base == FILE:
        return base
    return next((suffix for suffix in (".jsonl", ".ipynb") if base.endswith(suffix)), "")


def _logbooks_first(entry: zipfile.ZipInfo) -> int:
    return [FILE, ".jsonl", ".ipynb", ""].index(_kind(entry))


def _entries(archive: zipfile.ZipFile, gatherer: Gatherer) -> list[zipfile.ZipInfo]:
    found = []
    everything = archive.infolist()
    gatherer.allowed.entries.take(len(everything))
    for entry in everything:
        parts = PurePosixPath(_name(entry)).parts
        if _name(entry).endswith("/") or any(p.startswith((".ipynb_checkpoints", "__MACOSX", "._")) for p in parts):
            continue
        shown = entry.filename[:60]
        if not parts or ".." in parts or parts[0].startswith("/") or ":" in parts[0]:
            gatherer.problem("has a name that leads out of the hand-in and was not read.", f"“{shown}”")
        elif stat.S_ISLNK(entry.external_attr >> 16):
            gatherer.problem("is a link and was not read.", shown)
        elif _kind(entry) or _base(entry).endswith(".zip"):
            found.append(entry)
    return found


def _add(archive: zipfile.ZipFile, entry: zipfile.ZipInfo, gatherer: Gatherer) -> None:
    if not _kind(entry):
        return
    if not _may_read(entry, gatherer):
        return
    try:
        with archive.open(entry) as source:
            gatherer.add(_name(entry), source)
    except BadInput:
        raise
    except _DAMAGE as error:
        if is_own(error):
            raise
        gatherer.problem("is damaged inside the zip; what stands before the damage was not read.", entry.filename[:60])


def _may_read(entry: zipfile.ZipInfo, gatherer: Gatherer) -> bool:
    if entry.flag_bits & 1:
        gatherer.problem("is locked with a password and was not read. Ask for a zip without one.", entry.filename[:60])
    elif entry.compress_type not in _PLAIN:
        gatherer.problem("is packed in a way that is not read. Ask for an ordinary zip.", entry.filename[:60])
    else:
        return True
    return False


def _each_inside(
    name: str, archive: zipfile.ZipFile, zips: list[zipfile.ZipInfo], whole_zip: Share
) -> Iterator[HandIn]:
    for entry in zips:
        share = share_inside(entry.compress_size, whole_zip)
        gatherer = Gatherer(f"{name}/{_name(entry)[:80]}", share)
        try:
            if not _may_read(entry, gatherer):
                yield gatherer.result()
                continue
            # One entry for the zip itself: where all are used up, the next is not even taken apart.
            share.entries.take()
            with archive.open(entry) as source:
                content = whole(source, HandInCounter(MAX_INNER_ZIP, within=share.bytes))
        except BadInput as error:
            gatherer.problem(str(error))
            yield gatherer.result()
        except _DAMAGE as error:
            if is_own(error):
                raise
            gatherer.problem("is damaged inside the zip. Ask for the hand-in again.")
            yield gatherer.result()
        else:
            yield from read_zip(gatherer.name, BytesIO(content), share=share)
