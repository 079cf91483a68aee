"""Figures from readings."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import metrology

READINGS = st.lists(st.floats(-2, 2), min_size=2, max_size=40)


@given(READINGS, st.floats(-10, 10))
def test_run_out_does_not_depend_on_where_the_gauge_was_set(readings, offset):
    """Adding the same figure to every reading changes nothing."""
    moved = [r + offset for r in readings]
    assert pytest.approx(metrology.run_out_mm(readings), abs=1e-12) == metrology.run_out_mm(moved)


@given(READINGS)
def test_run_out_does_not_depend_on_the_start_or_the_sense(readings):
    """Starting elsewhere, turning the other way, or a gauge that reads backwards give the same figure."""
    turned = readings[1:] + readings[:1]
    assert metrology.run_out_mm(readings) == metrology.run_out_mm(turned)
    assert metrology.run_out_mm(readings) == metrology.run_out_mm(readings[::-1])
    assert metrology.run_out_mm(readings) == metrology.run_out_mm([-r for r in readings])
    assert metrology.run_out_mm(readings) >= 0


@given(READINGS, st.lists(st.floats(0, 0.3), min_size=40, max_size=40))
def test_bounds_hold_whatever_the_end_float_did(readings, pushes):
    """With the crankshaft anywhere in its end float at each reading, the true run-out lies inside the bounds."""
    shown = metrology.run_out_mm([r + p for r, p in zip(readings, pushes, strict=False)])
    low, high = metrology.run_out_bounds_mm(shown, end_float_mm=0.3)
    assert low - 1e-9 <= metrology.run_out_mm(readings) <= high + 1e-9


def test_a_first_place_that_does_not_come_back_gives_no_figure():
    """If the first place reads otherwise after the turn, the message says what to do."""
    readings = [0.00, 0.03, 0.05, 0.02]
    assert pytest.approx(0.05) == metrology.run_out_mm(readings, first_again_mm=0.01)
    with pytest.raises(OutOfRange) as refused:
        metrology.run_out_mm(readings, first_again_mm=0.09)
    assert str(refused.value) == (
        "first_again_mm must be within 0.02 mm of the first reading (0 mm), but you gave 0.09 mm. "
        "The crankshaft has moved or the stand is loose. Push it to one side each time and measure again."
    )


@given(st.floats(0.001, 1))
def test_eccentricity_is_half(run_out):
    """A part off centre by e shows 2 e."""
    assert pytest.approx(run_out) == 2 * metrology.eccentricity_mm(run_out)


@given(st.floats(0.001, 1), st.floats(0, 60))
def test_a_slanting_stylus_reads_high(shown, angle):
    """The true figure is never more than the one shown; at 30 degrees 0.115 stands for 0.100."""
    assert metrology.stylus_reading_mm(shown, angle_deg=angle) <= shown
    assert pytest.approx(0.100, abs=5e-4) == metrology.stylus_reading_mm(0.1155, angle_deg=30)


@given(st.lists(st.floats(30, 45), min_size=2, max_size=24), st.floats(-5, 5))
def test_spread_of_fingers(heights, offset):
    """Spread is symmetric and does not depend on where heights are measured from."""
    assert metrology.spread_mm(heights) == metrology.spread_mm(heights[::-1])
    assert pytest.approx(metrology.spread_mm(heights), abs=1e-9) == metrology.spread_mm([h + offset for h in heights])


def test_spread_is_not_of_opposite_fingers_only():
    """The worst pair may be anywhere: neighbours here."""
    assert pytest.approx(0.7) == metrology.spread_mm([38.0, 38.7, 38.2, 38.1, 38.0, 38.6, 38.2, 38.1])


@given(READINGS)
def test_taper_changes_sign_with_the_edges(readings):
    """Exchanging inner and outer turns the sign; equal edges have none."""
    other = [r + 0.1 for r in readings]
    there, back = metrology.taper_mm(readings, outer_mm=other), metrology.taper_mm(other, outer_mm=readings)
    assert pytest.approx(0.1) == there
    assert pytest.approx(-there) == back
    assert metrology.taper_mm(readings, outer_mm=readings) == 0


def test_gap_lies_between_two_blades():
    """0.05 passes, 0.06 does not; the other way round is refused."""
    assert metrology.gap_bounds_mm(0.05, stops_mm=0.06) == (0.05, 0.06)
    with pytest.raises(OutOfRange) as refused:
        metrology.gap_bounds_mm(0.06, stops_mm=0.05)
    assert str(refused.value) == (
        "stops_mm must be more than passes_mm (0.06 mm), but you gave 0.05 mm. Try the blades again, thin ones first."
    )


def test_a_blade_cannot_both_pass_and_stop():
    """The same blade given twice is refused."""
    with pytest.raises(OutOfRange, match="stops_mm must be more than passes_mm"):
        metrology.gap_bounds_mm(0.05, stops_mm=0.05)


def test_flatness_is_the_largest_gap():
    """Not the mean of the gaps."""
    assert metrology.flatness_mm([0.03, 0.05, 0.04]) == 0.05


def test_one_reading_is_no_run_out():
    """A single reading has no greatest and least."""
    with pytest.raises(OutOfRange, match="number of readings_mm must be a whole number from 2 to 1000, but you gave 1"):
        metrology.run_out_mm([0.03])


def test_a_reading_that_is_no_number_is_named():
    """The message counts readings from 1."""
    with pytest.raises(OutOfRange, match="readings_mm 2 must be between -50 and 50, but you gave nan"):
        metrology.run_out_mm([0.0, float("nan"), 0.1])


def test_unequal_rows_are_refused():
    """Taper needs both radii at the same places."""
    with pytest.raises(OutOfRange, match="outer_mm must be 2 readings, as many as inner_mm, but you gave 3"):
        metrology.taper_mm([0.0, 0.1], outer_mm=[0.0, 0.1, 0.2])
