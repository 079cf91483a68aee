"""A class's own files: its own sheets, questions and kits, known by the digest over them.

In a class folder they lie in `own/` beside class.toml, in a start file they are packed as text, and `open` puts them into the
state folder under their digest. A workbook holds the digest alone: nothing in it is read as configuration.
"""

import base64
import binascii
import re
from collections.abc import Mapping
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from bitepoint import places
from bitepoint.errors import BadInput
from bitepoint.logbook.device import state_folder
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.workshop.datafiles import DataFiles, use_from_now
from bitepoint.workshop.own_sheets.own_sheet import check_checked

FOLDER = "own"
_NAMES = re.compile(r"vehicles/[a-z][a-z0-9]{1,3}\.toml|questions\.toml|kits\.csv", re.ASCII)
_DIGEST = re.compile(r"[0-9a-f]{16}", re.ASCII)
_MOST, _LARGEST = 40, 200_000
_SETS_KEPT = 8
Files = Mapping[str, bytes]


def digest_of_files(files: Files) -> str:
    """Return 16 hexadecimal digits over names and contents; line ends do not count."""
    whole = sha256()
    for name, content in sorted(files.items()):
        text = content.replace(b"\r\n", b"\n")
        whole.update(f"{name} {len(text)}\n".encode())
        whole.update(text)
    return whole.hexdigest()[:16]


def files_in(folder: Path) -> dict[str, bytes]:
    """Return the own files in a folder; other files in it are left alone.

    Raises
    ------
    BadInput
        There are too many, or one is too large or cannot be read.
    """
    found: dict[str, bytes] = {}
    try:
        for path in sorted((*folder.glob("vehicles/*.toml"), *folder.glob("*.toml"), *folder.glob("*.csv"))):
            name = path.relative_to(folder).as_posix()
            if _NAMES.fullmatch(name) and path.is_file():
                with path.open("rb") as file:
                    found[name] = file.read(_LARGEST + 1)
    except OSError as error:
        raise BadInput(f"{folder.name}: cannot be read ({error.strerror}). Check the folder.") from None
    return _checked(found)


def _checked(files: dict[str, bytes]) -> dict[str, bytes]:
    if len(files) > _MOST:
        raise BadInput(f"There are {len(files)} own files, but a class has at most {_MOST}.")
    for name, content in files.items():
        if not _NAMES.fullmatch(name):
            raise BadInput(f"own_files names {name[:40]!r}, which is no own sheet, questions or kits.")
        if len(content) > _LARGEST:
            raise BadInput(f"{name} holds more than {_LARGEST // 1000} kB, too much for such a file.")
    return files


def packed(files: Files) -> dict[str, str]:
    """Return own files as text for a start file: no bracket or quotation mark of theirs can spoil it."""
    return {name: base64.b64encode(content).decode("ascii") for name, content in sorted(files.items())}


def unpacked(found: object, digest: str) -> dict[str, bytes]:
    """Return the own files that a start file carries.

    Raises
    ------
    BadInput
        They are not what `packed` returned, or not those of the digest.
    """
    if not isinstance(found, Mapping) or not all(isinstance(x, str) for pair in found.items() for x in pair):
        raise BadInput("own_files must be a table of texts. Ask for your start file again.")
    try:
        files = {name: base64.b64decode(text, validate=True) for name, text in found.items()}
    except (binascii.Error, ValueError):
        raise BadInput("own_files cannot be read: the start file was changed. Ask for it again.") from None
    files = _checked(files)
    if digest_of_files(files) != digest:
        raise BadInput("own_files are not those that “own” names: the start file was changed. Ask for it again.")
    return files


def keep(files: Files) -> str:
    """Put own files into the state folder, once, and return their digest.

    Raises
    ------
    OSError
        The state folder cannot be written.
    """
    digest = digest_of_files(files)
    for stray in sorted(set(files_in(_kept(digest))) - set(files)):
        (_kept(digest) / stray).unlink()
    for name, content in files.items():
        path = _kept(digest) / name
        if not path.is_file() or path.read_bytes() != content:
            path.parent.mkdir(parents=True, exist_ok=True)
            write_in_one_step(path, content)
    return digest


def _kept(digest: str) -> Path:
    return state_folder().absolute() / FOLDER / digest


def use_shipped() -> None:
    """From now on read the data files as shipped."""
    use_from_now(None)


def use_folder(folder: Path, digest: str) -> None:
    """From now on read the shipped data files and a class's own ones in a folder.

    Raises
    ------
    BadInput
        What lies there is not what the digest was made over, or a sheet is not checked by a second person.
    """
    now = digest_of_files(files_in(folder))
    if now != digest:
        raise BadInput(
            f"own: the class's own files in {folder.name} are {now}, but the class file names {digest[:40]}. Put the files "
            f'back, or write own = "{now}": answers to questions that changed by it get no mark.'
        )
    for path in sorted(folder.glob("vehicles/*.toml")):
        if _NAMES.fullmatch(path.relative_to(folder).as_posix()):
            check_checked(path)
    use_from_now(_data(folder, digest))


def use_kept(digest: str) -> None:
    """From now on read the shipped data files and those that `keep` put into the state folder.

    Raises
    ------
    BadInput
        They are not on this computer.
    """
    folder = _kept(digest)
    if not _DIGEST.fullmatch(digest) or digest_of_files(files_in(folder)) != digest:
        raise BadInput(
            f"the class's own sheets ({digest[:16]}) are not on this computer. Open the course once with the start file: "
            "bitepoint open --class-file YOUR-ID.toml"
        )
    use_from_now(_data(folder, digest))


@lru_cache(maxsize=_SETS_KEPT)
def _data(folder: Path, digest: str) -> DataFiles:
    """Return the same set for the same files, so that what was read of it stays read; of many classes the newest few."""
    return DataFiles(places.assets(), folder)
