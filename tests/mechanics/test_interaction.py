"""Elastic interaction of a ring of bolts: exact benchmarks and invariants of the linear model (own derivation)."""

from math import inf, nan
from statistics import mean, pstdev

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.tightening import even_circle_deg, preloads_after, star_order, tilt

NEAR, FAR = (0.08, 0.03, 0.01), (0.08, 0.03, 0.01, 0.005)
CIRCLE = {n: tuple(range(1, n + 1)) for n in (4, 6, 8)}
STAR = {n: star_order(even_circle_deg(n)) for n in (4, 6, 8)}

SINGLE_PASS = [
    (4, (0.1,), CIRCLE, (0.8, 0.9, 0.9, 1)),
    (4, (0.1,), STAR, (0.8, 1, 0.8, 1)),
    (6, (0.1,), CIRCLE, (0.8, 0.9, 0.9, 0.9, 0.9, 1)),
    (6, (0.1,), STAR, (0.8, 0.9, 1, 0.8, 0.9, 1)),
    (6, NEAR, CIRCLE, (0.77, 0.85, 0.88, 0.89, 0.92, 1)),
    (6, NEAR, STAR, (0.77, 0.88, 0.99, 0.78, 0.89, 1)),
    (8, (0.1,), CIRCLE, (0.8, 0.9, 0.9, 0.9, 0.9, 0.9, 0.9, 1)),
    (8, (0.1,), STAR, (0.8, 1, 0.8, 1, 0.8, 1, 0.8, 1)),
    (8, FAR, CIRCLE, (0.755, 0.835, 0.865, 0.875, 0.88, 0.89, 0.92, 1)),
    (8, FAR, STAR, (0.755, 0.935, 0.815, 0.995, 0.76, 0.94, 0.82, 1)),
]


@pytest.mark.parametrize(("n", "loss", "orders", "expected"), SINGLE_PASS)
def test_single_pass(n, loss, orders, expected):
    """Preloads by position after one pass; the first bolt is among the lowest, the last at the target."""
    load = preloads_after([(orders[n], 1.0)], n, loss=loss)
    assert pytest.approx(expected, abs=1e-9) == load
    assert pytest.approx(min(load), abs=1e-12) == load[orders[n][0] - 1]


TILTS = [
    (6, NEAR, CIRCLE, 0.035782),
    (6, NEAR, STAR, 0.003766),
    (8, FAR, CIRCLE, 0.028105),
    (8, FAR, STAR, 0.001861),
    (6, (0.1,), CIRCLE, 0.018519),
    (6, (0.1,), STAR, 0),
]


@pytest.mark.parametrize(("n", "loss", "orders", "expected"), TILTS)
def test_star_reduces_the_tilt(n, loss, orders, expected):
    """One-sidedness after one pass: what the star does better."""
    load = preloads_after([(orders[n], 1.0)], n, loss=loss)
    assert pytest.approx(expected, abs=1e-6) == tilt(even_circle_deg(n), load)


def test_star_does_not_reduce_the_scatter():
    """Four bolts, 10 %: the standard deviation is 0.0707 round the circle, but 0.1 for the star."""
    spread = [pstdev(preloads_after([(orders[4], 1.0)], 4, loss=[0.1])) for orders in (CIRCLE, STAR)]
    assert pytest.approx([0.0707, 0.1], abs=1e-4) == spread


LOSS = st.lists(st.floats(min_value=0, max_value=0.12), min_size=0, max_size=3)


@settings(deadline=None)
@given(st.permutations(range(1, 8)), LOSS)
def test_mean_after_one_pass_is_the_same_for_every_order(order, loss):
    """Seven bolts from slack: the mean is 1 less each loss once, the last bolt is at the target."""
    load = preloads_after([(order, 1.0)], 7, loss=loss)
    assert pytest.approx(1 - sum(loss), abs=1e-12) == mean(load)
    last = load[order[-1] - 1]
    assert pytest.approx(1, abs=0) == last


@settings(deadline=None)
@given(st.permutations(range(1, 7)), st.floats(min_value=0.01, max_value=1e5))
def test_no_loss_leaves_every_bolt_at_the_target(order, target):
    """Without interaction every bolt keeps the target, and the unit of the preload does not matter."""
    assert (target,) * 6 == preloads_after([(order, target)], 6, loss=[])
    scaled = preloads_after([(order, target)], 6, loss=NEAR)
    one = preloads_after([(order, 1.0)], 6, loss=NEAR)
    assert pytest.approx([target * f for f in one], rel=1e-9) == scaled


STAGES = (0.3, 0.6, 1.0)
# n, loss, after the star stages, after one round, after two: (mean, least)
MULTI = [
    (6, (0.1,), (0.950788, 0.901950), (0.995751, 0.990136), (0.999625, 0.999000)),
    (6, NEAR, (0.941504, 0.883603), (0.993923, 0.988406), (0.999389, 0.998695)),
    (8, FAR, (0.936617, 0.873932), (0.992267, 0.987092), (0.999101, 0.998156)),
]


@pytest.mark.parametrize(("n", "loss", "star", "first", "second"), MULTI)
def test_stages_and_rounds_bring_the_preload_back(n, loss, star, first, second):
    """Three star stages, then rounds at the final torque: mean and least preload."""
    passes = [(STAR[n], target) for target in STAGES]
    for rounds, expected in enumerate((star, first, second)):
        load = preloads_after(passes + [(CIRCLE[n], 1.0)] * rounds, n, loss=loss)
        assert pytest.approx(expected, abs=1e-6) == (mean(load), min(load))


