"""Pressure on a facing and the size a facing needs."""

from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import clutch, facings

OUTER = st.floats(150, 400)
SHARE = st.floats(0.3, 0.9)


@given(OUTER, SHARE, st.floats(100, 20_000))
def test_mean_pressure_lies_between_the_edges(outer, x, load):
    """Run in, the outer edge carries less and the inner edge more than the mean."""
    ring = {"outer_diameter_mm": outer, "inner_diameter_mm": outer * x}
    most, least = facings.pressure_at_edges_mpa(load, **ring)
    assert least < facings.face_pressure_mpa(load, **ring) < most
    assert pytest.approx(x) == least / most


@given(OUTER, SHARE, st.floats(100, 20_000))
def test_load_from_pressure_undoes_pressure_from_load(outer, x, load):
    """Both models give the load back from their own pressure."""
    ring = {"outer_diameter_mm": outer, "inner_diameter_mm": outer * x}
    even = facings.face_pressure_mpa(load, **ring)
    greatest = facings.pressure_at_edges_mpa(load, **ring)[0]
    assert pytest.approx(load) == facings.clamp_load_from_pressure_n(even, theory="uniform pressure", **ring)
    assert pytest.approx(load) == facings.clamp_load_from_pressure_n(greatest, theory="uniform wear", **ring)


@given(st.floats(0.1, 0.95), st.floats(160, 400), st.floats(0.05, 1), st.floats(0.1, 0.5))
def test_inner_diameters_carry_the_torque(share_of_best, outer, pressure, mu):
    """Each of the two answers carries exactly the torque, and they lie on either side of the best ring."""
    best = facings.clamp_load_from_pressure_n(pressure, outer_diameter_mm=outer, inner_diameter_mm=outer / sqrt(3))
    most = clutch.torque_capacity_nm(best, outer_diameter_mm=outer, inner_diameter_mm=outer / sqrt(3), friction=mu)
    wanted = share_of_best * most
    found = facings.inner_diameters_for_torque_mm(wanted, pressure_mpa=pressure, outer_diameter_mm=outer, friction=mu)
    assert len(found) == 2
    assert found[0] > outer / sqrt(3) > found[1] > 0
    for inner in found:
        ring = {"outer_diameter_mm": outer, "inner_diameter_mm": inner}
        if outer - inner >= 2:
            load = facings.clamp_load_from_pressure_n(pressure, **ring)
            assert pytest.approx(wanted, rel=1e-6) == clutch.torque_capacity_nm(load, friction=mu, **ring)


def test_too_small_a_facing_has_no_answer():
    """Above the best torque the tuple is empty, at the best it has one entry."""
    asked = {"pressure_mpa": 0.5, "outer_diameter_mm": 250, "friction": 0.25}
    assert facings.inner_diameters_for_torque_mm(700, **asked) == ()
    ring = {"outer_diameter_mm": 250, "inner_diameter_mm": 250 / sqrt(3)}
    most = clutch.torque_capacity_nm(facings.clamp_load_from_pressure_n(0.5, **ring), friction=0.25, **ring)
    assert pytest.approx((250 / sqrt(3),), rel=1e-6) == facings.inner_diameters_for_torque_mm(most, **asked)


@pytest.mark.parametrize(
    ("load", "outer", "inner", "pressure"),
    [(3050, 190, 132, 0.208), (6600, 235, 155, 0.269), (8800, 240, 155, 0.334), (5600, 225, 150, 0.254)],
)
def test_training_vehicles(load, outer, inner, pressure):
    """Clamp load and plate of the four data sheets give their face pressure."""
    found = facings.face_pressure_mpa(load, outer_diameter_mm=outer, inner_diameter_mm=inner)
    assert pytest.approx(pressure, abs=6e-4) == found


def test_no_hole_no_edge_pressure():
    """Uniform wear has no finite pressure at the middle of a solid disc."""
    with pytest.raises(OutOfRange) as refused:
        facings.pressure_at_edges_mpa(4000, outer_diameter_mm=200, inner_diameter_mm=0)
    assert str(refused.value) == (
        "inner_diameter_mm must be between 2 and 2000 mm, but you gave 0 mm. Measure across the hole of the facing."
    )
