"""Slip while the clutch takes up: how long, how much energy, how hot.

Two inertias on either side of a clutch that slips with a steady torque. With no outside torque the energy
does not depend on the clutch torque at all: a weak clutch slips longer, not cooler.
"""

from math import pi

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within

# By definition: a turn is 2π rad, a minute 60 s.
_RAD_S_PER_RPM = pi / 30
# Our limit: a part held fast counts as one of this inertia [kg·m²].
_HELD = 1e12
_EASE = "With these torques the clutch slips for ever: ease the throttle or take a lower gear."
_NOT_DRAGGED_UP = "With these torques the clutch slips for ever: give throttle, so that the engine resists less."


def common_speed_rpm(
    engine_rpm: float, *, input_rpm: float, engine_inertia_kg_m2: float, driven_inertia_kg_m2: float
) -> float:
    r"""Speed both sides share when the slip is over, with no outside torque: momentum is kept.

    .. math:: n = (I_1 n_1 + I_2 n_2)/(I_1 + I_2)

    Parameters
    ----------
    engine_rpm, input_rpm : float
        Speeds before, of the engine and of the gearbox input [rpm], 0 to 30 000.
    engine_inertia_kg_m2, driven_inertia_kg_m2 : float
        Moments of inertia, the driven one as seen at the clutch [kg·m²].

    Source
    ------
    theory-of-machines

    Examples
    --------
    >>> common_speed_rpm(60, input_rpm=0, engine_inertia_kg_m2=4, driven_inertia_kg_m2=2)
    40.0
    """
    engine, driven = _inertias(engine_inertia_kg_m2, driven_inertia_kg_m2)
    n1, n2 = _rpm("engine_rpm", engine_rpm), _rpm("input_rpm", input_rpm)
    share = engine / (engine + driven)
    return share * n1 + (1 - share) * n2


def slip_time_s(
    speed_difference_rpm: float,
    *,
    clutch_torque_nm: float,
    engine_inertia_kg_m2: float,
    driven_inertia_kg_m2: float,
    engine_torque_nm: float = 0.0,
    load_torque_nm: float = 0.0,
) -> float:
    r"""Time until both sides turn alike.

    .. math:: t = \frac{|\omega_1 - \omega_2|}{(T - s T_e)/I_1 + (T - s T_L)/I_2}

    s is 1 where the engine turns faster and -1 where the gearbox input does, as after a shift down.

    Parameters
    ----------
    speed_difference_rpm : float
        Engine speed less input speed at the start [rpm], -30 000 to 30 000; negative after a shift down.
    clutch_torque_nm : float
        Torque of the slipping clutch T [N·m], 0.001 to 20 000.
    engine_inertia_kg_m2, driven_inertia_kg_m2 : float
        I1 and I2 [kg·m²], 0.0001 to 1e12; 1e12 stands for an engine held at constant speed.
    engine_torque_nm, load_torque_nm : float
        Torque of the engine T_e and of the road T_L, both at the clutch [N·m], -20 000 to 20 000. T_e drives
        and T_L resists; negative is an engine that brakes, and a road that falls away.

    Validity
    --------
    Steady torques. If the two sides do not come together (an engine that gains speed faster than the car, or
    drags more than the clutch carries), the slip never ends and the function refuses.

    Source
    ------
    theory-of-machines

    Examples
    --------
    >>> slip_time_s(750, clutch_torque_nm=150, engine_inertia_kg_m2=1.176, driven_inertia_kg_m2=0.128)
    0.0604
    """
    ahead = 1 if _difference(speed_difference_rpm) >= 0 else -1
    engine, driven = _inertias(engine_inertia_kg_m2, driven_inertia_kg_m2)
    torque = within("clutch_torque_nm", clutch_torque_nm, 0.001, 20_000, "N·m", "Give the slipping torque.")
    drive = within("engine_torque_nm", engine_torque_nm, -20_000, 20_000, "N·m", "Give the engine torque, or 0.")
    load = within("load_torque_nm", load_torque_nm, -20_000, 20_000, "N·m", "Give the road load at the clutch, or 0.")
    closing = (torque - ahead * drive) / engine + (torque - ahead * load) / driven
    if closing <= 1e-9:
        raise OutOfRange(
            "clutch_torque_nm",
            "enough to bring both sides together",
            f"{clutch_torque_nm:.10g} N·m",
            _EASE if ahead > 0 else _NOT_DRAGGED_UP,
        )
    return abs(speed_difference_rpm) * _RAD_S_PER_RPM / closing


