"""Deciding on a measured figure: plain comparison, guard band, probability that the part conforms.

A limit given as "max" or "min" includes the value itself. The guard band is used only where an uncertainty is
given; then the uncertainty counts against whoever has to prove (the idea of ISO 14253-1), and between the
proofs stands an honest third answer: it cannot be told from this measurement. Formulas: JCGM 106.
"""

from math import erfc, inf, sqrt
from statistics import NormalDist

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within

WITHIN = "within"
OUTSIDE = "outside"
CANNOT_TELL = "cannot be told"
CONFIDENCE = 0.95
"""Probability with which conformity must be proven, by default (source: iso-14253-1)."""

# Readings are decimal, floats are not: 0.3 - 0.2 is a hair below 0.1. A millionth of a micrometre is no finding.
_AT_LIMIT = 1e-9


def decide(
    measured: float,
    *,
    lower: float | None = None,
    upper: float | None = None,
    uncertainty: float | None = None,
    confidence: float = CONFIDENCE,
) -> str:
    r"""Say whether a measured figure is "within", "outside", or "cannot be told".

    Without an uncertainty: within when :math:`T_L \le y \le T_U`, the limits included.
    With a standard uncertainty u and :math:`g = z u`: within when :math:`T_L + g \le y \le T_U - g`, outside
    when :math:`y > T_U + g` or :math:`y < T_L - g`, else it cannot be told.

    Parameters
    ----------
    measured : float
        The figure y, any one unit, -1e6 to 1e6.
    lower, upper : float or None
        Limits in the same unit; at least one, lower below upper.
    uncertainty : float or None
        Standard uncertainty u (not the expanded one), 1e-9 to 1e6; None for a plain comparison.
    confidence : float
        One-sided probability of the guard band, 0.5 to 0.9999.

    Returns
    -------
    str
        WITHIN, OUTSIDE or CANNOT_TELL.

    Source
    ------
    iso-14253-1, jcgm-106

    Examples
    --------
    >>> decide(0.10, upper=0.10)
    'within'
    >>> decide(0.10, upper=0.10, uncertainty=0.0128)
    'cannot be told'
    >>> decide(8.03, lower=8.00, uncertainty=0.0128), decide(7.97, lower=8.00, uncertainty=0.0128)
    ('within', 'outside')
    """
    y, low, high = _checked(measured, lower, upper)
    if uncertainty is None:
        return WITHIN if low - _AT_LIMIT <= y <= high + _AT_LIMIT else OUTSIDE
    guard = guard_band(uncertainty, confidence=confidence)
    if low + guard - _AT_LIMIT <= y <= high - guard + _AT_LIMIT:
        return WITHIN
    return OUTSIDE if y > high + guard or y < low - guard else CANNOT_TELL


def guard_band(uncertainty: float, *, confidence: float = CONFIDENCE) -> float:
    r"""Width of the guard band inside a limit, :math:`g = z_p u`; z = 1.645 for 95 %.

    The older rule (g = the expanded uncertainty 2 u) is `guard_band(u, confidence=0.97725)`.

    Validity
    --------
    uncertainty 1e-9 to 1e6, confidence 0.5 to 0.9999; normal distribution.

    Source
    ------
    jcgm-106

    Examples
    --------
    >>> guard_band(0.01)
    0.01645
    """
    u = _uncertainty(uncertainty)
    within("confidence", confidence, 0.5, 0.9999, "", "Give a probability, such as 0.95.")
    return NormalDist().inv_cdf(confidence) * u


def conformance_probability(
    measured: float, *, uncertainty: float, lower: float | None = None, upper: float | None = None
) -> float:
    r"""Probability that the true value lies inside the limits, given the measured one.

    .. math:: p_c = \Phi\left(\frac{T_U - y}{u}\right) - \Phi\left(\frac{T_L - y}{u}\right)

    Parameters
    ----------
    measured, lower, upper
        As for `decide`.
    uncertainty : float
        Standard uncertainty, 1e-9 to 1e6.

    Validity
    --------
    Normal distribution, no other knowledge about the part.

    Source
    ------
    jcgm-106

    Examples
    --------
    >>> conformance_probability(0.09, uncertainty=0.01, upper=0.10)
    0.841
    >>> conformance_probability(13.6, uncertainty=1.8, lower=12.5, upper=16.3)
    0.6626
    """
    y, low, high = _checked(measured, lower, upper)
    u = _uncertainty(uncertainty)
    above, below = (high - y) / u, (low - y) / u
    # Each difference on the side where the tails are small, so that no digits are lost.
    return _below(above) - _below(below) if below + above <= 0 else _below(-below) - _below(-above)


def _below(z: float) -> float:
    return erfc(-z / sqrt(2)) / 2


def _uncertainty(uncertainty: float) -> float:
    return within("uncertainty", uncertainty, 1e-9, 1e6, "", "Give the standard uncertainty, half of U (k = 2).")


def _checked(measured: float, lower: float | None, upper: float | None) -> tuple[float, float, float]:
    y = within("measured", measured, -1e6, 1e6, "", "Give the figure in the unit of the limit.")
    if lower is None and upper is None:
        raise OutOfRange("lower, upper", "at least one limit", "none", "Take the limit from the data sheet.")
    low = -inf if lower is None else within("lower", lower, -1e6, 1e6, "", "Give the least value allowed.")
    high = inf if upper is None else within("upper", upper, -1e6, 1e6, "", "Give the greatest value allowed.")
    if low > high:
        rule = f"not above upper ({high:.10g})"
        raise OutOfRange("lower", rule, f"{low:.10g}", "The smaller limit is lower, the larger one upper.")
    return y, low, high
