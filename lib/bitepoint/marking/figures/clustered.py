"""A share over answers of which those of one learner hang together: how many answers it is worth, and its interval."""

from collections.abc import Sequence
from math import fsum, sqrt
from statistics import NormalDist

SURE = 0.95
Pair = tuple[int, int]
"""Right answers and answers of one learner."""


def design_effect(pairs: Sequence[Pair]) -> float:
    r"""Return how many times larger the variance of a share is than if no two answers were of one learner.

    .. math:: d = \frac{m}{m - 1} \sum_i (x_i - n_i \hat p)^2 \Big/ \bigl(n \hat p (1 - \hat p)\bigr)

    Parameters
    ----------
    pairs
        For each of m learners the right answers x_i of n_i.

    Validity
    --------
    Two learners or more; 1.0 where every answer is right or none is.

    Source
    ------
    rao-scott-1992

    Examples
    --------
    >>> design_effect([(2, 2), (0, 2), (2, 2), (0, 2)])
    2.667
    """
    answers = sum(n for _, n in pairs)
    share = sum(x for x, _ in pairs) / answers
    if len(pairs) < 2 or not 0 < share < 1:
        return 1.0
    # fsum: the same to the last digit in whatever order the learners come.
    spread = fsum((x - n * share) ** 2 for x, n in pairs) * len(pairs) / (len(pairs) - 1)
    return spread / (answers * share * (1 - share))


def clustered_between(pairs: Sequence[Pair]) -> tuple[float, float]:
    r"""Return between which values a share lies with 95 %: Wilson's interval over the answers that they are worth.

    Answers are worth n / d, where d is the design effect and never below 1: that answers of one learner would hang together
    less than by chance is chance. For the few learners of a class Student's t with m - 1 degrees of freedom takes the place of
    the normal deviate.

    Parameters
    ----------
    pairs
        For each of m learners the right answers and the answers; at least two learners.

    Source
    ------
    rao-scott-1992, wilson-1927

    Examples
    --------
    >>> clustered_between([(2, 2), (0, 2), (2, 2), (0, 2)])
    (0.061, 0.939)
    """
    answers = sum(n for _, n in pairs)
    share = sum(x for x, _ in pairs) / answers
    worth = answers / max(1.0, design_effect(pairs))
    z = student_deviate(len(pairs) - 1)
    middle = (share + z * z / (2 * worth)) / (1 + z * z / worth)
    half = z * sqrt(share * (1 - share) / worth + z * z / (4 * worth * worth)) / (1 + z * z / worth)
    return max(0.0, middle - half), min(1.0, middle + half)


def student_deviate(freedom: int) -> float:
    """Return the value that Student's t exceeds either way in 5 of 100 cases, by a series around the normal deviate.

    Validity
    --------
    4 degrees of freedom or more: there it is within 0.005 of the exact value.

    Source
    ------
    abramowitz-stegun-26-7-5

    Examples
    --------
    >>> student_deviate(23), student_deviate(4)
    (2.069, 2.776)
    """
    z = NormalDist().inv_cdf(0.5 + SURE / 2)
    terms: tuple[float, ...] = (
        (z**3 + z) / 4,
        (5 * z**5 + 16 * z**3 + 3 * z) / 96,
        (3 * z**7 + 19 * z**5 + 17 * z**3 - 15 * z) / 384,
        (79 * z**9 + 776 * z**7 + 1482 * z**5 - 1920 * z**3 - 945 * z) / 92160,
    )
    return z + sum((term / float(freedom) ** power for power, term in enumerate(terms, start=1)), 0.0)
