"""What marking found out about one learner: a row for each exercise, flags, and what is left to do."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

import msgspec
from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.corrections import withdrawal_of
from bitepoint.logbook.record import Record
from bitepoint.logbook.standing import Marked, Standing, in_order, is_closed, standing
from bitepoint.marking import passing
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.registry.entries import Entry, overriding
from bitepoint.marking.roster import key_of
from bitepoint.marking.rules import ClassRules
from bitepoint.questions.draw import STANDARD
from bitepoint.questions.question import Verdict


class Flag(Struct, frozen=True, kw_only=True):
    """Something a person should look at, with evidence; not a verdict. `exercise` is "" when it is about all.

    `beside` holds what to compare, as (what it is, what it says), to be shown side by side; `matched` is the other
    learner whom the evidence points at, to be looked at too.
    """

    kind: str
    learner: str
    evidence: str
    exercise: str = ""
    beside: tuple[tuple[str, str], ...] = ()
    matched: str = ""


class Row(Struct, frozen=True, kw_only=True):
    """One learner's marks in one exercise; scores are None when the question has changed since.

    `sitting` is the word of the sitting it was answered in, "" for practice, and `standing` who supervised that.
    `withdrawn` says why the question that counts was withdrawn, "" when it stands; `critical_dropped` names a critical
    mistake in a withdrawn question, which counts against nobody. `critical_mistake` names the newest one that counts and
    `critical_says` tells what is dangerous about it.
    """

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
    critical_made: bool = False
    critical_mistake: str = ""
    critical_says: str = ""
    seconds: float | None = None
    turn: int = 1
    revision: int = 0
    sitting: str = ""
    standing: str = ""
    vehicle: str = ""
    edition: int = 0
    class_cars: tuple[str, ...] = STANDARD
    withdrawn: str = ""
    critical_dropped: str = ""
    override: Entry | None = None

    @property
    def mark(self) -> float | None:
        """The score that counts under the pass rule: a person's override, else the computed one."""
        return self.override.score if self.override else self.last_score

    @property
    def outcome(self) -> str:
        """Where the learner stands, in words: one of OUTCOMES. A person's full mark makes no first try right."""
        if self.mark is None:
            return "not marked"
        if self.mark >= 1:
            return "right at first try" if (self.first_score or 0) >= 1 else "right later"
        return "partly right" if self.mark > 0 else "not right yet"


OUTCOMES = ("right at first try", "right later", "partly right", "not right yet", "not marked")


class SittingWork(Struct, frozen=True, kw_only=True):
    """What one learner answered with one sitting word; never pooled with practice or with another sitting.

    `standing` says who supervised it, that its time waits to be confirmed, or that nobody did; `begins` and `lessons`
    (none means all) are those of the register. Of the answers `to_confirm` wait, and `outside` are left out.
    `waiting` are the first and the last time of those that wait; `room_says` whether confirming the room reaches them.
    """

    word: str
    standing: str
    begins: datetime | None = None
    lessons: tuple[str, ...] = ()
    rows: tuple[Row, ...] = ()
    to_confirm: int = 0
    outside: int = 0
    waiting: tuple[str, ...] = ()
    room_says: bool = True


class Result(Struct, frozen=True, kw_only=True):
    """One learner: `name` is the public id, `changed` the lines whose question has changed since.

    `rows` is practice, `sittings` each sitting by itself, `sitting_rows` those of the sitting that counts in each lesson.
    `entries` is what the register says about the learner, `rules` what the class agreed on,
    `cards` the words of the learner's own cards where a question has changed since.
    """

    name: str
    class_word: str
    rows: tuple[Row, ...] = ()
    sittings: tuple[SittingWork, ...] = ()
    sitting_rows: tuple[Row, ...] = ()
    declared: bool = False
    flags: tuple[Flag, ...] = ()
    changed: tuple[MarkedLine, ...] = ()
    first_at: str = ""
    last_at: str = ""

    entries: tuple[Entry, ...] = ()
    rules: ClassRules = ClassRules()
    cars: ClassCars = ORDINARY
    cards: dict[str, str] = {}

    @property
    def counted(self) -> passing.Counted:
        """What the pass rule counts in practice."""
        return passing.count(self.rows, self.rules)

    @property
    def sat(self) -> passing.Sat | None:
        """What the pass rule counts in the sittings, those that nobody is recorded to have supervised left out."""
        rows = [row for row in self.sitting_rows if row.standing != passing.UNSUPERVISED]
        if not rows:
            return None
        words = {row.sitting for row in rows}
        about = [work.lessons for work in self.sittings if work.word in words] or [()]
        waits = any(row.standing == passing.TO_CONFIRM for row in rows)
        return passing.sat_in(rows, about, self.rules, to_confirm=waits)

    @property
    def shown_rows(self) -> tuple[Row, ...]:
        """The rows for figures about the class: practice, or the sitting of who handed in nothing else."""
        return self.rows or self.sitting_rows

    @property
    def evidence(self) -> str:
        """Return what the knowledge evidence amounts to; never a word about the person."""
        return passing.evidence_words(self.counted, declared=self.declared, sat=self.sat)

    @property
    def observation(self) -> str:
        """Return whether practical observation is still required."""
        return passing.observation_words(self.entries, self.rules)

    @property
    def sitting(self) -> str:
        """Return “supervised by …”, that the time waits to be confirmed, or “unsupervised”."""
        return passing.sitting_words([row.standing for row in self.sitting_rows])


