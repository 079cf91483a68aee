"""The trail, marks.jsonl: from each mark to the line that it came from, with hashes and versions."""

from collections.abc import Collection, Iterable

import msgspec
from msgspec import Struct

from bitepoint.bank import Exercise, exercises
from bitepoint.bank.version import bank_digest
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.made_once import MadeOnce
from bitepoint.marking.reading.gather import HandIn
from bitepoint.marking.roster import public_name
from bitepoint.marking.rows import shown_answer
from bitepoint.marking.version import VERSION


class _Trail(Struct):
    """A line of the trail for one that was marked: `sha256` is that of its hand-in, `line` its own hash."""

    sha256: str
    line: str
    learner: str
    class_word: str = msgspec.field(name="class")
    exercise: str
    sitting: str
    turn: int
    revision: int
    bank_revision: int | None
    facts: str
    facts_now: str
    words: str
    vehicle: str
    edition: int
    bank: str
    status: str
    score: float | None
    score_recorded: float | None
    reason: str
    at: str
    opened: str
    kind: str
    answer: str
    right: bool | None


def audit_lines(hand_in: HandIn, marked: Iterable[MarkedLine]) -> bytes:
    """Return the trail of one hand-in: one line for the file, one for each line of it that was marked."""
    head = {
        "hand_in": hand_in.name,
        "sha256": hand_in.sha256,
        "bitepoint": VERSION,
        "bank": bank_digest(),
        "problems": [*hand_in.problems, *hand_in.breaks],
    }
    bank, names = exercises(), MadeOnce(public_name)
    trails = [
        _trail(hand_in.sha256, names[line.record.learner], bank.get(line.record.exercise), line) for line in marked
    ]
    return msgspec.json.Encoder().encode_lines([head, *trails])


def _trail(sha256: str, learner: str, known: Exercise | None, line: MarkedLine) -> _Trail:
    record, verdict, answer = line.record, line.verdict, line.record.answer
    return _Trail(
        sha256,
        record.hash,
        learner,
        record.class_word,
        record.exercise,
        record.sitting,
        record.turn,
        record.revision,
        known.revision if known else None,
        record.facts,
        line.now,
        record.words,
        record.vehicle,
        record.edition,
        record.bank,
        line.status,
        verdict.score if verdict else None,
        record.score,
        verdict.reason if verdict else "",
        record.at,
        record.opened,
        line.kind,
        answer if isinstance(answer, str) else shown_answer(answer),
        verdict.right if verdict else None,
    )


def without(audit: bytes, learners: Collection[str]) -> bytes:
    """Return a trail without the lines of learners (public names, case-folded) who were deleted on request."""
    kept = [x for x in audit.splitlines() if msgspec.json.decode(x).get("learner", "").casefold() not in learners]
    return b"\n".join(kept) + b"\n"
