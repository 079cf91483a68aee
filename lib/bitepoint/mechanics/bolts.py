"""ISO metric bolts: thread geometry, strength, and the preload that a torque makes by the nut factor.

The nut factor K lumps all friction into one figure; `friction` takes it apart.
"""

from math import pi, sqrt

from bitepoint.mechanics.limits import one_of, within

PROPERTY_CLASSES = ("8.8", "9.8", "10.9", "12.9")

PROOF_STRESS_MPA = {"8.8": 580.0, "9.8": 650.0, "10.9": 830.0, "12.9": 970.0}
"""Nominal proof stress; class 8.8 above 16 mm has 600 (source: iso-898-1)."""

YIELD_STRESS_MPA = {"8.8": 640.0, "10.9": 940.0, "12.9": 1100.0}
"""Least 0.2 % yield stress; class 8.8 above 16 mm has 660, from memory (source: iso-898-1)."""

NUT_FACTORS = {
    "not plated": 0.30,
    "zinc plated": 0.20,
    "lubricated": 0.18,
    "cadmium plated": 0.16,
    "unknown": 0.20,
}
"""Nut factor by condition (sources: mech-eng-design-9; "unknown" mech-eng-design-5). A sheet's own wins."""

_LARGEST_PRELOAD_N = 5e6
_DIAMETER_ADVICE = "Take the nominal diameter: 10 for M10."
_PITCH_ADVICE = "Read the pitch from the thread: 1.25 for M10×1.25."


def _thread(d_mm: float, pitch_mm: float) -> None:
    within("d_mm", d_mm, 1.6, 64, "mm", _DIAMETER_ADVICE)
    # No standard thread has a pitch above a quarter of its diameter; beyond it the formulas lose the core.
    within("pitch_mm", pitch_mm, 0.2, min(6.0, d_mm / 4), "mm", _PITCH_ADVICE)


def pitch_diameter_mm(d_mm: float, *, pitch_mm: float) -> float:
    r"""Pitch diameter of an ISO metric thread.

    .. math:: d_2 = d - \tfrac{3}{4} H, \quad H = \tfrac{\sqrt 3}{2} P

    Parameters
    ----------
    d_mm, pitch_mm : float
        Nominal diameter d, 1.6 to 64, and pitch P, 0.2 to d/4 and at most 6 [mm]. The same range holds for
        every function of this module.

    Source
    ------
    iso-68-1

    Examples
    --------
    >>> pitch_diameter_mm(10, pitch_mm=1.25)
    9.1881
    """
    _thread(d_mm, pitch_mm)
    return d_mm - 3 / 8 * sqrt(3) * pitch_mm


def minor_diameter_mm(d_mm: float, *, pitch_mm: float) -> float:
    r"""Basic minor diameter, that of the nut's thread: :math:`d_1 = d - \tfrac{5}{4} H`.

    Source
    ------
    iso-68-1

    Examples
    --------
    >>> minor_diameter_mm(10, pitch_mm=1.25)
    8.6468
    """
    _thread(d_mm, pitch_mm)
    return d_mm - 5 / 8 * sqrt(3) * pitch_mm


def core_diameter_mm(d_mm: float, *, pitch_mm: float) -> float:
    r"""Core diameter of the bolt's thread at the root: :math:`d_3 = d_1 - H/6`.

    Source
    ------
    iso-68-1

    Examples
    --------
    >>> core_diameter_mm(10, pitch_mm=1.25)
    8.4664
    """
    return minor_diameter_mm(d_mm, pitch_mm=pitch_mm) - sqrt(3) / 12 * pitch_mm


def stress_area_mm2(d_mm: float, *, pitch_mm: float) -> float:
    r"""Stress area of the thread.

    .. math:: A_s = \frac{\pi}{4} \left( \frac{d_2 + d_3}{2} \right)^2

    Source
    ------
    iso-898-1

    Examples
    --------
    >>> stress_area_mm2(10, pitch_mm=1.25)
    61.199
    """
    d2 = pitch_diameter_mm(d_mm, pitch_mm=pitch_mm)
    return pi / 4 * ((d2 + core_diameter_mm(d_mm, pitch_mm=pitch_mm)) / 2) ** 2


