"""How sure a measured figure is: standard uncertainties from bounds, steps and repeats, and the budget that
adds them.

Standard uncertainties are combined; only the last figure is expanded.
"""

from collections.abc import Sequence
from math import hypot, sqrt
from statistics import stdev

from bitepoint.mechanics.limits import one_of, whole, within

# Half-width over standard deviation of each distribution (jcgm-100, clause 4.3).
_SPREADS = {"rectangular": sqrt(3), "triangular": sqrt(6), "arcsine": sqrt(2)}


def uncertainty_from_bounds(half_width: float, *, shape: str = "rectangular") -> float:
    r"""Standard uncertainty of a figure known only to lie within ±a: a/√3, a/√6 or a/√2.

    Parameters
    ----------
    half_width : float
        a, any unit, 0 to 1e6.
    shape : str
        "rectangular" (anything inside is as likely), "triangular", "arcsine" (swings between the bounds).

    Source
    ------
    jcgm-100

    Examples
    --------
    >>> uncertainty_from_bounds(0.40)
    0.2309
    """
    a = within("half_width", half_width, 0, 1e6, "", "Give half the distance between the bounds.")
    return a / _SPREADS[one_of("shape", shape, tuple(_SPREADS), "Rectangular if nothing else is known.")]


def uncertainty_from_step(step: float) -> float:
    r"""Standard uncertainty of a reading rounded to a scale step or display digit d, :math:`d/\sqrt{12}`.

    Source
    ------
    jcgm-100

    Examples
    --------
    >>> uncertainty_from_step(0.01)
    0.00289
    """
    return within("step", step, 0, 1e6, "", "Give the scale step or the last digit.") / sqrt(12)


def uncertainty_from_repeats(readings: Sequence[float]) -> float:
    r"""Standard uncertainty of the mean of repeated readings, :math:`s/\sqrt{n}`.

    Validity
    --------
    2 to 1000 readings of one thing, each -1e9 to 1e9.

    Source
    ------
    jcgm-100

    Examples
    --------
    >>> uncertainty_from_repeats([8.01, 8.03, 8.02])
    0.00577
    """
    whole("number of readings", len(readings), 2, 1000, "Measure the same thing again.")
    checked = [within("reading", r, -1e9, 1e9, "", "Read the instrument again.") for r in readings]
    return stdev(checked) / sqrt(len(checked))


def combined_uncertainty(components: Sequence[float]) -> float:
    r"""Combined standard uncertainty of independent components, :math:`u_c = \sqrt{\sum u_i^2}`.

    Parameters
    ----------
    components : sequence of float
        1 to 100 standard uncertainties, each already times its sensitivity, in one unit, 0 to 1e6.

    Source
    ------
    jcgm-100

    Examples
    --------
    A caliper: display step, error limits, three readings.

    >>> combined_uncertainty([0.00289, 0.01155, 0.00462])
    0.01277
    """
    whole("number of components", len(components), 1, 100, "List the standard uncertainties.")
    return hypot(*(within("component", u, 0, 1e6, "", "Standard uncertainties are not below 0.") for u in components))


def expanded_uncertainty(combined: float, *, coverage_factor: float = 2.0) -> float:
    r"""Expanded uncertainty :math:`U = k u_c`; k = 2 covers about 95 %.

    Source
    ------
    jcgm-100

    Examples
    --------
    >>> expanded_uncertainty(0.01277)
    0.0255
    """
    within("combined", combined, 0, 1e6, "", "Work out the combined standard uncertainty first.")
    return combined * within("coverage_factor", coverage_factor, 1, 5, "", "2 is usual.")
