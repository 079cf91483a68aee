"""Marking a recorded answer afresh against the question drawn again; nothing of the learner's is run."""

from functools import lru_cache
from typing import Literal

from msgspec import Struct

from bitepoint.bank import Exercise, exercises
from bitepoint.errors import NotUnderstood
from bitepoint.logbook.record import Line, Record
from bitepoint.questions.question import Question, Verdict

Status = Literal["marked", "question changed", "unknown exercise"]
NOT_READ = "The answer cannot be read."
_LONGEST_NAME = 300


class MarkedLine(Struct, frozen=True, kw_only=True):
    """One line with its mark; `verdict` is None when there is none, `now` is the digest of the question drawn."""

    record: Record
    status: Status
    verdict: Verdict | None = None
    now: str = ""
    reading_s: float = 0.0
    changed: bool = False
    kind: str = ""
    tries_allowed: int = 0


@lru_cache(maxsize=8192)
def drawn(exercise: str, class_word: str, learner: str, turn: int, sitting: str, revision: int) -> Question | None:
    """Return the question of this learner and turn, or None when the bank has no such revision or turn."""
    found: Exercise | None = exercises().get(exercise)
    if found is None or turn < 1 or revision not in found.makers:
        return None
    try:
        return found.draw(class_word=class_word, learner=learner, turn=turn, sitting=sitting, revision=revision)
    except (RuntimeError, ValueError, ArithmeticError):  # a line may name a turn that nobody was ever asked
        return None


@lru_cache(maxsize=8192)
def _digest(exercise: str, class_word: str, learner: str, turn: int, sitting: str, revision: int) -> str:
    question = drawn(exercise, class_word, learner, turn, sitting, revision)
    return question.digest() if question else ""


def drawn_for(record: Record, *, learner: str | None = None) -> Question | None:
    """Return the question that a line answers, or the one that another learner got in its place."""
    who = record.learner if learner is None else learner
    if _too_long(record, who):
        return None
    return drawn(record.exercise, record.class_word, who, record.turn, record.sitting, record.revision)


def digest_for(record: Record, *, learner: str | None = None) -> str:
    """Return the digest of the question drawn for a line, "" when there is none."""
    who = record.learner if learner is None else learner
    if _too_long(record, who):
        return ""
    return _digest(record.exercise, record.class_word, who, record.turn, record.sitting, record.revision)


def asked_text(record: Record, *, turns: int = 6) -> str:
    """Return the words of the question a line answers, found by its digest among turns and revisions; else ""."""
    found: Exercise | None = exercises().get(record.exercise)
    if found is None or _too_long(record, record.learner):
        return ""
    for revision in found.makers:
        for turn in dict.fromkeys((record.turn, *range(1, turns + 1))):
            for sitting in dict.fromkeys((record.sitting, "")):
                question = drawn(record.exercise, record.class_word, record.learner, turn, sitting, revision)
                if question and question.digest() == record.question:
                    return question.ask
    return ""


def _too_long(record: Record, learner: str) -> bool:
    """Whether a name is longer than any the program writes: it would only fill the cache of questions."""
    return max(len(record.class_word), len(learner), len(record.sitting), len(record.exercise)) > _LONGEST_NAME


def mark_line(line: Line) -> MarkedLine:
    """Mark one readable line against the question drawn again."""
    record = line.record
    if record is None:
        raise ValueError("a line that cannot be read cannot be marked")
    changed = bool(line.problem)
    if record.exercise not in exercises():
        return MarkedLine(record=record, status="unknown exercise", changed=changed)
    question, now = drawn_for(record), digest_for(record)
    if question is None or now != record.question:
        return MarkedLine(record=record, status="question changed", now=now, changed=changed)
    return MarkedLine(
        record=record,
        status="marked",
        verdict=verdict_of(question, record.answer),
        now=now,
        reading_s=reading_seconds(question),
        changed=changed,
        kind=question.kind,
        tries_allowed=question.tries_allowed,
    )


def verdict_of(question: Question, answer: object) -> Verdict:
    """Return the verdict on a recorded answer; one that cannot be read scores 0."""
    try:
        return question.mark(answer)
    except NotUnderstood as error:
        return Verdict(0.0, "", str(error), NOT_READ)
    except (TypeError, ValueError, KeyError, AttributeError, IndexError, ArithmeticError, RecursionError):
        return Verdict(0.0, "", "The answer has an odd form.", NOT_READ)


def reading_seconds(question: Question) -> float:
    """Return the time that reading a question takes at 200 words a minute [s] (a round figure of ours)."""
    texts = [question.ask, *(cell for row in question.table for cell in row)]
    texts += [option.text for option in getattr(question, "options", ())]
    texts += list(getattr(question, "steps", ()))
    return sum(len(text.split()) for text in texts) / 200 * 60
