"""Flags about hand-ins as a whole: broken chains, and the same hand-in from two learners."""

import re
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from msgspec import Struct

from bitepoint.marking.flagging.answers import CHAIN, TWICE
from bitepoint.marking.flagging.neighbours import SOMEBODY_DELETED
from bitepoint.marking.result import Flag
from bitepoint.marking.roster import key_of, public_name

_SHOWN = 5


class HandInNote(Struct, frozen=True, kw_only=True):
    """What is kept of a hand-in once its lines are marked: whose lines it holds, what it is compared by.

    `counts` holds (case-folded learner, device, number of lines), `sender` whom it counts for, "" for nobody.
    """

    name: str
    sha256: str
    line_set: str
    hint: str
    learners: tuple[str, ...]
    breaks: tuple[str, ...]
    counts: tuple[tuple[str, str, int], ...] = ()
    sender: str = ""


def broken_chains(notes: Sequence[HandInNote]) -> Iterator[Flag]:
    """Flag hand-ins with a chain that does not hold, for whoever sent them; where nobody is known to, about nobody."""
    for note in notes:
        if not note.breaks:
            continue
        more = f" And {len(note.breaks) - _SHOWN} more." if len(note.breaks) > _SHOWN else ""
        evidence = " ".join(note.breaks[:_SHOWN]) + more
        yield Flag(kind=CHAIN, learner=public_name(note.sender) if note.sender else "", evidence=evidence)


def handed_in_twice(
    notes: Sequence[HandInNote], known: Mapping[str, str], gone: Collection[str] = ()
) -> Iterator[Flag]:
    """Flag hand-ins with the same bytes or the same lines that come from two learners.

    Parameters
    ----------
    notes
        Every hand-in.
    known
        Public names by case-folded id: whose name may stand in a hand-in's file name.
    gone
        Case-folded ids of who was deleted on request: counted, not named, and not flagged.
    """
    everybody = {**known, **dict.fromkeys(gone, SOMEBODY_DELETED)}
    groups: dict[str, list[HandInNote]] = {}
    for note in notes:
        if note.line_set:
            groups.setdefault(note.line_set, []).append(note)
    for group in groups.values():
        if len(group) < 2:
            continue
        everyone = set().union(*(_senders(note, everybody) for note in group))
        if len(everyone) < 2:
            continue
        same = "the same bytes" if len({n.sha256 for n in group}) == 1 else "the same lines"
        names = ", ".join(sorted({_shown_name(note, everybody) for note in group}))
        for sender in sorted(everyone - {SOMEBODY_DELETED}):
            others = sorted(everyone - {SOMEBODY_DELETED, sender})
            yield Flag(
                kind=TWICE,
                learner=sender,
                evidence=f"{names}: hand-ins of {len(everyone)} learners with {same}.",
                matched=others[0] if others else "",
            )


def _shown_name(note: HandInNote, known: Mapping[str, str]) -> str:
    """Return a hand-in's file name, unless it seems to come from somebody who was deleted on request."""
    return f"one of {SOMEBODY_DELETED}" if SOMEBODY_DELETED in _senders(note, known) else note.name


def _senders(note: HandInNote, known: Mapping[str, str]) -> set[str]:
    """Return whom a hand-in seems to come from: by file name, workbook.toml and whose lines it holds."""
    named = {known[key] for key in named_in(note.name, known)}
    hinted = {known.get(key_of(note.hint), "")} - {""}
    lines = {known[key_of(learner)] for learner in note.learners if key_of(learner) in known}
    return (named or hinted) | hinted | lines


def named_in(name: str, keys: Iterable[str]) -> set[str]:
    """Return which of these case-folded ids stand in the name of a file or of the folders it lies in."""
    parts = {key_of(p) for p in re.split(r"[/\s]+", name)}
    whole = "\n".join(parts)
    return {key for key in keys if key in whole and any(_names(part, key) for part in parts)}


def _names(part: str, key: str) -> bool:
    at = part.find(key)
    if at < 0:
        return False
    before, after = part[at - 1 : at], part[at + len(key) : at + len(key) + 1]
    return not before.isalnum() and not after.isalnum()
