"""Engine speed against road speed: gear speed, the gear a log was in, and clutch slip with its uncertainty.

Slip is what a worn clutch does: the engine turns faster than the gearbox input. It shows only at full load in
a high gear, measured on the road by a driver authorised by the workshop; these functions work on what was
noted.
"""

from collections.abc import Sequence
from math import hypot, inf, log

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within


def road_speed_kmh(
    input_rpm: float, *, gear_ratio: float, final_ratio: float, rolling_circumference_mm: float
) -> float:
    r"""Road speed at a speed of the gearbox input, :math:`v = n C_R/(i_g i_f)`.

    Parameters
    ----------
    input_rpm : float
        Speed of the gearbox input; the engine's, when the clutch does not slip [rpm], 0 to 12 000.
    gear_ratio, final_ratio : float
        i_g 0.3 to 20 and i_f 1 to 15.
    rolling_circumference_mm : float
        C_R [mm], 900 to 4000; see tyres.rolling_circumference_mm.

    Source
    ------
    derived

    Examples
    --------
    >>> road_speed_kmh(3000, gear_ratio=1, final_ratio=4, rolling_circumference_mm=1927.295)
    86.728
    """
    n = within("input_rpm", input_rpm, 0, 12_000, "rpm", "Give turns a minute.")
    return n * kmh_per_rpm(gear_ratio, final_ratio, rolling_circumference_mm)


def input_speed_rpm(
    road_speed_kmh: float, *, gear_ratio: float, final_ratio: float, rolling_circumference_mm: float
) -> float:
    r"""Speed of the gearbox input at a road speed, :math:`n = v \, i_g i_f / C_R`.

    Validity
    --------
    speed 0 to 350 km/h; others as for `road_speed_kmh`.

    Source
    ------
    derived
    No published figure: the inverse of the road speed, which is checked.

    Examples
    --------
    >>> input_speed_rpm(90, gear_ratio=0.9, final_ratio=3.9, rolling_circumference_mm=1927.295)
    2731.81
    """
    v = within("road_speed_kmh", road_speed_kmh, 0, 350, "km/h", "Give the true road speed.")
    return v / kmh_per_rpm(gear_ratio, final_ratio, rolling_circumference_mm)


def slip_percent(
    engine_rpm: float,
    *,
    road_speed_kmh: float,
    gear_ratio: float,
    final_ratio: float,
    rolling_circumference_mm: float,
) -> float:
    r"""Clutch slip as a share of engine speed, :math:`s = 100 \, (1 - n_{in}/n_e)`.

    Negative figures are not mended: they say that a speed, a ratio or the tyre is wrong.

    Parameters
    ----------
    engine_rpm : float
        Engine speed n_e at full load [rpm], 300 to 12 000.
    road_speed_kmh, gear_ratio, final_ratio, rolling_circumference_mm
        As for `input_speed_rpm`.

    Source
    ------
    derived

    Examples
    --------
    >>> shared = dict(road_speed_kmh=90, gear_ratio=0.9, final_ratio=3.9)
    >>> slip_percent(3000, rolling_circumference_mm=1927.295, **shared)
    8.940
    >>> slip_percent(3000, rolling_circumference_mm=1985.172, **shared)  # unloaded tyre: 2.7 points too many
    11.595
    """
    n = within("engine_rpm", engine_rpm, 300, 12_000, "rpm", "A running engine turns faster than 300 rpm.")
    return 100 * (
        1
        - input_speed_rpm(
            road_speed_kmh,
            gear_ratio=gear_ratio,
            final_ratio=final_ratio,
            rolling_circumference_mm=rolling_circumference_mm,
        )
        / n
    )


