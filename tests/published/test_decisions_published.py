"""Conformance probability, guard bands and false acceptance against the guide's figures and scipy."""

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.stats import norm

from bitepoint.mechanics import decisions, risks

# measured, uncertainty, lower, upper, printed probability, section of jcgm-106 (figures from memory)
EXAMPLES = [
    (-5.47, 0.05, None, -5.40, 0.92, "7, breakdown voltage"),
    (509.7, 8.6, 490, None, 0.99, "7, burst pressure"),
    (13.6, 1.8, 12.5, 16.3, 0.66, "7, oil viscosity"),
]


@pytest.mark.parametrize(("y", "u", "low", "high", "printed", "section"), EXAMPLES)
def test_conformance_probability(y, u, low, high, printed, section):
    """Examples of jcgm-106 (memory) hold to two digits."""
    found = decisions.conformance_probability(y, uncertainty=u, lower=low, upper=high)
    assert pytest.approx(printed, abs=5e-3) == found, section


# one-sided probability, factor, jcgm-106, table 1 (memory)
FACTORS = [(0.80, 0.84), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)]


@pytest.mark.parametrize(("probability", "factor"), FACTORS)
def test_guard_factors(probability, factor):
    """Guard factors of jcgm-106, table 1 (memory) hold to half a unit of their last digit, and agree with scipy."""
    assert pytest.approx(factor, abs=6e-3) == decisions.guard_band(1.0, confidence=probability)
    assert pytest.approx(norm.ppf(probability), rel=1e-9) == decisions.guard_band(1.0, confidence=probability)


def test_two_guard_rules_stand_side_by_side():
    """iso-14253-1: 2017 asks for 95 %, 1.65 u (quoted); the 2013 edition took the whole U = 2 u (memory)."""
    assert pytest.approx(1.65, abs=6e-3) == decisions.guard_band(1.0)
    assert pytest.approx(2.0, abs=1e-4) == decisions.guard_band(1.0, confidence=norm.cdf(2.0))


def test_speed_trap():
    """jcgm-106, section 8 (memory): 100 km/h, u = 2 %, 99.9 %: no ticket up to about 107 km/h."""
    # The guard is 3.09 · 0.02 of the speed itself: v = 100/(1 - 0.0618).
    limit = 100 / (1 - decisions.guard_band(0.02, confidence=0.999))
    assert pytest.approx(107, abs=0.5) == limit
    below = {"upper": 100, "confidence": 0.999}
    assert decisions.decide(106.5, uncertainty=0.02 * 106.5, **below) == decisions.CANNOT_TELL
    assert decisions.decide(107, uncertainty=0.02 * 107, **below) == decisions.OUTSIDE


# share of good parts, printed false accept in per cent, key ncsli-rp-19 (quoted), ratio 4
FALSE_ACCEPT = [
    (0.60, 4.8386),
    (0.70, 3.9223),
    (0.80, 2.8558),
    (0.90, 1.6000),
    (0.95, 0.8710),
    (0.99, 0.1999),
]


@pytest.mark.parametrize(("good", "printed"), FALSE_ACCEPT)
def test_false_accept_table(good, printed):
    """The table of ncsli-rp-19 (quoted) holds to its last digit: it states part and instrument at the same coverage."""
    spread = 1 / norm.ppf((1 + good) / 2)
    found = risks.false_accept_probability(1.0, process_sd=spread, uncertainty=spread / 4)
    assert pytest.approx(printed, abs=1e-4) == 100 * found


@pytest.mark.parametrize(
    ("s", "u", "guard"), [(0.5, 0.1, 0), (0.8, 0.4, 0.3), (2.0, 0.02, 0.05), (0.2, 0.5, 0.1), (1.5, 2.0, 0.0)]
)
def test_false_accept_agrees_with_scipy(s, u, guard):
    """scipy.integrate.quad over scipy.stats.norm gives the same probability."""
    accept = 1 - guard

    def passed(x):
        return norm.pdf(x, scale=s) * (norm.cdf(accept - x, scale=u) - norm.cdf(-accept - x, scale=u))

    expected = 2 * quad(passed, 1, min(9 * s, 1 + 9 * u), epsabs=1e-12)[0]
    found = risks.false_accept_probability(1.0, process_sd=s, uncertainty=u, guard=guard)
    assert pytest.approx(expected, abs=1e-6) == found


@pytest.mark.parametrize("y", np.linspace(-0.05, 0.25, 13))
def test_conformance_agrees_with_scipy(y):
    """scipy.stats.norm gives the same probability on both sides of both limits."""
    expected = norm.cdf(0.2, loc=y, scale=0.013) - norm.cdf(0.0, loc=y, scale=0.013)
    found = decisions.conformance_probability(float(y), uncertainty=0.013, lower=0.0, upper=0.2)
    assert pytest.approx(expected, abs=1e-12) == found


@pytest.mark.parametrize("y", [-0.3, 0.5])
def test_small_probabilities_keep_their_digits(y):
    """Fifteen uncertainties beyond a limit the probability is tiny, and still agrees with scipy on both sides."""
    found = decisions.conformance_probability(y, uncertainty=0.02, lower=0.0, upper=0.2)
    assert found > 0
    assert found == pytest.approx(norm.sf(15), rel=1e-9, abs=0)


# process deviation, uncertainty, tolerance, guard, printed false accept and false reject, decision-risk-paper (quoted)
BOTH_RISKS = [
    (1, 0.25, 2, 0, 0.008, 1e-4, 0.015, 5e-4),
    (1, 0.5, 2, 0.18, 0.008, 5e-4, 0.066, 5e-4),
]


@pytest.mark.parametrize(("s", "u", "t", "guard", "accept", "accept_tol", "reject", "reject_tol"), BOTH_RISKS)
def test_both_risks_of_the_paper(s, u, t, guard, accept, accept_tol, reject, reject_tol):
    """decision-risk-paper, pages 7 and 10 (quoted): ratio 4 without a guard band, ratio 2 with limits drawn in to 91 %."""
    case = {"process_sd": s, "uncertainty": u, "guard": guard}
    assert pytest.approx(accept, abs=accept_tol) == risks.false_accept_probability(t, **case)
    assert pytest.approx(reject, abs=reject_tol) == risks.false_reject_probability(t, **case)


@pytest.mark.parametrize(
    ("s", "u", "guard"),
    [(0.5, 0.1, 0), (0.8, 0.4, 0.3), (2.0, 0.02, 0.05), (0.2, 0.5, 0.1), (1.5, 2.0, 0.0), (50, 0.01, 0.5)],
)
def test_false_reject_agrees_with_scipy(s, u, guard):
    """scipy.integrate.quad over scipy.stats.norm gives the same probability."""
    accept = 1 - guard

    def sent_back(x):
        return norm.pdf(x, scale=s) * (norm.sf(accept - x, scale=u) + norm.cdf(-accept - x, scale=u))

    breaks = [p for p in (accept - 5 * u, accept, accept + 5 * u) if 0 < p < 1]
    expected = 2 * quad(sent_back, 0, 1, epsabs=1e-12, points=breaks)[0]
    assert pytest.approx(expected, abs=1e-6) == risks.false_reject_probability(
        1.0, process_sd=s, uncertainty=u, guard=guard
    )
