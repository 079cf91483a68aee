"""How firmly an exercise is remembered, and when it is due: the FSRS-6 model of the library `fsrs`, its parameters fixed here."""

from collections.abc import Sequence
from datetime import datetime
from functools import cache
from typing import TYPE_CHECKING

from msgspec import Struct

from bitepoint.recall.reviews import Review

if TYPE_CHECKING:
    from fsrs import Card, Scheduler

PARAMETERS = (
    *(0.212, 1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194, 0.001, 1.8722, 0.1666, 0.796),
    *(1.4835, 0.0614, 0.2629, 1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542),
)
"""The library's own defaults as of version 6.3, fitted by its makers to other people's cards: no clutch was among them.

They stand here so that a newer library moves nobody's due dates.
"""
WANTED = 0.9
"""Chance of still being right at which an exercise is due (the library's default)."""
LONGEST_DAYS = 365


class Memory(Struct, frozen=True):
    """What is remembered of one exercise: last seen, due [UTC], and `stability_days` until the chance has fallen to 0.9."""

    last: datetime
    due: datetime
    stability_days: float
    difficulty: float
    reviews: int

    def chance(self, at: datetime) -> float:
        """Return the chance of being right at that time, 0 to 1: a model's figure and not a measured one."""
        return _scheduler().get_card_retrievability(_card(self), at)


@cache
def _scheduler() -> "Scheduler":
    # At the first use: marking reads reviews too and has no use for a scheduler.
    from fsrs import Scheduler

    return Scheduler(
        parameters=PARAMETERS,
        desired_retention=WANTED,
        learning_steps=(),
        relearning_steps=(),
        maximum_interval=LONGEST_DAYS,
        enable_fuzzing=False,
    )


def _card(memory: Memory) -> "Card":
    from fsrs import Card, State

    return Card(
        card_id=0,
        state=State.Review,
        stability=memory.stability_days,
        difficulty=memory.difficulty,
        due=memory.due,
        last_review=memory.last,
    )


def memory_of(reviews: Sequence[Review]) -> Memory:
    """Return what is remembered after these reviews, at least one, oldest first."""
    from fsrs import Card, Rating

    ratings = {"right": Rating.Good, "right later": Rating.Hard, "not right": Rating.Again}
    card = Card(card_id=0, due=reviews[0].at)
    for review in reviews:
        card, _ = _scheduler().review_card(card, ratings[review.outcome], review.at)
    return Memory(
        last=reviews[-1].at,
        due=card.due,
        stability_days=card.stability or 0.0,
        difficulty=card.difficulty or 0.0,
        reviews=len(reviews),
    )
