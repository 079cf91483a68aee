"""Slip and gear of a whole road log."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra import numpy as hnp

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import driveline, roadlog

CAR = {"gear_ratio": 0.98, "final_ratio": 4.12, "rolling_circumference_mm": 1738.8}
RATIOS = (3.64, 2.05, 1.33, 0.98, 0.78)
GEARBOX = {"gear_ratios": RATIOS, "final_ratio": 4.12, "rolling_circumference_mm": 1738.8}


@given(hnp.arrays(np.float64, st.integers(1, 50), elements=st.floats(300, 12_000)), st.floats(0, 350))
def test_every_sample_is_the_single_figure(rpm, kmh):
    """The log's slip is slip_percent of each sample."""
    expected = [driveline.slip_percent(float(n), road_speed_kmh=kmh, **CAR) for n in rpm]
    found = roadlog.slip_log_percent(rpm, road_speed_kmh=np.full(rpm.shape, kmh), **CAR)
    assert found.dtype == np.float64
    assert found.shape == rpm.shape
    assert np.allclose(expected, found, rtol=1e-12, atol=1e-9)


@given(st.integers(1, 5), st.floats(0, 0.01))
def test_the_gear_of_a_noisy_log(gear, noise):
    """A median outlasts noise and a few wild samples."""
    rpm = np.linspace(1500, 4000, 101)
    kmh = rpm * driveline.kmh_per_rpm(RATIOS[gear - 1], 4.12, 1738.8)
    kmh = kmh * (1 + noise * np.sin(np.arange(101)))
    kmh[::25] = 200
    assert gear == roadlog.gear_of_log(rpm, road_speed_kmh=kmh, **GEARBOX)


def test_first_bad_sample_is_named():
    """The message counts samples from 1 and says what to do."""
    with pytest.raises(OutOfRange) as refused:
        roadlog.slip_log_percent([3000, 3000, float("nan")], road_speed_kmh=[90, 90, 90], **CAR)
    assert str(refused.value) == (
        "engine_rpm (sample 3) must be between 300 and 12000 rpm, but you gave nan rpm. Cut this part of the log out."
    )


@pytest.mark.parametrize(
    ("rpm", "kmh", "words"),
    [
        ([3000, 3100], [90], "road_speed_kmh must be 2 samples, as many as engine_rpm, but you gave 1"),
        ([], [], "engine_rpm must be one row of 1 to 10 million samples, but you gave shape"),
        ([[3000]], [90], "engine_rpm must be one row of 1 to 10 million samples, but you gave shape"),
        (["fast"], [90], "engine_rpm must be a list of numbers, but you gave"),
        ([3000], [-1], "road_speed_kmh .sample 1. must be between 0 and 350 km/h, but you gave -1 km/h"),
        ([1e308], [90], "engine_rpm .sample 1. must be between 300 and 12000 rpm"),
    ],
)
def test_logs_that_cannot_be_used(rpm, kmh, words):
    """Nothing is left out silently."""
    with pytest.raises(OutOfRange, match=words):
        roadlog.slip_log_percent(rpm, road_speed_kmh=kmh, **CAR)


def test_a_standing_car_has_no_gear():
    """Samples at rest are refused when a gear is asked for."""
    with pytest.raises(OutOfRange, match="road_speed_kmh .sample 2. must be between 1 and 350"):
        roadlog.gear_of_log([900, 900], road_speed_kmh=[10, 0], **GEARBOX)