def with_register(rows: Sequence[Row], entries: Sequence[Entry], name: str) -> list[Row]:
    """Return the rows with the mark that a person gave instead of the computed one: the newest that was not withdrawn.

    A full mark given by a person also closes a critical mistake there. An override of an exercise without an
    answer gets a row of its own; one of an exercise that the bank does not have (any more) has none.
    """
    overrides = {id: e for id, e in overriding(entries).items() if id in exercises()}
    place = {exercise: n for n, exercise in enumerate(exercises())}
    unanswered = [Row(learner=name, exercise=e, reason="No answer to mark.") for e in overrides]
    by_id = {row.exercise: row for row in (*unanswered, *rows)}
    found = []
    for row in sorted(by_id.values(), key=lambda r: place[r.exercise]):
        entry = overrides.get(row.exercise)
        if entry is None:
            found.append(row)
            continue
        full = (entry.score or 0) >= 1
        still_open, says = row.critical_open and not full, "" if full else row.says
        found.append(msgspec.structs.replace(row, override=entry, critical_open=still_open, says=says))
    return found


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
    danger = _last_critical([m for m in marked if not _withdrawn(m)])
    dropped = _last_critical([m for m in marked if _withdrawn(m)])
    return Row(
        learner=name,
        exercise=exercise,
        first_score=found.first_score,
        last_score=found.last_score,
        tries=found.tries,
        turns=found.turns,
        solutions_seen=found.solutions_seen,
        critical_open=critical_left([_without_danger(m) for m in marked]),
        mistake=verdict.mistake or "",
        reason=_reason(found),
        answer=verdict.understood or shown_answer(found.counted.record.answer),
        says="" if verdict.right else verdict.feedback,
        mistakes_made=tuple(m.verdict.mistake for m in marked if m.verdict.mistake),
        critical_made=danger is not None,
        critical_mistake=danger.mistake or "" if danger else "",
        critical_says=danger.feedback if danger else "",
        withdrawn=_withdrawn(found.counted),
        critical_dropped=dropped.reason if dropped else "",
        seconds=seconds_open(in_order(marked)[0].record),
        turn=found.counted.record.turn,
        revision=found.counted.record.revision,
        sitting=found.counted.record.sitting,
        vehicle=found.counted.record.vehicle,
        edition=found.counted.record.edition,
        class_cars=found.counted.record.class_cars,
    )


def _withdrawn(marked: Marked) -> str:
    gone = withdrawal_of(marked.record.exercise, marked.record.revision)
    return gone.why if gone else ""


def _without_danger(marked: Marked) -> Marked:
    """Return an answer to a withdrawn question without its critical mistake; right there, it still puts one right."""
    if not _withdrawn(marked):
        return marked
    return msgspec.structs.replace(marked, verdict=msgspec.structs.replace(marked.verdict, critical=False))


def _reason(found: Standing) -> str:
    """Return one sentence; one that would mislead because the solution had been shown says so instead."""
    if found.counted.verdict.right and found.last_score < 1:
        return "Answered right only after the solution of that turn was shown."
    return found.counted.verdict.reason


def _last_critical(marked: Sequence[Marked]) -> Verdict | None:
    """Return the verdict on the newest critical mistake, None when none was made."""
    found = [m for m in in_order(marked) if m.verdict.critical]
    return found[-1].verdict if found else None


def critical_left(marked: Sequence[Marked]) -> bool:
    """Whether a critical mistake was not put right: no later answer to the exercise is right without its solution."""
    still_open = False
    groups: dict[tuple[int, str], list[Marked]] = {}
    for answer in in_order(marked):
        group = groups.setdefault((answer.record.turn, answer.record.device), [])
        if answer.verdict.critical:
            still_open = True
        elif answer.verdict.right and not answer.record.solution_shown and not is_closed(group):
            still_open = False
        group.append(answer)
    return still_open


def seconds_open(record: Record) -> float | None:
    """Return the time from first shown to answered [s]; None when a time is missing, mixed or runs backwards."""
    try:
        opened, at = datetime.fromisoformat(record.opened), datetime.fromisoformat(record.at)
        taken = (at - opened).total_seconds()
    except (ValueError, TypeError, OverflowError):
        return None
    return taken if taken >= 0 else None