def proof_stress_mpa(prop_class: str, *, d_mm: float) -> float:
    """Nominal proof stress of a property class: up to it a bolt is sure to stay straight and come back.

    Parameters
    ----------
    prop_class : str
        "8.8", "9.8" (up to 16 mm only, from memory), "10.9" or "12.9".
    d_mm : float
        Nominal diameter [mm], 1.6 to 64.

    Source
    ------
    iso-898-1

    Examples
    --------
    >>> proof_stress_mpa("8.8", d_mm=16), proof_stress_mpa("8.8", d_mm=18)
    (580.0, 600.0)
    """
    one_of("prop_class", prop_class, PROPERTY_CLASSES, "Read the marking on the head of the bolt.")
    largest = 16 if prop_class == "9.8" else 64
    within("d_mm", d_mm, 1.6, largest, "mm", _DIAMETER_ADVICE)
    return 600.0 if prop_class == "8.8" and d_mm > 16 else PROOF_STRESS_MPA[prop_class]


def yield_stress_mpa(prop_class: str, *, d_mm: float) -> float:
    """Least 0.2 % yield stress of a property class, "8.8", "10.9" or "12.9".

    Source
    ------
    iso-898-1

    Examples
    --------
    >>> yield_stress_mpa("10.9", d_mm=10)
    940.0
    """
    one_of("prop_class", prop_class, tuple(YIELD_STRESS_MPA), "Read the marking on the head of the bolt.")
    within("d_mm", d_mm, 1.6, 64, "mm", _DIAMETER_ADVICE)
    return 660.0 if prop_class == "8.8" and d_mm > 16 else YIELD_STRESS_MPA[prop_class]


def proof_load_n(d_mm: float, *, pitch_mm: float, prop_class: str) -> float:
    """Proof load: stress area times proof stress.

    Source
    ------
    iso-898-1

    Examples
    --------
    >>> proof_load_n(10, pitch_mm=1.25, prop_class="10.9")
    50794.8
    """
    return stress_area_mm2(d_mm, pitch_mm=pitch_mm) * proof_stress_mpa(prop_class, d_mm=d_mm)


def share_of_proof_pct(preload_n: float, *, d_mm: float, pitch_mm: float, prop_class: str) -> float:
    """Preload in percent of the proof load; above 100 nobody guarantees that the bolt stays straight.

    Parameters
    ----------
    preload_n : float
        Preload [N], 0 to 5 000 000.

    Source
    ------
    iso-898-1
    No published figure: a ratio of two checked figures.

    Examples
    --------
    >>> share_of_proof_pct(38235, d_mm=10, pitch_mm=1.25, prop_class="10.9")
    75.273
    """
    check_preload(preload_n)
    return 100 * preload_n / proof_load_n(d_mm, pitch_mm=pitch_mm, prop_class=prop_class)


def check_preload(preload_n: float) -> None:
    """Raise `OutOfRange` unless the preload lies within what this floor calculates with [N]."""
    within("preload_n", preload_n, 0, _LARGEST_PRELOAD_N, "N", "Give newtons: 38.2 kN is 38200 N.")


def _nut_factor(nut_factor: float) -> None:
    within("nut_factor", nut_factor, 0.05, 0.6, "", "Take it from the data sheet; 0.16 to 0.20 is usual.")


def preload_from_torque_n(torque_nm: float, *, d_mm: float, nut_factor: float) -> float:
    r"""Preload that a torque makes, by the nut factor.

    .. math:: F = M / (K d)

    Parameters
    ----------
    torque_nm : float
        Tightening torque M [N·m], 0 to 5000.
    d_mm : float
        Nominal diameter [mm], 1.6 to 64.
    nut_factor : float
        K, 0.05 to 0.6.

    Validity
    --------
    Below yield. K holds for the condition it was measured in: oil on a bolt meant to be dry lowers it.

    Source
    ------
    nasa-tm-106943

    Examples
    --------
    >>> preload_from_torque_n(65, d_mm=10, nut_factor=0.17)
    38235.3
    """
    within("torque_nm", torque_nm, 0, 5000, "N·m", "Take the torque from the data sheet.")
    within("d_mm", d_mm, 1.6, 64, "mm", _DIAMETER_ADVICE)
    _nut_factor(nut_factor)
    return torque_nm / (nut_factor * d_mm / 1000)


def torque_for_preload_nm(preload_n: float, *, d_mm: float, nut_factor: float) -> float:
    """Torque that makes a preload, by the nut factor: M = K F d, the inverse of `preload_from_torque_n`.

    Source
    ------
    nasa-tm-106943

    Examples
    --------
    >>> torque_for_preload_nm(38235.3, d_mm=10, nut_factor=0.17)
    65.0
    """
    check_preload(preload_n)
    within("d_mm", d_mm, 1.6, 64, "mm", _DIAMETER_ADVICE)
    _nut_factor(nut_factor)
    return nut_factor * preload_n * d_mm / 1000
