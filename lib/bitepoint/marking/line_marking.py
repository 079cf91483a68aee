"""Marking a recorded answer afresh against the question drawn again; nothing of the learner's is run."""

from functools import lru_cache
from typing import Literal

from msgspec import Struct, structs

from bitepoint.bank import Exercise, exercises
from bitepoint.errors import BitepointError, NotUnderstood
from bitepoint.logbook.record import Line, Record
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.questions.draw import STANDARD
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question, Verdict
from bitepoint.workshop.datafiles import DataFiles, data_files

Status = Literal["marked", "question changed", "unknown exercise", "own words"]
NOT_READ = "The answer cannot be read."
_LONGEST_NAME = 300


class MarkedLine(Struct, frozen=True, kw_only=True, omit_defaults=True, gc=False):
    """One line with its mark; `verdict` is None when there is none, `now` is the digest of the question drawn."""

    record: Record
    status: Status
    verdict: Verdict | None = None
    now: str = ""
    reading_s: float = 0.0
    changed: bool = False
    kind: str = ""
    tries_allowed: int = 0


class Asked(Struct, frozen=True, kw_only=True, gc=False):
    """Which question: all that it is drawn from."""

    exercise: str
    class_word: str
    learner: str
    turn: int
    sitting: str = ""
    revision: int
    vehicle: str = ""
    edition: int = 0
    cars: tuple[str, ...] = STANDARD


class Drawn(Struct, frozen=True, gc=False):
    """A question drawn again, and what marking works out of it once: the digest of its facts, the time to read it [s]."""

    question: Question
    facts: str
    reading_s: float


def drawn(asked: Asked) -> Question | None:
    """Return the question, or None when the bank has no such revision, car or turn."""
    found = _drawn(asked, data_files())
    return found.question if found else None


# A learner's tries at one question lie close together, and what a page shows was marked shortly before.
@lru_cache(maxsize=8192)
def _drawn(asked: Asked, files: DataFiles) -> Drawn | None:
    question = drawn_once(asked, files)
    return Drawn(question, question.facts_digest(), reading_seconds(question)) if question else None


def drawn_once(asked: Asked, files: DataFiles) -> Question | None:
    """Return the question as `drawn` does, for whoever looks at it once: it is not kept."""
    found: Exercise | None = exercises().get(asked.exercise)
    if found is None or asked.turn < 1 or asked.revision not in found.makers:
        return None
    try:
        return found.draw(
            class_word=asked.class_word,
            learner=asked.learner,
            turn=asked.turn,
            sitting=asked.sitting,
            revision=asked.revision,
            vehicle=asked.vehicle or None,
            edition=asked.edition,
            cars=asked.cars,
            data=files,
        )
    # A line may name a turn, a car or an edition that nobody was ever asked in.
    except (BitepointError, RuntimeError, ValueError, ArithmeticError):
        return None


def asked_in(record: Record, cars: ClassCars, *, learner: str | None = None) -> Asked | None:
    """Return what a line answers, or what another learner got in its place; None where a name is too long to be one."""
    who = record.learner if learner is None else learner
    if _too_long(record, who):
        return None
    return Asked(
        exercise=record.exercise,
        class_word=record.class_word,
        learner=who,
        turn=record.turn,
        sitting=record.sitting,
        revision=record.revision,
        vehicle=record.vehicle if learner is None else cars.of(who),
        edition=record.edition,
        cars=record.class_cars,
    )


def _drawn_for(record: Record, cars: ClassCars, learner: str | None = None) -> Drawn | None:
    asked = asked_in(record, cars, learner=learner)
    return _drawn(asked, data_files()) if asked else None


def drawn_for(record: Record, cars: ClassCars, *, learner: str | None = None) -> Question | None:
    """Return the question that a line answers, or the one that another learner got in its place."""
    found = _drawn_for(record, cars, learner)
    return found.question if found else None


def digest_for(record: Record, cars: ClassCars, *, learner: str | None = None) -> str:
    """Return the digest of the facts of the question drawn for a line, "" when there is none."""
    found = _drawn_for(record, cars, learner)
    return found.facts if found else ""


def asked_text(record: Record, cars: ClassCars, *, turns: int = 6) -> str:
    """Return the words of the question a line answers, found by its facts among turns and revisions; else ""."""
    found: Exercise | None = exercises().get(record.exercise)
    asked = asked_in(record, cars)
    if found is None or asked is None:
        return ""
    for revision in found.makers:
        for turn in dict.fromkeys((record.turn, *range(1, turns + 1))):
            for sitting in dict.fromkeys((record.sitting, "")):
                question = drawn(structs.replace(asked, turn=turn, sitting=sitting, revision=revision))
                if question and question.facts_digest() == record.facts:
                    return question.ask
    return ""


def _too_long(record: Record, learner: str) -> bool:
    """Whether a name is longer than any the program writes: it would only fill the cache of questions."""
    names = (record.class_word, learner, record.sitting, record.exercise, record.vehicle, record.cars)
    return len("".join(names)) > _LONGEST_NAME and max(map(len, names)) > _LONGEST_NAME


def mark_line(line: Line, cars: ClassCars = ORDINARY) -> MarkedLine:
    """Mark one readable line against the question drawn again for a class with these cars."""
    record = line.record
    if record is None:
        raise ValueError("a line that cannot be read cannot be marked")
    changed = bool(line.problem)
    if record.exercise not in exercises():
        return MarkedLine(record=record, status="unknown exercise", changed=changed)
    if record.in_own_words:
        return MarkedLine(record=record, status="own words", changed=changed)
    asked, files = asked_in(record, cars), data_files()
    found = _drawn(asked, files) if asked else None
    if asked is None or found is None or found.facts != record.facts:
        return MarkedLine(record=record, status="question changed", now=found.facts if found else "", changed=changed)
    question = found.question
    return MarkedLine(
        record=record,
        status="marked",
        verdict=verdict_of(question, record.answer),
        now=found.facts,
        reading_s=found.reading_s,
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
    words = _words_in(question.ask) + sum(map(_words_in, kind_of(question).read(question)))
    for row in question.table:
        words += sum(map(_words_in, row))
    return words / 200 * 60


# Most texts of a question are the same for every learner: those of the whole bank are some 3,000, and stay in it.
@lru_cache(maxsize=8192)
def _words_in(text: str) -> int:
    return len(text.split())
