"""What a learner's lines say of each exercise: on which days it was answered, and how it went."""

from collections.abc import Iterable, Sequence
from datetime import datetime
from itertools import groupby
from typing import Literal, NamedTuple

from msgspec import Struct

from bitepoint.logbook.record import Record
from bitepoint.recall.times import times_of

Outcome = Literal["right", "right later", "not right"]


class Review(Struct, frozen=True):
    """One day on which an exercise was answered in its lesson, or one answer in recall: when [UTC] and how it went."""

    at: datetime
    outcome: Outcome
    recalled: bool


class _Answer(NamedTuple):
    at: datetime
    record: Record
    right: bool


def reviews_of(records: Iterable[Record], now: datetime) -> dict[str, list[Review]]:
    """Return the reviews of each exercise, oldest first.

    What a line says of its own score counts, and not the question drawn again: so neither a new release nor a new
    marking moves a due date. Of a class that gets its feedback later the lines have no score, and no reviews.
    In its lesson an exercise is reviewed once a day, by UTC: right when the first answer of that day was.
    """
    listed = [r for r in records if r.score is not None and not r.in_own_words]
    times = times_of(listed, now)
    by_exercise: dict[str, list[_Answer]] = {}
    for record in listed:
        if record.hash in times and not (record.sitting and not record.is_recall):
            answer = _Answer(times[record.hash], record, (record.score or 0) >= 1)
            by_exercise.setdefault(record.exercise, []).append(answer)
    return {exercise: _reviews(answers) for exercise, answers in by_exercise.items()}


def _reviews(answers: Sequence[_Answer]) -> list[Review]:
    in_order = sorted(answers, key=lambda a: (a.at, a.record.device, a.record.n))
    in_lesson = [a for a in in_order if not a.record.is_recall]
    found = [Review(a.at, "right" if a.right else "not right", True) for a in in_order if a.record.is_recall]
    for _, group in groupby(in_lesson, key=lambda a: a.at.date()):
        found.append(_day(list(group)))
    return sorted(found, key=lambda review: review.at)


def _day(answers: Sequence[_Answer]) -> Review:
    if answers[0].right:
        return Review(answers[-1].at, "right", False)
    return Review(answers[-1].at, "right later" if any(a.right for a in answers) else "not right", False)
