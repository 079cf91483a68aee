"""Reading scales, and setting them for a picture."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import scales


@given(st.integers(0, 150), st.data(), st.sampled_from([0.02, 0.05]))
def test_vernier_there_and_back(main, data, least):
    """Every position of a vernier reads as a figure that sets the same position."""
    line = data.draw(st.integers(0, scales.VERNIER_LINES[least] - 1))
    reading = scales.vernier_reading_mm(main, line=line, least_count_mm=least)
    assert (main, line) == scales.vernier_setting(reading, least_count_mm=least)


@given(st.floats(0, 150), st.sampled_from([0.02, 0.05]))
def test_vernier_is_never_off_by_more_than_half_a_step(value, least):
    """The nearest position is at most half the least count away."""
    main, line = scales.vernier_setting(value, least_count_mm=least)
    shown = scales.vernier_reading_mm(main, line=line, least_count_mm=least)
    assert abs(shown - value) <= least / 2 + 1e-9


@given(st.integers(0, 200), st.booleans(), st.integers(0, 49))
def test_micrometer_there_and_back(whole, half, thimble):
    """Every position of a micrometer reads as a figure that sets the same position."""
    reading = scales.micrometer_reading_mm(whole, half_line=half, thimble=thimble)
    assert (whole, half, thimble) == scales.micrometer_setting(reading)


@given(st.integers(0, 10), st.integers(0, 99), st.integers(0, 5))
def test_dial_gauge_there_and_back(turns, hand, preload):
    """Every position of the hands reads as a figure that sets the same hands."""
    reading = scales.dial_gauge_reading_mm(hand, turns=turns, preload_mm=preload)
    assert (turns, hand) == scales.dial_gauge_hands(reading, preload_mm=preload)


@pytest.mark.parametrize(
    ("turns", "hand", "reading"),
    [(1, 0, 0.0), (1, 7, 0.07), (0, 85, -0.15), (0, 55, -0.45), (2, 35, 1.35), (1, 45, 0.45)],
)
def test_dial_gauge_readings(turns, hand, reading):
    """Preload 1 mm: plus when the plunger goes in, minus when it comes out, the small hand counts turns."""
    assert pytest.approx(reading) == scales.dial_gauge_reading_mm(hand, turns=turns)


@given(st.integers(0, 99))
def test_inner_scale_runs_the_other_way(hand):
    """Both scales add up to a full turn, or stand at zero together."""
    assert (hand + scales.inner_scale_lines(hand)) in (0, 100)


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (
            lambda: scales.vernier_reading_mm(12, line=50, least_count_mm=0.02),
            "line must be a whole number from 0 to 49, but you gave 50. "
            "Count the vernier line that meets a line of the main scale.",
        ),
        (
            lambda: scales.vernier_reading_mm(12, line=3, least_count_mm=0.1),
            "least_count_mm must be 0.02 or 0.05 mm, but you gave 0.1. It is printed on the slider.",
        ),
        (
            lambda: scales.micrometer_reading_mm(12, half_line=1, thimble=3),
            "half_line must be True or False, but you gave 1. Say whether the half line is uncovered.",
        ),
        (
            lambda: scales.dial_gauge_hands(-1.5),
            "reading_mm must be between -1 and 9.999 mm, but you gave -1.5 mm. Set the gauge with more or less preload.",
        ),
    ],
)
def test_positions_no_scale_can_show(call, words):
    """What no scale can show is refused in words."""
    with pytest.raises(OutOfRange) as refused:
        call()
    assert str(refused.value) == words
