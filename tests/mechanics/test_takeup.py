"""The car as the clutch feels it."""

from math import cos, pi, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import takeup

CAR = {"rolling_circumference_mm": 1739}


@given(st.floats(500, 3000), st.floats(2, 20))
def test_inertia_falls_with_the_square_of_the_ratio(mass, ratio):
    """Twice the ratio, a quarter of the inertia: why the low gear spares the clutch."""
    low = takeup.vehicle_inertia_at_clutch_kg_m2(mass, overall_ratio=2 * ratio, **CAR)
    assert pytest.approx(4 * low) == takeup.vehicle_inertia_at_clutch_kg_m2(mass, overall_ratio=ratio, **CAR)


@given(st.floats(0, 29), st.floats(0.1, 1))
def test_a_steeper_hill_asks_for_more(slope, more):
    """Torque at the clutch grows with the slope."""
    low, high = (
        takeup.hill_torque_at_clutch_nm(905, slope_deg=s, overall_ratio=15, **CAR) for s in (slope, slope + more)
    )
    assert low < high


def test_level_road_leaves_rolling_resistance():
    """On the level only the rolling resistance is left, and none without it."""
    level = takeup.hill_torque_at_clutch_nm(905, slope_deg=0, overall_ratio=15, rolling=0, **CAR)
    assert level == 0
    assert takeup.hill_torque_at_clutch_nm(905, slope_deg=0, overall_ratio=15, **CAR) > 0


def test_slope_in_per_cent_by_mistake_is_refused():
    """A wall of 45 degrees is no road; the message says what a 12 % hill is."""
    with pytest.raises(OutOfRange, match=r"slope_deg must be between 0 and 30 °, but you gave 45 °\. A hill of 12 %"):
        takeup.hill_torque_at_clutch_nm(905, slope_deg=45, overall_ratio=15, **CAR)


def test_work_up_a_hill():
    """Torque times the turns of one metre of road is the work of lifting and rolling the car along it."""
    mass, ratio, circumference, slope, rolling = 1000, 10, 2000, 10, 0.02
    torque = takeup.hill_torque_at_clutch_nm(
        mass, slope_deg=slope, rolling_circumference_mm=circumference, overall_ratio=ratio, rolling=rolling
    )
    turns_a_metre = ratio / (circumference / 1000)
    height, level = sin(radians(slope)), cos(radians(slope))
    assert pytest.approx(mass * 9.80665 * (height + rolling * level)) == torque * 2 * pi * turns_a_metre


def test_the_car_and_its_inertia_hold_the_same_energy():
    """At any speed the kinetic energy of the car is that of the inertia at the clutch."""
    mass, ratio, circumference, speed = 1200, 8, 1900, 15.0
    inertia = takeup.vehicle_inertia_at_clutch_kg_m2(mass, rolling_circumference_mm=circumference, overall_ratio=ratio)
    omega = speed / (circumference / 1000) * 2 * pi * ratio
    assert pytest.approx(mass * speed**2) == inertia * omega**2
