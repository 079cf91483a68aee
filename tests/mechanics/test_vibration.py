"""Orders, natural frequencies, judder."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import vibration

INERTIA = st.floats(0.001, 10)


@given(st.floats(0, 20), st.floats(10, 8000))
def test_order_and_frequency_undo_each_other(order, rpm):
    """From order to frequency and back."""
    frequency = vibration.order_frequency_hz(order, speed_rpm=rpm)
    assert pytest.approx(order, abs=1e-12) == vibration.order_of(frequency, speed_rpm=rpm)


@given(st.floats(1, 1e5), INERTIA, INERTIA)
def test_two_inertias_are_symmetric(k, a, b):
    """Which side is which does not change the frequency."""
    one = vibration.two_inertia_frequency_hz(k, engine_side_kg_m2=a, gearbox_side_kg_m2=b)
    other = vibration.two_inertia_frequency_hz(k, engine_side_kg_m2=b, gearbox_side_kg_m2=a)
    assert pytest.approx(one) == other


@given(st.floats(0.2, 900), INERTIA, INERTIA)
def test_stiffness_for_a_frequency_gives_it(f, a, b):
    """The stiffness worked out for a frequency has that frequency."""
    sides = {"engine_side_kg_m2": a, "gearbox_side_kg_m2": b}
    k = vibration.stiffness_for_frequency_nm_per_rad(f, **sides)
    if 0.01 <= k <= 1e9:
        assert pytest.approx(f) == vibration.two_inertia_frequency_hz(k, **sides)


@given(st.floats(0.1, 500), st.integers(1, 12))
def test_firing_at_the_resonance_speed(f, cylinders):
    """At the resonance speed the firing frequency is the natural frequency."""
    rpm = vibration.resonance_speed_rpm(f, cylinders=cylinders)
    if rpm <= 30_000:
        assert pytest.approx(f) == vibration.firing_frequency_hz(rpm, cylinders=cylinders)


@pytest.mark.parametrize(
    ("k_deg", "engine", "gearbox", "hertz", "rpm"),
    [(14.0, 0.16, 0.012, 42.7, 1280), (26.0, 0.16, 0.012, 58.1, 1744), (5.6, 0.13, 0.075, 13.1, 392)],
)
def test_rigid_against_dual_mass(k_deg, engine, gearbox, hertz, rpm):
    """Car B: with a rigid flywheel the resonance is driven through, with the dual-mass one it lies below idle (820)."""
    k = vibration.stiffness_nm_per_rad(k_deg)
    found = vibration.two_inertia_frequency_hz(k, engine_side_kg_m2=engine, gearbox_side_kg_m2=gearbox)
    speed = vibration.resonance_speed_rpm(found, cylinders=4)
    assert pytest.approx(hertz, abs=0.06) == found
    assert pytest.approx(rpm, abs=0.6) == speed
    assert (speed < 820) == (gearbox > 0.05)


@pytest.mark.parametrize(
    ("j1", "j2", "k", "hertz", "rpm"),
    [(0.10, 0.06, 700, 21.745, 652.3), (0.16, 0.006, 1500, 81.056, 2431.7), (0.15, 0.06, 243.64, 12.0, 360.0)],
)
def test_invented_flywheels(j1, j2, k, hertz, rpm):
    """Three invented flywheels on four cylinders."""
    found = vibration.two_inertia_frequency_hz(k, engine_side_kg_m2=j1, gearbox_side_kg_m2=j2)
    assert pytest.approx(hertz, rel=1e-4) == found
    assert pytest.approx(rpm, rel=1e-4) == vibration.resonance_speed_rpm(found, cylinders=4)


@given(st.floats(1, 8000), st.floats(1, 8000))
def test_slip_beat_is_symmetric_and_of_order_one(a, b):
    """The beat does not know which side is faster, and is order 1 of the slip."""
    beat = vibration.slip_frequency_hz(a, input_rpm=b)
    assert beat == vibration.slip_frequency_hz(b, input_rpm=a)
    if beat >= 1 / 60:
        assert pytest.approx(1) == vibration.slip_order(beat, engine_rpm=a, input_rpm=b)


def test_judder_band_in_slip_speeds():
    """5 to 20 Hz is order 1 of 300 to 1200 rpm of slip."""
    low, high = vibration.JUDDER_BAND_HZ
    assert low == vibration.slip_frequency_hz(1500, input_rpm=1200)
    assert high == vibration.slip_frequency_hz(2000, input_rpm=800)


def test_no_slip_no_order():
    """Equal speeds have no slip order, and the message says so."""
    with pytest.raises(OutOfRange) as refused:
        vibration.slip_order(10, engine_rpm=1500, input_rpm=1500)
    assert str(refused.value) == (
        "engine_rpm must be at least 1 rpm away from input_rpm, but you gave 1500 rpm. No slip, no order."
    )


def test_half_a_cylinder_is_refused():
    """Cylinders are counted."""
    with pytest.raises(OutOfRange, match="cylinders must be a whole number from 1 to 16, but you gave 4.0"):
        vibration.firing_order(4.0)
