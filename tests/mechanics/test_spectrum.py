"""Finding the strongest shake in a sampled signal."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import spectrum

TIME = np.arange(400) / 200


@given(st.floats(4, 60), st.floats(0, 6.28), st.floats(0.01, 100), st.floats(-50, 50))
def test_a_tone_is_found_whatever_its_phase_size_and_offset(hertz, phase, size, offset):
    """Two seconds at 200 Hz give the frequency to a twentieth of a hertz."""
    signal = offset + size * np.sin(2 * np.pi * hertz * TIME + phase)
    assert pytest.approx(hertz, abs=0.05) == spectrum.strongest_frequency_hz(signal, sample_rate_hz=200)


def test_the_stronger_of_two_tones_wins():
    """Firing at half the size does not hide the judder."""
    signal = 2 * np.sin(2 * np.pi * 10 * TIME) + np.sin(2 * np.pi * 50 * TIME)
    assert pytest.approx(10, abs=0.05) == spectrum.strongest_frequency_hz(signal, sample_rate_hz=200)
    high = spectrum.strongest_frequency_hz(signal, sample_rate_hz=200, low_hz=30)
    assert pytest.approx(50, abs=0.05) == high


def test_orders_of_the_invented_judder():
    """1500 rpm engine, 900 rpm input, 10 Hz: slip order 1, engine order 0.4, input order 0.667."""
    signal = np.sin(2 * np.pi * 10 * TIME)
    orders = [spectrum.strongest_order(signal, sample_rate_hz=200, speed_rpm=n) for n in (600, 1500, 900)]
    assert pytest.approx([1.0, 0.4, 0.667], abs=2e-3) == orders


@pytest.mark.parametrize("cycles", [3, 4])
def test_a_pure_line_on_an_edge_of_the_spectrum(cycles):
    """A tone exactly on a line of the spectrum is found exactly."""
    signal = np.cos(2 * np.pi * cycles * np.arange(64) / 64)
    found = spectrum.strongest_frequency_hz(signal, sample_rate_hz=64, low_hz=1, high_hz=20)
    assert pytest.approx(cycles, abs=0.02) == found


@pytest.mark.parametrize(
    ("signal", "arguments", "words"),
    [
        ([0.0] * 10, {}, "signal must be one row of 16 to 10 million samples, but you gave shape"),
        ([1.0] * 100, {}, "signal must be one that moves in this band, but you gave a steady one"),
        ([1.0] * 99 + [float("inf")], {}, "signal .sample 100. must be between -1000000 and 1000000"),
        ([0.0] * 100, {"high_hz": 150}, "high_hz must be between 0 and 100 Hz, but you gave 150 Hz"),
        ([0.0] * 100, {"low_hz": 10, "high_hz": 10.5}, "high_hz must be a band at least two lines wide"),
        (["a"] * 100, {}, "signal must be a list of numbers"),
    ],
)
def test_signals_that_say_nothing(signal, arguments, words):
    """What cannot be answered is refused in words."""
    with pytest.raises(OutOfRange, match=words):
        spectrum.strongest_frequency_hz(signal, sample_rate_hz=200, **arguments)
