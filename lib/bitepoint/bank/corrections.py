"""What was found wrong after a release: questions corrected by a new revision, and questions withdrawn.

Both stand in corrections.toml, because learners and assessors read them: what was wrong, when it was put right, and
whether following the old question could hurt someone. A withdrawn question is asked no more in that revision; what
answers to it count for is worked out in marking.
"""

import datetime
from pathlib import Path

from msgspec import Struct

from bitepoint.bank import exercises, shipped_exercise
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.reading import broken, read_toml

_FILE = Path(__file__).parent / "corrections.toml"


class Correction(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A question put right: `revision` is the new one; `what` was wrong, in one sentence; `dangerous`: to do as it said."""

    exercise: str
    revision: int
    date: datetime.date
    what: str
    dangerous: bool = False


class Withdrawal(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Revisions of a question that were found wrong and count for nobody's loss; `why` in one sentence."""

    exercise: str
    revisions: tuple[int, ...]
    date: datetime.date
    why: str


class _File(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    correction: tuple[Correction, ...] = ()
    withdrawal: tuple[Withdrawal, ...] = ()


def read_corrections(path: Path) -> _File:
    """Read a corrections.toml.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    found = read_toml(path, _File, what="list of corrections")
    for each in found.correction:
        known = shipped_exercise(each.exercise)
        if known is None or each.revision not in known.makers:
            raise broken(path, f"correction {each.exercise!r}", "must name an exercise and a revision of it")
        if not each.what.strip():
            raise broken(path, f"correction {each.exercise!r}", "must say what was wrong")
    for gone in found.withdrawal:
        known = shipped_exercise(gone.exercise)
        if known is None or not gone.revisions or not set(gone.revisions) <= set(known.makers):
            raise broken(path, f"withdrawal {gone.exercise!r}", "must name an exercise and revisions of it")
        if not gone.why.strip():
            raise broken(path, f"withdrawal {gone.exercise!r}", "must say why")
    return found


@once_a_set
def _corrections() -> _File:
    return read_corrections(_FILE)


def correction_since(exercise: str, revision: int) -> Correction | None:
    """Return the correction of a question of this revision, the gravest first, then the newest; None when none is."""
    later = [c for c in _corrected().get(exercise, ()) if c.revision > revision]
    return max(later, key=lambda c: (c.dangerous, c.revision)) if later else None


@once_a_set
def dangerously_corrected() -> frozenset[str]:
    """Return the exercises that have a correction because doing as they said could hurt someone."""
    return frozenset(each.exercise for each in corrections() if each.dangerous)


@once_a_set
def _corrected() -> dict[str, list[Correction]]:
    found: dict[str, list[Correction]] = {}
    for each in corrections():
        found.setdefault(each.exercise, []).append(each)
    return found


def corrections() -> tuple[Correction, ...]:
    """Return every correction, as listed."""
    return _corrections().correction


def withdrawals() -> tuple[Withdrawal, ...]:
    """Return every withdrawal, as listed."""
    return _corrections().withdrawal


def withdrawal_of(exercise: str, revision: int) -> Withdrawal | None:
    """Return the withdrawal that this revision falls under, None when it stands."""
    return _withdrawn().get((exercise, revision))


@once_a_set
def withdrawn_now() -> frozenset[str]:
    """Return the exercises whose newest revision is withdrawn: they are asked no more."""
    return frozenset(e.id for e in exercises().values() if withdrawal_of(e.id, e.revision))


@once_a_set
def _withdrawn() -> dict[tuple[str, int], Withdrawal]:
    # Where a revision stands in two entries, the first one says why.
    return {(w.exercise, revision): w for w in reversed(withdrawals()) for revision in w.revisions}
