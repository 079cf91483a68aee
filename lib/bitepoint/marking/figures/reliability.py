"""How far the marks of a lesson hang together. Pure functions.

Small classes are said to be small instead of being given a figure that would not hold.
"""

from collections.abc import Sequence
from math import fsum, isfinite
from statistics import fmean, pvariance

FEW = 30
"""Below so many learners a reliability figure is not given (common practice)."""


def kr20(table: Sequence[Sequence[float]]) -> float | None:
    r"""Return the reliability of right/wrong marks, with the population variance of the totals.

    .. math:: r = \frac{k}{k-1}\left(1 - \frac{\sum p q}{\sigma^2}\right)

    Every cell is 0 or 1. None for fewer than two exercises or totals that do not vary.

    Raises
    ------
    ValueError
        A cell is neither 0 nor 1, or the rows differ in length.
    """
    if not table or any(len(row) != len(table[0]) for row in table):
        raise ValueError("kr20 needs at least one learner and rows of one length")
    if any(cell not in (0, 1) for row in table for cell in row):
        raise ValueError("kr20 needs marks of 0 or 1 only")
    k, totals = len(table[0]), [sum(row) for row in table]
    mean = fmean(totals)
    variance = fmean((t - mean) ** 2 for t in totals)
    if k < 2 or variance < 1e-12:
        return None
    shares = [fmean(row[i] for row in table) for i in range(k)]
    return k / (k - 1) * (1 - sum(p * (1 - p) for p in shares) / variance)


def cronbach_alpha(table: Sequence[Sequence[float]]) -> float | None:
    r"""Return the reliability of marks of any size, part marks too; with marks of 0 and 1 it is `kr20`.

    .. math:: \alpha = \frac{k}{k-1}\left(1 - \frac{\sum \sigma_i^2}{\sigma^2}\right)

    Population variances; the ratio is the same with those of a sample. None for fewer than two exercises or totals that
    do not vary.

    Raises
    ------
    ValueError
        There is no learner, a mark is not finite, or the rows differ in length.
    """
    if not table or any(len(row) != len(table[0]) for row in table):
        raise ValueError("cronbach_alpha needs at least one learner and rows of one length")
    if not all(isfinite(cell) for row in table for cell in row):
        raise ValueError("cronbach_alpha needs marks that are numbers")
    k, whole = len(table[0]), pvariance([fsum(row) for row in table])
    if k < 2 or whole < 1e-12:
        return None
    return k / (k - 1) * (1 - fsum(pvariance(column) for column in zip(*table, strict=True)) / whole)


def reliability_words(table: Sequence[Sequence[float]]) -> str:
    """Return KR-20 as text, or why there is none."""
    if len(table) < FEW:
        return f"class too small: {len(table)} learners answered every exercise, {FEW} are needed"
    found = kr20(table)
    return "cannot be worked out: the totals do not vary" if found is None else f"{found:.2f} ({len(table)} learners)"
