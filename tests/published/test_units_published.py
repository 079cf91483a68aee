"""Unit conversions against published figures and two independent libraries."""

import pint
import pytest
import scipy.constants

from bitepoint.sources import SOURCES
from bitepoint.units import convert

# value, unit, to, published figure, relative tolerance (half of its last digit), source, section, seen
PUBLISHED = [
    (1, "lbf", "N", 4.448222, 2e-7, "nist-sp-811", "appendix B.8", "quoted"),
    (1, "lbf·ft", "N·m", 1.355818, 4e-7, "nist-sp-811", "appendix B.8", "quoted"),
    (1, "lbf·in", "N·m", 0.1129848, 5e-7, "nist-sp-811", "appendix B.8", "quoted"),
    (1, "kgf·m", "N·m", 9.80665, 1e-12, "nist-sp-811", "appendix B.8", "quoted"),
    (1, "ozf·in", "N·m", 7.061552e-3, 1e-7, "nist-sp-811", "appendix B.8", "quoted"),
    (1, "N·m", "lbf·ft", 0.7375621, 1e-7, "nist-sp-811", "appendix B.8, inverse", "quoted"),
    (1, "N·m", "lbf·in", 8.8507458, 1e-8, "nist-sp-811", "appendix B.8, inverse", "quoted"),
    (1, "N·m", "ozf·in", 141.61193, 4e-8, "nist-sp-811", "appendix B.8, inverse", "quoted"),
    (1, "mph", "km/h", 1.609344, 1e-12, "navy-1004-60046", "conversion of speed", "quoted"),
    (1, "psi", "kPa", 6.894757, 1e-7, "nist-sp-811", "appendix B.8", "memory"),
    (12, "lbf·in", "lbf·ft", 1, 1e-12, "navedtra-14315-fig-3-44", "text beside figure 3-43", "quoted"),
]

# lbf·ft as printed beside N·m, both whole or half figures, in the manual's text
PRINTED_PAIRS = [
    (30, 41, "tm-army-70-100", "torque pattern paragraph", "quoted"),
    (300, 407, "tm-5-3810-305-23", "page M0471105", "quoted"),
    (225, 305, "tm-5-3810-305-23", "page M0471105", "quoted"),
    (29.5, 40, "tm-10-3930-669-20", "table E-1", "quoted"),
]


@pytest.mark.parametrize(("value", "unit", "to", "expected", "rel", "source", "section", "seen"), PUBLISHED)
def test_conversion_agrees_with_published_figure(value, unit, to, expected, rel, source, section, seen):
    """A conversion gives the published figure to its last digit."""
    assert source in SOURCES, (section, seen)
    assert pytest.approx(expected, rel=rel) == convert(value, unit, to)


@pytest.mark.parametrize(("lbf_ft", "newton_metres", "source", "section", "seen"), PRINTED_PAIRS)
def test_pair_of_units_as_printed_in_a_manual(lbf_ft, newton_metres, source, section, seen):
    """Rounded to whole newton metres, the conversion gives what the manual prints."""
    assert source in SOURCES, (section, seen)
    assert newton_metres == round(convert(lbf_ft, "lbf·ft", "N·m"))


# The libraries carry the definitions themselves: independent of this project, compared to 12 digits.
IN_PINT = [
    ("lbf·ft", "N·m", "lbf*ft", "N*m"),
    ("lbf·in", "N·m", "lbf*inch", "N*m"),
    ("kgf·m", "N·m", "kgf*m", "N*m"),
    ("ozf·in", "N·m", "ozf*inch", "N*m"),
    ("N·m", "lbf·ft", "N*m", "lbf*ft"),
    ("psi", "bar", "psi", "bar"),
    ("bar", "psi", "bar", "psi"),
    ("mph", "km/h", "mile/hour", "km/hour"),
    ("lb", "kg", "lb", "kg"),
    ("in", "mm", "inch", "mm"),
    ("ft", "mm", "foot", "mm"),
    ("kgf", "N", "kgf", "N"),
    ("turns", "°", "turn", "degree"),
    ("rad", "°", "radian", "degree"),
]


@pytest.fixture(scope="module")
def registry():
    return pint.UnitRegistry()


@pytest.mark.parametrize(("unit", "to", "pint_unit", "pint_to"), IN_PINT)
def test_conversion_agrees_with_pint(registry, unit, to, pint_unit, pint_to):
    """Pint, seen running, gives the same figure to 12 digits."""
    expected = registry.Quantity(1.0, pint_unit).to(pint_to).magnitude
    assert pytest.approx(expected, rel=1e-12) == convert(1, unit, to)


def test_mass_times_length_is_no_torque_for_pint_either(registry):
    """Pint refuses lb·ft as a torque, as this project does."""
    with pytest.raises(pint.DimensionalityError):
        registry.Quantity(1.0, "lb*ft").to("N*m")


IN_SCIPY = [
    ("lbf", "N", scipy.constants.lbf),
    ("kgf", "N", scipy.constants.g),
    ("in", "m", scipy.constants.inch),
    ("ft", "m", scipy.constants.foot),
    ("lb", "kg", scipy.constants.lb),
    ("mph", "m/s", scipy.constants.mph),
    ("psi", "kPa", scipy.constants.psi / 1000),
    ("bar", "kPa", scipy.constants.bar / 1000),
]


@pytest.mark.parametrize(("unit", "to", "expected"), IN_SCIPY)
def test_conversion_agrees_with_scipy(unit, to, expected):
    """scipy.constants, seen running, gives the same figure to 12 digits."""
    assert pytest.approx(expected, rel=1e-12) == convert(1, unit, to)
