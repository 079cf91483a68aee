"""What an inspection does to all parts that pass through it: bad ones let through, good ones sent back.

Both shares are of all parts, and both are for parts and errors that are normal and centred.
"""

from collections.abc import Callable
from statistics import NormalDist

from bitepoint.mechanics.limits import within

# Our own: the integrand is smooth and at most nine standard deviations wide: 400 panels hold six digits.
_PANELS = 400
_WIDTH = 9


def false_accept_probability(tolerance: float, *, process_sd: float, uncertainty: float, guard: float = 0.0) -> float:
    r"""Consumer's risk: the share of all parts outside ±tolerance and yet measured inside ±(tolerance - guard).

    .. math:: P = 2 \int_T^\infty \varphi(x/s)/s \; [\Phi((A - x)/u) - \Phi((-A - x)/u)] \, dx

    Parameters
    ----------
    tolerance : float
        Half width T of a symmetric tolerance, 1e-6 to 1e6.
    process_sd, uncertainty : float
        Standard deviation of the parts s and standard uncertainty u, 0.01 T to 100 T each.
    guard : float
        Guard band, 0 to T: acceptance limit A = T - guard.

    Validity
    --------
    Parts and errors normal, both centred; Simpson's rule, good to about 1e-6.

    Source
    ------
    ncsli-rp-19, decision-risk-paper

    Examples
    --------
    Four times as good an instrument, 95 % of the parts good: 0.87 % of all pass wrongly.

    >>> false_accept_probability(1.0, process_sd=1 / 1.959964, uncertainty=0.25 / 1.959964)
    0.00871
    """
    t, s, u, accept = _checked(tolerance, process_sd, uncertainty, guard)
    return _share(t, min(_WIDTH * s, t + _WIDTH * u), s, lambda x: _passes(x, accept, u))


def false_reject_probability(tolerance: float, *, process_sd: float, uncertainty: float, guard: float = 0.0) -> float:
    r"""Producer's risk: the share of all parts inside ±tolerance and yet measured outside ±(tolerance - guard).

    .. math:: P = 2 \int_0^T \varphi(x/s)/s \; [1 - \Phi((A - x)/u) + \Phi((-A - x)/u)] \, dx

    A guard band lets fewer bad parts through, and this is what it costs.

    Parameters and validity
        As for `false_accept_probability`.

    Source
    ------
    decision-risk-paper

    Examples
    --------
    The same inspection sends 1.6 % of all back although they are good:

    >>> false_reject_probability(1.0, process_sd=1 / 1.959964, uncertainty=0.25 / 1.959964)
    0.0160
    """
    t, s, u, accept = _checked(tolerance, process_sd, uncertainty, guard)
    # Further in than nine errors from the acceptance limit nothing is sent back, further out nine deviations is nothing.
    return _share(max(0.0, accept - _WIDTH * u), min(t, _WIDTH * s), s, lambda x: 1 - _passes(x, accept, u))


def _passes(x: float, accept: float, u: float) -> float:
    error = NormalDist(0, u)
    return error.cdf(accept - x) - error.cdf(-accept - x)


def _share(start: float, end: float, process_sd: float, chance: Callable[[float], float]) -> float:
    """Integrate the density of the parts times a chance from start to end by Simpson's rule, both sides of the middle."""
    if end <= start:
        return 0.0
    parts, step = NormalDist(0, process_sd), (end - start) / _PANELS
    values = [parts.pdf(x) * chance(x) for x in (start + i * step for i in range(_PANELS + 1))]
    return 2 * step / 3 * (values[0] + values[-1] + 4 * sum(values[1:-1:2]) + 2 * sum(values[2:-1:2]))


def _checked(
    tolerance: float, process_sd: float, uncertainty: float, guard: float
) -> tuple[float, float, float, float]:
    t = within("tolerance", tolerance, 1e-6, 1e6, "", "Give half the width of the tolerance.")
    s = within("process_sd", process_sd, 0.01 * t, 100 * t, "", "Give the standard deviation of the parts.")
    u = within("uncertainty", uncertainty, 0.01 * t, 100 * t, "", "Give the standard uncertainty.")
    return t, s, u, t - within("guard", guard, 0, t, "", "Give the width of the guard band.")
