"""What the order of tightening does to a ring of bolts: out-of-balance while you work, preload left afterwards.

Two separate effects, and the course teaches both:

* *Out-of-balance*: the length of the vector sum of the bolts already tight, each counted as one. A star order keeps
  it small, so the part is not pulled down on one side.
* *Elastic interaction*: tightening a bolt relaxes its neighbours. In one pass the star neither lifts the mean
  preload nor evens it; more stages and a second round bring the preload back.
"""

import heapq
from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import cos, hypot, radians, sin

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within

BALANCE_ALLOWANCE = 0.25
"""How far above the best possible peak an order may go and still count as a star (our rule; source: derived)."""

_MAX_BOLTS = 24


def even_circle_deg(bolts: int) -> tuple[float, ...]:
    """Return the angles of evenly spaced bolts, in degrees, bolt 1 at 0.

    Examples
    --------
    >>> even_circle_deg(4)
    (0.0, 90.0, 180.0, 270.0)
    """
    whole("bolts", bolts, 2, _MAX_BOLTS, "Count the bolts of one circle.")
    return tuple(360 * i / bolts for i in range(bolts))


def out_of_balance(angles_deg: Sequence[float], tight: Sequence[int]) -> float:
    r"""Length of the vector sum of the tightened bolts, each of length 1.

    .. math:: R = |\sum_k e^{i \varphi_k}|

    Parameters
    ----------
    angles_deg : sequence of float, shape (n,)
        Position of each bolt on its circle [degrees].
    tight : sequence of int
        Numbers of the bolts that are tight, 1 to n.

    Source
    ------
    derived

    Examples
    --------
    Two opposite bolts balance, two neighbours of six do not:

    >>> out_of_balance(even_circle_deg(6), [1, 4])
    0.0
    >>> out_of_balance(even_circle_deg(6), [1, 2])
    1.7320508
    """
    _check_circle(angles_deg)
    for bolt in tight:
        whole("bolt number", bolt, 1, len(angles_deg), "Bolts are numbered from 1 round the circle.")
    x, y = _vector_sum(angles_deg, tight)
    return hypot(x, y)


def vector_sum(angles_deg: Sequence[float], tight: Sequence[int]) -> tuple[float, float]:
    """Vector sum of the tightened bolts as (x, y), bolt 1 of an even circle pointing along +x.

    Examples
    --------
    >>> vector_sum(even_circle_deg(4), [1, 2])
    (1.0, 1.0)
    """
    _check_circle(angles_deg)
    return _vector_sum(angles_deg, tight)


def peak_out_of_balance(angles_deg: Sequence[float], order: Sequence[int]) -> float:
    """Largest out-of-balance met while tightening in this order.

    Parameters
    ----------
    angles_deg : sequence of float, shape (n,)
        Position of each bolt [degrees].
    order : sequence of int
        Bolt numbers in the order of tightening, each at most once.

    Source
    ------
    derived

    Examples
    --------
    Round the circle reaches 1/sin(pi/n), the star never more than one bolt:

    >>> peak_out_of_balance(even_circle_deg(8), [1, 2, 3, 4, 5, 6, 7, 8])
    2.6131259
    >>> peak_out_of_balance(even_circle_deg(8), [1, 5, 3, 7, 2, 6, 4, 8])
    1.0
    """
    _check_circle(angles_deg)
    peak = x = y = 0.0
    for bolt in order:
        whole("bolt number", bolt, 1, len(angles_deg), "Bolts are numbered from 1 round the circle.")
        x += cos(radians(angles_deg[bolt - 1]))
        y += sin(radians(angles_deg[bolt - 1]))
        peak = max(peak, hypot(x, y))
    return peak


def best_peak_out_of_balance(angles_deg: Sequence[float]) -> float:
    """Smallest peak that any order of this circle can reach, found by search and remembered for the circle.

    The search walks sets of tightened bolts, always on from the set whose worst moment so far is smallest, so the
    first complete set it meets is the best (a bottleneck shortest path).

    Source
    ------
    derived

    Examples
    --------
    >>> best_peak_out_of_balance(even_circle_deg(6))
    1.0
    """
    _check_circle(angles_deg)
    return _search(tuple(float(a) for a in angles_deg))[0]


