"""Tolerance factors against printed tables and scipy's noncentral t."""

from math import sqrt

import pytest
from scipy.stats import nct, norm

from bitepoint.mechanics import samples
from bitepoint.sources import SOURCES

# pieces, two-sided factors for 90, 95 and 99 % of all at 95 % confidence: environmental-statistics, table 21.1 (memory)
TWO_SIDED = [
    (4, 5.37, 6.34, 8.22),
    (5, 4.29, 5.08, 6.60),
    (6, 3.73, 4.42, 5.76),
    (7, 3.39, 4.02, 5.24),
    (8, 3.16, 3.75, 4.89),
    (9, 2.99, 3.55, 4.63),
    (10, 2.86, 3.39, 4.44),
    (12, 2.67, 3.17, 4.16),
    (20, 2.32, 2.76, 3.62),
    (30, 2.15, 2.55, 3.35),
]


@pytest.mark.parametrize(("pieces", "ninety", "ninety_five", "ninety_nine"), TWO_SIDED)
def test_two_sided_factors(pieces, ninety, ninety_five, ninety_nine):
    """The printed two-sided factors hold to a unit of their last digit."""
    found = [samples.tolerance_factor(pieces, share=share) for share in (0.90, 0.95, 0.99)]
    assert pytest.approx([ninety, ninety_five, ninety_nine], abs=1.1e-2) == found
    assert SOURCES["environmental-statistics"].seen == "memory"


# pieces, one-sided factor for 95 % of all at 95 % confidence: iso-16269-6 (memory)
ONE_SIDED = [(3, 7.656), (4, 5.144), (5, 4.203), (6, 3.708), (10, 2.911), (20, 2.396), (30, 2.220), (50, 2.065)]


@pytest.mark.parametrize(("pieces", "printed"), ONE_SIDED)
def test_one_sided_factors(pieces, printed):
    """The one-sided factors of the standard hold to their last digit."""
    assert pytest.approx(printed, abs=6e-4) == samples.tolerance_factor(pieces, side="one-sided")
    assert SOURCES["iso-16269-6"].seen == "memory"


@pytest.mark.parametrize(("pieces", "share", "confidence"), [(2, 0.95, 0.95), (7, 0.9, 0.99), (40, 0.99, 0.9)])
def test_one_sided_factor_agrees_with_scipy(pieces, share, confidence):
    """scipy's noncentral t distribution gives the same one-sided factor."""
    expected = nct.ppf(confidence, pieces - 1, sqrt(pieces) * norm.ppf(share)) / sqrt(pieces)
    found = samples.tolerance_factor(pieces, share=share, confidence=confidence, side="one-sided")
    assert pytest.approx(expected, rel=1e-4) == found


def test_limits_of_ten_bolts():
    """Worked by us: ten nut factors of mean 0.170 and deviation 0.010 reach 3.393 times as far, 0.136 to 0.204."""
    unit = sqrt(10 / 9)
    values = [0.17 + sign * 0.01 / unit for sign in (1, -1) * 5]
    assert pytest.approx((0.17 - 0.03393, 0.17 + 0.03393), abs=2e-5) == samples.tolerance_limits(values)
