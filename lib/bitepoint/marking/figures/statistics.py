"""How exercises behave over a class: right at first try, strong from weak, time, agreement. Pure functions.

Small classes are said to be small instead of being given a figure that would not hold.
"""

from collections.abc import Sequence
from math import atanh, sqrt, tanh
from statistics import NormalDist, correlation, fmean, median

FEW_FOR_ITEM = 10
"""Below so many learners an exercise is not judged (common practice)."""
LOW_ITEM_REST = 0.20
"""From here on an exercise tells strong from weak well enough (common practice)."""
TOO_EASY, TOO_HARD = 0.95, 0.10
CAP_S = 1200.0
SURE = 0.95
"""How sure one must be that no exercise of the class is named by chance alone (common practice)."""

Score = float | None


def mean_first_score(scores: Sequence[Score]) -> float | None:
    """Return the mean score of those who answered, 0 to 1; None when nobody did.

    Source
    ------
    common-practice
    """
    there = [s for s in scores if s is not None]
    return fmean(there) if there else None


def correlation_if_any(xs: Sequence[float], ys: Sequence[float]) -> float | None:
    """Return Pearson's correlation of two equally long rows; None when one of them does not vary.

    Examples
    --------
    >>> correlation_if_any([1, 0, 1, 0], [4, 1, 3, 2])
    0.894
    """
    return correlation(xs, ys) if _varies(xs) and _varies(ys) else None


def _varies(xs: Sequence[float]) -> bool:
    # Means of equal marks differ in the last digit; their correlation would be one of rounding errors.
    return len(xs) > 1 and max(xs) - min(xs) > 1e-6


def rest_means(row: Sequence[Score]) -> dict[float, float]:
    """Return by each score of a learner the mean of all the others: the same for every exercise with that score.

    The mean is of an exactly rounded sum, so that it does not matter which of two equal scores is left out.

    Examples
    --------
    >>> rest_means([1.0, 0.0, 1.0, None])
    {1.0: 0.5, 0.0: 1.0}
    """
    there = [score for score in row if score is not None]
    found = {}
    for score in dict.fromkeys(there) if len(there) > 1 else ():
        at = there.index(score)
        found[score] = fmean(there[:at] + there[at + 1 :])
    return found


def item_rest(
    table: Sequence[Sequence[Score]], item: int, means: Sequence[dict[float, float]] | None = None
) -> float | None:
    r"""Return the corrected point-biserial: one exercise against the mean of the others the learner answered.

    With every cell filled this is the correlation of the exercise with the total of the rest.

    Parameters
    ----------
    table
        Scores by learner (rows) and exercise; None where not answered.
    item
        Number of the exercise, from 0.
    means
        `rest_means` of each row, where several exercises are asked for.
    """
    own, rest = [], []
    for row, others in zip(table, map(rest_means, table) if means is None else means, strict=True):
        score = row[item]
        if score is not None and others:
            own.append(score)
            rest.append(others[score])
    return correlation_if_any(own, rest)


def time_on_task(seconds: Sequence[float], cap: float = CAP_S) -> tuple[float | None, int]:
    """Return the median time [s], each capped, and how many were capped; None when there is no time."""
    kept = [min(s, cap) for s in seconds if s >= 0]
    return (median(kept) if kept else None), sum(s > cap for s in seconds)


def agreement(pairs: Sequence[tuple[float, float]]) -> str:
    """Return in how many marks two markers agree, as “n of m”; a hundredth is no difference.

    Examples
    --------
    >>> agreement([(1, 1), (0.5, 0.5), (1, 0)])
    '2 of 3'
    """
    return f"{sum(abs(a - b) < 0.01 for a, b in pairs)} of {len(pairs)}"


def item_rest_between(found: float, learners: int, *, compared: int = 1) -> tuple[float, float]:
    r"""Return between which values a correlation of so many learners may lie, by Fisher's transformation.

    .. math:: \tanh\left(\operatorname{artanh} r \pm z / \sqrt{n - 3}\right)

    Parameters
    ----------
    found
        The correlation in this class.
    learners
        How many it was worked out from; below 4 it may be anything.
    compared
        How many exercises are looked through; the interval is widened so that it holds for all of them together.

    Source
    ------
    common-practice

    Examples
    --------
    >>> item_rest_between(0.2, 23)
    (-0.232, 0.566)
    >>> item_rest_between(0.2, 23, compared=207)
    (-0.550, 0.771)
    """
    if learners < 4:
        return -1.0, 1.0
    middle, half = atanh(max(-0.9999, min(0.9999, found))), _deviations(compared) / sqrt(learners - 3)
    return tanh(middle - half), tanh(middle + half)


def share_between(share: float, learners: int, *, compared: int = 1) -> tuple[float, float]:
    """Return between which values a share of so many learners may lie, by Wilson's interval.

    Examples
    --------
    >>> share_between(1.0, 23)
    (0.857, 1.0)
    """
    z = _deviations(compared)
    middle = (share + z * z / (2 * learners)) / (1 + z * z / learners)
    half = z * sqrt(share * (1 - share) / learners + z * z / (4 * learners * learners)) / (1 + z * z / learners)
    return middle - half, middle + half


def _deviations(compared: int) -> float:
    """Return how many standard deviations an interval reaches either way when so many are compared at once."""
    return NormalDist().inv_cdf(1 - (1 - SURE) / (2 * max(1, compared)))


def judged(answered: int, share: float | None, item_rest: float | None, *, compared: int = 1) -> str:
    """Return what is odd about an exercise in words, "" when nothing is or it may be chance.

    Only what lies beyond its limit with its whole interval is said: in a small class that is hardly ever.
    """
    if share is None or answered < FEW_FOR_ITEM:
        return f"too few data: {answered} learners, {FEW_FOR_ITEM} are needed"
    said = []
    if item_rest is not None:
        _, most = item_rest_between(item_rest, answered, compared=compared)
        if most < 0:
            said.append("those who do well elsewhere do worse here: read the question and its right answer once more")
        elif most < LOW_ITEM_REST:
            said.append("hardly tells those who do well elsewhere from the others")
    least, most = share_between(share, answered, compared=compared)
    if least > TOO_EASY:
        said.append("nearly everyone is right at first try: it tells little")
    elif most < TOO_HARD:
        said.append("hardly anyone is right at first try: too hard, unclear, or not taught")
    return "; ".join(said)
