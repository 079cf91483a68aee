"""Order of tightening: out-of-balance, star orders, stages."""

from itertools import permutations
from math import inf, nan, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import tightening
from bitepoint.mechanics.tightening import (
    best_peak_out_of_balance,
    even_circle_deg,
    is_star,
    neighbours_in_a_row,
    out_of_balance,
    peak_out_of_balance,
    stage_torques_nm,
    star_order,
    vector_sum,
)

# Cross patterns as published (4, 8, 12, 16) and as common in the trade (5, 6, 9).
PATTERNS = {
    4: (1, 3, 2, 4),
    5: (1, 3, 5, 2, 4),
    6: (1, 4, 2, 5, 3, 6),
    8: (1, 5, 3, 7, 2, 6, 4, 8),
    9: (1, 5, 9, 4, 8, 3, 7, 2, 6),
    12: (1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12),
    16: (1, 9, 5, 13, 3, 11, 7, 15, 2, 10, 4, 12, 6, 14, 8, 16),
}
TURNED = [(n, turn, mirrored) for n in PATTERNS for turn in range(n) for mirrored in (False, True)]
EVEN = range(4, 25, 2)


@pytest.mark.parametrize(("n", "turn", "mirrored"), TURNED)
def test_cross_pattern_in_every_position(n, turn, mirrored):
    """A cross pattern stays a star wherever it starts and whichever way round the bolts are numbered."""
    order = [((-b if mirrored else b) + turn) % n + 1 for b in PATTERNS[n]]
    assert is_star(even_circle_deg(n), order)


@pytest.mark.parametrize("n", range(4, 25))
def test_round_the_circle_is_no_star(n):
    """One after the other pulls to one side: the peak is 1/sin(pi/n) for even n, and no star from four bolts on."""
    circle, order = even_circle_deg(n), tuple(range(1, n + 1))
    assert not is_star(circle, order)
    assert not is_star(circle, order[::-1])
    if n % 2 == 0:
        assert pytest.approx(1 / sin(pi / n), rel=1e-9) == peak_out_of_balance(circle, order)


@pytest.mark.parametrize("n", range(2, 25))
def test_our_order_is_a_star_for_every_number_of_bolts(n):
    """Our order takes each bolt once and reaches the best peak, which is 1 on an even circle."""
    circle = even_circle_deg(n)
    order = star_order(circle)
    assert list(range(1, n + 1)) == sorted(order)
    assert is_star(circle, order)
    assert pytest.approx(1, abs=1e-9) == best_peak_out_of_balance(circle)
    assert pytest.approx(1, abs=1e-9) == peak_out_of_balance(circle, order)


