"""What a few measured pieces say of all."""

import random

import pytest

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import samples, scatter
from bitepoint.mechanics.bolts import preload_from_torque_n


def test_more_pieces_need_a_smaller_factor():
    """The factor falls towards 1.96 as the sample grows."""
    factors = [samples.tolerance_factor(n) for n in (2, 3, 5, 10, 30, 100, 1000)]
    assert factors == sorted(factors, reverse=True)
    assert 1.96 < factors[-1] < 2.05


def test_more_share_and_more_confidence_need_a_larger_factor():
    """Whoever claims more has to reach further."""
    assert (
        samples.tolerance_factor(10, share=0.9)
        < samples.tolerance_factor(10)
        < samples.tolerance_factor(10, share=0.99)
    )
    assert samples.tolerance_factor(10, confidence=0.9) < samples.tolerance_factor(10, confidence=0.99)


def test_limits_hold_the_share_as_often_as_they_say():
    """Of 600 samples of six, drawn with a fixed start, 95 % or nearly so hold nine tenths of all pieces."""
    rng = random.Random(4)
    factor, held = samples.tolerance_factor(6, share=0.9), 0
    normal = samples.NormalDist()
    for _ in range(600):
        drawn = [rng.gauss(0, 1) for _ in range(6)]
        middle, reach = samples.fmean(drawn), factor * samples.stdev(drawn)
        held += normal.cdf(middle + reach) - normal.cdf(middle - reach) >= 0.9
    assert 0.93 < held / 600 < 0.97


def test_one_piece_says_nothing():
    """A spread needs two."""
    with pytest.raises(OutOfRange, match="pieces must be a whole number from 2 to 1000, but you gave 1"):
        samples.tolerance_factor(1)
    with pytest.raises(OutOfRange, match="number of values must be a whole number from 2 to 1000"):
        samples.tolerance_limits([0.17])


def test_nut_factor_of_a_test_gives_its_preload_back():
    """Worked the other way, the factor from a test gives the preload that was measured."""
    found = scatter.nut_factor_from_test(80, preload_n=44_000, d_mm=10)
    assert preload_from_torque_n(80, d_mm=10, nut_factor=found) == pytest.approx(44_000)
