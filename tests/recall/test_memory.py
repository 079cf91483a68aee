"""The model of memory: the published formulas of FSRS-6, worked by hand."""

from datetime import timedelta
from math import exp

import pytest
from lines import START

from bitepoint.recall.memory import LONGEST_DAYS, PARAMETERS, memory_of
from bitepoint.recall.reviews import Outcome, Review


def review(day: float, outcome: Outcome = "right") -> Review:
    return Review(START + timedelta(days=day), outcome, True)


@pytest.mark.parametrize(("outcome", "days"), [("right", 2.3065), ("right later", 1.2931), ("not right", 0.212)])
def test_first_review(outcome: Outcome, days: float) -> None:
    """After the first review stability is the parameter of its rating; due after that many whole days, one at least.

    Source: the description of the algorithm FSRS-6 that the library `fsrs` names (initial stability w0 to w3).
    """
    memory = memory_of([review(0, outcome)])
    assert memory.stability_days == pytest.approx(days)
    assert (memory.due - START).days == max(1, round(days))


def test_chance_falls_to_nine_tenths_at_its_stability() -> None:
    """The chance after as many days as the stability is 0.9 by definition, and 1 at once (FSRS-6: (1 + F t/S)^-w20)."""
    memory = memory_of([review(0), review(2)])
    whole = memory.last + timedelta(days=round(memory.stability_days))
    decay = -PARAMETERS[20]
    factor = 0.9 ** (1 / decay) - 1
    assert memory.chance(memory.last) == pytest.approx(1)
    assert memory.chance(whole) == pytest.approx(
        (1 + factor * round(memory.stability_days) / memory.stability_days) ** decay
    )


def test_stability_after_a_success_by_hand() -> None:
    """S' = S (1 + e^w8 (11 - D) S^-w9 (e^(w10 (1 - R)) - 1)) after a right answer (FSRS-6), two days after the first."""
    first, second = memory_of([review(0)]), memory_of([review(0), review(2)])
    s, d, r = first.stability_days, first.difficulty, first.chance(START + timedelta(days=2))
    grown = s * (1 + exp(PARAMETERS[8]) * (11 - d) * s ** -PARAMETERS[9] * (exp(PARAMETERS[10] * (1 - r)) - 1))
    assert second.stability_days == pytest.approx(grown)


def test_a_miss_brings_it_back_soon_and_no_interval_is_longer_than_a_year() -> None:
    """Right answers stretch the interval up to a year; after a miss it is days again."""
    long = [review(day) for day in (0, 3, 20, 90, 300, 700, 1100)]
    assert timedelta(days=200) < memory_of(long).due - long[-1].at <= timedelta(days=LONGEST_DAYS)
    assert memory_of([*long, review(1500, "not right")]).due - review(1500).at < timedelta(days=40)
