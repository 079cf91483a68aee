"""Cylinders, line, fluid and air."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import hydraulics, release

AREA = st.floats(50, 2000)


@given(st.floats(1, 5000), AREA, AREA)
def test_master_and_slave_undo_each_other(force, a, b):
    """From master to slave and back is the same force."""
    out = hydraulics.slave_force_n(force, master_area_mm2=a, slave_area_mm2=b)
    if out <= 50_000:
        assert pytest.approx(force) == hydraulics.slave_force_n(out, master_area_mm2=b, slave_area_mm2=a)


@given(st.floats(6, 100), st.floats(2, 100))
def test_a_ring_is_a_bore_less_a_bore(outer, inner):
    """The ring piston's area is the difference of two bores."""
    if inner <= outer - 1:
        expected = hydraulics.bore_area_mm2(outer) - hydraulics.bore_area_mm2(inner)
        assert pytest.approx(expected) == hydraulics.ring_area_mm2(outer, inner_mm=inner)


@given(st.floats(1, 20), AREA, AREA)
def test_fluid_is_neither_made_nor_lost(pedal_ratio, master, slave):
    """What the master moves is what the slave's travel takes up."""
    swept = hydraulics.swept_volume_ml(140, free_play_mm=6, pedal_ratio=pedal_ratio, master_area_mm2=master)
    ratio = pedal_ratio * slave / master
    if 0.5 <= ratio <= 1000:
        travel = release.bearing_travel_mm(140, free_play_mm=6, ratio=ratio)
        assert pytest.approx(swept * 1000) == slave * travel


def test_concentric_slave_stroke():
    """Master 19.05 mm by 24 mm on a ring of 47 by 33 mm: 6840.55 mm³ and 7.7765 mm."""
    master, ring = hydraulics.bore_area_mm2(19.05), hydraulics.ring_area_mm2(47, inner_mm=33)
    swept = hydraulics.swept_volume_ml(24 * 6, free_play_mm=0, pedal_ratio=6, master_area_mm2=master)
    assert pytest.approx(6.84055, abs=5e-6) == swept
    assert pytest.approx(7.7765, abs=5e-5) == swept * 1000 / ring


@given(st.floats(0, 5), AREA, st.floats(1, 3))
def test_air_costs_the_slave_its_own_volume(air, area, fork):
    """The slave misses the volume of the air, and a fork shortens what is missed as it shortens all travel."""
    lost = hydraulics.bearing_travel_lost_to_air_mm(air, slave_area_mm2=area, fork_ratio=fork)
    assert pytest.approx(air * 1000) == lost * area * fork


def test_air_obeys_boyle():
    """Three atmospheres more squeeze three quarters of the air away; without pressure it costs nothing."""
    assert pytest.approx(0.75) == hydraulics.share_squeezed(3 * hydraulics.ATMOSPHERE_BAR)
    assert hydraulics.share_squeezed(0) == 0


@pytest.mark.parametrize(
    ("load", "area", "fork", "bar"), [(1850, 445.3, 1.0, 41.5), (1900, 334.6, 1.75, 32.4), (1600, 285.0, 1.65, 34.0)]
)
def test_line_pressure_of_the_training_vehicles(load, area, fork, bar):
    """Release loads of the sheets stand for these line pressures."""
    assert pytest.approx(bar, abs=0.06) == hydraulics.line_pressure_bar(load, slave_area_mm2=area, fork_ratio=fork)


def test_swapped_ring_diameters_are_refused():
    """An inner diameter larger than the outer one is refused with the range."""
    with pytest.raises(OutOfRange) as refused:
        hydraulics.ring_area_mm2(27, inner_mm=36)
    assert str(refused.value) == (
        "inner_mm must be between 1 and 26 mm, but you gave 36 mm. Give the inner diameter, smaller than the outer one."
    )
