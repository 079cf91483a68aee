"""Invented learners come back for recall, week by week; some stay away for weeks. What they really remember is kept."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime, timedelta
from random import Random

import msgspec
from msgspec import Struct

from bitepoint.bank import exercise_named
from bitepoint.logbook.identity import Identity
from bitepoint.logbook.record import Record
from bitepoint.marking.rehearsal.apprentice import FIRST_DAY, Apprentice
from bitepoint.marking.rehearsal.memory import InventedMemory
from bitepoint.recall.asking import recall_question
from bitepoint.recall.choosing import Item, items_of, round_of
from bitepoint.recall.reviews import Review, reviews_of

_FRIDAY = timedelta(days=3)
_SKIPS, _SAYS_WHY = 0.15, 0.12
_LEARNED = {"right": 1.0, "right later": 0.7, "not right": 0.35}
_REASONS = (
    "Because done the other way a part could come loose on the road.",
    "I looked at what it is for first and then at the figure.",
    "The last time I had it wrong, so I went through the steps one by one.",
    "So that nobody stands under it while it can still move.",
    "Because the sheet of the car says so and I did not trust my memory.",
)
"""Invented, and about any exercise: nothing reads them but a person."""


class RecallTruth(Struct, frozen=True):
    """What really was behind one answer in recall: the chance of being right, and whether it was."""

    learner: str
    exercise: str
    at: datetime
    days: float
    chance: float
    right: bool


def weeks_there(number: int, weeks: int, rng: Random) -> list[int]:
    """Return the weeks in which a learner comes back: every fourth learner stays away for four to eight in a row."""
    away = range(0)
    if number % 4 == 0 and weeks > 4:
        long = rng.randint(4, min(8, weeks))
        start = rng.randint(1, max(1, weeks - long))
        away = range(start, start + long)
    return [week for week in range(1, weeks + 1) if week not in away and rng.random() >= _SKIPS]


class DueItems:
    """What is due of one learner, kept as the reviews come; only what was answered is worked out again."""

    def __init__(self, cars: Sequence[str]) -> None:
        self._cars = cars
        self._reviews: dict[str, list[Review]] = {}
        self._items: dict[str, Item] = {}

    def add(self, exercise: str, review: Review) -> None:
        """Take one review more."""
        seen = self._reviews.setdefault(exercise, [])
        seen.append(review)
        for item in items_of({exercise: seen}, self._cars):
            self._items[exercise] = item

    def round(self, at: datetime) -> list[Item]:
        """Return the questions of a round."""
        return round_of(sorted(self._items.values(), key=lambda item: (item.due, item.exercise)), at)


def come_back(
    person: Apprentice, number: int, *, weeks: int, seed: int, hardness: Mapping[str, float]
) -> Iterator[RecallTruth]:
    """Let a learner whose lessons are written come back over some weeks, the first in the week of the first lesson.

    What comes in a later lesson is not asked before. Yields what was behind each answer.
    """
    rng = Random(f"bitepoint/{seed}/{number}/recall")
    memory = InventedMemory(f"{seed}/{number}", dict(hardness))
    records = [_record(fields) for _, _, fields in person.written]
    by_exercise: dict[str, list[Record]] = {}
    for record in records:
        by_exercise.setdefault(record.exercise, []).append(record)
    lessons = sorted(
        ((seen[0].at, id, seen[0]) for id, seen in reviews_of(records, person.now).items()), key=lambda x: x[:2]
    )
    due, who = DueItems(person.cars), _identity(person)
    for week in weeks_there(number, weeks, rng):
        at = FIRST_DAY + timedelta(weeks=week - 1) + _FRIDAY + timedelta(minutes=rng.randrange(90))
        while lessons and lessons[0][0] < at:
            when, id, review = lessons.pop(0)
            memory.learned(id, when, _LEARNED[review.outcome])
            due.add(id, review)
        device = person.devices[person.habit.two_devices and rng.random() < 0.3]
        for item in due.round(at):
            id = item.exercise
            trace = memory.traces[id]
            chance, days = trace.chance(at), (at - trace.last) / timedelta(days=1)
            question, turn = recall_question(id, who, by_exercise[id])
            words = rng.choice(_REASONS) if rng.random() < _SAYS_WHY else ""
            before = len(person.written)
            right = (
                person.recall(
                    exercise_named(id), question, turn, right=rng.random() < chance, at=at, device=device, words=words
                )
                == 1
            )
            by_exercise[id] += [_record(fields) for _, _, fields in person.written[before : before + 1]]
            at = datetime.fromisoformat(person.written[before][2]["at"])
            memory.answered(id, at, right)
            due.add(id, Review(at, "right" if right else "not right", True))
            yield RecallTruth(person.learner, id, at, days, chance, right)
            at = max(at, person.now) + timedelta(seconds=5)


def _record(fields: Mapping[str, object]) -> Record:
    return msgspec.convert({**fields, "n": 1, "prev": "", "hash": f"{fields['at']} {fields['exercise']}"}, Record)


def _identity(person: Apprentice) -> Identity:
    return Identity(learner=person.learner, class_word=person.class_word, vehicle=person.vehicle, vehicles=person.cars)
