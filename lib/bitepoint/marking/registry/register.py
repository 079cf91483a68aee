"""The register: who decided what, when and why. A second logbook; nothing in it is ever changed or deleted."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import msgspec

from bitepoint.errors import BadInput, NotRecorded
from bitepoint.logbook.book import FOLDER, Logbook, read_folder, utc_now
from bitepoint.logbook.device import device_name
from bitepoint.logbook.identity import key_of
from bitepoint.logbook.record import Line, chain_problems
from bitepoint.marking.registry.checking import check_entry
from bitepoint.marking.registry.days import check_days
from bitepoint.marking.registry.entries import CONFIRMED, KINDS, NEEDS, OBSERVED, OPTIONS, Entry, about, deleted
from bitepoint.marking.registry.giving_marks import check_standing
from bitepoint.marking.registry.two_people import check_two_people
from bitepoint.marking.version import VERSION

__all__ = [
    "CONFIRMED",
    "KINDS",
    "NEEDS",
    "OBSERVED",
    "OPTIONS",
    "Entry",
    "Register",
    "about",
    "check_entry",
    "deleted",
]
_FILE = "register"


class Register:
    """The register in a folder; several people on several machines each write a chain of their own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    @property
    def exists(self) -> bool:
        """Whether anything was ever written."""
        return any((self.folder / FOLDER).glob(f"{_FILE}.*.jsonl"))

    def add(self, entry: Entry) -> Entry:
        """Check an entry, write it, and return it as written; it is on the disk when this returns.

        Raises
        ------
        BadInput
            As `checked`.
        NotRecorded
            The folder or disk does not take it.
        """
        return self.write(self.checked(entry, self.entries()))

    def checked(self, entry: Entry, there: Sequence[Entry]) -> Entry:
        """Return an entry that may be written where `there` is what the register holds.

        Raises
        ------
        BadInput
            Something it must say is missing or cannot be used, it is of a day to come, the learner was deleted on request,
            it must be somebody else who says it, or it changes a mark that it cannot change.
        """
        entry = check_entry(entry)
        if entry.learner and key_of(entry.learner) in deleted(there):
            raise BadInput(f"{entry.learner} was deleted on request, so nothing more is recorded about this learner.")
        check_two_people(entry, there)
        check_standing(entry, there)
        check_days(entry, there)
        return entry

    def write(self, checked: Entry) -> Entry:
        """Write an entry that was checked, and return it as written; it is on the disk when this returns.

        Raises
        ------
        NotRecorded
            The folder or disk does not take it.
        """
        device = device_name()
        try:
            self.folder.mkdir(parents=True, exist_ok=True)
            line = Logbook(self.folder, lesson=_FILE, device=device).append(_fields(checked, device))
        except OSError:
            raise NotRecorded(
                f"The entry was not recorded: {self.folder} cannot be written, or another program holds it. "
                "What was written before is untouched. Make room or name another folder, then try again."
            ) from None
        return _entry(line) or checked

    def lines(self) -> dict[str, list[Line]]:
        """Return the lines of every file of the register, by file name."""
        return read_folder(self.folder, _FILE)

    def entries(self) -> list[Entry]:
        """Return every entry that can be read, oldest first."""
        found = [e for lines in self.lines().values() for line in lines if (e := _entry(line))]
        return sorted(found, key=lambda e: (e.at, e.device, e.n))

    def heads(self) -> dict[str, str]:
        """Return the hash of the last line of every file of the register."""
        read = {name: [line.record.hash for line in lines if line.record] for name, lines in self.lines().items()}
        return {name: hashes[-1] for name, hashes in read.items() if hashes}

    def problems(self) -> list[str]:
        """Return where a chain does not hold, each as one sentence; empty when all hold."""
        return [f"{name}: {text}" for name, lines in self.lines().items() for text in chain_problems(lines)]


def _fields(entry: Entry, device: str) -> dict[str, Any]:
    said = {k: v for k, v in msgspec.to_builtins(entry).items() if v not in ("", None, 0, (), []) or k == "score"}
    for key in ("at", "n", "device", "hash"):
        said.pop(key, None)
    frame = {"class": "", "device": device, "exercise": f"{_FILE}.{entry.kind}", "revision": 1, "turn": 1}
    frame |= {"facts": "", "how": _FILE, "answer": "", "learner": entry.learner, "tool": f"bitepoint {VERSION}"}
    if said.get("score", 0) is None:
        said.pop("score")
    return {"at": utc_now(), **frame, **said}


def _entry(line: Line) -> Entry | None:
    """Return what a line says; one that was changed after it was written is told by `problems`, and not used."""
    if line.record is None or line.problem or line.record.how != _FILE:
        return None
    try:
        return msgspec.json.decode(line.text.encode("utf-8"), type=Entry)
    except msgspec.MsgspecError:
        return None
