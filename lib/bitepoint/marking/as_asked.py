"""Questions as a learner saw them: in the words of this bank where they are the same, else in those of the release.

For whoever answers an appeal. Where the words cannot be had, that is said; this bank's words then stand for them only where
the facts are the same, and that is said too.
"""

from collections.abc import Sequence
from typing import Any

import msgspec
from msgspec import Struct

from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.line_marking import MarkedLine, drawn_for
from bitepoint.questions.kinds import KINDS
from bitepoint.questions.question import Question
from bitepoint.releases.frozen import said_in_release

_TYPES = {kind.__name__: kind for kind in KINDS}


class AsAsked(Struct, frozen=True, kw_only=True):
    """One recorded answer with the question as it was read; `question` is None where that cannot be had.

    `where` says in a sentence whose words these are, or why there are none.
    """

    line: MarkedLine
    question: Question | None
    where: str


def as_asked(lines: Sequence[MarkedLine], cars: ClassCars) -> list[AsAsked]:
    """Return each answer with its question in the words that the learner read, oldest first."""
    ordered = sorted(lines, key=lambda x: (x.record.at, x.record.device, x.record.n))
    now = {id(line): _now(line, cars) for line in ordered}
    missing = [line for line in ordered if now[id(line)] is None]
    released = {id(line): found for line, found in zip(missing, _released(missing), strict=True)}
    return [_found(line, now[id(line)], released.get(id(line))) for line in ordered]


THESE_WORDS = "Below it stands in the words of this bank: figures, what was offered and what is right are as asked."


def same_facts(one: AsAsked, cars: ClassCars) -> AsAsked:
    """Return an answer whose words cannot be had with this bank's question, where all that decides the mark is the same."""
    if one.question is not None or one.line.verdict is None:
        return one
    question = drawn_for(one.line.record, cars)
    return msgspec.structs.replace(one, question=question, where=f"{one.where} {THESE_WORDS}") if question else one


def _now(line: MarkedLine, cars: ClassCars) -> Question | None:
    question = drawn_for(line.record, cars)
    return question if question and question.words_digest() == line.record.words else None


def _released(lines: Sequence[MarkedLine]) -> list[Question | None]:
    """Ask each release once for all of its lines."""
    found: dict[int, Question | None] = {}
    for bank in dict.fromkeys(line.record.bank for line in lines):
        group = [line for line in lines if line.record.bank == bank]
        said = said_in_release(bank, [_arguments(line) for line in group]) or [{} for _ in group]
        found |= {id(line): _question(line, one) for line, one in zip(group, said, strict=True)}
    return [found[id(line)] for line in lines]


def _arguments(line: MarkedLine) -> dict[str, Any]:
    record = line.record
    return {
        "exercise": record.exercise,
        "class_word": record.class_word,
        "learner": record.learner,
        "turn": record.turn,
        "sitting": record.sitting,
        "revision": record.revision,
        "vehicle": record.vehicle or None,
        "edition": record.edition,
        "cars": record.class_cars,
    }


def _question(line: MarkedLine, said: dict[str, Any]) -> Question | None:
    """Return what a release said, if these are the words that the line names."""
    kind = _TYPES.get(str(said.get("type")))
    if kind is None or said.get("words") != line.record.words:
        return None
    try:
        return msgspec.convert(said["question"], kind)
    except msgspec.ValidationError:
        return None


def _found(line: MarkedLine, now: Question | None, released: Question | None) -> AsAsked:
    bank = line.record.bank[:40]
    if now is not None:
        return AsAsked(line=line, question=now, where="In the words that this bank has, too.")
    if released is not None:
        return AsAsked(line=line, question=released, where=f"In the words of the release with bank {bank}.")
    why = f"its release, bank {bank or 'not named'}, is not kept here, or does not ask this learner that"
    return AsAsked(line=line, question=None, where=f"The words cannot be printed: {why}.")
