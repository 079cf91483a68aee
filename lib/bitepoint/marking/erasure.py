"""What is still said of a hand-in that somebody deleted on request has a part in: to whoever marks, and in no file."""

from collections.abc import Collection, Sequence

import msgspec

from bitepoint.marking.flagging.handins import HandInNote, named_in
from bitepoint.marking.flagging.neighbours import SOMEBODY_DELETED
from bitepoint.marking.registry.entries import Entry, deleted
from bitepoint.marking.roster import key_of, public_name

UNNAMED = f"a hand-in of {SOMEBODY_DELETED}"


def gone_names(entries: Sequence[Entry]) -> set[str]:
    """Return the public names, case-folded, of who was deleted on request."""
    return {public_name(e.learner).casefold() for e in deleted(entries).values()}


def is_of(note: HandInNote, gone: Collection[str]) -> bool:
    """Whether file name, workbook.toml or a line of a hand-in names one of `gone` (case-folded ids)."""
    everybody = {key_of(learner) for learner in (*note.learners, note.hint)}
    return bool(everybody & set(gone)) or bool(named_in(note.name, gone))


def unnamed(audit: bytes) -> bytes:
    """Return the trail of a hand-in without its file's name and without the words of what was wrong with it."""
    head, _, rest = audit.partition(b"\n")
    said = msgspec.json.decode(head)
    count = len(said["problems"])
    said |= {"hand_in": UNNAMED, "problems": [f"{count} left out"] if count else []}
    return msgspec.json.encode(said) + b"\n" + rest


class Erased:
    """What the terminal says of hand-ins in which somebody deleted on request has a part; files get the counts alone.

    `to_remove` are the files that are theirs, `beside` counts lines about hand-ins of others in which they have a part.
    """

    def __init__(self, gone: Collection[str]) -> None:
        self._gone = set(gone)
        self.said: list[str] = []
        self.to_remove: set[str] = set()
        self.beside = 0

    def tell(self, note: HandInNote, *lines: str) -> None:
        """Keep what is wrong with a hand-in in which they have a part."""
        if not lines:
            return
        self.said += lines
        if {key_of(learner) for learner in (*note.learners, note.hint) if learner} <= self._gone:
            self.to_remove.add(note.name)
        else:
            self.beside += len(lines)

    def remove(self, note: HandInNote, line: str) -> None:
        """Keep that a hand-in is to be removed."""
        self.said.append(line)
        self.to_remove.add(note.name)
