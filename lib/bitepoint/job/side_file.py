"""What is personal in a job lies in one side file that can be erased: the record has salted hashes of it and nothing else."""

import re
import secrets
from hashlib import sha256
from pathlib import Path
from unicodedata import normalize

import msgspec
from msgspec import Struct

from bitepoint.errors import BadInput, NotRecorded
from bitepoint.job.state import PERSONAL, PERSONAL_FIELDS
from bitepoint.logbook.locking import locked
from bitepoint.logbook.one_step import write_in_one_step

_LONGEST, _SHORTEST_TOLD = 120, 4
_MOST_BYTES = 20_000
_IDENTIFICATION = re.compile(r"(?<![A-Z0-9])(?=[A-Z0-9]*\d)(?=[A-Z0-9]*[A-Z])[A-HJ-NPR-Z0-9]{17}(?![A-Z0-9])", re.ASCII)
"""Seventeen capitals and digits without I, O and Q (source: from memory, the form of a vehicle identification number)."""


class SideFile(Struct, frozen=True):
    """Salt and fields. Without the salt nobody can try out which registration a hash belongs to."""

    salt: str
    fields: dict[str, str] = {}

    def hash_of(self, what: str, content: bytes) -> str:
        """Return the salted hash of a field or a photo."""
        return sha256(bytes.fromhex(self.salt) + what.encode("utf-8") + b"\0" + content).hexdigest()[:32]

    def hashes(self) -> dict[str, str]:
        """Return the salted hash of each field."""
        return {key: self.hash_of(key, value.encode("utf-8")) for key, value in self.fields.items()}


def read_side_file(folder: Path) -> SideFile | None:
    """Return the side file of a job, None where there is none.

    Raises
    ------
    BadInput
        It cannot be read.
    """
    path = folder / PERSONAL
    told = f"{PERSONAL} cannot be read. Put it back as it was, or erase it: bitepoint job erase FOLDER"
    try:
        if path.is_symlink() or path.exists() and path.stat().st_size > _MOST_BYTES:
            raise BadInput(told)
        found = msgspec.json.decode(path.read_bytes(), type=SideFile)
        bytes.fromhex(found.salt)
    except FileNotFoundError:
        return None
    except (OSError, ValueError, RecursionError):
        raise BadInput(told) from None
    return found


def keep(folder: Path, fields: dict[str, str]) -> SideFile:
    """Put fields into the side file, made where there is none, and return it as it is now.

    Raises
    ------
    BadInput
        A field is unknown, or is no single line.
    NotRecorded
        The folder cannot be written; what was there stays.
    """
    checked = {key: _line(key, value) for key, value in fields.items()}
    try:
        with locked(folder / "personal.lock", timeout=20):
            before = read_side_file(folder) or SideFile(secrets.token_hex(32))
            after = SideFile(before.salt, {**before.fields, **checked})
            write_in_one_step(folder / PERSONAL, msgspec.json.format(msgspec.json.encode(after), indent=1))
    except OSError as error:
        why = error.strerror or "held by another program"
        raise NotRecorded(
            f"Not recorded: {folder / PERSONAL} cannot be written ({why}). Make room, then try again."
        ) from None
    return after


def refuse_personal(side: SideFile | None, text: str) -> None:
    """Refuse a text of the record that holds what belongs into the side file.

    Raises
    ------
    BadInput
        Names the field.
    """
    if _IDENTIFICATION.search(text):
        raise BadInput(
            "That looks like an identification number. Leave it out: it is kept with --vin, where it can be erased."
        )
    for key, value in (side.fields if side else {}).items():
        if _holds(key, text, value):
            name = PERSONAL_FIELDS.get(key, key)
            raise BadInput(
                f"That text holds the {name}. Leave it out: it stands in {PERSONAL}, where it can be erased."
            )


def _holds(key: str, text: str, value: str) -> bool:
    text, value = normalize("NFKC", text), normalize("NFKC", value)
    if key == "customer":
        words = {word for word in re.findall(r"\w+", value.casefold()) if len(word) >= _SHORTEST_TOLD}
        return bool(words & set(re.findall(r"\w+", text.casefold())))
    looked_for = _bare(value)
    return len(looked_for) >= _SHORTEST_TOLD and looked_for in _bare(text)


def _bare(text: str) -> str:
    return "".join(sign for sign in text.casefold() if sign.isalnum())


def _line(key: str, value: str) -> str:
    if key not in PERSONAL_FIELDS:
        raise BadInput(f"There is no field {key[:40]!r}. Choose one of {', '.join(PERSONAL_FIELDS)}.")
    told = value.strip()
    if not told or len(told) > _LONGEST or not told.isprintable():
        raise BadInput(f"{key} must be one line of 1 to {_LONGEST} characters, but it is {value[:40]!r}.")
    return told
