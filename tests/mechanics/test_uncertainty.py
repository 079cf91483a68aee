"""How sure a figure is."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import uncertainty

PARTS = st.lists(st.floats(0, 1), min_size=1, max_size=20)


@given(PARTS, st.floats(0, 100))
def test_combining_is_symmetric_and_scales(parts, factor):
    """Order does not matter, and a change of unit goes straight through."""
    whole = uncertainty.combined_uncertainty(parts)
    assert pytest.approx(whole) == uncertainty.combined_uncertainty(parts[::-1])
    assert pytest.approx(whole * factor) == uncertainty.combined_uncertainty([p * factor for p in parts])


@given(PARTS)
def test_the_whole_is_between_the_largest_part_and_the_sum(parts):
    """Independent parts never simply add up."""
    whole = uncertainty.combined_uncertainty(parts)
    assert max(parts) - 1e-12 <= whole <= sum(parts) + 1e-12


@given(st.floats(0.001, 10))
def test_shapes(half):
    """Arcsine is the least sure, triangular the surest; a step is a rectangle of half its width."""
    arcsine, rectangular, triangular = (
        uncertainty.uncertainty_from_bounds(half, shape=s) for s in ("arcsine", "rectangular", "triangular")
    )
    assert triangular < rectangular < arcsine < half
    assert pytest.approx(rectangular) == uncertainty.uncertainty_from_step(2 * half)


@given(st.floats(-100, 100), st.floats(0.001, 1), st.integers(1, 100))
def test_more_readings_are_surer(centre, spread, pairs):
    """The mean of 2 n readings ± s has the uncertainty s/√(2n - 1)."""
    readings = [centre - spread, centre + spread] * pairs
    expected = spread / sqrt(2 * pairs - 1)
    assert pytest.approx(expected, rel=1e-6) == uncertainty.uncertainty_from_repeats(readings)


def test_caliper_budget():
    """Display step 0.01, limits ±0.02, three readings with s = 0.008: u = 0.01277, U = 0.0255 mm."""
    parts = [
        uncertainty.uncertainty_from_step(0.01),
        uncertainty.uncertainty_from_bounds(0.02),
        0.008 / sqrt(3),
    ]
    combined = uncertainty.combined_uncertainty(parts)
    assert pytest.approx(0.01277, abs=5e-6) == combined
    assert pytest.approx(0.0255, abs=5e-5) == uncertainty.expanded_uncertainty(combined)


def test_one_reading_has_no_spread():
    """A single reading says nothing about its own uncertainty."""
    with pytest.raises(OutOfRange) as refused:
        uncertainty.uncertainty_from_repeats([8.01])
    assert str(refused.value) == (
        "number of readings must be a whole number from 2 to 1000, but you gave 1. Measure the same thing again."
    )


def test_unknown_shape_is_refused():
    """The three shapes are listed."""
    with pytest.raises(
        OutOfRange, match="shape must be one of rectangular, triangular, arcsine, but you gave 'normal'"
    ):
        uncertainty.uncertainty_from_bounds(0.02, shape="normal")