def is_star(angles_deg: Sequence[float], order: Sequence[int]) -> bool:
    """Whether `order` tightens every bolt once and keeps within the allowance of the best possible peak.

    Examples
    --------
    >>> is_star(even_circle_deg(6), [1, 4, 2, 5, 3, 6])
    True
    >>> is_star(even_circle_deg(6), [1, 2, 3, 4, 5, 6])
    False
    """
    if sorted(order) != list(range(1, len(angles_deg) + 1)):
        return False
    allowed = best_peak_out_of_balance(angles_deg) + BALANCE_ALLOWANCE
    return peak_out_of_balance(angles_deg, order) <= allowed + 1e-9


def star_order(angles_deg: Sequence[float]) -> tuple[int, ...]:
    """One good order: it reaches the best possible peak, with as few neighbours in a row as we can find.

    Tried in turn: opposite pairs, each next pair farthest from those done; opposite pairs round the ring; a constant
    step of half the ring (odd numbers of bolts). Where none reaches the best peak, the search's own order is returned.

    Source
    ------
    mil-hdbk-60

    Examples
    --------
    >>> star_order(even_circle_deg(6))
    (1, 4, 2, 5, 3, 6)
    >>> star_order(even_circle_deg(8))
    (1, 5, 3, 7, 2, 6, 4, 8)
    >>> star_order(even_circle_deg(5))
    (1, 3, 5, 2, 4)
    """
    _check_circle(angles_deg)
    angles = tuple(float(a) for a in angles_deg)
    best, searched = _search(angles)
    n = len(angles)
    round_the_ring = tuple(b for i in range(n // 2) for b in (i + 1, i + 1 + n // 2))
    half_steps = tuple(i * (n // 2) % n + 1 for i in range(n))
    candidates = [_pairs_walk(angles), round_the_ring, half_steps, searched]
    good = [
        order
        for order in candidates
        if len(set(order)) == n and peak_out_of_balance(angles, order) <= best + 1e-9
    ]
    return min(good, key=lambda order: len(neighbours_in_a_row(angles, order)))


def neighbours_in_a_row(angles_deg: Sequence[float], order: Sequence[int]) -> tuple[tuple[int, int], ...]:
    """Pairs that follow each other in `order` and sit next to each other on the circle (for five bolts and more).

    Examples
    --------
    >>> neighbours_in_a_row(even_circle_deg(8), [1, 5, 4, 8, 3, 7, 2, 6])
    ((5, 4),)
    """
    _check_circle(angles_deg)
    if len(angles_deg) < 5:
        return ()
    ring = sorted(range(1, len(angles_deg) + 1), key=lambda bolt: angles_deg[bolt - 1] % 360)
    place = {bolt: i for i, bolt in enumerate(ring)}
    n = len(ring)
    return tuple((a, b) for a, b in pairwise(order) if (place[a] - place[b]) % n in (1, n - 1))


def stage_torques_nm(final_nm: float, *, percentages: Sequence[float] = (30, 70, 100)) -> tuple[float, ...]:
    """Torque of each stage when the sheet gives only the final value.

    Parameters
    ----------
    final_nm : float
        Final torque [N·m].
    percentages : sequence of float
        Strictly increasing, the last one 100 [%]. 30/70/100 is a workshop rule (common practice, no source);
        US Army manuals use 70/100 above 41 N·m (source key tm-army-70-100).

    Source
    ------
    common-practice

    Examples
    --------
    >>> stage_torques_nm(60, percentages=(70, 100))
    (42.0, 60.0)
    """
    within("final_nm", final_nm, 0.1, 5000, "N·m", "Take the final torque from the data sheet.")
    if not percentages or list(percentages) != sorted(set(percentages)) or percentages[0] <= 0 or percentages[-1] != 100:
        raise OutOfRange(
            "percentages",
            "strictly increasing, above 0 and ending with 100",
            str(list(percentages))[:60],
            "Write for example (30, 70, 100).",
        )
    return tuple(final_nm * p / 100 for p in percentages)


def preloads_after(
    passes: Sequence[tuple[Sequence[int], float]], bolts: int, *, loss: Sequence[float], start: Sequence[float] = ()
) -> tuple[float, ...]:
    r"""Preload of each bolt after some passes, when tightening one bolt relaxes the others (linear model).

    Raising bolt j by :math:`\Delta F_j` takes :math:`a_{|i-j|} \Delta F_j` from every bolt i that already carries load;
    a wrench set to a target never loosens, so a bolt above the target stays as it is.

    Parameters
    ----------
    passes : sequence of (order, target)
        Bolt numbers in the order of tightening, and the preload the wrench stops at (any unit, e.g. share of target).
    bolts : int
        Number of bolts on the circle, 2 to 24.
    loss : sequence of float
        a_1, a_2, …: share lost by the next bolt, the next but one, and so on [0 to 0.5 each, all round less than 1].
    start : sequence of float, shape (bolts,)
        Preload before the first pass; empty means all slack.

    Returns
    -------
    tuple of float, shape (bolts,)

    Source
    ------
    derived

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
        raise OutOfRange("start", f"{bolts} preloads", f"{len(load)}", "Give one preload for each bolt, or none.")
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
    r"""One-sidedness of the preloads: :math:`|\sum F_k e^{i \varphi_k}| / \sum F_k`, 0 for an even ring, 1 for one bolt.

    Source
    ------
    derived

    Examples
    --------
    >>> tilt(even_circle_deg(6), [.8, .9, .9, .9, .9, 1])
    0.0185185
    """
    _check_circle(angles_deg)
    total = sum(preloads)
    if len(preloads) != len(angles_deg) or min(preloads) < 0 or not 0 < total < 1e9:
        raise OutOfRange(
            "preloads", f"{len(angles_deg)} figures, none below 0, not all 0", str(list(preloads))[:60], "One for each bolt."
        )
    x = sum(f * cos(radians(a)) for f, a in zip(preloads, angles_deg, strict=True))
    y = sum(f * sin(radians(a)) for f, a in zip(preloads, angles_deg, strict=True))
    return hypot(x, y) / total


def _loss_by_distance(bolts: int, loss: Sequence[float]) -> list[float]:
    """Share lost at each distance round the circle (index = places apart, both ways round)."""
    whole("bolts", bolts, 2, _MAX_BOLTS, "Count the bolts of one circle.")
    if len(loss) > bolts // 2:
        raise OutOfRange("loss", f"at most {bolts // 2} figures for {bolts} bolts", f"{len(loss)}", "Leave out the far ones.")
    share = [0.0] * bolts
    for places, a in enumerate(loss, start=1):
        within("loss", a, 0, 0.5, "", "Give the share that a bolt loses, such as 0.1.")
        share[places] = share[bolts - places] = float(a)
    if sum(share) >= 1:
        raise OutOfRange("loss", "less than 1 when added up all round", f"{sum(share):.10g}", "Give smaller shares.")
    return share


def _check_circle(angles_deg: Sequence[float]) -> None:
    whole("number of angles", len(angles_deg), 2, _MAX_BOLTS, "Give the angle of each bolt of one circle.")
    for angle in angles_deg:
        within("angle", angle, -360, 720, "°", "Measure from bolt 1 round the circle.")


def _vector_sum(angles_deg: Sequence[float], tight: Sequence[int]) -> tuple[float, float]:
    x = sum(cos(radians(angles_deg[b - 1])) for b in tight)
    y = sum(sin(radians(angles_deg[b - 1])) for b in tight)
    return x, y


@lru_cache(maxsize=256)
def _search(angles: tuple[float, ...]) -> tuple[float, tuple[int, ...]]:
    units = [(cos(radians(a)), sin(radians(a))) for a in angles]
    everything = (1 << len(units)) - 1
    # Heap of (worst so far, bolts still to do, order, set, vector sum): fewer bolts to do first among equals.
    heap: list[tuple[float, int, tuple[int, ...], int, float, float]] = [(0.0, len(units), (), 0, 0.0, 0.0)]
    seen: set[int] = set()
    while heap:
        worst, left, order, done, x, y = heapq.heappop(heap)
        if done == everything:
            return worst, order
        if done in seen:
            continue
        seen.add(done)
        for i, (ux, uy) in enumerate(units):
            if not done >> i & 1:
                peak = max(worst, round(hypot(x + ux, y + uy), 9))
                heapq.heappush(heap, (peak, left - 1, (*order, i + 1), done | 1 << i, x + ux, y + uy))
    raise AssertionError("every circle has an order")


def _pairs_walk(angles: tuple[float, ...]) -> tuple[int, ...]:
    """Take a bolt, then the one nearest to opposite; next start where it is farthest from every bolt done."""
    left = set(range(1, len(angles) + 1))
    order: list[int] = []

    def apart(a: int, b: int) -> float:
        turn = abs(angles[a - 1] - angles[b - 1]) % 360
        return min(turn, 360 - turn)

    while left:
        first = min(left, key=lambda b: (-round(min((apart(b, d) for d in order), default=0.0), 6), b))
        left.discard(first)
        order.append(first)
        if left:
            partner = min(left, key=lambda b: (-round(apart(b, first), 6), b))
            left.discard(partner)
            order.append(partner)
    return tuple(order)
