"""Manual lifting by the revised NIOSH equation: what mass a lift allows, and how far a load exceeds it.

The equation is for two-handed lifting by adults, standing, on a firm floor. It does NOT cover one-handed,
seated or kneeling lifting, tight space, an unsteady load, carrying and pushing, more than 8 hours, so neither
a gearbox held overhead under a car nor work on a creeper: there, use the gearbox jack. Under 18, the
employer's young-person rules come before any mass worked out here.
"""

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of, within

LOAD_CONSTANT_KG = 23.0
"""Mass for the best of all lifts (source: niosh-94-110)."""
COUPLINGS = ("good", "fair", "poor")

_COUPLING = {"good": (1.0, 1.0), "fair": (0.95, 1.0), "poor": (0.90, 0.90)}
# Table 5 of niosh-94-110: lifts a minute.
_RATES = (0.2, 0.5, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15)
# Table 5 of niosh-94-110: frequency multipliers by longest duration [h]; the last figures of a row hold only from 75 cm upward.
_FREQUENCY: dict[int, tuple[tuple[float, ...], int]] = {
    1: ((1, 0.97, 0.94, 0.91, 0.88, 0.84, 0.80, 0.75, 0.70, 0.60, 0.52, 0.45, 0.41, 0.37, 0.34, 0.31, 0.28), 14),
    2: ((0.95, 0.92, 0.88, 0.84, 0.79, 0.72, 0.60, 0.50, 0.42, 0.35, 0.30, 0.26, 0.23, 0.21), 12),
    8: ((0.85, 0.81, 0.75, 0.65, 0.55, 0.45, 0.35, 0.27, 0.22, 0.18, 0.15, 0.13), 10),
}


def horizontal_multiplier(horizontal_cm: float) -> float:
    r"""HM = 25/H; 1 up to 25 cm, 0 beyond 63 cm: by the published rule the lift is then not allowed at all.

    Parameters
    ----------
    horizontal_cm : float
        Hands to the middle between the ankles, H [cm], 0 to 200.

    Source
    ------
    niosh-94-110

    Examples
    --------
    >>> horizontal_multiplier(40)
    0.625
    """
    h = within("horizontal_cm", horizontal_cm, 0, 200, "cm", "Measure from the ankles to the hands.")
    if h > 63:
        return 0.0
    return 1.0 if h <= 25 else 25 / h


def vertical_multiplier(vertical_cm: float) -> float:
    r"""VM = 1 - 0.003 |V - 75|, best at 75 cm; 0 above 175 cm.

    Source
    ------
    niosh-94-110

    Examples
    --------
    >>> vertical_multiplier(20)
    0.835
    """
    v = within("vertical_cm", vertical_cm, 0, 300, "cm", "Measure from the floor to the hands.")
    return 0.0 if v > 175 else 1 - 0.003 * abs(v - 75)


def distance_multiplier(distance_cm: float) -> float:
    r"""DM = 0.82 + 4.5/D; 1 up to 25 cm, 0 beyond 175 cm.

    Source
    ------
    niosh-94-110

    Examples
    --------
    >>> distance_multiplier(80)
    0.876
    """
    d = within("distance_cm", distance_cm, 0, 300, "cm", "How far the load is raised or lowered.")
    if d > 175:
        return 0.0
    return 1.0 if d <= 25 else 0.82 + 4.5 / d


def asymmetry_multiplier(asymmetry_deg: float) -> float:
    r"""AM = 1 - 0.0032 A; 0 beyond 135 degrees of twist.

    Source
    ------
    niosh-94-110

    Examples
    --------
    >>> asymmetry_multiplier(30)
    0.904
    """
    a = within("asymmetry_deg", asymmetry_deg, 0, 180, "°", "How far the load stands beside you.")
    return 0.0 if a > 135 else 1 - 0.0032 * a


