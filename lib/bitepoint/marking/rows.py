"""From marked lines to a learner's rows: what counts in each exercise, and the register's word over it."""

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

import msgspec

from bitepoint.bank import exercises
from bitepoint.bank.corrections import withdrawal_of
from bitepoint.logbook.record import Record
from bitepoint.logbook.standing import Marked, Standing, critical_left, in_order, standing
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.registry.entries import Entry, overriding
from bitepoint.marking.result import Row
from bitepoint.marking.roster import key_of
from bitepoint.questions.question import Verdict


def with_register(rows: Sequence[Row], entries: Sequence[Entry], name: str) -> list[Row]:
    """Return the rows with the mark that a person gave instead of the computed one: the newest that was not withdrawn.

    `rows` are in the order of the bank. A full mark given by a person also closes a critical mistake there. An override of an exercise without an
    answer gets a row of its own; one of an exercise that the bank does not have (any more) has none.
    """
    overrides = {id: e for id, e in overriding(entries).items() if id in exercises()}
    if not overrides:
        return list(rows)
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
    keys = {word: key_of(word) for word in {line.record.class_word for line in lines}}
    if len(set(keys.values())) > 1:
        by_exercise = {id: _of_class(answers, key_of(class_word), keys) for id, answers in by_exercise.items()}
    return [_row(name, exercise, by_exercise[exercise]) for exercise in exercises() if exercise in by_exercise]


def _of_class(lines: list[MarkedLine], wanted: str, keys: Mapping[str, str]) -> list[MarkedLine]:
    """Return the answers under the wanted class word, else those under the first other one; `keys` folds each word."""
    by_word: dict[str, list[MarkedLine]] = {}
    for line in lines:
        by_word.setdefault(keys[line.record.class_word], []).append(line)
    return by_word.get(wanted) or by_word[min(by_word)]


def _row(name: str, exercise: str, lines: list[MarkedLine]) -> Row:
    marked = [Marked(x.record, x.verdict, x.tries_allowed) for x in lines if x.verdict is not None]
    if not marked:
        turns = len({line.record.turn for line in lines})
        return Row(
            learner=name, exercise=exercise, tries=len(lines), turns=turns, reason="Question changed since: no mark."
        )
    return _marked_row(name, exercise, standing(marked), marked)


def _marked_row(name: str, exercise: str, found: Standing, marked: list[Marked]) -> Row:
    verdict, record = found.counted.verdict, found.counted.record
    danger, dropped, still_open = _critical(marked)
    return Row(
        learner=name,
        exercise=exercise,
        first_score=found.first_score,
        last_score=found.last_score,
        tries=found.tries,
        turns=found.turns,
        solutions_seen=found.solutions_seen,
        critical_open=still_open,
        mistake=verdict.mistake or "",
        reason=_reason(found),
        answer=verdict.understood or shown_answer(record.answer),
        says="" if verdict.right else verdict.feedback,
        mistakes_made=tuple([made for m in marked if (made := m.verdict.mistake)]),
        critical_made=danger is not None,
        critical_mistake=danger.mistake or "" if danger else "",
        critical_says=danger.feedback if danger else "",
        withdrawn=_withdrawn(found.counted),
        critical_dropped=dropped.reason if dropped else "",
        seconds=seconds_open(found.first.record),
        turn=record.turn,
        revision=record.revision,
        sitting=record.sitting,
        vehicle=record.vehicle,
        edition=record.edition,
        class_cars=record.class_cars,
    )


def _critical(marked: Sequence[Marked]) -> tuple[Verdict | None, Verdict | None, bool]:
    """Return the newest critical verdict, the newest in a withdrawn question, and whether a mistake was not put right."""
    critical = [m for m in marked if m.verdict.critical]
    if not critical:
        return None, None, False
    counting: list[Marked] = []
    withdrawn: list[Marked] = []
    for m in critical:
        (withdrawn if _withdrawn(m) else counting).append(m)
    return _last(counting), _last(withdrawn), critical_left(marked)


def _withdrawn(marked: Marked) -> str:
    gone = withdrawal_of(marked.record.exercise, marked.record.revision)
    return gone.why if gone else ""


def _reason(found: Standing) -> str:
    """Return one sentence; one that would mislead because the solution had been shown says so instead."""
    if found.counted.verdict.right and found.last_score < 1:
        return "Answered right only after the solution of that turn was shown."
    return found.counted.verdict.reason


def _last(critical: Sequence[Marked]) -> Verdict | None:
    """Return the verdict on the newest of these answers, None when there is none."""
    return in_order(critical)[-1].verdict if critical else None


def seconds_open(record: Record) -> float | None:
    """Return the time from first shown to answered [s]; None when a time is missing, mixed or runs backwards."""
    try:
        opened, at = datetime.fromisoformat(record.opened), datetime.fromisoformat(record.at)
        taken = (at - opened).total_seconds()
    except (ValueError, TypeError, OverflowError):
        return None
    return taken if taken >= 0 else None
