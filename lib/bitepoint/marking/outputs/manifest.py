"""The manifest of a set of results: what it was made from, and each of its files with size and hash."""

import hashlib
import os
import re
from collections.abc import Collection, Sequence
from datetime import datetime
from hashlib import blake2b
from pathlib import Path
from typing import Literal

import msgspec
from msgspec import Struct

from bitepoint.bank.version import bank_digest
from bitepoint.errors import BadInput
from bitepoint.marking.registry.register import Register
from bitepoint.marking.version import VERSION

MANIFEST = "manifest.json"
LEARNERS, ASSESSOR, EVIDENCE = "learners", "assessor", "evidence"
PAGES = (LEARNERS, ASSESSOR, EVIDENCE)
"""Folders with a page for each learner: for the learner, for the assessor, and the record to sign."""
_OURS = re.compile(
    r"(marks|learners|recall)\.csv|(marks|term)\.jsonl|(report|progress)\.(html|pdf)|"
    rf"({'|'.join(PAGES)})/[^/\\\0]+\.(html|pdf)"
)


class SetFile(Struct, frozen=True, kw_only=True):
    """A file of a set, by its name in the folder."""

    name: str
    size: int
    sha256: str


class HandedIn(Struct, frozen=True, kw_only=True):
    """A hand-in that the set was made from."""

    name: str
    sha256: str


class Manifest(Struct, frozen=True, kw_only=True):
    """What a set of results is and what it was made from.

    `class_file` and `roster` are hashes of those files, "" for none; `register` holds the hash of the last line
    of each of its files; `due` and `zone` are those of the class; `left_out` a hash of each learner deleted on request, whom the set therefore lacks.
    """

    what: Literal["results of bitepoint mark"]
    bitepoint: str
    bank: str
    pass_share: float
    class_file: str
    roster: str
    register: dict[str, str]
    left_out: tuple[str, ...]
    inputs: tuple[HandedIn, ...]
    files: tuple[SetFile, ...]
    due: str = ""
    zone: str = ""

    @property
    def names(self) -> set[str]:
        """The names of its files."""
        return {file.name for file in self.files}


def describe(
    files: Sequence[SetFile],
    *,
    inputs: Sequence[HandedIn],
    pass_share: float,
    class_file: Path | None,
    roster: Path | None,
    register: Register | None,
    gone: Collection[str],
    due: datetime | None = None,
    zone: str = "",
) -> Manifest:
    """Return the manifest of a set; `gone` are the public names, case-folded, that were deleted on request."""
    return Manifest(
        what="results of bitepoint mark",
        bitepoint=VERSION,
        bank=bank_digest(),
        pass_share=pass_share,
        class_file=digest_of(class_file) if class_file else "",
        roster=digest_of(roster) if roster else "",
        register=register.heads() if register else {},
        left_out=tuple(sorted(map(_hidden, gone))),
        inputs=tuple(inputs),
        files=tuple(sorted(files, key=lambda file: file.name)),
        due=due.isoformat() if due else "",
        zone=zone,
    )


def _hidden(name: str) -> str:
    return blake2b(name.encode(), digest_size=8).hexdigest()


def refuse_deleted_since(results: Path, manifest: Manifest, gone: Collection[str]) -> None:
    """Refuse to give on a set with a learner deleted on request since; `gone` are public names, case-folded.

    Raises
    ------
    BadInput
        There is one.
    """
    there = {Path(name).stem.casefold() for name in manifest.names if name.startswith(f"{ASSESSOR}/")}
    if any(name in there and _hidden(name) not in manifest.left_out for name in gone):
        raise BadInput(f"{results.name}: holds a learner who was deleted on request since. Mark again first.")


def as_bytes(manifest: Manifest) -> bytes:
    """Return a manifest as it is stored: JSON that a person can read."""
    return msgspec.json.format(msgspec.json.encode(manifest), indent=1) + b"\n"


def read_manifest(path: Path) -> Manifest | None:
    """Return a manifest, None where there is no such file.

    Raises
    ------
    BadInput
        It is the manifest of something else, or names files that no marking writes.
    """
    try:
        found = msgspec.json.decode(path.read_bytes(), type=Manifest)
    except (FileNotFoundError, NotADirectoryError):
        return None
    except msgspec.MsgspecError:
        raise own_file(path.parent, path.name) from None
    if not all(_OURS.fullmatch(file.name) for file in found.files):
        raise own_file(path.parent, path.name)
    return found


def own_file(out: Path, name: str) -> BadInput:
    """Return the error that says whose file is in the way and what to do."""
    return BadInput(
        f"{out.name}: {name} is not of a marking, and results are to lie there. "
        "Move it elsewhere, or name another folder for the results: --out marks-2"
    )


def digest_of(path: Path | str) -> str:
    """Return the SHA-256 of a file in hexadecimal digits."""
    with open(path, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def broken(manifest: Manifest, folder: Path) -> list[str]:
    """Return the files that are not there as the manifest names them."""
    return [file.name for file in manifest.files if not _holds(file, f"{folder}/{file.name}")]


def _holds(file: SetFile, path: str) -> bool:
    try:
        return os.stat(path).st_size == file.size and digest_of(path) == file.sha256
    except (FileNotFoundError, NotADirectoryError):
        return False
