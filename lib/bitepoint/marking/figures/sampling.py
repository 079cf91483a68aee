"""Which learners a second person marks again, and why; the same at every marking of the same class."""

from collections.abc import Sequence
from hashlib import blake2b
from math import ceil

from msgspec import Struct

from bitepoint.marking.flagging.answers import CHANGED
from bitepoint.marking.result import Result


class Sampled(Struct, frozen=True):
    """One learner to mark again and the reasons."""

    learner: str
    reasons: tuple[str, ...]


class Candidate(Struct, frozen=True):
    """What sampling needs to know of a learner: a number drawn from class word and id, and reasons so far.

    `matched` are those whom this learner's flags point at: a copy has two ends.
    """

    learner: str
    drawn: str
    reasons: tuple[str, ...]
    matched: tuple[str, ...] = ()


def candidate(result: Result) -> Candidate:
    """Return a learner who handed something in as a candidate.

    A changed question asks for marking by hand, of everyone alike, and is no reason to sample.
    """
    reasons = []
    rows = [r for r in result.shown_rows if r.override and r.critical_made]
    if rows:
        reasons.append(f"override where a critical mistake was made: {', '.join(r.exercise for r in rows)}")
    counted = result.sat.counted if result.sat else result.counted
    if abs(counted.margin) <= 1:
        reasons.append(f"on the border: {counted.right} right, {counted.needed} needed")
    kinds = dict.fromkeys(f.kind for f in result.flags if f.kind != CHANGED)
    if kinds:
        reasons.append("flagged: " + "; ".join(kinds))
    key = f"{result.class_word.casefold()}/{result.name.casefold()}"
    drawn = blake2b(key.encode("utf-8", "replace"), digest_size=8).hexdigest()
    matched = tuple(dict.fromkeys(f.matched for f in result.flags if f.matched))
    return Candidate(result.name, drawn, tuple(reasons), matched)


def plan(candidates: Sequence[Candidate]) -> list[Sampled]:
    """Return whom to mark again: everyone with a reason or matched with one who is flagged, and a tenth by lot."""
    lot = sorted(candidates, key=lambda c: (c.drawn, c.learner))[: ceil(len(candidates) / 10)]
    chosen = {c.learner for c in lot}
    found = []
    for c in candidates:
        by = [f"matched with a flag of {other.learner}" for other in candidates if c.learner in other.matched]
        reasons = (*c.reasons, *by, *(("drawn by lot from the class word",) if c.learner in chosen else ()))
        if reasons:
            found.append(Sampled(c.learner, reasons))
    return found
