"""Deciding with and without an uncertainty."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import decisions, risks
from bitepoint.mechanics.decisions import CANNOT_TELL, OUTSIDE, WITHIN

Y = st.floats(-10, 10)
U = st.floats(0.001, 5)


def test_max_includes_the_value():
    """A figure at the limit is within, also when its decimals are only nearly so in binary."""
    assert decisions.decide(0.10, upper=0.10) == WITHIN
    assert decisions.decide(0.3 - 0.2, lower=0.10) == WITHIN
    assert decisions.decide(0.1 + 0.2, upper=0.30) == WITHIN
    assert decisions.decide(0.1001, upper=0.10) == OUTSIDE
    assert decisions.decide(6.2, lower=6.2) == WITHIN
    assert decisions.decide(6.19, lower=6.2) == OUTSIDE


def test_guard_band_only_with_an_uncertainty():
    """The same reading at the limit cannot be told once an uncertainty is given."""
    assert decisions.decide(0.10, upper=0.10, uncertainty=0.005) == CANNOT_TELL


def test_lining_of_eight_millimetres():
    """Least 8.00 mm, u = 0.0128: from about 8.02 within, up to 7.97 outside, between them it cannot be told."""
    for measured, expected in [
        (8.03, WITHIN),
        (8.022, WITHIN),
        (8.01, CANNOT_TELL),
        (7.99, CANNOT_TELL),
        (7.97, OUTSIDE),
    ]:
        assert expected == decisions.decide(measured, lower=8.0, uncertainty=0.0128)


@given(Y, U, Y)
def test_guard_band_agrees_with_the_probability(y, u, limit):
    """One limit: within exactly when the conformance probability is at least 95 %, outside when at most 5 %."""
    found = decisions.decide(y, upper=limit, uncertainty=u)
    probability = decisions.conformance_probability(y, upper=limit, uncertainty=u)
    if abs(probability - 0.95) > 1e-6 and abs(probability - 0.05) > 1e-6:
        expected = WITHIN if probability > 0.95 else OUTSIDE if probability < 0.05 else CANNOT_TELL
        assert expected == found


@given(Y, U, st.floats(0, 5))
def test_an_uncertainty_never_turns_a_decision_round(y, u, half):
    """With an uncertainty a figure is judged as without one, or cannot be told."""
    plain = decisions.decide(y, lower=-half, upper=half)
    assert decisions.decide(y, lower=-half, upper=half, uncertainty=u) in (plain, CANNOT_TELL)


@given(Y, U, Y)
def test_lower_and_upper_are_mirror_images(y, u, limit):
    """Turning every sign changes nothing."""
    assert decisions.decide(y, upper=limit, uncertainty=u) == decisions.decide(-y, lower=-limit, uncertainty=u)
    above = decisions.conformance_probability(y, upper=limit, uncertainty=u)
    assert pytest.approx(above, abs=1e-12) == decisions.conformance_probability(-y, lower=-limit, uncertainty=u)


@given(Y, U, st.floats(0, 5))
def test_probability_is_one(y, u, half):
    """Below, inside and above the limits add up to 1, and each lies between 0 and 1."""
    inside = decisions.conformance_probability(y, lower=-half, upper=half, uncertainty=u)
    below = decisions.conformance_probability(y, upper=-half, uncertainty=u)
    above = decisions.conformance_probability(y, lower=half, uncertainty=u)
    assert pytest.approx(1, abs=1e-12) == below + inside + above
    assert all(-1e-15 <= p <= 1 for p in (below, inside, above))


@given(U, st.floats(0.5, 0.9998))
def test_guard_grows_with_confidence(u, confidence):
    """More confidence, a wider guard; 50 % needs none."""
    assert decisions.guard_band(u, confidence=confidence) < decisions.guard_band(u, confidence=confidence + 1e-4)
    assert pytest.approx(0, abs=1e-12) == decisions.guard_band(u, confidence=0.5)


@pytest.mark.parametrize("guard", [0.0, 0.1, 0.3])
def test_a_guard_band_lets_fewer_bad_parts_pass(guard):
    """A wider guard, fewer bad parts accepted; a guard as wide as the tolerance lets none pass."""
    case = {"process_sd": 0.5, "uncertainty": 0.15}
    more = risks.false_accept_probability(1.0, guard=guard, **case)
    fewer = risks.false_accept_probability(1.0, guard=guard + 0.1, **case)
    assert 0 <= fewer < more
    assert pytest.approx(0, abs=1e-12) == risks.false_accept_probability(1.0, guard=1.0, **case)


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ({}, "lower, upper must be at least one limit, but you gave none. Take the limit from the data sheet."),
        (
            {"lower": 2, "upper": 1},
            "lower must be not above upper (1), but you gave 2. The smaller limit is lower, the larger one upper.",
        ),
        (
            {"upper": 1, "uncertainty": 0},
            "uncertainty must be between 1e-09 and 1000000, but you gave 0. "
            "Give the standard uncertainty, half of U (k = 2).",
        ),
    ],
)
def test_what_cannot_be_decided(arguments, words):
    """Missing or impossible limits are said in one line."""
    with pytest.raises(OutOfRange) as refused:
        decisions.decide(0.5, **arguments)
    assert str(refused.value) == words
