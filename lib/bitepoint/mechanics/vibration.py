"""Shake and rattle in figures: orders, firing frequency, a two-inertia driveline, judder.

An order is how often something happens in one turn. A frequency that follows engine speed belongs to the
engine, one that follows the difference of engine and input speed to the slipping clutch, one that stays to
the driveline itself.
"""

from math import pi, sqrt

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within

JUDDER_BAND_HZ = (5.0, 20.0)
"""Band in which take-up judder shakes a car (source: applied-sciences-2019-4287)."""


def order_frequency_hz(order: float, *, speed_rpm: float) -> float:
    r"""Frequency of an order at a speed, :math:`f = k \, n / 60`; order 1 is once a turn.

    Validity
    --------
    order 0 to 100, speed 0 to 30 000 rpm.

    Source
    ------
    engine-orders
    No published figure: the definition of an order.

    Examples
    --------
    >>> order_frequency_hz(1, speed_rpm=900)
    15.0
    """
    within("order", order, 0, 100, "", "1 is once a turn.")
    within("speed_rpm", speed_rpm, 0, 30_000, "rpm", "Give turns a minute.")
    return order * speed_rpm / 60


def order_of(frequency_hz: float, *, speed_rpm: float) -> float:
    r"""Order of a frequency at a speed, :math:`k = 60 f / n`.

    Validity
    --------
    frequency 0 to 10 000 Hz, speed 1 to 30 000 rpm.

    Source
    ------
    engine-orders
    No published figure: the definition of an order.

    Examples
    --------
    >>> order_of(10, speed_rpm=1500)
    0.4
    """
    within("frequency_hz", frequency_hz, 0, 10_000, "Hz", "Give events a second.")
    within("speed_rpm", speed_rpm, 1, 30_000, "rpm", "Give turns a minute.")
    return 60 * frequency_hz / speed_rpm


def firing_order(cylinders: int) -> float:
    """Firing strokes in one turn of a four-stroke engine, half the number of cylinders.

    Source
    ------
    engine-orders

    Examples
    --------
    >>> firing_order(4), firing_order(3)
    (2.0, 1.5)
    """
    return whole("cylinders", cylinders, 1, 16, "Count the cylinders.") / 2


def firing_frequency_hz(speed_rpm: float, *, cylinders: int) -> float:
    r"""Firing frequency of an evenly firing four-stroke engine, :math:`f = n z / 120`.

    Source
    ------
    engine-orders

    Examples
    --------
    >>> firing_frequency_hz(850, cylinders=3)
    21.25
    """
    return order_frequency_hz(firing_order(cylinders), speed_rpm=speed_rpm)


def stiffness_nm_per_rad(stiffness_nm_per_deg: float) -> float:
    r"""Stiffness of a damper in N·m/rad from the N·m/° of a data sheet, :math:`k \cdot 180/\pi`.

    Source
    ------
    derived
    No published figure: a change of unit, exact.

    Examples
    --------
    >>> stiffness_nm_per_rad(26)
    1489.69
    """
    return (
        within("stiffness_nm_per_deg", stiffness_nm_per_deg, 0.001, 10_000, "N·m/°", "See the data sheet.") * 180 / pi
    )


def two_inertia_frequency_hz(
    stiffness_nm_per_rad: float, *, engine_side_kg_m2: float, gearbox_side_kg_m2: float
) -> float:
    r"""Natural frequency of two inertias on one torsion spring, the first model of any flywheel question.

    .. math:: f = \frac{1}{2\pi} \sqrt{k \left(\frac{1}{J_1} + \frac{1}{J_2}\right)}

    Parameters
    ----------
    stiffness_nm_per_rad : float
        k [N·m/rad], 0.01 to 1e9.
    engine_side_kg_m2, gearbox_side_kg_m2 : float
        Moments of inertia on either side of the spring [kg·m²], 1e-5 to 1e6. Rigid flywheel with a damper
        plate: the spring sits in the plate, so the gearbox side is light. Dual-mass flywheel: the spring sits
        between the two masses, so the gearbox side is heavy and the spring may be soft.

    Validity
    --------
    No damping, linear spring, car left out.

    Source
    ------
    two-inertia-model

    Examples
    --------
    >>> two_inertia_frequency_hz(stiffness_nm_per_rad(5.6), engine_side_kg_m2=0.13, gearbox_side_kg_m2=0.075)
    13.1
    """
    within("stiffness_nm_per_rad", stiffness_nm_per_rad, 0.01, 1e9, "N·m/rad", "Convert N·m/° first.")
    within("engine_side_kg_m2", engine_side_kg_m2, 1e-5, 1e6, "kg·m²", "Give the moment of inertia.")
    within("gearbox_side_kg_m2", gearbox_side_kg_m2, 1e-5, 1e6, "kg·m²", "Give the moment of inertia.")
    return sqrt(stiffness_nm_per_rad * (1 / engine_side_kg_m2 + 1 / gearbox_side_kg_m2)) / (2 * pi)


