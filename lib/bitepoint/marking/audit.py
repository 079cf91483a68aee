"""The trail, marks.jsonl: from each mark to the line that it came from, with hashes and versions."""

from collections.abc import Collection, Iterable

import msgspec

from bitepoint.bank import exercises
from bitepoint.bank.version import bank_digest
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.reading.gather import HandIn
from bitepoint.marking.roster import public_name
from bitepoint.marking.rows import shown_answer
from bitepoint.marking.version import VERSION


def audit_lines(hand_in: HandIn, marked: Iterable[MarkedLine]) -> bytes:
    """Return the trail of one hand-in: one line for the file, one for each line of it that was marked."""
    head = {
        "hand_in": hand_in.name,
        "sha256": hand_in.sha256,
        "bitepoint": VERSION,
        "bank": bank_digest(),
        "problems": [*hand_in.problems, *hand_in.breaks],
    }
    found = [msgspec.json.encode(head)]
    found += [msgspec.json.encode(_trail(hand_in.sha256, line)) for line in marked]
    return b"\n".join(found) + b"\n"


def _trail(sha256: str, line: MarkedLine) -> dict[str, object]:
    record, known = line.record, exercises().get(line.record.exercise)
    return {
        "sha256": sha256,
        "line": record.hash,
        "learner": public_name(record.learner),
        "class": record.class_word,
        "exercise": record.exercise,
        "sitting": record.sitting,
        "turn": record.turn,
        "revision": record.revision,
        "bank_revision": known.revision if known else None,
        "facts": record.facts,
        "facts_now": line.now,
        "words": record.words,
        "vehicle": record.vehicle,
        "edition": record.edition,
        "bank": record.bank,
        "status": line.status,
        "score": line.verdict.score if line.verdict else None,
        "score_recorded": record.score,
        "reason": line.verdict.reason if line.verdict else "",
        "at": record.at,
        "opened": record.opened,
        "kind": line.kind,
        "answer": record.answer if isinstance(record.answer, str) else shown_answer(record.answer),
        "right": line.verdict.right if line.verdict else None,
    }


def without(audit: bytes, learners: Collection[str]) -> bytes:
    """Return a trail without the lines of learners (public names, case-folded) who were deleted on request."""
    kept = [x for x in audit.splitlines() if msgspec.json.decode(x).get("learner", "").casefold() not in learners]
    return b"\n".join(kept) + b"\n"
