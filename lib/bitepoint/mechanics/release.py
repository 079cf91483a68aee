"""From the pedal to the lift of the pressure plate: ratio, travels, effort, free play.

Pedal, then a cable with levers, or a master cylinder with an external slave cylinder and fork, or with a
concentric slave cylinder; then release bearing, diaphragm fingers, plate. What a ratio gains in force it
costs in travel. Efficiencies are inputs: travel is lost to bending, force to friction.
"""

from bitepoint.mechanics.limits import within

_RATIO = "A pedal has about 4 to 7, a fork 1.5 to 2."


def overall_ratio(
    pedal_ratio: float, *, master_area_mm2: float = 1.0, slave_area_mm2: float = 1.0, fork_ratio: float = 1.0
) -> float:
    r"""Travel at the pedal for each millimetre at the release bearing, with nothing lost.

    .. math:: i = R_p \, (A_s/A_m) \, R_f

    Parameters
    ----------
    pedal_ratio : float
        Travel of the pad over travel of the push-rod or cable, 1 to 20.
    master_area_mm2, slave_area_mm2 : float
        Piston areas [mm²], 0.5 to 200 000; leave both out for a cable.
    fork_ratio : float
        Lever ratio of the fork (for a cable: of fork and outer lever together), 0.2 to 20; 1 for a concentric
        slave.

    Source
    ------
    derived

    Examples
    --------
    A cable, then a slave cylinder with a fork:

    >>> overall_ratio(4.6, fork_ratio=2.9)
    13.34
    >>> overall_ratio(6.2, master_area_mm2=239.4, slave_area_mm2=334.6, fork_ratio=1.75)
    15.165
    """
    within("pedal_ratio", pedal_ratio, 1, 20, "", _RATIO)
    within("master_area_mm2", master_area_mm2, 0.5, 200_000, "mm²", "Work it out from the bore.")
    within("slave_area_mm2", slave_area_mm2, 0.5, 200_000, "mm²", "Work it out from the bore.")
    within("fork_ratio", fork_ratio, 0.2, 20, "", _RATIO)
    return pedal_ratio * slave_area_mm2 / master_area_mm2 * fork_ratio


def bearing_travel_mm(pedal_travel_mm: float, *, free_play_mm: float, ratio: float, efficiency: float = 1.0) -> float:
    r"""Travel of the release bearing for the whole travel of the pedal.

    .. math:: s_b = (s_p - s_0) \, \eta_s / i

    Parameters
    ----------
    pedal_travel_mm : float
        Travel of the pad to its stop [mm], 10 to 400.
    free_play_mm : float
        Free play at the pad [mm], 0 to the pedal travel.
    ratio : float
        From `overall_ratio`, 0.5 to 1000.
    efficiency : float
        Share of the travel that arrives, 0.1 to 1.

    Source
    ------
    derived

    Examples
    --------
    >>> bearing_travel_mm(140, free_play_mm=18, ratio=4.6 * 2.9, efficiency=0.9)
    8.23
    """
    travel = _pedal_travel(pedal_travel_mm, free_play_mm)
    return travel * _efficiency(efficiency) / _ratio(ratio)


def pedal_effort_n(release_load_n: float, *, ratio: float, efficiency: float = 1.0) -> float:
    r"""Force at the pad that holds the release bearing down, :math:`F_p = F_b / (i \, \eta_F)`.

    Return springs are left out. Car pedals ask for 80 to 150 N (common practice).

    Parameters
    ----------
    release_load_n : float
        Load at the fingers [N], 0 to 50 000.
    ratio, efficiency : float
        From `overall_ratio`; share of the force that arrives, 0.1 to 1.

    Source
    ------
    derived

    Examples
    --------
    >>> pedal_effort_n(1050, ratio=4.6 * 2.9, efficiency=0.72)
    109.3
    """
    load = within("release_load_n", release_load_n, 0, 50_000, "N", "Take the release load from the data sheet.")
    return load / (_ratio(ratio) * _efficiency(efficiency))


def plate_lift_mm(bearing_travel_mm: float, *, finger_ratio: float, lost_mm: float = 0.0) -> float:
    r"""Lift of the pressure plate: fingers are the long arm, so they move much and the plate little.

    .. math:: s_{plate} = (s_b - s_{lost}) / R_{finger}

    Parameters
    ----------
    bearing_travel_mm : float
        Travel of the release bearing after it has met the fingers [mm], 0 to 50.
    finger_ratio : float
        Lever ratio of the fingers, 1 to 10.
    lost_mm : float
        Travel at the bearing lost to bending of cover and fingers [mm], 0 to the bearing travel.

    Source
    ------
    derived
    No published figure: invented lever ratios only.

    Examples
    --------
    >>> plate_lift_mm(8.0, finger_ratio=3.8, lost_mm=0.8)
    1.895
    """
    travel = within("bearing_travel_mm", bearing_travel_mm, 0, 50, "mm", "Measure or work out the bearing travel.")
    lost = within("lost_mm", lost_mm, 0, travel, "mm", "More than the bearing travel cannot be lost.")
    within("finger_ratio", finger_ratio, 1, 10, "", "Take the lever ratio from the data sheet.")
    return (travel - lost) / finger_ratio


def clearance_at_bearing_mm(free_play_mm: float, *, ratio: float) -> float:
    r"""Clearance at the release bearing that a free play at the pad stands for, :math:`s_0 / i`.

    Source
    ------
    derived
    No published figure: invented lever ratios only.

    Examples
    --------
    >>> clearance_at_bearing_mm(18, ratio=4.6 * 2.9)
    1.349
    """
    within("free_play_mm", free_play_mm, 0, 400, "mm", "Measure at the pad, by hand.")
    return free_play_mm / _ratio(ratio)


def _pedal_travel(pedal_travel_mm: float, free_play_mm: float) -> float:
    within("pedal_travel_mm", pedal_travel_mm, 10, 400, "mm", "Measure at the pad, from rest to the stop.")
    within("free_play_mm", free_play_mm, 0, pedal_travel_mm, "mm", "Measure at the pad, by hand.")
    return pedal_travel_mm - free_play_mm


def _ratio(ratio: float) -> float:
    return within("ratio", ratio, 0.5, 1000, "", "Work out the overall ratio first: about 10 to 20.")


def _efficiency(efficiency: float) -> float:
    return within("efficiency", efficiency, 0.1, 1, "", "Give the share that arrives, such as 0.9.")
