"""Torque wrench: worked examples of manuals, and the limits of standards."""

import pytest

from bitepoint.mechanics import calibration, wrench
from bitepoint.sources import SOURCES

INCH = 25.4

# The formula holds in any unit of torque, so the manuals' figures stand as printed; lengths in inches.
# target, lever, offset, printed setting, half of its last digit, source, section, seen
SETTINGS = [
    (100, 12, 6, 66.7, 0.05, "navedtra-14315-fig-3-44", "figures 3-44 and 3-45", "quoted"),
    (300, 18, 6, 225, 0.5, "tm-5-3810-305-23", "page M0471105", "quoted"),
    (40, 12, 4, 30, 0.5, "tm-9-2350-277", "page 44", "quoted"),
    (30, 12, 3, 24, 0.5, "aircraft-manual-2-90", "section 2-90", "quoted"),
]


@pytest.mark.parametrize(("target", "lever", "offset", "printed", "tol", "source", "section", "seen"), SETTINGS)
def test_setting_with_adapter_as_printed(target, lever, offset, printed, tol, source, section, seen):
    """The setting with a straight-out adapter is the one the manual prints."""
    assert source in SOURCES, (section, seen)
    setting = wrench.wrench_setting_nm(target, lever_mm=lever * INCH, offset_mm=offset * INCH)
    assert pytest.approx(printed, abs=tol) == setting


def test_torque_at_the_bolt_as_printed():
    """TM 9-254, figure 4-5 (quoted): set to 60 with a 12 in lever and a 2 in adapter, the bolt gets 70."""
    reached = wrench.torque_at_bolt_nm(60, lever_mm=12 * INCH, offset_mm=2 * INCH)
    assert pytest.approx(70, abs=0.5) == reached


@pytest.mark.parametrize("target", [9, 65, 300])
def test_adapter_square_to_the_handle_changes_nothing(target):
    """NAVEDTRA 14008 (quoted): at a right angle the value does not change."""
    setting = wrench.wrench_setting_nm(target, lever_mm=410, offset_mm=60, angle_deg=90)
    assert pytest.approx(target, rel=1e-12) == setting


# Worked by us: that the length is subtracted is quoted from TM 1-1500-204-23-9; it gives no example of it.
@pytest.mark.parametrize(("lever", "offset", "worked"), [(12, 2, 120), (18, 6, 150)])
def test_adapter_pointing_back_is_subtracted(lever, offset, worked):
    """For 100 with 12 less 2 in the setting is 120, with 18 less 6 in it is 150: worked by us from the manual's rule."""
    setting = wrench.wrench_setting_nm(100, lever_mm=lever * INCH, offset_mm=offset * INCH, angle_deg=180)
    assert pytest.approx(worked, rel=1e-12) == setting


@pytest.mark.parametrize("bar", [75, 125, 250])
def test_straight_bar_needs_no_correction(bar):
    """Manual of a torque wrench, page 7 (quoted): a straight socket extension needs no correction."""
    target = 65
    assert target == wrench.straight_bar_setting_nm(target, bar_mm=bar)


# highest value [N·m], permissible deviation [%]: ISO 6789:2003, type II class A, in a tool manual (quoted)
@pytest.mark.parametrize(("highest", "allowed"), [(5, 6), (10, 6), (10.1, 4), (25, 4), (300, 4)])
def test_permissible_deviation(highest, allowed):
    """6 % up to and with 10 N·m, 4 % above."""
    assert allowed == calibration.permissible_deviation_pct(highest)


def test_points_and_readings_of_a_calibration():
    """ISO 6789: 20, 60 and 100 % of the highest value (quoted); five readings, clause 6.5 (memory)."""
    points, readings = (20, 60, 100), 5
    assert points == calibration.TEST_POINTS_PCT
    assert readings == calibration.READINGS_PER_POINT


def test_pulls_between_calibrations():
    """ISO 6789:2003 (quoted): 12 months or 5000 cycles."""
    pulls = 5000
    assert pulls == wrench.CYCLES_PER_CALIBRATION


# Published limits of the usable range differ; each stands with its source.
# lowest %, highest %, torque on a 100 N·m wrench, usable, source, section, seen
RANGES = [
    (20, 100, 19.9, False, "tm-1-1500-204-23-9", "table 8-1", "quoted"),
    (20, 100, 20.0, True, "tm-1-1500-204-23-9", "table 8-1", "quoted"),
    (20, 100, 100.0, True, "tm-1-1500-204-23-9", "table 8-1", "quoted"),
    (20, 80, 80.0, True, "msfc-std-486b", "4.2, page 7", "print"),
    (20, 80, 80.1, False, "msfc-std-486b", "4.2, page 7", "print"),
    (20, 80, 19.9, False, "msfc-std-486b", "4.2, page 7", "print"),
]


@pytest.mark.parametrize(("low", "high", "torque", "usable", "source", "section", "seen"), RANGES)
def test_usable_range_by_two_rules(low, high, torque, usable, source, section, seen):
    """The army manual allows 20 to 100 % of full scale, the space standard 20 to 80 %."""
    assert source in SOURCES, (section, seen)
    verdict = wrench.range_check(torque, lowest_mark_nm=5, highest_nm=100, lowest_pct=low, highest_pct=high)
    assert usable is verdict.ok