# preloads by position, n = 6, 10 % to each neighbour, after the star stages and after one and two rounds
BY_POSITION = [
    (0, (0.901950, 0.950415, 1, 0.901950, 0.950415, 1)),
    (1, (0.992486, 0.999406, 0.990136, 0.994055, 0.998425, 1)),
    (2, (0.999768, 0.999000, 0.999306, 0.999773, 0.999902, 1)),
]


@pytest.mark.parametrize(("rounds", "expected"), BY_POSITION)
def test_preloads_by_position(rounds, expected):
    """Every bolt of the six after the star stages and after each round."""
    passes = [(STAR[6], target) for target in STAGES] + [(CIRCLE[6], 1.0)] * rounds
    assert pytest.approx(expected, abs=1e-6) == preloads_after(passes, 6, loss=[0.1])


SMALL_LOSS = st.lists(st.floats(min_value=0, max_value=0.08), min_size=1, max_size=3)


@settings(deadline=None)
@given(st.lists(st.floats(min_value=0.3, max_value=1), min_size=6, max_size=6), SMALL_LOSS)
def test_every_round_at_the_target_lessens_the_deficit(start, loss):
    """A round is a Gauss-Seidel sweep: with losses s < 1/2 all round, the largest deficit falls by s/(1 - s).

    In a sweep a bolt rises by its deficit and what the bolts before it took, so by at most D/(1 - s); the bolts
    after it then take at most s times that.
    """
    s = 2 * sum(loss)
    before = 1 - min(start)
    for _ in range(3):
        start = preloads_after([(CIRCLE[6], 1.0)], 6, loss=loss, start=start)
        after = 1 - min(start)
        assert after <= s / (1 - s) * before + 1e-12
        before = after


@settings(deadline=None)
@given(st.permutations(range(1, 7)), LOSS)
def test_compensated_pass_by_linear_algebra(order, loss):
    """Targets solved backwards (upper triangle) leave every bolt at 1 after a single pass."""
    share = [0, *loss, *[0] * (3 - len(loss))]
    apart = [[min(abs(a - b), 6 - abs(a - b)) for b in order] for a in order]
    later = np.triu([[share[places] for places in row] for row in apart], 1)
    targets = np.linalg.solve(np.eye(6) - later, np.ones(6))
    passes = [((bolt,), float(target)) for bolt, target in zip(order, targets, strict=True)]
    assert pytest.approx([1] * 6, abs=1e-12) == preloads_after(passes, 6, loss=loss)


def test_compensated_targets_of_the_stars():
    """Four bolts at 10 %: 1.2 for the first pair, 1 for the second; six bolts: 1.21, 1.10 and 1."""
    four = [((1, 3), 1.2), ((2, 4), 1.0)]
    assert pytest.approx([1] * 4, abs=1e-12) == preloads_after(four, 4, loss=[0.1])
    six = [((1, 4), 1.21), ((2, 5), 1.10), ((3, 6), 1.0)]
    assert pytest.approx([1] * 6, abs=1e-12) == preloads_after(six, 6, loss=[0.1])


def test_wrench_never_loosens():
    """A bolt above the target stays as it is, and disturbs nobody."""
    start = (1.2, 1, 1, 1)
    assert start == preloads_after([((1,), 1.0)], 4, loss=[0.1], start=start)


def test_bolt_cannot_push():
    """A bolt with hardly any preload goes slack and no further, and a slack bolt stays slack."""
    expected = (0, 1, 0.9, 0)
    assert pytest.approx(expected, abs=1e-12) == preloads_after([((2,), 1.0)], 4, loss=[0.1], start=(0.05, 0, 1, 0))


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"loss": [nan]}, "loss must be between 0 and 0.5, but you gave nan. Give the share that a bolt loses, such as 0.1."),
        ({"loss": [-0.1]}, "loss must be between 0 and 0.5, but you gave -0.1. Give the share that a bolt loses, such as 0.1."),
        ({"loss": [0.5]}, "loss must be less than 1 when added up all round, but you gave 1. Give smaller shares."),
        ({"loss": [0.1] * 3}, "loss must be at most 2 figures for 4 bolts, but you gave 3. Leave out the far ones."),
        ({"start": [1, 1]}, "start must be 4 preloads, but you gave 2. Give one for each bolt, or none."),
        ({"start": [1, 1, 1, nan]}, "start must be between 0 and 1000000, but you gave nan. "
                                    "Give the preload each bolt has before the first pass."),
        ({"start": [1, 1, 1, -1]}, "start must be between 0 and 1000000, but you gave -1. "
                                   "Give the preload each bolt has before the first pass."),
        ({"passes": [((1,), inf)]}, "target must be between 0 and 1000000, but you gave inf. "
                                    "Give the preload at which the wrench stops."),
        ({"passes": [((5,), 1)]}, "bolt number must be a whole number from 1 to 4, but you gave 5. "
                                  "Bolts are numbered from 1 round the circle."),
    ],
)  # fmt: skip
def test_figures_that_cannot_be_are_told(change, told):
    """A figure that cannot be is refused with name, rule, value and advice."""
    given_ = {"passes": [((1, 3, 2, 4), 1.0)], "loss": [0.1], "start": ()} | change
    with pytest.raises(OutOfRange) as caught:
        preloads_after(given_["passes"], 4, loss=given_["loss"], start=given_["start"])
    assert told == str(caught.value)


@pytest.mark.parametrize("preloads", [[1, 1, 1], [0, 0, 0, 0], [1, 1, 1, -1], [1, 1, 1, nan], [1, 1, 1, inf]])
def test_tilt_refuses_what_is_no_ring_of_preloads(preloads):
    """Too few, all slack, pushing or no number: refused."""
    with pytest.raises(OutOfRange, match="preloads must be 4 figures, none below 0, not all 0, but you gave"):
        tilt(even_circle_deg(4), preloads)
