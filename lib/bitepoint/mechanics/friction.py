"""Friction in a bolted joint: where the torque goes, and how hard a bolt may be pulled while it is twisted.

The friction form takes the nut factor apart: pitch of the thread (the useful part), thread flanks, head.
"""

from math import cos, pi, radians, sqrt
from typing import NamedTuple

from bitepoint.mechanics.bolts import (
    check_preload,
    core_diameter_mm,
    pitch_diameter_mm,
    stress_area_mm2,
    yield_stress_mpa,
)
from bitepoint.mechanics.limits import within

_FLANK_COSINE = cos(radians(30))  # half of the 60° thread angle (source: iso-68-1)
_FRICTION_ADVICE = "Take it from the data sheet; clean steel lies near 0.12."


class TorqueBudget(NamedTuple):
    """Shares of the tightening torque [%]."""

    pitch_pct: float
    thread_pct: float
    head_pct: float


def _arms_mm(
    d_mm: float, pitch_mm: float, mu_thread: float, mu_head: float, head_mm: float
) -> tuple[float, float, float]:
    """Torque for each newton of preload: pitch, thread friction, head friction [N·mm/N]."""
    within("mu_thread", mu_thread, 0, 1, "", _FRICTION_ADVICE)
    within("mu_head", mu_head, 0, 1, "", _FRICTION_ADVICE)
    d2 = pitch_diameter_mm(d_mm, pitch_mm=pitch_mm)
    within("head_mm", head_mm, d_mm, 4 * d_mm, "mm", "Give the mean diameter of the ring the head rubs on.")
    return pitch_mm / (2 * pi), mu_thread * d2 / (2 * _FLANK_COSINE), mu_head * head_mm / 2


def torque_with_friction_nm(
    preload_n: float, *, d_mm: float, pitch_mm: float, mu_thread: float, mu_head: float, head_mm: float
) -> float:
    r"""Torque that makes a preload, from the friction in the thread and under the head.

    .. math:: M = F \left( \frac{P}{2\pi} + \frac{\mu_t d_2}{2 \cos 30°} + \frac{\mu_h D}{2} \right)

    Parameters
    ----------
    preload_n : float
        F [N], 0 to 5 000 000.
    mu_thread, mu_head : float
        Friction in the thread and under the head, 0 to 1.
    head_mm : float
        D, mean diameter of the bearing face, half of (outer + hole) [mm], d to 4 d.

    Source
    ------
    mil-hdbk-60

    Examples
    --------
    >>> torque_with_friction_nm(29600, d_mm=10, pitch_mm=1.5, mu_thread=0.12, mu_head=0.12, head_mm=12.815)
    48.34
    """
    check_preload(preload_n)
    return preload_n * sum(_arms_mm(d_mm, pitch_mm, mu_thread, mu_head, head_mm)) / 1000


def nut_factor_from_friction(
    d_mm: float, *, pitch_mm: float, mu_thread: float, mu_head: float, head_mm: float
) -> float:
    """Nut factor that belongs to given friction: the friction form divided by F d.

    Source
    ------
    mil-hdbk-60

    Examples
    --------
    >>> nut_factor_from_friction(10, pitch_mm=1.5, mu_thread=0.12, mu_head=0.12, head_mm=12.815)
    0.1633
    """
    return sum(_arms_mm(d_mm, pitch_mm, mu_thread, mu_head, head_mm)) / d_mm


def torque_budget_pct(
    d_mm: float, *, pitch_mm: float, mu_thread: float, mu_head: float, head_mm: float
) -> TorqueBudget:
    """Where the torque goes: pitch (the useful part), thread friction, head friction [%], together 100.

    Source
    ------
    mil-hdbk-60
    No published figure: the common 10/40/50 is only a rounding of it.

    Examples
    --------
    >>> torque_budget_pct(10, pitch_mm=1.5, mu_thread=0.12, mu_head=0.12, head_mm=12.815)
    TorqueBudget(pitch_pct=14.62, thread_pct=38.29, head_pct=47.09)
    """
    arms = _arms_mm(d_mm, pitch_mm, mu_thread, mu_head, head_mm)
    return TorqueBudget(*(100 * arm / sum(arms) for arm in arms))


def assembly_preload_n(
    d_mm: float, *, pitch_mm: float, prop_class: str, mu_thread: float, yield_share: float = 0.9
) -> float:
    r"""Preload at which pull and twist together use a share of the yield stress.

    .. math:: F = \frac{\nu R_p A_s}{\sqrt{1 + 3 t^2}}, \quad
        t = \frac{3 d_2}{2 d_0} \left( \frac{P}{\pi d_2} + 1.155 \mu_t \right), \quad
        d_0 = \frac{d_2 + d_3}{2}

    Parameters
    ----------
    prop_class : str
        "8.8", "10.9" or "12.9".
    mu_thread : float
        Friction in the thread, 0 to 1.
    yield_share : float
        nu, share of the yield stress, 0.1 to 1.

    Validity
    --------
    The plastic form of the twisting stress; the elastic form of mil-hdbk-60 gives less preload.

    Source
    ------
    vdi-2230

    Examples
    --------
    >>> assembly_preload_n(8, pitch_mm=1, prop_class="10.9", mu_thread=0.12)
    29733.8
    """
    within("mu_thread", mu_thread, 0, 1, "", _FRICTION_ADVICE)
    within("yield_share", yield_share, 0.1, 1, "", "0.9 is usual.")
    d2, d3 = pitch_diameter_mm(d_mm, pitch_mm=pitch_mm), core_diameter_mm(d_mm, pitch_mm=pitch_mm)
    twist = 3 * d2 / (d2 + d3) * (pitch_mm / (pi * d2) + mu_thread / _FLANK_COSINE)
    pull = stress_area_mm2(d_mm, pitch_mm=pitch_mm) * yield_stress_mpa(prop_class, d_mm=d_mm)
    return yield_share * pull / sqrt(1 + 3 * twist**2)
