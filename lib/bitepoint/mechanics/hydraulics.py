"""Hydraulic release: piston areas, forces, pressure in the line, fluid moved, and what air in the line costs.

Master cylinder on the pedal; then an external slave cylinder with a fork, or a concentric slave cylinder.
"""

from math import pi

from bitepoint.mechanics.limits import within

ATMOSPHERE_BAR = 1.01325
"""Standard atmosphere [bar] (source: nist-sp-811)."""

_RATIO = "A pedal has about 4 to 7, a fork 1.5 to 2."
_AREA = "Work it out from the bore."


def bore_area_mm2(bore_mm: float) -> float:
    r"""Area of a cylinder bore, :math:`A = \pi d^2/4`.

    Source
    ------
    derived

    Examples
    --------
    >>> bore_area_mm2(15.87)
    197.8
    """
    within("bore_mm", bore_mm, 1, 500, "mm", "Give the bore that is cast on the cylinder or on the data sheet.")
    return pi * bore_mm**2 / 4


def ring_area_mm2(outer_mm: float, *, inner_mm: float) -> float:
    r"""Area of the ring piston of a concentric slave cylinder, :math:`A = \pi (D_o^2 - D_i^2)/4`.

    Validity
    --------
    outer 5 to 500 mm, inner at least 1 mm smaller.

    Source
    ------
    derived

    Examples
    --------
    >>> ring_area_mm2(36, inner_mm=27)
    445.3
    """
    within("outer_mm", outer_mm, 5, 500, "mm", "Give the outer diameter of the ring piston.")
    within("inner_mm", inner_mm, 1, outer_mm - 1, "mm", "Give the inner diameter, smaller than the outer one.")
    return pi * (outer_mm - inner_mm) * (outer_mm + inner_mm) / 4


def slave_force_n(master_force_n: float, *, master_area_mm2: float, slave_area_mm2: float) -> float:
    r"""Force of the slave piston: the pressure is the same everywhere, :math:`F_s = F_m A_s/A_m`.

    Source
    ------
    college-physics

    Examples
    --------
    >>> slave_force_n(500, master_area_mm2=500, slave_area_mm2=5000)
    5000.0
    """
    force = within("master_force_n", master_force_n, 0, 50_000, "N", "Pedal effort times pedal ratio.")
    within("master_area_mm2", master_area_mm2, 0.5, 200_000, "mm²", _AREA)
    within("slave_area_mm2", slave_area_mm2, 0.5, 200_000, "mm²", _AREA)
    return force * slave_area_mm2 / master_area_mm2


def line_pressure_bar(release_load_n: float, *, slave_area_mm2: float, fork_ratio: float = 1.0) -> float:
    r"""Pressure in the line while the pedal is down, :math:`p = F_b/(R_f A_s)`, above the air outside.

    Validity
    --------
    load 0 to 50 000 N, area 0.5 to 200 000 mm², fork ratio 0.2 to 20; friction of the slave left out.

    Source
    ------
    derived

    Examples
    --------
    >>> line_pressure_bar(1850, slave_area_mm2=445.3)
    41.5
    """
    load = within("release_load_n", release_load_n, 0, 50_000, "N", "Take the release load from the data sheet.")
    within("slave_area_mm2", slave_area_mm2, 0.5, 200_000, "mm²", _AREA)
    within("fork_ratio", fork_ratio, 0.2, 20, "", _RATIO)
    return load / (fork_ratio * slave_area_mm2) * 10


def swept_volume_ml(
    pedal_travel_mm: float, *, free_play_mm: float, pedal_ratio: float, master_area_mm2: float
) -> float:
    r"""Fluid that one full stroke moves, :math:`V = A_m (s_p - s_0)/R_p`.

    Source
    ------
    derived
    No published figure: area times stroke; the areas are checked.

    Examples
    --------
    >>> swept_volume_ml(140, free_play_mm=6, pedal_ratio=6, master_area_mm2=197.8)
    4.42
    """
    within("pedal_travel_mm", pedal_travel_mm, 10, 400, "mm", "Measure at the pad, from rest to the stop.")
    within("free_play_mm", free_play_mm, 0, pedal_travel_mm, "mm", "Measure at the pad, by hand.")
    travel = pedal_travel_mm - free_play_mm
    within("pedal_ratio", pedal_ratio, 1, 20, "", _RATIO)
    within("master_area_mm2", master_area_mm2, 0.5, 200_000, "mm²", _AREA)
    return master_area_mm2 * travel / pedal_ratio / 1000


def bearing_travel_lost_to_air_mm(air_ml: float, *, slave_area_mm2: float, fork_ratio: float = 1.0) -> float:
    r"""Travel that the release bearing misses because the pedal only squeezes air.

    .. math:: s = \frac{V_0}{A_s \, R_f}

    Parameters
    ----------
    air_ml : float
        Air at rest [ml], 0 to 100.
    slave_area_mm2, fork_ratio : float
        Area of the slave piston [mm²], ratio of the fork; 1 where there is none.

    Validity
    --------
    All of the air is counted: at 40 bar a fortieth of it is left, and counting that as lost is on the safe side.
    Nothing is taken off for what bends on the way: that is the same with air and without.

    Source
    ------
    derived
    No published figure: air in a clutch line was found in words only.

    Examples
    --------
    Half a millilitre in the line of training vehicle B:

    >>> bearing_travel_lost_to_air_mm(0.5, slave_area_mm2=445.3)
    1.12
    """
    within("air_ml", air_ml, 0, 100, "ml", "Give the volume of the air at rest.")
    within("slave_area_mm2", slave_area_mm2, 0.5, 200_000, "mm²", _AREA)
    within("fork_ratio", fork_ratio, 0.2, 20, "", _RATIO)
    return air_ml * 1000 / (slave_area_mm2 * fork_ratio)


def share_squeezed(line_pressure_bar: float) -> float:
    r"""Share of the air in the line that is squeezed away, :math:`p/(p_0 + p)`, at constant temperature.

    Source
    ------
    derived
    No published figure: the law of a gas at constant temperature, exact.

    Examples
    --------
    >>> share_squeezed(41.5)
    0.976
    """
    within("line_pressure_bar", line_pressure_bar, 0, 300, "bar", "Give the pressure with the pedal down.")
    return line_pressure_bar / (ATMOSPHERE_BAR + line_pressure_bar)
