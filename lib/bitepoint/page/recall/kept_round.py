"""A round of recall as it is kept: which questions it asks, in which turn, and which of them is in view.

It lies with the drafts, for it is no answer: a round that was begun goes on after a reload, a restart or on another computer.
What was answered is told by the logbook alone. Lost, a new round is made of what is due then.
"""

from datetime import date

import msgspec
from msgspec import Struct

from bitepoint.logbook import Identity
from bitepoint.logbook.draft import Owner, keep_draft, read_draft
from bitepoint.logbook.identity import key_of
from bitepoint.logbook.record import RECALL, RECALL_BOOK
from bitepoint.recall.choosing import MOST

FIRST_TURN = 1


class RoundQuestion(Struct, frozen=True, array_like=True):
    """One question of a round: its exercise and its turn in recall."""

    exercise: str
    turn: int = FIRST_TURN


class KeptRound(Struct, frozen=True):
    """The questions of a round in their order, the day it was made on [local date], the place of the one in view, reasons passed over.

    The place behind the last question is the end of the round.
    """

    asked: tuple[RoundQuestion, ...]
    day: str
    at: int = 0
    passed: tuple[str, ...] = ()


def read_round(identity: Identity) -> KeptRound | None:
    """Return the round that this learner has begun; None where there is none that can be used."""
    if identity.folder is None:
        return None
    kept = read_draft(identity.folder, _owner(identity))
    try:
        found = msgspec.convert(kept, KeptRound)
        date.fromisoformat(found.day)
    except (msgspec.ValidationError, ValueError):
        return None
    if not 1 <= len(found.asked) <= MOST or not 0 <= found.at <= len(found.asked):
        return None
    return found if all(one.turn >= FIRST_TURN for one in found.asked) else None


def keep_round(identity: Identity, now: KeptRound) -> None:
    """Keep the round as it is now."""
    if identity.folder is not None:
        keep_draft(identity.folder, _owner(identity), msgspec.to_builtins(now))


def _owner(identity: Identity) -> Owner:
    return Owner(
        learner=key_of(identity.learner),
        class_word=key_of(identity.class_word),
        sitting=RECALL,
        exercise=RECALL_BOOK,
        turn=0,
        facts="",
    )
