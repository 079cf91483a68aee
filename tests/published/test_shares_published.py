"""Shares over answers that hang together, against published data and an independent library."""

from statistics import NormalDist

import pytest
from scipy import stats

from bitepoint.marking.figures.clustered import clustered_between, design_effect, student_deviate

# Rao and Scott 1992, table 1 (Weil's rats: litters, alive of born), with the design effects as the manual of a statistics
# package prints them for these data: 1.232495 (control) and 3.952861 (treated).
CONTROL = "13/13 12/12 9/9 9/9 8/8 8/8 12/13 11/12 9/10 9/10 8/9 11/13 4/5 5/7 7/10 7/10"
TREATED = "12/12 11/11 10/10 9/9 10/11 9/10 9/10 8/9 8/9 4/5 7/9 4/7 5/10 3/6 3/10 0/7"


def pairs(text: str) -> list[tuple[int, int]]:
    """Return (alive, born) of each litter."""
    return [(int(x), int(n)) for x, n in (litter.split("/") for litter in text.split())]


@pytest.mark.parametrize(("litters", "expected"), [(CONTROL, 1.232495), (TREATED, 3.952861)])
def test_design_effects_of_the_published_litters(litters: str, expected: float) -> None:
    """Both published design effects come out to six places."""
    assert design_effect(pairs(litters)) == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize("freedom", [4, 5, 9, 23, 500])
def test_students_deviate_is_that_of_the_library(freedom: int) -> None:
    """The series is within 0.001 of the exact value from 4 degrees of freedom on."""
    assert student_deviate(freedom) == pytest.approx(stats.t.ppf(0.975, freedom), abs=1e-3)


@pytest.mark.parametrize("right", [0, 1, 150, 300])
def test_one_answer_a_learner_is_wilsons_interval(right: int) -> None:
    """Where nobody answers twice nothing hangs together: the interval is Wilson's at the level that Student's t stands for."""
    learners = 300
    level = 2 * NormalDist().cdf(student_deviate(learners - 1)) - 1
    expected = stats.binomtest(right, learners).proportion_ci(level, method="wilson")
    given = clustered_between([(1, 1)] * right + [(0, 1)] * (learners - right))
    # Rao and Scott divide by m - 1: with one answer each their effect is m / (m - 1), a third of a hundredth here.
    assert given == pytest.approx((expected.low, expected.high), abs=2e-4)
