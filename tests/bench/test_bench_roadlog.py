"""How long a road log of 600 s at 10 Hz takes: slip of every sample, gear, strongest shake; and the plots of a log."""

import numpy as np
import pytest

from bitepoint.mechanics import roadlog, spectrum
from bitepoint.pictures import draw
from bitepoint.workshop.simulator import simulate
from bitepoint.workshop.vehicles import vehicle

CAR = {"final_ratio": 4.12, "rolling_circumference_mm": 1738.8}
SAMPLES = 600 * 10


@pytest.fixture(scope="module")
def log():
    """Engine speed and road speed in 4th gear, 3 % slip."""
    seconds = np.arange(SAMPLES) / 10
    rpm = 2500 + 1000 * np.sin(seconds / 40)
    return rpm, 0.97 * rpm * 1738.8 * 60e-6 / (0.98 * 4.12), seconds


def test_slip_of_a_log(benchmark, log):
    """Every sample of the log has 3 % slip."""
    rpm, kmh, _ = log
    slip = benchmark(roadlog.slip_log_percent, rpm, road_speed_kmh=kmh, gear_ratio=0.98, **CAR)
    assert slip.shape == (SAMPLES,)
    assert np.allclose(3.0, slip)


def test_gear_of_a_log(benchmark, log):
    """The log was driven in 4th gear."""
    rpm, kmh, _ = log
    ratios = (3.64, 2.05, 1.33, 0.98, 0.78)
    assert benchmark(roadlog.gear_of_log, rpm, road_speed_kmh=kmh, gear_ratios=ratios, **CAR) == 4


def test_strongest_shake_of_a_log(benchmark, log):
    """A shake of 1.7 Hz is found in the log."""
    signal = np.sin(2 * np.pi * 1.7 * log[2])
    found = benchmark(spectrum.strongest_frequency_hz, signal, sample_rate_hz=10, low_hz=0.5, high_hz=5)
    assert pytest.approx(1.7, abs=0.005) == found


PLOTS = {
    "road-test": {"channels": ["engine_rpm", "speed_km_h", "driven_wheel_km_h", "pedal_pct", "throttle_pct"]},
    "slip-plot": {},
    "order-spectrum": {"references": ["time", "slip"]},
}


@pytest.mark.parametrize("key", PLOTS)
def test_plot_of_a_log(benchmark, key):
    """A plot after the first: under 300 ms, as a learner who drags a slider needs it."""
    draw(key, **PLOTS[key])
    assert benchmark(draw, key, **PLOTS[key]).alt


def test_simulated_log(benchmark):
    """A log that no file holds, made when its question is asked."""
    assert benchmark(simulate, vehicle("B"), "slip", seed=417).samples
