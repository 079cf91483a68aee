"""Slip while the clutch takes up: momentum, energy, time, temperature."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import heat

INERTIA = st.floats(0.001, 100)
RPM = st.floats(1, 8000)


@given(RPM, RPM, INERTIA, INERTIA)
def test_common_speed_keeps_the_momentum(n1, n2, i1, i2):
    """Angular momentum before is angular momentum after, and the speed lies between the two."""
    end = heat.common_speed_rpm(n1, input_rpm=n2, engine_inertia_kg_m2=i1, driven_inertia_kg_m2=i2)
    assert pytest.approx(i1 * n1 + i2 * n2) == (i1 + i2) * end
    assert min(n1, n2) - 1e-9 <= end <= max(n1, n2) + 1e-9


@given(RPM, INERTIA, INERTIA, st.floats(1, 1000), st.floats(1, 1000))
def test_energy_does_not_depend_on_the_clutch_torque(difference, i1, i2, weak, strong):
    """Without outside torque the heat is I1 I2 Δω²/(2 (I1 + I2)), whatever the clutch carries."""
    sides = {"engine_inertia_kg_m2": i1, "driven_inertia_kg_m2": i2}
    expected = i1 * i2 * (difference * pi / 30) ** 2 / (2 * (i1 + i2))
    assert pytest.approx(expected) == heat.slip_energy_j(difference, clutch_torque_nm=weak, **sides)
    assert pytest.approx(expected) == heat.slip_energy_j(difference, clutch_torque_nm=strong, **sides)


@given(RPM, INERTIA, INERTIA)
def test_energy_is_what_kinetic_energy_loses(n, i1, i2):
    """Heat plus kinetic energy after is kinetic energy before."""
    sides = {"engine_inertia_kg_m2": i1, "driven_inertia_kg_m2": i2}
    end = heat.common_speed_rpm(n, input_rpm=0, **sides) * pi / 30
    before, after = i1 * (n * pi / 30) ** 2 / 2, (i1 + i2) * end**2 / 2
    assert pytest.approx(before) == after + heat.slip_energy_j(n, clutch_torque_nm=10, **sides)


@given(RPM, INERTIA, INERTIA, st.floats(1, 500))
def test_twice_the_torque_halves_the_time(difference, i1, i2, torque):
    """Slip time goes with one over the torque."""
    sides = {"engine_inertia_kg_m2": i1, "driven_inertia_kg_m2": i2}
    once = heat.slip_time_s(difference, clutch_torque_nm=torque, **sides)
    assert pytest.approx(once / 2) == heat.slip_time_s(difference, clutch_torque_nm=2 * torque, **sides)


def test_throttle_and_hill_make_it_longer_and_hotter():
    """Engine torque and road load lengthen the slip and add heat."""
    case = {"clutch_torque_nm": 140, "engine_inertia_kg_m2": 0.16, "driven_inertia_kg_m2": 0.31}
    loaded = {**case, "engine_torque_nm": 60, "load_torque_nm": 25}
    assert heat.slip_time_s(2000, **loaded) > heat.slip_time_s(2000, **case)
    assert heat.slip_energy_j(2000, **loaded) > heat.slip_energy_j(2000, **case)


def test_slip_that_never_ends_is_refused():
    """A clutch weaker than engine and hill together slips for ever, and the message says so."""
    with pytest.raises(OutOfRange) as refused:
        heat.slip_time_s(
            1000,
            clutch_torque_nm=50,
            engine_inertia_kg_m2=0.2,
            driven_inertia_kg_m2=0.3,
            engine_torque_nm=90,
            load_torque_nm=40,
        )
    assert str(refused.value) == (
        "clutch_torque_nm must be enough to bring both sides together, but you gave 50 N·m. "
        "With these torques the clutch slips for ever: ease the throttle or take a lower gear."
    )


@given(st.floats(0, 1e6), st.floats(0, 1))
def test_shares_of_heat_add_up(energy, share):
    """Flywheel and pressure plate of equal mass together rise as much as one of them with all the heat."""
    part = {"mass_kg": 5, "specific_heat_j_per_kg_k": 480}
    parts = heat.temperature_rise_k(energy, share=share, **part) + heat.temperature_rise_k(
        energy, share=1 - share, **part
    )
    assert pytest.approx(heat.temperature_rise_k(energy, **part)) == parts


def test_steady_slip_power_is_energy_over_time():
    """A clutch held at constant slip makes torque times speed difference of heat each second."""
    assert pytest.approx(100 * 300 * pi / 30 / 1000) == heat.steady_slip_power_kw(100, speed_difference_rpm=300)


@given(RPM, INERTIA, INERTIA, st.floats(1, 500), st.floats(-20, 20), st.floats(-20, 20))
def test_a_shaft_that_runs_ahead_is_the_mirror_of_one_that_lags(n, i1, i2, torque, drive, load):
    """With the gearbox side faster (a down-shift), all signs change at once and time and heat stay the same."""
    sides = {"clutch_torque_nm": torque + 20, "engine_inertia_kg_m2": i1, "driven_inertia_kg_m2": i2}
    ahead = {**sides, "engine_torque_nm": drive, "load_torque_nm": load}
    behind = {**sides, "engine_torque_nm": -drive, "load_torque_nm": -load}
    assert heat.slip_time_s(-n, **behind) == pytest.approx(heat.slip_time_s(n, **ahead))
    assert heat.slip_energy_j(-n, **behind) == pytest.approx(heat.slip_energy_j(n, **ahead))


def test_engine_drag_ends_a_take_up_sooner_and_a_down_shift_later():
    """A closed throttle resists: it slows an engine that is ahead, and holds back one that has to be dragged up."""
    case = {"clutch_torque_nm": 140, "engine_inertia_kg_m2": 0.16, "driven_inertia_kg_m2": 0.31}
    for difference, sign in ((2000, -1), (-2000, 1)):
        free, dragged = heat.slip_time_s(difference, **case), heat.slip_time_s(difference, engine_torque_nm=-30, **case)
        assert (dragged - free) * sign > 0


def test_a_clutch_too_weak_to_drag_the_engine_up_is_refused():
    """A down-shift whose engine drag is more than the clutch carries slips for ever, and the message says so."""
    with pytest.raises(OutOfRange, match="the clutch slips for ever"):
        heat.slip_time_s(
            -1000, clutch_torque_nm=50, engine_inertia_kg_m2=0.2, driven_inertia_kg_m2=30, engine_torque_nm=-90
        )


def test_no_difference_is_no_slip():
    """Sides that turn alike take no time and make no heat."""
    case = {"clutch_torque_nm": 140, "engine_inertia_kg_m2": 0.16, "driven_inertia_kg_m2": 0.31}
    assert (heat.slip_time_s(0, **case), heat.slip_energy_j(0, **case)) == (0, 0)
