"""Elastic interaction: tightening one bolt of a ring relaxes the others (linear model).

In one pass the order does not change the mean preload, nor does the star lessen its scatter: it changes the
one-sidedness.
More stages and a second round bring the preload back.
"""

from collections.abc import Sequence
from math import cos, hypot, radians, sin

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.circle import MAX_BOLTS, check_circle
from bitepoint.mechanics.limits import whole, within


def preloads_after(
    passes: Sequence[tuple[Sequence[int], float]],
    bolts: int,
    *,
    loss: Sequence[float],
    start: Sequence[float] = (),
) -> tuple[float, ...]:
    r"""Preload of each bolt after some passes, when tightening one bolt relaxes the others (linear model).

    Raising bolt j by :math:`\Delta F_j` takes :math:`a_{|i-j|} \Delta F_j` from every bolt i that already
    carries load, down to slack and no further (a bolt cannot push). A wrench set to a target never loosens:
    a bolt above the target stays as it is.

    Parameters
    ----------
    passes : sequence of (order, target)
        Bolt numbers in the order of tightening, and the preload the wrench stops at (any unit), 0 to 1e6.
    bolts : int
        Number of bolts on the circle, 2 to 24.
    loss : sequence of float
        a_1, a_2, …: share lost by the next bolt, the next but one, and so on, 0 to 0.5 each, all round less
        than 1.
    start : sequence of float, shape (bolts,)
        Preload before the first pass, 0 to 1e6; empty means all slack.

    Returns
    -------
    tuple of float, shape (bolts,)

    Source
    ------
    derived
    No published figure: measured losses differ from joint to joint; checked by exact sums and a linear solver.

    Examples
    --------
    Four bolts, 10 % to each neighbour: the mean is 0.9 whatever the order.

    >>> preloads_after([((1, 2, 3, 4), 1.0)], 4, loss=[0.1])
    (0.8, 0.9, 0.9, 1.0)
    >>> preloads_after([((1, 3, 2, 4), 1.0)], 4, loss=[0.1])
    (0.8, 1.0, 0.8, 1.0)
    """
    share = _loss_by_distance(bolts, loss)
    load = [float(f) for f in start] or [0.0] * bolts
    if len(load) != bolts:
        raise OutOfRange("start", f"{bolts} preloads", f"{len(load)}", "Give one for each bolt, or none.")
    for before in start:
        within("start", before, 0, 1e6, "", "Give the preload each bolt has before the first pass.")
    for order, target in passes:
        within("target", target, 0, 1e6, "", "Give the preload at which the wrench stops.")
        for bolt in order:
            j = whole("bolt number", bolt, 1, bolts, "Bolts are numbered from 1 round the circle.") - 1
            rise = target - load[j]
            if rise <= 0:
                continue
            for i, before in enumerate(load):
                if before > 0 and i != j:
                    load[i] = max(0.0, before - share[(i - j) % bolts] * rise)
            load[j] = target
    return tuple(load)


def tilt(angles_deg: Sequence[float], preloads: Sequence[float]) -> float:
    r"""One-sidedness of the preloads, 0 for an even ring, 1 for one bolt.

    .. math:: T = |\sum_k F_k e^{i \varphi_k}| / \sum_k F_k

    Source
    ------
    derived
    No published figure: a teaching measure of ours.

    Examples
    --------
    >>> tilt([0, 60, 120, 180, 240, 300], [.8, .9, .9, .9, .9, 1])
    0.0185185
    """
    check_circle(angles_deg)
    total = sum(preloads)
    if len(preloads) != len(angles_deg) or min(preloads) < 0 or not 0 < total < 1e9:
        rule = f"{len(angles_deg)} figures, none below 0, not all 0"
        raise OutOfRange("preloads", rule, str(list(preloads))[:60], "Give one for each bolt.")
    x = sum(f * cos(radians(a)) for f, a in zip(preloads, angles_deg, strict=True))
    y = sum(f * sin(radians(a)) for f, a in zip(preloads, angles_deg, strict=True))
    return hypot(x, y) / total


def _loss_by_distance(bolts: int, loss: Sequence[float]) -> list[float]:
    """Share lost at each distance round the circle (index = places apart, both ways round)."""
    whole("bolts", bolts, 2, MAX_BOLTS, "Count the bolts of one circle.")
    if len(loss) > bolts // 2:
        rule = f"at most {bolts // 2} figures for {bolts} bolts"
        raise OutOfRange("loss", rule, f"{len(loss)}", "Leave out the far ones.")
    share = [0.0] * bolts
    for places, a in enumerate(loss, start=1):
        within("loss", a, 0, 0.5, "", "Give the share that a bolt loses, such as 0.1.")
        share[places] = share[bolts - places] = float(a)
    if sum(share) >= 1:
        rule = "less than 1 when added up all round"
        raise OutOfRange("loss", rule, f"{sum(share):.10g}", "Give smaller shares.")
    return share
