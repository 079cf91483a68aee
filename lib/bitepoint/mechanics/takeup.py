"""The car as the clutch feels it when it moves off: inertia and hill, both as seen at the gearbox input."""

from math import cos, pi, sin

from bitepoint.mechanics.limits import within
from bitepoint.units import STANDARD_GRAVITY


def vehicle_inertia_at_clutch_kg_m2(
    vehicle_kg: float, *, rolling_circumference_mm: float, overall_ratio: float
) -> float:
    r"""The car's mass as a moment of inertia at the gearbox input, :math:`I_2 = m [C/(2\pi i)]^2`.

    Parameters
    ----------
    vehicle_kg : float
        Mass m with load [kg], 100 to 10 000.
    rolling_circumference_mm : float
        C [mm], 500 to 5000.
    overall_ratio : float
        Gear ratio times final drive ratio i, 0.5 to 50.

    Validity
    --------
    Wheels and shafts left out (a few per cent).

    Source
    ------
    derived
    No published figure: mass times radius squared through the gears, exact.

    Examples
    --------
    First gear takes far less out of the clutch than third:

    >>> first = 3.64 * 4.12
    >>> vehicle_inertia_at_clutch_kg_m2(905, rolling_circumference_mm=1739, overall_ratio=first)
    0.308
    """
    within("vehicle_kg", vehicle_kg, 100, 10_000, "kg", "Take the mass from the data sheet.")
    within(
        "rolling_circumference_mm",
        rolling_circumference_mm,
        500,
        5000,
        "mm",
        "About 1700 to 2200 mm for a car.",
    )
    within("overall_ratio", overall_ratio, 0.5, 50, "", "Multiply gear ratio and final drive ratio.")
    return vehicle_kg * (rolling_circumference_mm / (2000 * pi * overall_ratio)) ** 2


def hill_torque_at_clutch_nm(
    vehicle_kg: float,
    *,
    slope_deg: float,
    rolling_circumference_mm: float,
    overall_ratio: float,
    rolling: float = 0.012,
) -> float:
    r"""Torque at the gearbox input that just holds the car on a hill and overcomes rolling resistance.

    .. math:: T_L = m g (\sin a + f \cos a) \, C / (2 \pi i)

    Parameters
    ----------
    vehicle_kg, rolling_circumference_mm, overall_ratio
        As for `vehicle_inertia_at_clutch_kg_m2`.
    slope_deg : float
        Slope a [degrees], 0 to 30; a 12 % hill has 6.84 degrees.
    rolling : float
        Rolling resistance coefficient f, 0 to 0.3 (0.012 on tarmac, from memory).

    Source
    ------
    derived
    No published figure: weight down the slope through the gears, exact.

    Examples
    --------
    >>> hill_torque_at_clutch_nm(905, slope_deg=6.84, rolling_circumference_mm=1739, overall_ratio=15)
    21.5
    """
    within("vehicle_kg", vehicle_kg, 100, 10_000, "kg", "Take the mass from the data sheet.")
    within("slope_deg", slope_deg, 0, 30, "°", "A hill of 12 % has 6.84 degrees.")
    within(
        "rolling_circumference_mm",
        rolling_circumference_mm,
        500,
        5000,
        "mm",
        "About 1700 to 2200 mm for a car.",
    )
    within("overall_ratio", overall_ratio, 0.5, 50, "", "Multiply gear ratio and final drive ratio.")
    within("rolling", rolling, 0, 0.3, "", "About 0.012 on tarmac.")
    slope = slope_deg * pi / 180
    force = vehicle_kg * STANDARD_GRAVITY * (sin(slope) + rolling * cos(slope))
    return force * rolling_circumference_mm / (2000 * pi * overall_ratio)