@pytest.mark.parametrize("n", EVEN)
def test_opposite_bolt_follows_and_the_pair_balances(n):
    """With an even number every second bolt is opposite to the one before, and each pair balances."""
    circle, order = even_circle_deg(n), star_order(even_circle_deg(n))
    apart = [abs(a - b) for a, b in zip(order[::2], order[1::2], strict=True)]
    assert [n // 2] * (n // 2) == apart
    rest = [out_of_balance(circle, order[:k]) for k in range(2, n + 1, 2)]
    assert pytest.approx([0] * (n // 2), abs=1e-9) == rest


@pytest.mark.parametrize("n", range(4, 25, 4))
def test_second_pair_is_square_to_the_first(n):
    """With 4, 8, 12 … bolts the second pair lies a quarter turn from the first."""
    assert n // 4 == abs(star_order(even_circle_deg(n))[2] - 1)


@pytest.mark.parametrize("n", range(6, 25))
def test_no_neighbours_follow_each_other(n):
    """From six bolts on, no two neighbours follow each other in our order."""
    assert not neighbours_in_a_row(even_circle_deg(n), star_order(even_circle_deg(n)))


@pytest.mark.parametrize("n", [3, 4, 5, 6, 7])
def test_search_finds_what_trying_everything_finds(n):
    """The best peak is the smallest of all orders, tried one by one, on an even and on an uneven circle."""
    uneven = tuple(a + 7 * (i % 3) for i, a in enumerate(even_circle_deg(n)))
    for circle in (even_circle_deg(n), uneven):
        tried = min(peak_out_of_balance(circle, order) for order in permutations(range(1, n + 1)))
        assert pytest.approx(tried, abs=1e-8) == best_peak_out_of_balance(circle)


ANGLES = st.lists(st.floats(min_value=0, max_value=359), min_size=2, max_size=7)


@settings(deadline=None)
@given(ANGLES)
def test_uneven_circle_has_a_star_too(angles):
    """Wherever the holes sit, our order is a permutation that counts as a star."""
    order = star_order(angles)
    assert list(range(1, len(angles) + 1)) == sorted(order)
    assert is_star(angles, order)


@settings(deadline=None)
@given(ANGLES, st.floats(min_value=-100, max_value=100), st.randoms(use_true_random=False))
def test_turning_the_part_changes_nothing(angles, turn, shuffler):
    """Out-of-balance depends on the bolts' places to each other alone, and on which are tight, not on the order."""
    tight = list(range(1, len(angles) + 1))
    shuffler.shuffle(tight)
    some = tight[: len(tight) // 2 + 1]
    turned = [a + turn for a in angles]
    assert pytest.approx(out_of_balance(angles, some), abs=1e-9) == out_of_balance(turned, some)
    assert pytest.approx(out_of_balance(angles, some), abs=1e-9) == out_of_balance(angles, some[::-1])
    x, y = vector_sum(angles, some)
    assert pytest.approx(out_of_balance(angles, some), abs=1e-9) == (x * x + y * y) ** 0.5
    assert out_of_balance(angles, some) <= len(some) + 1e-9


@pytest.mark.parametrize("order", [[], [1, 4, 2, 5, 3], [1, 4, 2, 5, 3, 3], [1, 4, 2, 5, 3, 7], [1, 4, 2, 5, 3, 6, 1]])
def test_bolt_missed_or_taken_twice_is_no_star(order):
    """A bolt missed, taken twice or not there: no star."""
    assert not is_star(even_circle_deg(6), order)


def test_neighbours_are_told():
    """Neighbours in a row are listed, also across the start of the circle, but not among four bolts."""
    expected = ((1, 6), (3, 4))
    assert expected == neighbours_in_a_row(even_circle_deg(6), [1, 6, 3, 4, 2, 5])
    assert not neighbours_in_a_row(even_circle_deg(4), [1, 2, 3, 4])


@pytest.mark.parametrize(
    ("final", "percentages", "expected"),
    [(65, (30, 70, 100), (19.5, 45.5, 65)), (60, (70, 100), (42, 60)), (22, (100,), (22,))],
)
def test_stage_torques(final, percentages, expected):
    """Each stage is its share of the final torque."""
    assert pytest.approx(expected) == stage_torques_nm(final, percentages=percentages)


RULE = "percentages must be strictly increasing, above 0 and ending with 100, but you gave {}. Write for example (30, 70, 100)."


@pytest.mark.parametrize("percentages", [(), (70, 30, 100), (50, 50, 100), (30, 60), (0, 100)])
def test_stages_that_do_not_rise_to_the_final_torque(percentages):
    """Stages rise strictly and end at 100 %."""
    with pytest.raises(OutOfRange) as caught:
        stage_torques_nm(60, percentages=percentages)
    assert RULE.format(list(percentages)) == str(caught.value)


@pytest.mark.parametrize("wrong", [nan, inf, -1, 101])
def test_stage_that_is_no_percentage(wrong):
    """A stage that is no figure from 0 to 100 is refused."""
    with pytest.raises(OutOfRange, match="percentage must be between 0 and 100 %, but you gave"):
        stage_torques_nm(60, percentages=(wrong, 100))


@pytest.mark.parametrize(
    ("call", "told"),
    [
        (
            lambda: even_circle_deg(25),
            "bolts must be a whole number from 2 to 24, but you gave 25. Count the bolts of one circle.",
        ),
        (
            lambda: peak_out_of_balance(even_circle_deg(6), [1, 7]),
            "bolt number must be a whole number from 1 to 6, but you gave 7. "
            "Bolts are numbered from 1 round the circle.",
        ),
        (
            lambda: out_of_balance([0.0, nan], [1]),
            "angle must be between -360 and 720 °, but you gave nan °. Measure from bolt 1 round the circle.",
        ),
        (
            lambda: stage_torques_nm(nan),
            "final_nm must be between 0.1 and 5000 N·m, but you gave nan N·m. "
            "Take the final torque from the data sheet.",
        ),
    ],
)
def test_out_of_range_is_told(call, told):
    """A figure out of range is refused with name, rule, value and advice."""
    with pytest.raises(OutOfRange) as caught:
        call()
    assert told == str(caught.value)


def test_names_offered_are_sorted_and_there():
    """`__all__` is sorted and true."""
    assert sorted(tightening.__all__) == tightening.__all__
    assert all(hasattr(tightening, name) for name in tightening.__all__)
