"""What is still said of a hand-in that somebody deleted on request has a part in: to whoever marks, and in no file."""

from collections.abc import Collection

import msgspec

from bitepoint.marking.flagging.handins import HandInNote, named_in
from bitepoint.marking.flagging.neighbours import SOMEBODY_DELETED
from bitepoint.marking.roster import key_of

UNNAMED = f"a hand-in of {SOMEBODY_DELETED}"


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
