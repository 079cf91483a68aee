"""Friction radius, torque capacity and reserve: what holds for every clutch."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import clutch

OUTER = st.floats(150, 400)
SHARE = st.floats(0.3, 0.9)
RING_A = {"outer_diameter_mm": 190, "inner_diameter_mm": 132}


# x = inner/outer, torque by uniform wear over torque by uniform pressure: 3 (1 + x)²/(4 (1 + x + x²))
@pytest.mark.parametrize(("x", "share"), [(0, 0.75), (0.5, 0.96429), (0.6, 0.97959), (0.65, 0.98522), (0.7, 0.98973)])
def test_the_two_models_differ_as_derived(x, share):
    """Uniform wear over uniform pressure follows the closed form, 1 to 2 % on a car's plate."""
    wear, pressure = (
        clutch.friction_radius_mm(200, inner_diameter_mm=200 * x, theory=theory) for theory in clutch.THEORIES
    )
    assert pytest.approx(share, abs=5e-6) == wear / pressure


@given(OUTER, SHARE)
def test_wear_is_the_smaller_model_and_both_lie_on_the_ring(outer, x):
    """Inner radius < wear radius <= pressure radius < outer radius."""
    inner = outer * x
    wear, pressure = (clutch.friction_radius_mm(outer, inner_diameter_mm=inner, theory=t) for t in clutch.THEORIES)
    assert inner / 2 < wear <= pressure < outer / 2


@given(OUTER, SHARE, st.floats(100, 20_000), st.floats(0.1, 0.6), st.integers(1, 8), st.sampled_from(clutch.THEORIES))
def test_load_and_torque_undo_each_other(outer, x, load, mu, faces, theory):
    """The clamp load for the torque capacity of a load is that load."""
    plate = {
        "outer_diameter_mm": outer,
        "inner_diameter_mm": outer * x,
        "friction": mu,
        "faces": faces,
        "theory": theory,
    }
    torque = clutch.torque_capacity_nm(load, **plate)
    assume(torque <= 20_000)
    assert pytest.approx(load) == clutch.clamp_load_for_torque_n(torque, **plate)


@given(st.floats(100, 20_000), st.floats(0.1, 0.5), st.integers(1, 8))
def test_capacity_is_linear_in_load_friction_and_faces(load, mu, faces):
    """Twice the load, the friction or the faces carry twice the torque."""
    once = clutch.torque_capacity_nm(load, friction=mu, faces=faces, **RING_A)
    assert pytest.approx(2 * once) == clutch.torque_capacity_nm(2 * load, friction=mu, faces=faces, **RING_A)
    assert pytest.approx(2 * once) == clutch.torque_capacity_nm(load, friction=2 * mu, faces=faces, **RING_A)
    assert pytest.approx(2 * once) == clutch.torque_capacity_nm(load, friction=mu, faces=2 * faces, **RING_A)


@pytest.mark.parametrize(
    ("load", "outer", "inner", "capacity", "engine", "reserve"),
    [
        (3050, 190, 132, 147.3, 95, 1.55),
        (6600, 235, 155, 386.1, 260, 1.49),
        (8800, 240, 155, 521.4, 340, 1.53),
        (5600, 225, 150, 315.0, 215, 1.47),
    ],
)
def test_training_vehicles(load, outer, inner, capacity, engine, reserve):
    """Clamp load and plate of the four data sheets give their capacity and reserve (friction 0.3)."""
    found = clutch.torque_capacity_nm(load, outer_diameter_mm=outer, inner_diameter_mm=inner, friction=0.3)
    assert pytest.approx(capacity, abs=0.05) == found
    assert pytest.approx(reserve, abs=0.006) == clutch.reserve_factor(found, engine_torque_nm=engine)


def test_a_single_plate_has_two_faces_unless_said_otherwise():
    """Leaving out the number of faces means two."""
    one = clutch.torque_capacity_nm(3050, friction=0.3, faces=1, **RING_A)
    assert pytest.approx(2 * one) == clutch.torque_capacity_nm(3050, friction=0.3, **RING_A)


def test_power_grows_with_speed():
    """Power is proportional to speed and zero at rest."""
    powers = [clutch.transmitted_power_kw(95, speed_rpm=rpm) for rpm in (0, 900, 1800, 3600)]
    assert powers[0] == 0
    assert all(a < b for a, b in pairwise(powers))
    assert pytest.approx(2 * powers[1]) == powers[2]


def test_radii_given_for_diameters_are_told_apart():
    """Equal or swapped diameters are refused with what to do."""
    with pytest.raises(OutOfRange) as refused:
        clutch.friction_radius_mm(132, inner_diameter_mm=190)
    assert str(refused.value) == (
        "inner_diameter_mm must be at least 2 mm less than outer_diameter_mm (132 mm), but you gave 190 mm. "
        "Give diameters, not radii, the larger one as outer_diameter_mm."
    )


def test_unknown_model_is_named():
    """A model that is not in print here is refused with the two that are."""
    with pytest.raises(OutOfRange, match="theory must be one of uniform wear, uniform pressure, but you gave 'mean'"):
        clutch.friction_radius_mm(190, inner_diameter_mm=132, theory="mean")


@pytest.mark.parametrize("faces", [0, 2.0, True, -2])
def test_faces_are_counted(faces):
    """A number of faces that is no count is refused."""
    with pytest.raises(OutOfRange, match="faces must be a whole number from 1 to 40"):
        clutch.torque_capacity_nm(3050, friction=0.3, faces=faces, **RING_A)
