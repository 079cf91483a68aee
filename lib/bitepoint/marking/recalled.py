"""What a learner answered in recall, weeks after the lesson: apart from every mark, and worth looking at by itself."""

from collections.abc import Sequence
from datetime import UTC, datetime

from msgspec import Struct

from bitepoint.bank.corrections import withdrawal_of
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.recall.times import times_of


class Recalled(Struct, frozen=True, kw_only=True):
    """One answer in recall, marked afresh.

    `days` is how long before the learner had last answered that exercise, in its lesson or in recall; None where no line
    says so. `critical` that it held a dangerous mistake and `put_right` that a later answer was right; `says` is what the
    learner read, `own_words` the reason that the learner wrote, which nobody but a person marks.
    """

    exercise: str
    at: datetime
    turn: int
    score: float
    days: float | None = None
    critical: bool = False
    put_right: bool = False
    mistake: str = ""
    says: str = ""
    answer: str = ""
    own_words: str = ""

    @property
    def right(self) -> bool:
        """Whether it was fully right."""
        return self.score >= 1

    @property
    def danger_open(self) -> bool:
        """Whether it held a dangerous mistake that no later answer put right."""
        return self.critical and not self.put_right


def recalled_of(lines: Sequence[MarkedLine]) -> tuple[Recalled, ...]:
    """Return the answers in recall among a learner's lines, oldest first.

    A line without a mark is left out: its question has changed since, or was withdrawn. A sitting's answers are no part
    of this.
    """
    if not any(x.record.is_recall for x in lines):
        return ()
    known = [x for x in lines if x.record.is_recall or not x.record.sitting]
    times = times_of([x.record for x in known], datetime.now(UTC))
    placed = sorted(
        (x for x in known if x.record.hash in times), key=lambda x: (times[x.record.hash], x.record.device, x.record.n)
    )
    reasons = {_asked(x): _words(x) for x in placed if x.record.in_own_words}
    by_exercise: dict[str, list[MarkedLine]] = {}
    for line in placed:
        if line.verdict is not None:
            by_exercise.setdefault(line.record.exercise, []).append(line)
    found = [one for group in by_exercise.values() for one in _of_exercise(group, times, reasons)]
    return tuple(sorted(found, key=lambda one: (one.at, one.exercise, one.turn)))


def _asked(line: MarkedLine) -> tuple[str, int, str]:
    return line.record.exercise, line.record.turn, line.record.device


def _words(line: MarkedLine) -> str:
    return line.record.answer if isinstance(line.record.answer, str) else ""


def _of_exercise(
    lines: Sequence[MarkedLine], times: dict[str, datetime], reasons: dict[tuple[str, int, str], str]
) -> list[Recalled]:
    found: list[Recalled] = []
    for place, line in enumerate(lines):
        record, verdict = line.record, line.verdict
        if verdict is None or not record.is_recall or withdrawal_of(record.exercise, record.revision):
            continue
        at = times[record.hash]
        before = times[lines[place - 1].record.hash] if place else None
        found.append(
            Recalled(
                exercise=record.exercise,
                at=at,
                turn=record.turn,
                score=verdict.score,
                days=(at - before).total_seconds() / 86_400 if before else None,
                critical=verdict.critical,
                put_right=any(_puts_right(later) for later in lines[place + 1 :]),
                mistake=verdict.mistake or "",
                says="" if verdict.right else verdict.feedback,
                answer=verdict.understood,
                own_words=reasons.get(_asked(line), ""),
            )
        )
    return found


def _puts_right(line: MarkedLine) -> bool:
    return line.verdict is not None and line.verdict.right and not line.record.solution_shown
