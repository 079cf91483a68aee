"""Whom a second person marks: strata that are looked at whole or by a stated lot, each reason said."""

from collections.abc import Iterator, Sequence
from hashlib import blake2b
from math import ceil

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.figures.sampling import Candidate, candidate
from bitepoint.marking.passing import UNSUPERVISED
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.result import Result
from bitepoint.workshop.people import same_person

OF_EACH = 2
"""How many learners of each assessor, and of the first sitting of each supervisor, are drawn."""
_GIVES = ("override", "resolution", "decision")
Reason = tuple[str, str]
"""Learner and why."""


class Chosen(Struct, frozen=True):
    """One learner to mark a second time, and the strata that brought it about."""

    learner: str
    reasons: tuple[str, ...]


def choose(results: Sequence[Result], entries: Sequence[Entry], *, seed: int, rest: float) -> list[Chosen]:
    """Return whom to mark a second time, in the order of the results.

    Parameters
    ----------
    results
        Everybody's; who handed nothing in is left out.
    entries
        The register: who gave marks, who supervised.
    seed
        Decides every lot; the same seed and class give the same plan.
    rest
        Share of those who handed in that is drawn from who is not chosen otherwise, 0 to 1.
    """
    there = [r for r in results if not r.nothing]
    found: dict[str, list[str]] = {r.name: [] for r in there}
    for learner, why in (*_reasons(there), *_of_assessors(there, seed), *_first_sittings(there, entries, seed)):
        found[learner].append(why)
    left = [r for r in there if not found[r.name]]
    for result in drawn(left, seed, "rest", ceil(rest * len(there))):
        found[result.name].append(f"drawn by lot, seed {seed}")
    return [Chosen(name, tuple(dict.fromkeys(reasons))) for name, reasons in found.items() if reasons]


def drawn(results: Sequence[Result], seed: int, stratum: str, count: int) -> list[Result]:
    """Return so many by lot; who is drawn hangs on seed, stratum, class word and id, not on who else is there."""
    return sorted(results, key=lambda r: (lot(seed, stratum, r.class_word, r.name), r.name))[:count]


def lot(seed: int, *parts: str) -> str:
    """Return the number drawn for something."""
    text = "/".join((str(seed), *parts)).casefold()
    return blake2b(text.encode("utf-8", "replace"), digest_size=8).hexdigest()


def _reasons(results: Sequence[Result]) -> Iterator[Reason]:
    """Yield who is near the line, flagged or overridden where it was dangerous, and whom a flag points at."""
    known = {r.name for r in results}
    candidates: list[Candidate] = [candidate(r) for r in results]
    for one in candidates:
        yield from ((one.learner, why) for why in one.reasons)
    for one in candidates:
        yield from ((other, f"matched with a flag of {one.learner}") for other in one.matched if other in known)


def _of_assessors(results: Sequence[Result], seed: int) -> Iterator[Reason]:
    """Yield some of each person who gave marks or decided."""
    for person in _people(e.by for r in results for e in r.entries if e.kind in _GIVES):
        own = [r for r in results if any(e.kind in _GIVES and same_person(e.by, person) for e in r.entries)]
        yield from ((r.name, f"marked by {person[:60]}") for r in drawn(own, seed, f"by {person}", OF_EACH))


def _people(names: Iterator[str]) -> list[str]:
    found: list[str] = []
    for name in names:
        if not any(same_person(name, other) for other in found):
            found.append(name)
    return found


def _first_sittings(results: Sequence[Result], entries: Sequence[Entry], seed: int) -> Iterator[Reason]:
    """Yield some of the first sitting of each supervisor: what a new hand does differently shows there."""
    rooms = sorted((e for e in entries if e.kind == "sitting" and e.word and e.begins), key=lambda e: e.begins)
    for person in _people(e.by for e in rooms):
        first = next(e for e in rooms if same_person(e.by, person))
        own = [r for r in results if _sat(r, first.word)]
        why = f"first sitting of {person[:60]} ({first.word})"
        yield from ((r.name, why) for r in drawn(own, seed, f"sitting {first.word}", OF_EACH))


def _sat(result: Result, word: str) -> bool:
    return any(key_of(w.word) == key_of(word) and w.standing != UNSUPERVISED for w in result.sittings)
