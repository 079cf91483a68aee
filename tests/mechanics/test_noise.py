"""Noise over a working day."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import noise

LEVEL = st.floats(60, 140)


@given(LEVEL, st.floats(0.1, 24))
def test_a_steady_level_is_its_own_eight_hour_level_after_eight_hours(level, hours):
    """Eight hours of one level come back as that level; half the time is 3 dB less."""
    dose = noise.noise_dose_pct([level], hours=[8])
    assert noise.eight_hour_level_db(dose) == pytest.approx(level, abs=0.2)
    assert noise.noise_dose_pct([level], hours=[hours]) == pytest.approx(dose * hours / 8)


@given(LEVEL, LEVEL, st.floats(0.1, 6), st.floats(0.1, 6))
def test_doses_of_a_day_add_up(first, second, one, other):
    """Two pieces of work use what each of them uses."""
    both = noise.noise_dose_pct([first, second], hours=[one, other])
    each = noise.noise_dose_pct([first], hours=[one]) + noise.noise_dose_pct([second], hours=[other])
    assert both == pytest.approx(each)


def test_times_that_do_not_fit_are_refused():
    """A time for each level, and no day of more than 24 hours."""
    with pytest.raises(OutOfRange, match="hours must be 2 times, as many as levels_db, but you gave 1"):
        noise.noise_dose_pct([90, 95], hours=[1])
    with pytest.raises(OutOfRange, match="time in all must be between 0 and 24 h, but you gave 30 h"):
        noise.noise_dose_pct([90, 95], hours=[20, 10])
