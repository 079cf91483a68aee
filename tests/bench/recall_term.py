"""A term of an invented class, without drawing a question: lessons one a week, then who asks what again, and what is left."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import datetime, timedelta
from functools import cache
from random import Random
from unittest.mock import patch

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.coverage import can_hurt
from bitepoint.marking.rehearsal import memory as law
from bitepoint.marking.rehearsal.apprentice import FIRST_DAY
from bitepoint.marking.rehearsal.invented import hardness_of
from bitepoint.marking.rehearsal.weeks import DueItems, weeks_there
from bitepoint.questions.draw import STANDARD
from bitepoint.recall import memory as scheduler
from bitepoint.recall.choosing import is_asked_again
from bitepoint.recall.reviews import Review

DAY = timedelta(days=1)
LEARNERS, WEEKS = 24, 20


class Asked(Struct, frozen=True):
    """One answer: exercise, days since the one before, the chance it had, and whether it was right."""

    exercise: str
    days: float
    chance: float
    right: bool


class TermEnd(Struct, frozen=True):
    """What is left of one learner's exercises at the end, by exercise; and what was asked on the way."""

    chances: dict[str, float]
    asked: tuple[Asked, ...]


@cache
def asked_again() -> tuple[str, ...]:
    """The exercises that recall asks."""
    return tuple(e.id for e in exercises().values() if is_asked_again(e))


@cache
def safety() -> tuple[str, ...]:
    """Those of them in which a mistake could hurt someone."""
    return tuple(id for id in asked_again() if can_hurt(id))


@cache
def _weeks() -> dict[str, int]:
    order = list(dict.fromkeys(e.lesson for e in exercises().values()))
    return {id: order.index(id.partition(".")[0]) for id in asked_again()}


class Learner:
    """One invented learner on the way through a term."""

    def __init__(self, seed: int, number: int) -> None:
        self.rng = Random(f"term/{seed}/{number}")
        self.there = weeks_there(number, WEEKS, Random(f"there/{seed}/{number}"))
        self.memory = law.InventedMemory(f"{seed}/{number}", _hardness(seed))
        self.asked: list[Asked] = []
        self.met: list[str] = []

    def meet(self, week: int) -> list[str]:
        """Work on the lesson of a week; who is away then has worked on it at home."""
        new = [id for id, when in _weeks().items() if when == week]
        for id in new:
            self.memory.learned(id, FIRST_DAY + 7 * week * DAY, 1.0)
        self.met += new
        return new

    def answer(self, id: str, at: datetime) -> bool:
        """Answer an exercise again and remember it differently from then on."""
        trace = self.memory.traces[id]
        chance = trace.chance(at)
        right = self.rng.random() < chance
        self.asked.append(Asked(id, (at - trace.last) / DAY, chance, right))
        self.memory.answered(id, at, right)
        return right


@cache
def _hardness(seed: int) -> dict[str, float]:
    return hardness_of(seed)


Plan = Callable[[Learner, list[int]], list[int]]
"""Asks a learner through the term, given how many questions each week may hold; returns how many were asked."""


def scheduled(learner: Learner, _: list[int]) -> list[int]:
    """Ask what is due, as `bitepoint open --keep` does."""
    due, counts = DueItems(STANDARD), [0] * WEEKS
    for week in range(WEEKS):
        for id in learner.meet(week):
            due.add(id, Review(FIRST_DAY + 7 * week * DAY, "right", False))
        at = FIRST_DAY + (7 * week + 3) * DAY
        for item in due.round(at) if week + 1 in learner.there else []:
            right = learner.answer(item.exercise, at)
            due.add(item.exercise, Review(at, "right" if right else "not right", True))
            counts[week] += 1
    return counts


def at_random(learner: Learner, counts: list[int]) -> list[int]:
    """Ask as many in the same weeks, at random among what was met."""
    for week in range(WEEKS):
        learner.meet(week)
        for id in learner.rng.sample(learner.met, min(counts[week], len(learner.met))):
            learner.answer(id, FIRST_DAY + (7 * week + 3) * DAY)
    return counts


def massed(learner: Learner, counts: list[int]) -> list[int]:
    """Ask as many in all, each lesson's share in the three days after it, round after round; nothing later."""
    left, total = sum(counts), len(asked_again())
    for week in range(WEEKS):
        new = learner.meet(week)
        share = round(left * len(new) / total) if total else 0
        total -= len(new)
        left -= share
        for place in range(share):
            day = 1 + 2 * place // max(1, share)
            learner.answer(new[place % len(new)], FIRST_DAY + (7 * week + day) * DAY)
    return counts


def nothing(learner: Learner, counts: list[int]) -> list[int]:
    """Ask nothing again."""
    for week in range(WEEKS):
        learner.meet(week)
    return counts


def class_at_the_end(seed: int, plan: Plan, counts: dict[int, list[int]]) -> list[TermEnd]:
    """Return the learners at the end; `counts` by learner are what the schedule asked, filled in by it."""
    end, found = FIRST_DAY + 7 * WEEKS * DAY, []
    for number in range(1, LEARNERS + 1):
        learner = Learner(seed, number)
        counts[number] = plan(learner, counts.get(number, [0] * WEEKS))
        chances = {id: learner.memory.traces[id].chance(end) for id in asked_again()}
        found.append(TermEnd(chances, tuple(learner.asked)))
    return found


@contextmanager
def another(*, wanted: float = scheduler.WANTED, pace_days: float = law._PACE_DAYS) -> Iterator[None]:
    """Let the schedule aim at another chance, or the learners forget at another pace, for a while."""
    with patch.object(scheduler, "WANTED", wanted), patch.object(law, "_PACE_DAYS", pace_days):
        scheduler._scheduler.cache_clear()
        yield
    scheduler._scheduler.cache_clear()