def slip_energy_j(
    speed_difference_rpm: float,
    *,
    clutch_torque_nm: float,
    engine_inertia_kg_m2: float,
    driven_inertia_kg_m2: float,
    engine_torque_nm: float = 0.0,
    load_torque_nm: float = 0.0,
) -> float:
    r"""Heat made in the clutch until both sides turn alike, :math:`E = T |\omega_1 - \omega_2| t / 2`.

    With no outside torque that is :math:`I_1 I_2 (\omega_1 - \omega_2)^2 / [2 (I_1 + I_2)]`, whatever T is.

    Parameters and validity
        As for `slip_time_s`.

    Source
    ------
    theory-of-machines

    Examples
    --------
    >>> slip_energy_j(750, clutch_torque_nm=150, engine_inertia_kg_m2=1.176, driven_inertia_kg_m2=0.128)
    356.0
    """
    time = slip_time_s(
        speed_difference_rpm,
        clutch_torque_nm=clutch_torque_nm,
        engine_inertia_kg_m2=engine_inertia_kg_m2,
        driven_inertia_kg_m2=driven_inertia_kg_m2,
        engine_torque_nm=engine_torque_nm,
        load_torque_nm=load_torque_nm,
    )
    return clutch_torque_nm * abs(speed_difference_rpm) * _RAD_S_PER_RPM * time / 2


def steady_slip_power_kw(torque_nm: float, *, speed_difference_rpm: float) -> float:
    r"""Heat a second while a clutch slips steadily, :math:`P = T \, \Delta\omega`.

    Validity
    --------
    torque 0 to 20 000 N·m, difference 0 to 30 000 rpm.

    Source
    ------
    derived
    No published figure: torque times speed, as the transmitted power, which is checked.

    Examples
    --------
    95 N·m at 10 % slip of 3600 rpm heat like an oven:

    >>> steady_slip_power_kw(95, speed_difference_rpm=360)
    3.58
    """
    torque = within("torque_nm", torque_nm, 0, 20_000, "N·m", "Give the torque that the slipping clutch carries.")
    return torque * _rpm("speed_difference_rpm", speed_difference_rpm) * _RAD_S_PER_RPM / 1000


def temperature_rise_k(
    energy_j: float, *, mass_kg: float, specific_heat_j_per_kg_k: float, share: float = 1.0
) -> float:
    r"""Temperature rise of a part that takes a share of the heat and gives none away.

    .. math:: \Delta T = s E/(m c)

    Parameters
    ----------
    energy_j : float
        Heat [J], 0 to 1e9.
    mass_kg : float
        Mass that takes it [kg], 0.01 to 1000.
    specific_heat_j_per_kg_k : float
        Specific heat [J/(kg·K)], 100 to 5000. Cast iron and steel 460 to 500 (from memory); published figures
        for facings differ by a factor of two, so it is always an input.
    share : float
        Share of the heat, 0 to 1; about half goes each to flywheel and pressure plate (common practice).

    Source
    ------
    college-physics

    Examples
    --------
    >>> temperature_rise_k(7.35e6, mass_kg=100, specific_heat_j_per_kg_k=800)
    91.875
    """
    within("energy_j", energy_j, 0, 1e9, "J", "Work out the slip energy first.")
    within("mass_kg", mass_kg, 0.01, 1000, "kg", "Give the mass of the part that is heated.")
    within("specific_heat_j_per_kg_k", specific_heat_j_per_kg_k, 100, 5000, "J/(kg·K)", "Steel has about 480.")
    within("share", share, 0, 1, "", "Give the part's share of the heat, such as 0.5.")
    return share * energy_j / (mass_kg * specific_heat_j_per_kg_k)


def _inertias(engine: float, driven: float) -> tuple[float, float]:
    advice = "Give the moment of inertia as seen at the clutch."
    return (
        within("engine_inertia_kg_m2", engine, 1e-4, _HELD, "kg·m²", advice),
        within("driven_inertia_kg_m2", driven, 1e-4, _HELD, "kg·m²", advice),
    )


def _difference(value: float) -> float:
    advice = "Engine speed less input speed, in turns a minute; below 0 after a shift down."
    return within("speed_difference_rpm", value, -30_000, 30_000, "rpm", advice)


def _rpm(name: str, value: float) -> float:
    return within(name, value, 0, 30_000, "rpm", "Give turns a minute, not below 0.")
