"""How far the preload of a bolt may lie from the figure that was worked out, by method of tightening.

Published figures differ; each stands with its source, and a sheet's own figure wins.
"""

from math import sqrt

from msgspec import Struct

from bitepoint.mechanics.bolts import check_preload
from bitepoint.mechanics.limits import one_of, whole, within


class Scatter(Struct, frozen=True):
    """Scatter of a method: plus or minus this much [%], and the key of its source."""

    plus_minus_pct: float
    source: str


SCATTER = {
    "feel": Scatter(35, "mil-hdbk-60"),
    "torque wrench, lubricated": Scatter(25, "nasa-std-5020b"),
    "torque wrench, dry": Scatter(35, "nasa-std-5020b"),
    "torque and angle": Scatter(15, "mil-hdbk-60"),
    "yield sensing": Scatter(8, "mil-hdbk-60"),
    "bolt stretch measured": Scatter(5, "mil-hdbk-60"),
    "strain gauge": Scatter(1, "mil-hdbk-60"),
}
"""Angle tightening: 15 % in mil-hdbk-60 (turn of nut), but 25 % in nasa-std-5020b. Both stand."""


def scatter_pct(method: str) -> float:
    """Scatter of the preload by method of tightening, plus or minus [%].

    Parameters
    ----------
    method : str
        A key of `SCATTER`.

    Source
    ------
    mil-hdbk-60, nasa-std-5020b

    Examples
    --------
    >>> scatter_pct("torque wrench, lubricated"), scatter_pct("torque wrench, dry")
    (25.0, 35.0)
    """
    one_of("method", method, tuple(SCATTER), "Choose how the bolt was tightened.")
    return float(SCATTER[method].plus_minus_pct)


def preload_range_n(
    preload_n: float, *, scatter_pct: float, torque_tolerance_pct: float = 0.0, bolts: int = 1
) -> tuple[float, float]:
    r"""Smallest and largest preload of a bolt; for more bolts, of their mean at the low end.

    .. math:: F_{min} = (1 - c)(1 - s / \sqrt n) F, \quad F_{max} = (1 + c)(1 + s) F

    Parameters
    ----------
    preload_n : float
        Nominal preload F [N], 0 to 5 000 000.
    scatter_pct : float
        s [%], 0 to 60.
    torque_tolerance_pct : float
        c, tolerance of the torque itself [%], 0 to 50.
    bolts : int
        n, bolts that carry the load together, 1 to 100.

    Source
    ------
    nasa-std-5020b

    Examples
    --------
    >>> preload_range_n(38235, scatter_pct=25)
    (28676.25, 47793.75)
    """
    check_preload(preload_n)
    within("scatter_pct", scatter_pct, 0, 60, "%", "25 for a torque wrench on lubricated bolts.")
    within("torque_tolerance_pct", torque_tolerance_pct, 0, 50, "%", "Take it from the data sheet.")
    whole("bolts", bolts, 1, 100, "Count the bolts that carry the load together.")
    s, c = scatter_pct / 100, torque_tolerance_pct / 100
    return (1 - c) * (1 - s / sqrt(bolts)) * preload_n, (1 + c) * (1 + s) * preload_n


def tightening_factor(scatter_pct: float) -> float:
    r"""Largest over smallest preload: :math:`\alpha_A = (1 + s) / (1 - s)`.

    Parameters
    ----------
    scatter_pct : float
        s [%], 0 to 60.

    Source
    ------
    vdi-2230

    Examples
    --------
    >>> tightening_factor(60)
    4.0
    """
    within("scatter_pct", scatter_pct, 0, 60, "%", "25 for a torque wrench on lubricated bolts.")
    return (100 + scatter_pct) / (100 - scatter_pct)


def nut_factor_from_test(torque_nm: float, *, preload_n: float, d_mm: float) -> float:
    r"""Nut factor of a bolt whose preload was measured while it was tightened, :math:`K = M / (F d)`.

    One bolt says little: test several of the same box, surface and lubricant, and work out the limits between which
    the rest lie (`samples.tolerance_limits`).

    Parameters
    ----------
    torque_nm : float
        Torque M at which the preload was read [N·m], 0.01 to 5000.
    preload_n : float
        Preload F measured by a load cell or by stretch [N], 1 to 5 000 000.
    d_mm : float
        Nominal diameter d [mm], 1.6 to 64.

    Source
    ------
    mechanical-fastening-joining-assembly

    Examples
    --------
    >>> nut_factor_from_test(65, preload_n=38235, d_mm=10)
    0.17
    """
    within("torque_nm", torque_nm, 0.01, 5000, "N·m", "Read the torque at which the preload was measured.")
    within("preload_n", preload_n, 1, 5e6, "N", "Give newtons: 38.2 kN is 38200 N.")
    within("d_mm", d_mm, 1.6, 64, "mm", "Take the nominal diameter: 10 for M10.")
    return 1000 * torque_nm / (preload_n * d_mm)
