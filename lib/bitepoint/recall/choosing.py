"""What is asked in one round of recall: six to ten questions that are due, mixed over lessons."""

from collections.abc import Mapping, Sequence
from datetime import datetime, timedelta

from msgspec import Struct

from bitepoint.bank import Exercise, exercises
from bitepoint.bank.corrections import withdrawal_of
from bitepoint.bank.coverage import can_hurt
from bitepoint.questions.draw import STANDARD
from bitepoint.recall.memory import Memory, memory_of
from bitepoint.recall.reviews import Review

FEWEST, MOST = 6, 10
MOST_MINUTES = 20.0
"""Minutes that the exercises of a round have in their lessons. We guess that a second time takes half; nobody measured it."""
LONGEST_EXERCISE = 4.0
MOST_OF_A_LESSON = 3
"""Questions of one lesson in a round, where other lessons have some that are due: a round is mixed."""
UNSEEN_AT_MOST = timedelta(weeks=8)
"""No exercise in which a mistake could hurt someone stays unseen longer; it is due a week before."""
_IN_GOOD_TIME, _URGENT = timedelta(weeks=1), timedelta(weeks=6)
_OF_ONE_STORY = ("start", "job")
"""Lessons that are not asked again: the forms themselves, and the job whose exercises make one story."""


class Item(Struct, frozen=True):
    """One exercise that a learner has met: what is remembered of it, when it is due [UTC], whether a mistake could hurt."""

    exercise: str
    memory: Memory
    due: datetime
    critical: bool

    @property
    def lesson(self) -> str:
        """The lesson: first part of the exercise id."""
        return self.exercise.partition(".")[0]


def items_of(reviews: Mapping[str, Sequence[Review]], cars: Sequence[str] = STANDARD) -> list[Item]:
    """Return what can be asked again of a learner in a class with these cars, the longest due first."""
    found = []
    for id, seen in reviews.items():
        exercise = exercises().get(id)
        if exercise and seen and is_asked_again(exercise, cars):
            memory, critical = memory_of(seen), can_hurt(id)
            due = min(memory.due, memory.last + UNSEEN_AT_MOST - _IN_GOOD_TIME) if critical else memory.due
            found.append(Item(id, memory, due, critical))
    return sorted(found, key=lambda item: (item.due, item.exercise))


def is_asked_again(exercise: Exercise, cars: Sequence[str] = STANDARD) -> bool:
    """Whether recall asks an exercise: one of the pass rule, short, not part of a story, not withdrawn, served by the cars."""
    return (
        not exercise.beyond
        and exercise.lesson not in _OF_ONE_STORY
        and exercise.minutes <= LONGEST_EXERCISE
        and not withdrawal_of(exercise.id, exercise.revision)
        and not exercise.left_out(cars)
    )


def round_of(items: Sequence[Item], at: datetime) -> list[Item]:
    """Return the questions of a round in the order in which they are asked; none where none is due.

    The longest overdue come first, at most half of them safety-critical. Where fewer than six are due, those due next
    fill the round up. Of one lesson there are at most three where the others reach. Neighbours are of different lessons as far as the lessons reach.
    """
    due = [item for item in items if item.due <= at]
    if not due:
        return []
    return _mixed(_trimmed(_chosen(_in_turns(due, at), [item for item in items if item.due > at])))


def _in_turns(due: Sequence[Item], at: datetime) -> list[Item]:
    """Return what is due by whole days overdue; of the same day one lesson takes turns with the next.

    A critical one that will soon be unseen for eight weeks goes before all that.
    """
    found, turns = [], dict[tuple[int, str], int]()
    for item in due:
        days = (at - item.due).days
        turn = turns[days, item.lesson] = turns.get((days, item.lesson), 0) + 1
        unseen = (at - item.memory.last).days if item.critical else 0
        found.append((min(0, _URGENT.days - unseen), -days, turn, item.due, item.exercise, item))
    return [row[-1] for row in sorted(found, key=lambda row: row[:-1])]


def _chosen(due: Sequence[Item], later: Sequence[Item]) -> list[Item]:
    """Return up to ten that are due, up to half of ten critical; what is due later makes up for what is missing."""
    chosen: list[Item] = []
    put_off: list[Item] = []
    for item in due:
        if len(chosen) == MOST or item.critical and _critical(chosen) == MOST // 2:
            continue
        if sum(other.lesson == item.lesson for other in chosen) < MOST_OF_A_LESSON:
            chosen.append(item)
        else:
            put_off.append(item)
    for item in (*put_off, *later):
        if len(chosen) >= FEWEST and _balanced(chosen):
            break
        if _balanced([*chosen, item]) or not item.critical:
            chosen.append(item)
    while len(chosen) > 1 and not _balanced(chosen):
        chosen.remove([item for item in chosen if item.critical][-1])
    return chosen


def _critical(items: Sequence[Item]) -> int:
    return sum(item.critical for item in items)


def _balanced(items: Sequence[Item]) -> bool:
    """Whether at most half are critical."""
    return 2 * _critical(items) <= len(items)


def _trimmed(chosen: list[Item]) -> list[Item]:
    """Leave out the last ones until the rest can be done in the time, but not below six."""
    while len(chosen) > FEWEST and sum(exercises()[item.exercise].minutes for item in chosen) > MOST_MINUTES:
        goes = chosen[-1]
        if not _balanced(chosen[:-1]):
            goes = [item for item in chosen if item.critical][-1]
        chosen = [item for item in chosen if item is not goes]
    return chosen


def _mixed(chosen: Sequence[Item]) -> list[Item]:
    """Return the questions with neighbours of different lessons: always one of the lesson with most left to ask."""
    left: dict[str, list[Item]] = {}
    for item in chosen:
        left.setdefault(item.lesson, []).append(item)
    order: list[Item] = []
    while any(left.values()):
        last = order[-1].lesson if order else ""
        # Equally many: the lesson whose question is the longest due.
        lessons = sorted((k for k, v in left.items() if v), key=lambda k: (-len(left[k]), left[k][0].due, k))
        order.append(left[next((k for k in lessons if k != last), lessons[0])].pop(0))
    return order