def frequency_multiplier(lifts_per_minute: float, *, duration_h: float, vertical_cm: float) -> float:
    """FM from the published table; between two rows the smaller figure is taken (the safe side).

    Parameters
    ----------
    lifts_per_minute : float
        0 to 60; up to 0.2 counts as 0.2, by the published rule; above 15 gives 0.
    duration_h : float
        Duration of the lifting, above 0 to 8 h: columns up to 1, 2 and 8 h.
    vertical_cm : float
        Height of the hands; the highest rates are allowed only from 75 cm upward.

    Source
    ------
    niosh-94-110

    Examples
    --------
    >>> frequency_multiplier(0.2, duration_h=1, vertical_cm=20)
    1.0
    >>> frequency_multiplier(13, duration_h=1, vertical_cm=80), frequency_multiplier(13, duration_h=1, vertical_cm=20)
    (0.34, 0.0)
    """
    rate = within("lifts_per_minute", lifts_per_minute, 0, 60, "", "Count the lifts of 15 minutes, divide by 15.")
    hours = within("duration_h", duration_h, 0.01, 8, "h", "The equation does not cover more than 8 hours.")
    v = within("vertical_cm", vertical_cm, 0, 300, "cm", "Measure from the floor to the hands.")
    table, low_rows = _FREQUENCY[next(limit for limit in _FREQUENCY if hours <= limit)]
    row = sum(rate > r for r in _RATES)
    if row >= len(table) or (row >= low_rows and v < 75):
        return 0.0
    return float(table[row])


def coupling_multiplier(coupling: str, *, vertical_cm: float) -> float:
    """CM for the grip: "good" (handles), "fair", "poor" (no hold); fair counts as good from 75 cm upward.

    Source
    ------
    niosh-94-110

    Examples
    --------
    >>> coupling_multiplier("fair", vertical_cm=20)
    0.95
    """
    one_of("coupling", coupling, COUPLINGS, "Good has handles, poor has nothing to hold.")
    v = within("vertical_cm", vertical_cm, 0, 300, "cm", "Measure from the floor to the hands.")
    return _COUPLING[coupling][v >= 75]


def recommended_weight_limit_kg(
    horizontal_cm: float,
    *,
    vertical_cm: float,
    distance_cm: float,
    asymmetry_deg: float = 0.0,
    lifts_per_minute: float = 0.2,
    duration_h: float = 1.0,
    coupling: str = "fair",
) -> float:
    r"""Recommended weight limit of a lift, :math:`RWL = 23 \cdot HM \cdot VM \cdot DM \cdot AM \cdot FM \cdot CM`.

    0 means: not to be lifted by hand in this way at all.

    Parameters
    ----------
    horizontal_cm, vertical_cm, distance_cm, asymmetry_deg, lifts_per_minute, duration_h, coupling
        As for the multipliers. Work out start and end of the lift; the smaller limit counts.

    Validity
    --------
    See the head of this module: what the equation does not cover, and the rule for those under 18.

    Source
    ------
    niosh-94-110

    Examples
    --------
    A bare gearbox from the floor to the bench:

    >>> recommended_weight_limit_kg(45, vertical_cm=15, distance_cm=100, asymmetry_deg=30, coupling="poor")
    7.37
    """
    return (
        LOAD_CONSTANT_KG
        * horizontal_multiplier(horizontal_cm)
        * vertical_multiplier(vertical_cm)
        * distance_multiplier(distance_cm)
        * asymmetry_multiplier(asymmetry_deg)
        * frequency_multiplier(lifts_per_minute, duration_h=duration_h, vertical_cm=vertical_cm)
        * coupling_multiplier(coupling, vertical_cm=vertical_cm)
    )


def lifting_index(load_kg: float, *, limit_kg: float) -> float:
    r"""Lifting index, :math:`LI = L / RWL`: aim at 1 or less; above 3 most people are at increased risk.

    Raises
    ------
    OutOfRange
        Also when the limit is 0: then no mass is allowed, and there is no index.

    Source
    ------
    niosh-94-110

    Examples
    --------
    >>> lifting_index(35, limit_kg=7.37)
    4.75
    """
    load = within("load_kg", load_kg, 0, 1000, "kg", "Weigh the part or take its mass from the data sheet.")
    limit = within("limit_kg", limit_kg, 0, LOAD_CONSTANT_KG, "kg", "Work out the recommended weight limit first.")
    if limit < 1e-6:
        raise OutOfRange(
            "limit_kg", "above 0", f"{limit:.10g} kg", "No mass may be lifted like this: use a lifting aid."
        )
    return load / limit