def slip_uncertainty_percent(
    slip_percent: float, *, engine_speed_u: float, road_speed_u: float, circumference_u: float
) -> float:
    r"""Standard uncertainty of a slip figure, in points, from relative uncertainties.

    .. math:: u(s) = (100 - s) \sqrt{u_n^2 + u_v^2 + u_C^2}

    Parameters
    ----------
    slip_percent : float
        The slip [%], -1000 to 100.
    engine_speed_u, road_speed_u, circumference_u : float
        Relative standard uncertainties (0.01 is 1 %), 0 to 0.5 each.

    Validity
    --------
    The three errors are independent; ratios are exact (teeth are counted).

    Source
    ------
    jcgm-100

    Examples
    --------
    1 % each: a slip of 2 % is no finding.

    >>> slip_uncertainty_percent(2, engine_speed_u=0.01, road_speed_u=0.01, circumference_u=0.01)
    1.697
    """
    s = within("slip_percent", slip_percent, -1000, 100, "%", "Work out the slip first.")
    advice = "Give a share: 0.01 for 1 %."
    n = within("engine_speed_u", engine_speed_u, 0, 0.5, "", advice)
    v = within("road_speed_u", road_speed_u, 0, 0.5, "", advice)
    c = within("circumference_u", circumference_u, 0, 0.5, "", advice)
    return (100 - s) * hypot(n, v, c)


def gear_in_use(
    engine_rpm: float,
    *,
    road_speed_kmh: float,
    gear_ratios: Sequence[float],
    final_ratio: float,
    rolling_circumference_mm: float,
    within_percent: float = 4.0,
) -> int | None:
    r"""Gear, counted from 1, whose ratio fits engine speed and road speed; None when none fits.

    A slipping clutch looks like a lower gear: find the gear from a part of the log with a light foot, then
    look for slip at full load in that same gear.

    Parameters
    ----------
    engine_rpm, road_speed_kmh : float
        300 to 12 000 rpm, 1 to 350 km/h.
    gear_ratios : sequence of float
        Ratios from first gear upward, 1 to 12 of them.
    final_ratio, rolling_circumference_mm : float
        As for `road_speed_kmh`.
    within_percent : float
        How far the ratio may be off [%], 0.1 to 10.

    Source
    ------
    derived
    No published figure: compares checked road speeds.

    Examples
    --------
    >>> ratios = (3.64, 2.05, 1.33, 0.98, 0.78)
    >>> car = dict(gear_ratios=ratios, final_ratio=4.12, rolling_circumference_mm=1739)
    >>> gear_in_use(3600, road_speed_kmh=68.6, **car)
    3
    >>> gear_in_use(3600, road_speed_kmh=60, **car) is None
    True
    """
    within("engine_rpm", engine_rpm, 300, 12_000, "rpm", "A running engine turns faster than 300 rpm.")
    within("road_speed_kmh", road_speed_kmh, 1, 350, "km/h", "A standing car shows no gear.")
    within("within_percent", within_percent, 0.1, 10, "%", "4 % covers tyre wear and the instruments.")
    if not 1 <= len(gear_ratios) <= 12:
        raise OutOfRange("gear_ratios", "1 to 12 ratios", f"{len(gear_ratios)}", "Take them from the data sheet.")
    measured = road_speed_kmh / engine_rpm
    best, best_off = None, inf
    for gear, ratio in enumerate(gear_ratios, start=1):
        off = abs(log(measured / kmh_per_rpm(ratio, final_ratio, rolling_circumference_mm)))
        if off < best_off:
            best, best_off = gear, off
    return best if best_off <= log(1 + within_percent / 100) else None


def kmh_per_rpm(gear_ratio: float, final_ratio: float, rolling_circumference_mm: float) -> float:
    """Road speed [km/h] for each turn a minute of the gearbox input, arguments checked.

    Source
    ------
    derived
    No published figure: the step inside the road speed, which is checked.
    """
    within("gear_ratio", gear_ratio, 0.3, 20, "", "Take the ratio from the data sheet.")
    within("final_ratio", final_ratio, 1, 15, "", "Take the final drive ratio from the data sheet.")
    within(
        "rolling_circumference_mm",
        rolling_circumference_mm,
        900,
        4000,
        "mm",
        "About 1700 to 2200 mm for a car.",
    )
    return rolling_circumference_mm * 60e-6 / (gear_ratio * final_ratio)
