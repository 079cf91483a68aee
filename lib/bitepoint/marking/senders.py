"""Whose hand-in it is: a hand-in counts for whoever sent it, and what nobody can tell is held for a person.

An entry “sender” names a hand-in by its bytes, and a copy has the same. So it is about what is held, never about a hand-in
that says by itself whose it is.
"""

from collections.abc import Collection, Iterator, Mapping, Sequence

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.flagging.answers import quoted
from bitepoint.marking.flagging.handins import HandInNote, named_in
from bitepoint.marking.flagging.neighbours import SOMEBODY_DELETED
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.result import Flag
from bitepoint.marking.roster import public_name

FOREIGN = "answers of another learner"
_SHA_SHOWN = 12


class Sender(Struct, frozen=True, kw_only=True):
    """Who sent a hand-in (as written, "" when held), whose answers in it count (case-folded), and why it is held.

    `assigned` is whether an entry of the register said so.
    """

    learner: str = ""
    counting: frozenset[str] = frozenset()
    held: str = ""
    assigned: bool = False


def sender_of(note: HandInNote, enrolled: Mapping[str, str], entries: Sequence[Entry]) -> Sender:
    """Return who sent a hand-in.

    It is who workbook.toml says, else the learner of the roster in the file's name, else the only learner in its lines.
    Where these disagree, or say nothing, it is held, and its answers count for nobody until an entry “sender” says.

    Parameters
    ----------
    note
        What is kept of the hand-in.
    enrolled
        Ids of the roster by case-folded id; without a roster a file's name says nothing.
    entries
        The register.
    """
    inside = {key_of(learner): learner for learner in note.learners}
    decided = [e for e in entries if e.hand_in and note.sha256.startswith(e.hand_in)]
    granted = frozenset(key_of(e.learner) for e in decided if e.kind == "lines")
    said = {
        "workbook.toml says": [note.hint] if note.hint else [],
        "the file's name says": sorted(enrolled[key] for key in named_in(note.name, enrolled)),
        "its answers are of": list(inside.values()),
    }
    voices = frozenset(key_of(who) for where, found in said.items() for who in found if _speaks(where, found))
    if len(voices) == 1 and (not inside or voices <= inside.keys()):
        (key,) = voices
        who = next(w for found in said.values() for w in found if key_of(w) == key)
        return Sender(learner=enrolled.get(key, inside.get(key, who)), counting=granted | voices)
    assigned = [e.learner for e in decided if e.kind == "sender"]
    if assigned:
        return Sender(learner=assigned[-1], counting=granted | {key_of(assigned[-1])}, assigned=True)
    if not inside:
        return Sender()
    told = ", ".join(f"{where} {_few(who)}" for where, who in said.items() if who)
    command = f"bitepoint register add sender --hand-in {note.sha256[:_SHA_SHOWN]} --learner … --by …"
    held = f"{note.name}: held, counts for nobody: {told}. Find out who sent it, then: {command}"
    return Sender(counting=granted, held=held)


def astray(notes: Sequence[HandInNote], assigned: Collection[str], entries: Sequence[Entry]) -> Iterator[str]:
    """Tell of entries “sender” that reach no held hand-in, or more than one; `assigned` are the names of those they reach.

    `notes` are the hand-ins with their senders, those of who was deleted on request left out.
    """
    newest = {e.hand_in: e for e in entries if e.kind == "sender"}
    for entry in newest.values():
        there = [n for n in notes if n.sha256.startswith(entry.hand_in)]
        held = sorted(n.name for n in there if n.name in assigned)
        said = f"Register, sender of {entry.date} by {quoted(entry.by)}"
        if len(held) > 1:
            yield (
                f"{said}: {', '.join(held)} are the same to the byte, so one entry says of all of them that {entry.learner} "
                "sent them. If that is not so, put those of others elsewhere and mark again."
            )
        elif there and not held and all(key_of(n.sender) != key_of(entry.learner) for n in there):
            yield (
                f"{said}, says that {entry.learner} sent {there[0].name}, but that hand-in is not held: it counts for "
                f"{there[0].sender or 'nobody'}. The entry changes nothing. What another learner has in it is an entry “lines”."
            )


def _speaks(where: str, found: Sequence[str]) -> bool:
    """Whether this says who the sender is; answers do only where they are one learner's."""
    return "answers" not in where or len(found) == 1


def _few(names: Sequence[str]) -> str:
    more = f" and {len(names) - 3} more" if len(names) > 3 else ""
    return ", ".join(quoted(name) for name in names[:3]) + more


def foreign(note: HandInNote, sender: str, counts: Mapping[str, int], gone: Collection[str] = ()) -> Iterator[Flag]:
    """Flag answers of another learner, for the sender and for the other one; they count for nobody.

    `counts` holds how many answers each other learner (id as written) has in the hand-in. Who was deleted on request
    (`gone`, case-folded ids) is not named, and their answers cannot come to count.
    """
    name = f"A hand-in of {SOMEBODY_DELETED}" if key_of(sender) in gone else f"{note.name}, sent by {quoted(sender)},"
    for learner, count in counts.items():
        many = "1 answer" if count == 1 else f"{count} answers"
        if key_of(learner) in gone:
            evidence = f"{name} holds {many} of {SOMEBODY_DELETED}. They count for nobody."
        else:
            evidence = (
                f"{name} holds {many} of {quoted(learner)}. They count for nobody until a person decides: "
                f"bitepoint register add lines --hand-in {note.sha256[:_SHA_SHOWN]} --learner … --by … --text …"
            )
        for who in dict.fromkeys((sender, learner)):
            if key_of(who) not in gone:
                yield Flag(kind=FOREIGN, learner=public_name(who), evidence=evidence)
