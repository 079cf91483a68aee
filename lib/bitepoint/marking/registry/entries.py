"""What an entry of the register is: the kinds, what each must say, and how entries are told apart."""

from collections.abc import Iterator, Sequence
from typing import Literal, get_args

import msgspec
from msgspec import Struct

from bitepoint.logbook.identity import key_of

Kind = Literal[
    "sitting",
    "confirmation",
    "declaration",
    "decision",
    "verification",
    "override",
    "withdraw override",
    "second mark",
    "resolution",
    "adjustment",
    "resubmission",
    "appeal",
    "observation",
    "code",
    "sender",
    "lines",
    "deletion",
]
KINDS: tuple[str, ...] = get_args(Kind)
OBSERVED = ("done right", "not right yet", "not watched")
NEEDS: dict[str, tuple[str, ...]] = {
    "sitting": ("word", "begins", "ends", "by"),
    "confirmation": ("word", "by", "text"),
    "declaration": ("learner", "by"),
    "decision": ("learner", "by", "criterion", "text"),
    "verification": ("by", "text", "action"),
    "override": ("learner", "exercise", "score", "by", "text"),
    "withdraw override": ("learner", "exercise", "by", "text"),
    "second mark": ("learner", "exercise", "score", "by"),
    "resolution": ("learner", "exercise", "score", "by", "text"),
    "adjustment": ("learner", "by", "text"),
    "resubmission": ("learner", "by", "number"),
    "appeal": ("learner", "by", "text"),
    "observation": ("learner", "criterion", "result", "by"),
    "code": ("learner", "lesson", "code"),
    "sender": ("hand_in", "learner", "by"),
    "lines": ("hand_in", "learner", "by", "text"),
    "deletion": ("learner", "by", "text"),
}
"""What each kind of entry must say, beside its date."""
OPTIONS = {"begins": "from", "ends": "to", "hand_in": "hand-in"}
"""Options that are named otherwise than the field they fill."""
CONFIRMED = ("in the sitting", "not in the sitting")
APPEAL_OUTCOMES = ("upheld", "partly upheld", "not upheld", "taken back")
SIGNED = ("yes", "no")


class Entry(Struct, frozen=True, kw_only=True):
    """One entry: `kind`, `learner` ("" for what is about the class or a room), `by` who, `date` when it happened, and more.

    `at` is when it was written (UTC). What a kind does not use stays empty. `word` is that of a sitting, `begins` and
    `ends` are its window; `lessons` empty means all. `hand_in` is the SHA-256 of a hand-in or how it begins.
    Of an appeal `outcome` says how it was decided, `decided` on which day, and `by` by whom; before, `by` received it. An
    adjustment about a learner who came from another class names class word and id there (`earlier_class`, `earlier`).
    """

    kind: str
    learner: str = ""
    by: str = ""
    date: str = ""
    text: str = ""
    exercise: str = msgspec.field(name="about", default="")
    criterion: str = ""
    result: str = ""
    action: str = ""
    lesson: str = ""
    code: str = ""
    score: float | None = None
    number: int | None = None
    word: str = ""
    begins: str = msgspec.field(name="from", default="")
    ends: str = msgspec.field(name="to", default="")
    lessons: tuple[str, ...] = ()
    room: str = ""
    hand_in: str = ""
    earlier: str = ""
    earlier_class: str = ""
    outcome: str = ""
    decided: str = ""
    signed: str = ""
    at: str = ""
    n: int = 0
    device: str = ""
    hash: str = ""


def deleted(entries: Sequence[Entry]) -> dict[str, Entry]:
    """Return the deletions by case-folded learner."""
    return {key_of(e.learner): e for e in entries if e.kind == "deletion"}


def about(entries: Sequence[Entry], learner: str) -> Iterator[Entry]:
    """Yield the entries about one learner, oldest first."""
    return (e for e in entries if e.learner and key_of(e.learner) == key_of(learner))


def overriding(entries: Sequence[Entry], *, resolved: bool = True) -> dict[str, Entry]:
    """Return by exercise the entry whose mark stands instead of the computed one: the newest, unless it was withdrawn.

    What was agreed on after a second marking gives way to another resolution alone: an override that is newer (it may come
    with the register of another computer) changes nothing. `resolved` False leaves out what was agreed on, so that both
    first marks can be compared.
    """
    found: dict[str, Entry] = {}
    agreed: set[str] = set()
    for entry in entries:
        if entry.kind == "resolution":
            agreed.add(entry.exercise)
            if resolved:
                found[entry.exercise] = entry
        elif entry.exercise in agreed:
            continue
        elif entry.kind == "override":
            found[entry.exercise] = entry
        elif entry.kind == "withdraw override":
            found.pop(entry.exercise, None)
    return found