def stiffness_for_frequency_nm_per_rad(
    frequency_hz: float, *, engine_side_kg_m2: float, gearbox_side_kg_m2: float
) -> float:
    r"""Stiffness that puts the natural frequency where it is wanted.

    .. math:: k = (2\pi f)^2 / (1/J_1 + 1/J_2)

    Source
    ------
    two-inertia-model
    No published figure: the inverse of the natural frequency, which is checked.

    Examples
    --------
    >>> stiffness_for_frequency_nm_per_rad(12, engine_side_kg_m2=0.15, gearbox_side_kg_m2=0.06)
    243.64
    """
    within(
        "frequency_hz",
        frequency_hz,
        0.1,
        1000,
        "Hz",
        "Below idle's firing frequency for a dual-mass flywheel.",
    )
    within("engine_side_kg_m2", engine_side_kg_m2, 1e-5, 1e6, "kg·m²", "Give the moment of inertia.")
    within("gearbox_side_kg_m2", gearbox_side_kg_m2, 1e-5, 1e6, "kg·m²", "Give the moment of inertia.")
    return (2 * pi * frequency_hz) ** 2 / (1 / engine_side_kg_m2 + 1 / gearbox_side_kg_m2)


def resonance_speed_rpm(frequency_hz: float, *, cylinders: int) -> float:
    r"""Engine speed whose firing strokes excite a natural frequency, :math:`n = 120 f / z`.

    Above idle it lies in the driving range (rigid flywheel); below idle it is only crossed at start and stop
    (dual-mass flywheel).

    Source
    ------
    engine-orders
    No published figure: a frequency over its order.

    Examples
    --------
    >>> resonance_speed_rpm(13.05, cylinders=4), resonance_speed_rpm(58.14, cylinders=4)
    (391.5, 1744.2)
    """
    within("frequency_hz", frequency_hz, 0, 10_000, "Hz", "Give the natural frequency.")
    return 60 * frequency_hz / firing_order(cylinders)


def slip_frequency_hz(engine_rpm: float, *, input_rpm: float) -> float:
    r"""Beat of a slipping clutch, :math:`f = |n_e - n_{in}|/60`: what a fault on one side only shakes with.

    Source
    ------
    derived
    No published figure: a difference of two speeds.

    Examples
    --------
    >>> slip_frequency_hz(1500, input_rpm=900)
    10.0
    """
    within("engine_rpm", engine_rpm, 0, 30_000, "rpm", "Give turns a minute.")
    within("input_rpm", input_rpm, 0, 30_000, "rpm", "Give turns a minute of the gearbox input.")
    return abs(engine_rpm - input_rpm) / 60


def slip_order(frequency_hz: float, *, engine_rpm: float, input_rpm: float) -> float:
    r"""Order of a judder counted in turns of slip, :math:`k = f / |n_e - n_{in}| \cdot 60`.

    An order that stays at 1 while the slip falls points to a geometric fault (run-out, disc out of true); a
    *frequency* that stays points to friction and the driveline's own frequency (common practice).

    Validity
    --------
    At least 1 rpm of slip.

    Source
    ------
    derived
    No published figure: a ratio of two speeds.

    Examples
    --------
    >>> slip_order(10, engine_rpm=1500, input_rpm=900)
    1.0
    """
    within("frequency_hz", frequency_hz, 0, 10_000, "Hz", "Give shakes a second.")
    beat = slip_frequency_hz(engine_rpm, input_rpm=input_rpm)
    if beat * 60 < 1:
        raise OutOfRange(
            "engine_rpm", "at least 1 rpm away from input_rpm", f"{engine_rpm:.10g} rpm", "No slip, no order."
        )
    return frequency_hz / beat
