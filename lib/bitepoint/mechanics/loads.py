"""The car on the lift: centre of gravity, what happens to it when the gearbox leaves, ratings of lift, stands
and jack.

A rating that is kept is one condition of several: marked lifting points, locks, chocks, a strap, stands under
a raised car, and nobody under a car held by a jack alone come with it. The vehicle's own repair data and
local rules come first.
"""

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import one_of, within

RATED_PER = ("each", "pair")

_AXLE = "Take the axle load from the data sheet."


def centre_of_gravity_mm(front_axle_kg: float, *, rear_axle_kg: float, wheelbase_mm: float) -> float:
    r"""Distance of the centre of gravity behind the front axle, :math:`x = L \, m_r/(m_f + m_r)`.

    Validity
    --------
    axle loads 1 to 10 000 kg, wheelbase 1000 to 6000 mm, car level.

    Source
    ------
    derived
    No published figure: a balance of two axles, exact.

    Examples
    --------
    >>> centre_of_gravity_mm(555, rear_axle_kg=350, wheelbase_mm=2340)
    905.0
    """
    within("front_axle_kg", front_axle_kg, 1, 10_000, "kg", _AXLE)
    within("rear_axle_kg", rear_axle_kg, 1, 10_000, "kg", _AXLE)
    within("wheelbase_mm", wheelbase_mm, 1000, 6000, "mm", "Take the wheelbase from the data sheet.")
    return wheelbase_mm * rear_axle_kg / (front_axle_kg + rear_axle_kg)


def axle_loads_without_kg(
    part_kg: float, *, part_behind_front_axle_mm: float, front_axle_kg: float, rear_axle_kg: float, wheelbase_mm: float
) -> tuple[float, float]:
    r"""Axle loads, front and rear, once a part has been taken out: moments about the front axle.

    .. math:: m_r' = m_r - m x/L \qquad m_f' = m_f - m (1 - x/L)

    Parameters
    ----------
    part_kg : float
        Mass of the part m [kg], 0 to 2000.
    part_behind_front_axle_mm : float
        Its centre of gravity behind the front axle x [mm], negative in front of it, -3000 to 6000.
    front_axle_kg, rear_axle_kg, wheelbase_mm : float
        Of the whole car.

    Raises
    ------
    OutOfRange
        Also when an axle would be left with no load: the car would tip.

    Source
    ------
    derived
    No published figure: a balance of two axles, exact.

    Examples
    --------
    >>> axle_loads_without_kg(33, part_behind_front_axle_mm=-60, front_axle_kg=555, rear_axle_kg=350, wheelbase_mm=2340)
    (521.2, 350.8)
    """
    centre_of_gravity_mm(front_axle_kg, rear_axle_kg=rear_axle_kg, wheelbase_mm=wheelbase_mm)
    within("part_kg", part_kg, 0, 2000, "kg", "Take the mass of the part from the data sheet.")
    x = within("part_behind_front_axle_mm", part_behind_front_axle_mm, -3000, 6000, "mm", "Negative: before the axle.")
    rear = rear_axle_kg - part_kg * x / wheelbase_mm
    front = front_axle_kg - part_kg * (1 - x / wheelbase_mm)
    if min(front, rear) <= 0:
        raise OutOfRange(
            "part_kg", "small enough to leave load on both axles", f"{part_kg:.10g} kg", "Check mass and place."
        )
    return front, rear


def centre_of_gravity_shift_mm(
    part_kg: float, *, part_behind_front_axle_mm: float, front_axle_kg: float, rear_axle_kg: float, wheelbase_mm: float
) -> float:
    r"""How far the centre of gravity moves to the rear when a part is taken out.

    .. math:: \Delta = \frac{M X - m x}{M - m} - X

    Parameters
    ----------
    part_kg, part_behind_front_axle_mm, front_axle_kg, rear_axle_kg, wheelbase_mm
        As for `axle_loads_without_kg`.

    Source
    ------
    derived
    No published figure: a balance of two axles, exact.

    Examples
    --------
    >>> centre_of_gravity_shift_mm(
    ...     33, part_behind_front_axle_mm=-60, front_axle_kg=555, rear_axle_kg=350, wheelbase_mm=2340)
    36.5
    """
    front, rear = axle_loads_without_kg(
        part_kg,
        part_behind_front_axle_mm=part_behind_front_axle_mm,
        front_axle_kg=front_axle_kg,
        rear_axle_kg=rear_axle_kg,
        wheelbase_mm=wheelbase_mm,
    )
    before = centre_of_gravity_mm(front_axle_kg, rear_axle_kg=rear_axle_kg, wheelbase_mm=wheelbase_mm)
    return wheelbase_mm * rear / (front + rear) - before


def rating_used_percent(load_kg: float, *, rated_kg: float) -> float:
    """Share of a rating that a load uses; above 100 the lift, jack or beam must not be used for it.

    Parameters
    ----------
    load_kg : float
        Mass on it, tools and load in the car included [kg], 0 to 50 000.
    rated_kg : float
        Rating on its plate [kg], 1 to 50 000.

    Source
    ------
    hse-working-under-vehicles
    No published figure: a ratio to the rating on the plate.

    Examples
    --------
    >>> rating_used_percent(1480, rated_kg=3000)
    49.3
    """
    within("load_kg", load_kg, 0, 50_000, "kg", "Take the mass from the data sheet.")
    within("rated_kg", rated_kg, 1, 50_000, "kg", "Read the plate; without a plate do not use it.")
    return 100 * load_kg / rated_kg


def stand_rating_used_percent(axle_kg: float, *, rated_kg: float, rated_per: str) -> float:
    """Share of the rating of a pair of axle stands that an axle uses, half of it on each.

    Parameters
    ----------
    axle_kg : float
        Load of the axle on the two stands [kg], 0 to 50 000.
    rated_kg : float
        Figure on the plate [kg], 1 to 50 000.
    rated_per : str
        What the plate says it is for: "each" stand or the "pair".

    Source
    ------
    hse-working-under-vehicles
    No published figure: a ratio to the rating on the plate.

    Examples
    --------
    The same figure on the plate, two meanings:

    >>> stand_rating_used_percent(890, rated_kg=1500, rated_per="pair")
    59.3
    >>> stand_rating_used_percent(890, rated_kg=1500, rated_per="each")
    29.7
    """
    one_of("rated_per", rated_per, RATED_PER, "Read the plate; if it does not say, take it as the pair.")
    within("axle_kg", axle_kg, 0, 50_000, "kg", _AXLE)
    within("rated_kg", rated_kg, 1, 50_000, "kg", "Read the plate; without a plate do not use it.")
    return 100 * axle_kg / (rated_kg if rated_per == "pair" else 2 * rated_kg)


def within_rating(load_kg: float, *, rated_kg: float) -> bool:
    """Whether a rating is kept: the load is not above it. A kept rating alone makes no lift safe.

    Source
    ------
    hse-working-under-vehicles
    No published figure: compares with the rating on the plate.

    Examples
    --------
    >>> within_rating(42, rated_kg=300)
    True
    """
    rating_used_percent(load_kg, rated_kg=rated_kg)
    return load_kg <= rated_kg
