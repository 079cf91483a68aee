"""Twice the work takes twice the time: read the medians of each group side by side (never asserted)."""

import numpy as np
import pytest

from bitepoint.mechanics.interaction import preloads_after
from bitepoint.mechanics.roadlog import slip_log_percent


@pytest.mark.benchmark(group="passes of a ring of sixteen")
@pytest.mark.parametrize("passes", [3, 6, 12, 24])
def test_growth_with_the_passes(benchmark, passes):
    """Each pass costs the same."""
    ring = [(tuple(range(1, 17)), 1.0)] * passes
    assert len(benchmark(preloads_after, ring, 16, loss=[0.08, 0.03])) == 16


@pytest.mark.benchmark(group="length of a log at 10 Hz")
@pytest.mark.parametrize("seconds", [600, 6000, 60000])
def test_growth_with_the_length_of_a_log(benchmark, seconds):
    """Each sample costs the same."""
    rpm = 2500 + 1000 * np.sin(np.arange(10 * seconds) / 400)
    kmh = 0.97 * rpm * 1738.8 * 60e-6 / (0.98 * 4.12)
    sheet = {"gear_ratio": 0.98, "final_ratio": 4.12, "rolling_circumference_mm": 1738.8}
    assert len(benchmark(slip_log_percent, rpm, road_speed_kmh=kmh, **sheet)) == 10 * seconds
