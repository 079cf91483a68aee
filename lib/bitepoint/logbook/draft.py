"""What a learner has begun and not handed over: one small file an exercise, beside the logbook and no line of it.

Nobody who marks reads it, and no hand-in carries it. What it says is laid out on the page again, nothing more.
"""

import os
from contextlib import suppress
from hashlib import blake2b
from pathlib import Path
from typing import Any

import msgspec
from msgspec import Struct

from bitepoint.logbook.identity import FILE

FOLDER = ".drafts"
MAX_BYTES = 16_384


class Owner(Struct, frozen=True, kw_only=True):
    """Whose draft it is and of which question; the digest of its facts tells a changed question from the same one."""

    learner: str
    class_word: str
    sitting: str
    exercise: str
    turn: int
    facts: str


class _File(Struct, frozen=True, kw_only=True):
    owner: Owner
    begun: Any
    check: str


def keep_draft(workbook: Path, owner: Owner, begun: Any) -> None:
    """Keep what was begun in place of what was kept before; nothing begun, or too much of it, keeps nothing.

    A folder or disk that does not take it is no reason to stop a learner at work: then nothing is kept.
    """
    path = _path(workbook, owner)
    # A lone surrogate, pasted into a field, cannot be written.
    with suppress(OSError, ValueError):
        content = msgspec.json.encode(_File(owner=owner, begun=begun, check=_check(owner, begun))) if begun else b""
        if not content or len(content) > MAX_BYTES:
            if not path.parent.is_symlink():
                path.unlink(missing_ok=True)
            return
        _write(workbook, path, content)


def _write(workbook: Path, path: Path, content: bytes) -> None:
    """Write without waiting for the disk: what a power cut leaves half is not read again."""
    # A workbook that was moved must not come back as a ghost, and a link leads out of it.
    if not (workbook / FILE).is_file() or path.parent.is_symlink():
        return
    path.parent.mkdir(exist_ok=True)
    part = path.with_name(f"{path.name}.{os.getpid()}.part")
    part.unlink(missing_ok=True)
    try:
        with part.open("xb") as stream:
            stream.write(content)
        part.replace(path)
    except OSError:
        part.unlink(missing_ok=True)
        raise


def read_draft(workbook: Path, owner: Owner) -> Any:
    """Return what this owner had begun; None where nothing is kept, or not as it was written, or not this owner's."""
    path = _path(workbook, owner)
    if path.parent.is_symlink() or path.is_symlink() or not path.is_file():
        return None
    try:
        with path.open("rb") as stream:
            content = stream.read(MAX_BYTES + 1)
        if len(content) > MAX_BYTES:
            return None
        found = msgspec.json.decode(content, type=_File)
        whole = found.check == _check(found.owner, found.begun)
    except (OSError, ValueError, RecursionError):
        return None
    return found.begun if whole and found.owner == owner else None


def _path(workbook: Path, owner: Owner) -> Path:
    return workbook / FOLDER / f"{owner.exercise}.json"


def _check(owner: Owner, begun: Any) -> str:
    """Return what shows accidents and careless edits; whoever has the program can make one, as with the logbook's chain."""
    return blake2b(msgspec.json.encode([owner, begun]), digest_size=8).hexdigest()
