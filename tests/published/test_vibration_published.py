"""Natural frequencies and orders against printed examples, numpy's eigenvalues and scipy's periodogram."""

from math import pi, sqrt

import numpy as np
import pytest
from scipy.signal import periodogram

from bitepoint.mechanics import spectrum, vibration

# speed [rpm], cylinders, firing frequency [Hz]. Worked by us: engine-orders (quoted) gives the order z/2 alone.
FIRING = [(800, 4, 26.667), (975, 4, 32.5), (850, 3, 21.25), (750, 6, 37.5)]


@pytest.mark.parametrize(("rpm", "cylinders", "hertz"), FIRING)
def test_firing_frequency(rpm, cylinders, hertz):
    """Firing frequencies worked by us from the printed rule of half the cylinders a turn."""
    assert pytest.approx(hertz, abs=5e-4) == vibration.firing_frequency_hz(rpm, cylinders=cylinders)


def test_second_order_of_four_cylinders():
    """engine-orders (quoted): in a four-cylinder four-stroke engine the second order is the dominant one."""
    assert vibration.firing_order(4) == 2.0


def test_geared_two_rotor_system():
    """theory-of-machines-ch-11 (memory): 400 and 1400 kg·m² through 3 to 1, shafts d 45 and d 90: 4.20 Hz."""
    modulus = 84e9
    length = 0.18 + 0.45 * (45 / 90) ** 4 * 3**2
    assert pytest.approx(0.433125) == length
    stiffness = modulus * pi * 0.045**4 / 32 / length
    assert pytest.approx(78_075.7, rel=1e-4) == stiffness
    found = vibration.two_inertia_frequency_hz(stiffness, engine_side_kg_m2=400, gearbox_side_kg_m2=1400 / 9)
    assert pytest.approx(4.20, rel=3e-3) == found


def test_stepped_shaft():
    """theory-of-machines-ch-24 (memory): 900 kg at 0.85 m and 700 kg at 0.55 m on a stepped shaft: 3.37 Hz."""
    length = 0.6 + 0.5 * (95 / 60) ** 4 + 0.4 * (95 / 50) ** 4
    assert pytest.approx(8.95, abs=0.01) == length
    stiffness = 80e9 * pi * 0.095**4 / 32 / length
    found = vibration.two_inertia_frequency_hz(
        stiffness, engine_side_kg_m2=900 * 0.85**2, gearbox_side_kg_m2=700 * 0.55**2
    )
    assert pytest.approx(3.37, abs=5e-3) == found


@pytest.mark.parametrize(("j1", "j2", "k"), [(0.16, 0.012, 1489.7), (0.13, 0.075, 320.9)])
def test_two_inertias_agree_with_eigenvalues(j1, j2, k):
    """The eigenvalues of the mass and stiffness matrices (numpy) give the same natural frequency."""
    system = np.linalg.inv(np.diag([j1, j2])) @ np.array([[k, -k], [-k, k]])
    omega = sqrt(max(np.linalg.eigvals(system).real))
    found = vibration.two_inertia_frequency_hz(k, engine_side_kg_m2=j1, gearbox_side_kg_m2=j2)
    assert pytest.approx(omega / (2 * pi), rel=1e-12) == found


def test_judder_band():
    """applied-sciences-2019-4287 (quoted): take-up judder lies between 5 and 20 Hz."""
    assert vibration.JUDDER_BAND_HZ == (5.0, 20.0)


@pytest.mark.parametrize("hertz", [6.3, 11.0, 18.7])
def test_strongest_tone_agrees_with_scipy(hertz):
    """scipy.signal.periodogram, finely interpolated by zeros, has its peak at the same frequency."""
    time = np.arange(2000) / 250
    noise = np.random.default_rng(3).standard_normal(2000)
    signal = 2 * np.sin(2 * pi * hertz * time) + 0.3 * noise + 9.81
    frequencies, power = periodogram(signal, 250, window="hann", nfft=2**17)
    expected = frequencies[np.argmax(np.where(frequencies > 2, power, 0))]
    assert pytest.approx(expected, abs=0.02) == spectrum.strongest_frequency_hz(signal, sample_rate_hz=250)
