"""Levers, cylinders and lines against printed examples."""

import pytest
from pint import UnitRegistry

from bitepoint.mechanics import hydraulics, release

IN2 = 25.4**2
LBF = 4.4482216152605


def test_college_physics_master_and_slave():
    """college-physics, ex. 11.6 and problem 11.24 (memory): 500 N, 5 mm and 25 mm bores: 12 500 N, 2.5e7 Pa."""
    master, slave = hydraulics.bore_area_mm2(5.0), hydraulics.bore_area_mm2(25.0)
    force = hydraulics.slave_force_n(500, master_area_mm2=master, slave_area_mm2=slave)
    assert pytest.approx(1.25e4, rel=1e-9) == force
    bar = hydraulics.line_pressure_bar(force, slave_area_mm2=slave)
    assert pytest.approx(2.5e7, rel=0.02) == UnitRegistry().Quantity(bar, "bar").to("Pa").magnitude


def test_fluid_power_example_3_4():
    """fluid-power-applications, ex. 3.4 (memory): 2 and 20 in², 100 lb, 1 in: 1000 lb, 0.1 in, 100 in·lb both ways."""
    areas = {"master_area_mm2": 2 * IN2, "slave_area_mm2": 20 * IN2}
    out = hydraulics.slave_force_n(100 * LBF, **areas) / LBF
    assert pytest.approx(1000) == out
    ratio = release.overall_ratio(1, **areas)
    travel = release.bearing_travel_mm(25.4, free_play_mm=0, ratio=ratio) / 25.4
    assert pytest.approx(0.1) == travel
    assert pytest.approx(100) == out * travel


def test_fluid_power_example_3_5():
    """fluid-power-applications, ex. 3.5 (memory): lever 8 to 2, 25 lb, bores 1 and 3.25 in: 1053 lb, 52.8 strokes."""
    areas = {
        "master_area_mm2": hydraulics.bore_area_mm2(25.4),
        "slave_area_mm2": hydraulics.bore_area_mm2(3.25 * 25.4),
    }
    ratio = release.overall_ratio(4, **areas)
    # Effort at the handle is load over ratio, so load is effort times ratio.
    assert pytest.approx(25, rel=5e-3) == release.pedal_effort_n(1053 * LBF, ratio=ratio) / LBF
    # 2 in of the pump piston a stroke: 52.8 strokes are 105.6 in of it for 10 in of the load.
    travel = release.overall_ratio(1, **areas) * 10
    assert pytest.approx(2 * 52.8, rel=1e-3) == travel


def test_fluid_power_example_2_3():
    """fluid-power-theory-4, ex. 2.3 (quoted): 0.049 and 0.785 in², 150 lbf: 2403.06 lbf; 667.2 N: 10 664.68 N."""
    inch = hydraulics.slave_force_n(150 * LBF, master_area_mm2=0.049 * IN2, slave_area_mm2=0.785 * IN2) / LBF
    assert pytest.approx(2403.06, abs=5e-3) == inch
    metric = hydraulics.slave_force_n(667.2, master_area_mm2=31.7, slave_area_mm2=506.7)
    assert pytest.approx(10_664.68, abs=5e-3) == metric


def test_question_page():
    """physics-question-pages (quoted): 5 and 50 cm², 500 N: 1.0e6 Pa, 5000 N."""
    assert pytest.approx(5000) == hydraulics.slave_force_n(500, master_area_mm2=500, slave_area_mm2=5000)
    assert pytest.approx(1.0e6) == hydraulics.line_pressure_bar(5000, slave_area_mm2=5000) * 1e5


def test_piston_areas():
    """Worked by us: a bore of 15.87 mm has 197.8 mm², a ring of 36 by 27 mm has 445.3 mm²."""
    assert pytest.approx(197.8, abs=0.05) == hydraulics.bore_area_mm2(15.87)
    assert pytest.approx(445.3, abs=0.05) == hydraulics.ring_area_mm2(36, inner_mm=27)


def test_atmosphere():
    """nist-sp-811, appendix B (quoted): the standard atmosphere is 101 325 Pa, and pint says the same."""
    assert pytest.approx(101_325) == hydraulics.ATMOSPHERE_BAR * 1e5
    assert pytest.approx(UnitRegistry().Quantity(1, "atm").to("bar").magnitude) == hydraulics.ATMOSPHERE_BAR
