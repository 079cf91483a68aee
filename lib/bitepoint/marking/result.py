"""What marking found out about one learner: a row for each exercise, flags, and what is left to do."""

from collections.abc import Sequence
from typing import Any

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.logbook.standing import Marked, Standing, standing
from bitepoint.marking.remark import MarkedLine
from bitepoint.marking.roster import key_of

MORE_WORK = "more work needed"
ALL_RIGHT = "all exercises right; evidence not complete: no supervised sitting and no declaration recorded"
OBSERVATION = "practical observation still required"


class Flag(Struct, frozen=True, kw_only=True):
    """Something a person should look at, with evidence; not a verdict. `exercise` is "" when it is about all."""

    kind: str
    learner: str
    evidence: str
    exercise: str = ""


class Row(Struct, frozen=True, kw_only=True):
    """One learner's marks in one exercise; scores are None when the question has changed since."""

    learner: str
    exercise: str
    first_score: float | None = None
    last_score: float | None = None
    tries: int = 0
    turns: int = 0
    solutions_seen: int = 0
    critical_open: bool = False
    mistake: str = ""
    reason: str = ""
    answer: str = ""
    says: str = ""
    mistakes_made: tuple[str, ...] = ()
    flags: tuple[str, ...] = ()

    @property
    def outcome(self) -> str:
        """Where the learner stands, in words: one of OUTCOMES."""
        if self.last_score is None or self.first_score is None:
            return "not marked"
        if self.last_score >= 1:
            return "right at first try" if self.first_score >= 1 else "right later"
        return "partly right" if self.last_score > 0 else "not right yet"


OUTCOMES = ("right at first try", "right later", "partly right", "not right yet", "not marked")


class Result(Struct, frozen=True, kw_only=True):
    """One learner: `name` is the public id, `changed` the lines whose question has changed since."""

    name: str
    class_word: str
    rows: tuple[Row, ...] = ()
    flags: tuple[Flag, ...] = ()
    changed: tuple[MarkedLine, ...] = ()
    first_at: str = ""
    last_at: str = ""

    @property
    def evidence(self) -> str:
        """Return what the knowledge evidence amounts to; never a word about the person."""
        wanted = {e.id for e in exercises().values() if not e.beyond}
        right = {r.exercise for r in self.rows if r.last_score is not None and r.last_score >= 1}
        done = wanted <= right and not any(r.critical_open for r in self.rows)
        return ALL_RIGHT if done else MORE_WORK


def shown_answer(answer: str | list[Any]) -> str:
    """Return the first 400 characters of a recorded answer as a person reads it."""
    text = answer if isinstance(answer, str) else ", ".join(str(part)[:400] for part in answer[:100])
    return text[:400]


def rows_of(name: str, lines: Sequence[MarkedLine], class_word: str) -> list[Row]:
    """Return a learner's rows in the order of the bank.

    Answers under the learner's own class word count; where an exercise has none, those under another one do.
    """
    by_exercise: dict[str, list[MarkedLine]] = {}
    for line in lines:
        by_exercise.setdefault(line.record.exercise, []).append(line)
    rows = []
    for exercise in exercises():
        if exercise in by_exercise:
            rows.append(_row(name, exercise, _of_class(by_exercise[exercise], class_word)))
    return rows


def _of_class(lines: list[MarkedLine], class_word: str) -> list[MarkedLine]:
    own = [line for line in lines if key_of(line.record.class_word) == key_of(class_word)]
    if own:
        return own
    words = sorted({key_of(line.record.class_word) for line in lines})
    return [line for line in lines if key_of(line.record.class_word) == words[0]]


def _row(name: str, exercise: str, lines: list[MarkedLine]) -> Row:
    marked = [Marked(x.record, x.verdict, x.tries_allowed) for x in lines if x.verdict is not None]
    if not marked:
        turns = len({line.record.turn for line in lines})
        return Row(
            learner=name, exercise=exercise, tries=len(lines), turns=turns, reason="Question changed since: no mark."
        )
    return _marked_row(name, exercise, standing(marked), marked)


def _marked_row(name: str, exercise: str, found: Standing, marked: list[Marked]) -> Row:
    verdict = found.counted.verdict
    return Row(
        learner=name,
        exercise=exercise,
        first_score=found.first_score,
        last_score=found.last_score,
        tries=found.tries,
        turns=found.turns,
        solutions_seen=found.solutions_seen,
        critical_open=found.critical_open,
        mistake=verdict.mistake or "",
        reason=verdict.reason,
        answer=verdict.understood or shown_answer(found.counted.record.answer),
        says="" if verdict.right else verdict.feedback,
        mistakes_made=tuple(m.verdict.mistake for m in marked if m.verdict.mistake),
    )
