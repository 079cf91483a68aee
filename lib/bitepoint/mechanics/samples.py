"""What a few measured pieces say of all pieces: between which limits a share of them lies, and with what confidence.

The spread of a small sample is itself uncertain. Two standard deviations of ten bolts do not hold 95 % of all bolts;
the factor that does is larger, the more so the fewer were measured.
"""

from collections.abc import Callable, Sequence
from math import exp, inf, lgamma, log, sqrt
from statistics import NormalDist, fmean, stdev

from bitepoint.mechanics.limits import one_of, whole, within

ONE_SIDED, TWO_SIDED = "one-sided", "two-sided"
_NORMAL = NormalDist()
# Our own: Simpson's rule over the spread of the sample: good to four digits down to two pieces.
_PANELS = 240


def tolerance_factor(pieces: int, *, share: float = 0.95, confidence: float = 0.95, side: str = TWO_SIDED) -> float:
    r"""Factor k so that :math:`\bar x \pm k s` (or one of the two) holds a share of all pieces with this confidence.

    Parameters
    ----------
    pieces : int
        Pieces measured, 2 to 1000.
    share : float
        Share of all pieces that must lie inside, 0.5 to 0.999.
    confidence : float
        Probability that the sample does not mislead, 0.5 to 0.999.
    side : str
        "two-sided", or "one-sided" where only a lower or only an upper limit counts.

    Validity
    --------
    Pieces normally distributed, drawn without choosing; mean and standard deviation both from the sample.

    Source
    ------
    iso-16269-6, environmental-statistics

    Examples
    --------
    >>> tolerance_factor(10), tolerance_factor(10, side="one-sided")
    (3.393, 2.911)
    """
    whole("pieces", pieces, 2, 1000, "Count the pieces that were measured.")
    within("share", share, 0.5, 0.999, "", "Give a share, such as 0.95.")
    within("confidence", confidence, 0.5, 0.999, "", "Give a probability, such as 0.95.")
    one_of("side", side, (ONE_SIDED, TWO_SIDED), "One-sided where only one limit counts.")
    held = _held_two_sided if side == TWO_SIDED else _held_one_sided
    low, high = 0.0, 4.0
    while held(high, pieces, share) < confidence:
        low, high = high, 2 * high
    while high - low > 1e-5 * high + 1e-9:
        middle = (low + high) / 2
        low, high = (middle, high) if held(middle, pieces, share) < confidence else (low, middle)
    return high


def tolerance_limits(values: Sequence[float], *, share: float = 0.95, confidence: float = 0.95) -> tuple[float, float]:
    """Limits between which a share of all pieces lies, from a few that were measured: mean less and plus k times s.

    Parameters
    ----------
    values : sequence of float
        2 to 1000 figures of different pieces, each -1e9 to 1e9.
    share, confidence
        As for `tolerance_factor`.

    Source
    ------
    iso-16269-6

    Examples
    --------
    Nut factors of five bolts from one box:

    >>> tolerance_limits([0.17, 0.18, 0.16, 0.17, 0.19])
    (0.1161, 0.2319)
    """
    whole("number of values", len(values), 2, 1000, "Measure some more pieces.")
    checked = [within("value", v, -1e9, 1e9, "", "Measure the piece again.") for v in values]
    middle, reach = fmean(checked), stdev(checked) * tolerance_factor(len(checked), share=share, confidence=confidence)
    return middle - reach, middle + reach


def _held_one_sided(k: float, n: int, share: float) -> float:
    """Probability that the mean plus k times the spread lies above the share of all pieces."""
    z = _NORMAL.inv_cdf(share)
    return _over_the_spread(n, lambda s: _NORMAL.cdf(sqrt(n) * (k * s - z)))


def _held_two_sided(k: float, n: int, share: float) -> float:
    """Probability that k times the spread to both sides of the mean holds the share of all pieces."""
    least = _NORMAL.inv_cdf((1 + share) / 2) / k if k else inf
    return _over_the_spread(n, lambda s: 2 * _NORMAL.cdf(sqrt(n) * _room_of_the_mean(k * s, share)) - 1, least)


def _room_of_the_mean(reach: float, share: float) -> float:
    """How far a mean may lie off the true one while `reach` to both sides of it still holds the share."""
    if 2 * _NORMAL.cdf(reach) - 1 <= share:
        return 0.0
    # Beyond this the near tail alone loses more than is allowed.
    low, high = 0.0, max(0.0, reach - _NORMAL.inv_cdf(share)) + 1e-9
    for _ in range(24):
        middle = (low + high) / 2
        held = _NORMAL.cdf(middle + reach) - _NORMAL.cdf(middle - reach)
        low, high = (middle, high) if held > share else (low, middle)
    return low


def _over_the_spread(n: int, chance: Callable[[float], float], least: float = 0.0) -> float:
    """Mean of a chance over the sample's standard deviation in units of the true one, which is chi over root f.

    Below `least` the chance is 0. It may set out from there as a root does, so the steps are squares.
    """
    f = n - 1
    start, end = max(least, 1 - 9 / sqrt(2 * f)), 1 + 9 / sqrt(2 * f)
    if start >= end:
        return 0.0
    step = sqrt(end - start) / _PANELS
    norm = log(2) + f / 2 * log(f / 2) - lgamma(f / 2)

    def weighted(v: float) -> float:
        s = start + v * v
        density = exp(norm + (f - 1) * log(s) - f * s * s / 2) if s > 0 else 0.0
        return 2 * v * density * chance(s)

    values = [weighted(i * step) for i in range(_PANELS + 1)]
    return step / 3 * (values[0] + values[-1] + 4 * sum(values[1:-1:2]) + 2 * sum(values[2:-1:2]))
