"""Where an order leaves the star, told in bolts."""

from itertools import permutations

import pytest

from bitepoint.mechanics.tightening import (
    BALANCE_ALLOWANCE,
    best_peak_out_of_balance,
    even_circle_deg,
    is_star,
    out_of_balance,
)
from bitepoint.questions.tipping import are_neighbours, wrong_step


def _allowed(angles: tuple[float, ...]) -> float:
    return best_peak_out_of_balance(angles) + BALANCE_ALLOWANCE


@pytest.mark.parametrize(("bolts", "across"), [(4, 3), (6, 4), (8, 5)])
def test_round_the_circle_goes_wrong_at_the_first_neighbour(bolts: int, across: int) -> None:
    """After 1 comes its neighbour 2; the bolt opposite is named instead."""
    angles = even_circle_deg(bolts)
    assert (1, 2, across) == wrong_step(angles, range(1, bolts + 1), _allowed(angles))


def test_every_order_that_is_no_star_is_told_a_better_bolt() -> None:
    """All 720 orders of six bolts: what is named was not tight yet and pulls less to one side than what was taken."""
    angles, seen = even_circle_deg(6), 0
    for order in permutations(range(1, 7)):
        if is_star(angles, order):
            continue
        seen += 1
        before, taken, across = wrong_step(angles, order, _allowed(angles))
        place = order.index(taken)
        assert order[place - 1] == before
        assert across not in order[: place + 1]
        assert out_of_balance(angles, [*order[:place], across]) < out_of_balance(angles, order[: place + 1])
    assert seen > 300


def test_neighbours_close_the_circle() -> None:
    """The first and the last bolt stand side by side."""
    assert are_neighbours(1, 6, 6)
    assert are_neighbours(3, 2, 6)
    assert not are_neighbours(1, 4, 6)
