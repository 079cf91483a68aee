"""The load curve of a coned disc: symmetry, extrema, snap-through, shape factors."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import spring

HEIGHT = st.floats(0.1, 5)


@given(HEIGHT, st.floats(0, 1))
def test_point_symmetry_about_flat(r, x):
    """F(h - x) + F(h + x) is twice the flat load, for every spring."""
    both = spring.load_ratio(1 - x, height_ratio=r) + spring.load_ratio(1 + x, height_ratio=r)
    assert pytest.approx(2) == both


@given(HEIGHT)
def test_free_and_flat(r):
    """No load when free, the flat load when flat, twice it when turned inside out."""
    assert spring.load_ratio(0, height_ratio=r) == 0
    assert spring.load_ratio(1, height_ratio=r) == 1
    assert pytest.approx(2) == spring.load_ratio(2, height_ratio=r)


# r, travel ratios of the extrema, load ratios there (from the closed form, to five and four digits)
@pytest.mark.parametrize(
    ("r", "travels", "loads"),
    [
        (1.5, (0.80755, 1.19245), (1.0160, 0.9840)),
        (1.75, (0.65993, 1.34007), (1.1204, 0.8796)),
        (2.0, (0.59175, 1.40825), (1.2722, 0.7278)),
        (2.2, (0.55774, 1.44226), (1.4187, 0.5813)),
    ],
)
def test_extrema(r, travels, loads):
    """Peak and valley lie where the closed form puts them."""
    found = spring.turning_points(r)
    assert pytest.approx(travels, abs=5e-6) == found
    assert pytest.approx(loads, abs=5e-5) == tuple(spring.load_ratio(u, height_ratio=r) for u in found)


@given(st.floats(1.4143, 5))
def test_the_rate_vanishes_at_the_extrema(r):
    """The slope is zero at peak and valley, negative between them."""
    peak, valley = spring.turning_points(r)
    assert pytest.approx(0, abs=1e-9) == spring.rate_ratio(peak, height_ratio=r)
    assert pytest.approx(0, abs=1e-9) == spring.rate_ratio(valley, height_ratio=r)
    assert spring.rate_ratio(1, height_ratio=r) < 0


@given(st.floats(0.1, 1.4142), st.floats(0, 2), st.floats(0, 2))
def test_a_low_cone_only_rises(r, a, b):
    """Up to a height of √2 thicknesses more travel never means less load."""
    assert spring.turning_points(r) == ()
    low, high = sorted((a, b))
    assert spring.load_ratio(low, height_ratio=r) <= spring.load_ratio(high, height_ratio=r) + 1e-12


@given(st.floats(2.83, 9))
def test_snap_through(r):
    """From 2√2 on the load is zero at two travels past flat, and negative between them."""
    first, second = spring.zero_load_travels(r)
    assert 1 < first <= second < 2
    assert pytest.approx(0, abs=1e-9) == spring.load_ratio(first, height_ratio=r)
    assert spring.load_ratio((first + second) / 2, height_ratio=r) <= 1e-12


def test_snap_through_begins_at_two_root_two():
    """Just below 2√2 the spring comes back by itself."""
    assert spring.zero_load_travels(2 * sqrt(2) - 1e-6) == ()
    assert len(spring.zero_load_travels(2 * sqrt(2) + 1e-6)) == 2


@pytest.mark.parametrize(
    ("d", "textbook", "din"),
    [(1.25, 0.3424, 0.3426), (1.5, 0.5234, 0.5248), (1.75, 0.6268, 0.6301), (2, 0.6888, 0.6943), (3, 0.7726, 0.7880)],
)
def test_both_shape_factors(d, textbook, din):
    """Each rule gives its own figure."""
    assert pytest.approx(textbook, abs=5e-5) == spring.shape_factor(d, rule="textbook")
    assert pytest.approx(din, abs=5e-5) == spring.shape_factor(d, rule="DIN")


@given(st.floats(1.05, 10))
def test_the_rules_agree_on_a_narrow_ring(d):
    """The DIN factor is the larger one, the more so the wider the ring."""
    ratio = spring.shape_factor(d, rule="DIN") / spring.shape_factor(d, rule="textbook")
    assert 1 - 1e-9 <= ratio < 1.10


@given(st.floats(0.5, 5), st.floats(1.1, 3))
def test_flat_load_scales_with_the_square_of_the_size(size, d):
    """A spring twice as large in every length carries four times the load (force goes with area)."""
    once = spring.flat_load_n(
        size, cone_height_mm=size, outer_diameter_mm=20 * size, inner_diameter_mm=20 * size / d, rule="DIN"
    )
    twice = spring.flat_load_n(
        2 * size, cone_height_mm=2 * size, outer_diameter_mm=40 * size, inner_diameter_mm=40 * size / d, rule="DIN"
    )
    assert pytest.approx(4 * once) == twice


def test_the_rule_must_be_named():
    """A shape factor without its rule is refused."""
    with pytest.raises(OutOfRange) as refused:
        spring.shape_factor(2, rule="")
    assert str(refused.value) == (
        "rule must be one of textbook, DIN, but you gave ''. Name the shape factor, for two are in print."
    )
