"""Run-out rules, scale readings and uncertainty against manuals and the guide to uncertainty."""

from math import sqrt

import numpy as np
import pytest

from bitepoint.mechanics import metrology, scales, uncertainty


def test_run_out_of_the_army_procedure():
    """tm-9-2815-202-34, paragraph 4-22 (quoted): six readings, +0.004 and -0.007 in give 0.011 in."""
    found = metrology.run_out_mm([0.0, 0.002, 0.004, -0.001, -0.007, -0.003])
    assert pytest.approx(0.011) == found


def test_run_out_of_the_calculator_page():
    """tm-9-2815-202-34 by the same rule, a page on run-out (quoted): -0.01 to +0.03 is 0.04 mm, not 0.03."""
    assert pytest.approx(0.04) == metrology.run_out_mm([-0.01, 0.0, 0.03, 0.02])


# radius, allowed run-out as printed [mm], tm-10-4320-307-24, page 3-144 (quoted)
RUN_OUT_TABLE = [(203, 0.203), (254, 0.254), (305, 0.305), (356, 0.356), (406, 0.406)]


@pytest.mark.parametrize(("radius", "printed"), RUN_OUT_TABLE)
def test_run_out_table(radius, printed):
    """Every row of the printed table is a thousandth of its radius."""
    assert pytest.approx(printed, abs=5e-4) == metrology.run_out_limit_mm(radius)


def test_run_out_rule_in_inches():
    """tm-9-2815-202-34 (quoted): 12 in of radius allow 0.012 in."""
    assert pytest.approx(0.012) == metrology.run_out_limit_mm(12 * 25.4) / 25.4


def test_run_out_rule_by_diameter():
    """tm-5-3820-256-24-4 (quoted): 0.0005 in per inch of diameter, 14 in allow 0.007 in: the same rule."""
    assert pytest.approx(0.007) == metrology.run_out_limit_mm(7 * 25.4) / 25.4


# name of the rule, figures read, printed reading [mm]; micrometer as pages print it, verniers from memory: common-practice
def test_scale_readings():
    """common-practice: micrometer 12 + 0.5 + 16 marks is 12.66 mm as pages print it; verniers 12.34 and 7.65 mm from memory."""
    assert pytest.approx(12.66) == scales.micrometer_reading_mm(12, half_line=True, thimble=16)
    assert pytest.approx(12.34) == scales.vernier_reading_mm(12, line=17, least_count_mm=0.02)
    assert pytest.approx(7.65) == scales.vernier_reading_mm(7, line=13, least_count_mm=0.05)


def test_missed_half_line():
    """common-practice as pages print it: who misses the half-millimetre line reads 12.16 instead of 12.66 mm."""
    assert pytest.approx(12.16) == scales.micrometer_reading_mm(12, half_line=False, thimble=16)


def test_vernier_lines_make_the_least_count():
    """common-practice from memory: 50 lines on 49 mm leave 0.02 mm, 20 lines on 19 mm leave 0.05 mm."""
    for least, lines in scales.VERNIER_LINES.items():
        assert pytest.approx(least) == 1 - (lines - 1) / lines


def test_bounds_of_a_copper_coefficient():
    """jcgm-100, 4.3.7 (memory): bounds of 0.40 give a standard uncertainty of 0.23."""
    assert pytest.approx(0.23, abs=5e-3) == uncertainty.uncertainty_from_bounds(0.40)


def test_display_step():
    """jcgm-100, F.2.2.1 (memory): a step of d gives 0.29 d, so 0.01 mm gives 0.0029 mm."""
    assert pytest.approx(0.0029, abs=5e-5) == uncertainty.uncertainty_from_step(0.01)


def test_end_gauge():
    """jcgm-100, annex H.1 (quoted): components 25, 16.6, 6.7, 5.8, 3.9, 2.9 nm combine to 32 nm."""
    assert pytest.approx(32, abs=0.5) == uncertainty.combined_uncertainty([25, 16.6, 6.7, 5.8, 3.9, 2.9])


# impedance example: component of (R, X, Z), printed value, printed standard uncertainty in ohm
IMPEDANCE = [("R", 127.732, 0.070), ("X", 219.85, 0.30), ("Z", 254.26, 0.24)]


@pytest.mark.parametrize(("name", "value", "printed"), IMPEDANCE)
def test_correlated_impedance(name, value, printed):
    """jcgm-100, annex H.2 (quoted): R, X, Z from V, I, phase with correlations -0.36, 0.86, -0.65.

    The correlated budget is made independent by a Cholesky factor (numpy), then combined by the calculator.
    """
    v, i, phase = 4.999, 19.661e-3, 1.04446
    deviations = np.diag([3.2e-3, 9.5e-6, 7.5e-4])
    correlations = np.array([[1, -0.36, 0.86], [-0.36, 1, -0.65], [0.86, -0.65, 1]])
    root = np.linalg.cholesky(deviations @ correlations @ deviations)
    cos, sin = np.cos(phase), np.sin(phase)
    found, slopes = {
        "R": (v / i * cos, [cos / i, -v / i**2 * cos, -v / i * sin]),
        "X": (v / i * sin, [sin / i, -v / i**2 * sin, v / i * cos]),
        "Z": (v / i, [1 / i, -v / i**2, 0]),
    }[name]
    parts = [abs(float(p)) for p in np.array(slopes) @ root]
    assert pytest.approx(value, rel=5e-5) == found
    assert pytest.approx(printed, rel=0.03) == uncertainty.combined_uncertainty(parts)


def test_caliper_of_the_accreditation_guide():
    """ea-4-02, example S10 (memory): U = 0.06 mm at k = 1.83, so the standard uncertainty is 0.033 mm."""
    # Its budget: resolution 0.05 mm as bounds of 25 µm, mechanical effects as bounds of 50 µm, the rest below 1 µm.
    parts = [uncertainty.uncertainty_from_bounds(0.025), uncertainty.uncertainty_from_bounds(0.050)]
    found = uncertainty.expanded_uncertainty(uncertainty.combined_uncertainty(parts), coverage_factor=1.83)
    assert pytest.approx(0.06, abs=5e-3) == found


# Worked by us: the limits of error of 20 and 4 µm are those of din-862-863 (quoted), the division by 1.732 is ours.
@pytest.mark.parametrize(("limit", "worked"), [(0.020, 0.01155), (0.004, 0.00231)])
def test_limits_of_error_as_uncertainty(limit, worked):
    """Limits of error of a caliper and a micrometer are bounds of a rectangle: 11.55 and 2.31 µm, worked by us."""
    assert pytest.approx(worked, abs=5e-6) == uncertainty.uncertainty_from_bounds(limit)


def test_repeats_agree_with_numpy():
    """numpy's sample standard deviation over root n is the independent reference."""
    readings = [8.01, 8.03, 8.02, 8.00, 8.05]
    assert pytest.approx(np.std(readings, ddof=1) / sqrt(5)) == uncertainty.uncertainty_from_repeats(readings)
