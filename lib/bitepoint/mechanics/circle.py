"""A circle of bolts: where they sit."""

from collections.abc import Sequence

from bitepoint.mechanics.limits import whole, within

MAX_BOLTS = 24
"""Largest ring that is searched: our limit, far above any clutch."""


def even_circle_deg(bolts: int) -> tuple[float, ...]:
    """Return the angles of evenly spaced bolts, in degrees, bolt 1 at 0.

    Source
    ------
    derived

    Examples
    --------
    >>> even_circle_deg(4)
    (0.0, 90.0, 180.0, 270.0)
    """
    whole("bolts", bolts, 2, MAX_BOLTS, "Count the bolts of one circle.")
    return tuple(360 * i / bolts for i in range(bolts))


def check_circle(angles_deg: Sequence[float]) -> None:
    """Raise `OutOfRange` unless these are angles of 2 to 24 bolts [degrees]."""
    whole("number of angles", len(angles_deg), 2, MAX_BOLTS, "Give the angle of each bolt of one circle.")
    for angle in angles_deg:
        within("angle", angle, -360, 720, "°", "Measure from bolt 1 round the circle.")
