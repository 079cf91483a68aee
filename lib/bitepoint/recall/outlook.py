"""What a learner is told of the weeks to come: what is firm, what fades, what was not seen for long, when to come back."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import Literal

from bitepoint.recall.choosing import FEWEST, UNSEEN_AT_MOST, Item

Firmness = Literal["firm", "fading", "faded"]
FIRMNESS: tuple[Firmness, ...] = ("firm", "fading", "faded")
SOON = timedelta(weeks=1)
_FADED_BELOW = 0.7
"""Below this chance of being right it is called faded: our choice of a word, no finding."""
_LONGEST_WAIT = timedelta(days=3)
"""From the first question due to the next round, where fewer than six are due (our choice: a miss comes back within days)."""


def firmness(item: Item, at: datetime) -> Firmness:
    """Return "firm" where it is not due within a week, "faded" where seven in ten would be too many, else "fading"."""
    if item.memory.chance(at) < _FADED_BELOW:
        return "faded"
    return "firm" if item.due - at > SOON else "fading"


def come_back(items: Sequence[Item], at: datetime) -> datetime | None:
    """Return when the next round is worth coming for; None where nothing was learned.

    When six questions are due, or three days after the first one is; never sooner than the day after `at`.
    """
    dues = sorted(item.due for item in items)
    if not dues:
        return None
    enough = min([*dues[FEWEST - 1 : FEWEST], dues[0] + _LONGEST_WAIT])
    return max(enough, at + timedelta(days=1))


def unseen_for_long(items: Sequence[Item], at: datetime) -> tuple[int, int]:
    """Return how many safety-critical ones are unseen for eight weeks, and how many more will be within a week."""
    since = [at - item.memory.last for item in items if item.critical]
    now = sum(time >= UNSEEN_AT_MOST for time in since)
    return now, sum(time >= UNSEEN_AT_MOST - SOON for time in since) - now
