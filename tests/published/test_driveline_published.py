"""Tyre sizes, rolling circumference and road speed against printed figures."""

import numpy as np
import pytest

from bitepoint.mechanics import driveline, roadlog, tyres
from bitepoint.sources import SOURCES

# size, printed diameter [mm], tolerance (rounding of the page), key tyre-size-pages (quoted)
DIAMETERS = [
    ("205/55 R16", 631.9, 0.05),
    ("195/65 R15", 635, 0.5),
    ("225/45 R17", 634.3, 0.05),
    ("215/65 R17", 711.3, 0.05),
]


@pytest.mark.parametrize(("size", "printed", "tolerance"), DIAMETERS)
def test_tyre_diameter(size, printed, tolerance):
    """Diameters on pages about tyre sizes hold to their rounding."""
    width, aspect, rim = tyres.tyre_size(size)
    assert pytest.approx(printed, abs=tolerance) == tyres.tyre_diameter_mm(width, aspect_percent=aspect, rim_in=rim)
    assert SOURCES["tyre-size-pages"].seen == "quoted"


def test_sidewall_and_unloaded_circumference():
    """tyre-size-pages (quoted): 205/55 R16 has a side wall of 112.75 mm; generic calculators print 1985 mm round."""
    assert pytest.approx(112.75) == tyres.sidewall_mm(205, aspect_percent=55)
    assert pytest.approx(1985, abs=0.5) == tyres.unloaded_circumference_mm(631.9)


def test_regulation_30_diameter():
    """un-r30, 6.1.2 (memory): D = d + 2 H with code 16 = 406 mm and H rounded to 113 gives 632 mm."""
    found = tyres.tyre_diameter_mm(205, aspect_percent=55, rim_in=16)
    assert pytest.approx(632, abs=0.5) == found


# rim code, conventional rim diameter [mm], un-r30 (memory)
RIM_CODES = [(14, 356), (15, 381), (16, 406), (17, 432), (18, 457)]


@pytest.mark.parametrize(("code", "printed"), RIM_CODES)
def test_rim_codes(code, printed):
    """Rim codes times 25.4 round to the diameters of un-r30 (memory)."""
    found = tyres.tyre_diameter_mm(200, aspect_percent=50, rim_in=code) - 2 * tyres.sidewall_mm(200, aspect_percent=50)
    assert pytest.approx(printed, abs=0.5) == found


def test_rolling_circumference_rules():
    """wdk-rolling-circumference (quoted): the factors 3.05 and 2.99 at 60 km/h, 1 % more at 160 km/h; the rest worked by us."""
    assert tyres.ROLLING_FACTORS == {"radial": 3.05, "bias": 2.99}
    assert pytest.approx(3050) == tyres.rolling_circumference_mm(1000)
    assert pytest.approx(2990) == tyres.rolling_circumference_mm(1000, construction="bias")
    assert pytest.approx(3080.5) == tyres.rolling_circumference_mm(1000, speed_kmh=160)


def test_the_other_rule_in_print():
    """loaded-radius-rule (quoted): 215/65 R15, 2 · 3.14 · 0.96 · 330.25 = 1991 mm; it stands beside the factor 3.05."""
    diameter = tyres.tyre_diameter_mm(215, aspect_percent=65, rim_in=15)
    assert pytest.approx(2 * 330.25) == diameter
    other = tyres.loaded_radius_circumference_mm(diameter)
    assert pytest.approx(1991, rel=1e-3) == other
    assert 1.005 < tyres.rolling_circumference_mm(diameter) / other < 1.015


def test_rolling_radius_metric():
    """rolling-radius-rule (quoted): reduction 10, 20 km/h, 1500 rpm, factor 2651.51 give 353.5 mm of radius."""
    speed = driveline.road_speed_kmh(1500, gear_ratio=2.5, final_ratio=4, rolling_circumference_mm=2 * np.pi * 353.5)
    assert pytest.approx(20, rel=1e-3) == speed


def test_rolling_radius_inch():
    """rolling-radius-rule (quoted): reduction 10, 15 mph, 1680 rpm, factor 168 give 15.0 in of radius."""
    speed = driveline.road_speed_kmh(
        1680, gear_ratio=2.5, final_ratio=4, rolling_circumference_mm=2 * np.pi * 15 * 25.4
    )
    assert pytest.approx(15, rel=1e-3) == speed / 1.609344


def test_slip_uncertainty_agrees_with_simulation():
    """A draw of 200 000 measured values (numpy, fixed start) scatters as the formula says."""
    rng = np.random.default_rng(7)
    n = 3000 * (1 + 0.008 * rng.standard_normal(200_000))
    v = 90 * (1 + 0.006 * rng.standard_normal(200_000))
    c = 1927.3 * (1 + 0.01 * rng.standard_normal(200_000))
    slip = 100 * (1 - v / (c * 60e-6 / (0.9 * 3.9)) / n)
    car = {"gear_ratio": 0.9, "final_ratio": 3.9, "rolling_circumference_mm": 1927.3}
    centre = driveline.slip_percent(3000, road_speed_kmh=90, **car)
    found = driveline.slip_uncertainty_percent(centre, engine_speed_u=0.008, road_speed_u=0.006, circumference_u=0.01)
    assert pytest.approx(slip.std(), rel=0.01) == found


def test_log_agrees_with_the_single_figure():
    """The vectorised slip is the single one, sample by sample."""
    car = {"gear_ratio": 0.9, "final_ratio": 3.9, "rolling_circumference_mm": 1927.3}
    rpm, kmh = np.linspace(1500, 4500, 50), np.linspace(40, 120, 50)
    expected = [driveline.slip_percent(float(n), road_speed_kmh=float(v), **car) for n, v in zip(rpm, kmh, strict=True)]
    assert np.allclose(expected, roadlog.slip_log_percent(rpm, road_speed_kmh=kmh, **car), atol=1e-12)
