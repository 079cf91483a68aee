"""Tyre size to rolling circumference: unloaded, rolling, and why the difference matters.

A loaded tyre turns more often than pi times its diameter says. Take the unloaded circumference and every slip
figure is about 2.5 points too high: a sound clutch is condemned.
"""

import re
from math import pi
from typing import NamedTuple

from bitepoint.errors import NotUnderstood
from bitepoint.mechanics.limits import one_of, within

INCH_MM = 25.4
ROLLING_FACTORS = {"radial": 3.05, "bias": 2.99}
"""Rolling circumference over diameter at 60 km/h, full load (source: wdk-rolling-circumference)."""
LOADED_RADIUS_SHARE = 0.96
"""Static loaded radius over free radius of the other rule in print (source: loaded-radius-rule)."""

NO_RATIO_PERCENT = 80
"""Height over width of a size that names none, such as 155 R13 (source: common-practice; 80 to 82 are in use)."""

# Width, ratio, construction, rim (whole or half inches), C for a van, then load and speed.
_SIZE = re.compile(
    r"\s*(?:P|LT)?\s*(\d{3})\s*(?:/\s*(\d{2,3})\s*(?:Z?R|-|B|D)?|R|-)\s*(\d{2}(?:\.5)?)\s*C?(?:\s+.{0,14}|\s*)",
    re.ASCII | re.I,
)


class TyreSize(NamedTuple):
    """Width [mm], height of the sidewall as a share of the width [%], rim diameter [inch]."""

    width_mm: int
    aspect_percent: int
    rim_in: float


def tyre_size(text: str) -> TyreSize:
    """Read a tyre size as it stands on the sidewall, of a car or a van; without a ratio, 80 % is taken.

    Raises
    ------
    NotUnderstood
        The text is no metric size.

    Source
    ------
    un-r30

    Examples
    --------
    >>> tyre_size("205/55 R16 91V")
    TyreSize(width_mm=205, aspect_percent=55, rim_in=16)
    """
    match = _SIZE.fullmatch(text) if isinstance(text, str) and len(text) <= 40 else None
    if match is None:
        raise NotUnderstood(f"{str(text)[:30]!r} is no tyre size. Write it as on the sidewall, such as 205/55 R16.")
    rim = float(match[3])
    return TyreSize(int(match[1]), int(match[2] or NO_RATIO_PERCENT), int(rim) if rim.is_integer() else rim)


def sidewall_mm(width_mm: float, *, aspect_percent: float) -> float:
    r"""Height of the sidewall, :math:`H = W A / 100`.

    Validity
    --------
    width 100 to 400 mm, aspect 20 to 100 %.

    Source
    ------
    un-r30

    Examples
    --------
    >>> sidewall_mm(205, aspect_percent=55)
    112.75
    """
    within("width_mm", width_mm, 100, 400, "mm", "The first figure on the sidewall, such as 205.")
    within("aspect_percent", aspect_percent, 20, 100, "%", "The second figure on the sidewall, such as 55.")
    return width_mm * aspect_percent / 100


def tyre_diameter_mm(width_mm: float, *, aspect_percent: float, rim_in: float) -> float:
    r"""Diameter of the free tyre, :math:`D = 25.4 \, d_{rim} + 2 H`.

    Validity
    --------
    rim 10 to 24 inch.

    Source
    ------
    un-r30

    Examples
    --------
    >>> tyre_diameter_mm(205, aspect_percent=55, rim_in=16)
    631.9
    """
    within("rim_in", rim_in, 10, 24, "in", "The last figure on the sidewall, such as 16.")
    return INCH_MM * rim_in + 2 * sidewall_mm(width_mm, aspect_percent=aspect_percent)


def unloaded_circumference_mm(diameter_mm: float) -> float:
    r"""Circumference of the free tyre, :math:`\pi D`: what a tape measures, never what the car rolls.

    Source
    ------
    derived

    Examples
    --------
    >>> unloaded_circumference_mm(631.9)
    1985.2
    """
    return pi * _diameter(diameter_mm)


def rolling_circumference_mm(diameter_mm: float, *, speed_kmh: float = 60.0, construction: str = "radial") -> float:
    r"""Distance the car rolls in one turn of the wheel.

    .. math:: C_R = F D \, [1 + (v - 60)/10\,000]

    Parameters
    ----------
    diameter_mm : float
        Diameter of the free tyre [mm], 300 to 1200.
    speed_kmh : float
        Speed v [km/h], 0 to 250; 60 is the speed of the table values.
    construction : str
        "radial" (F = 3.05) or "bias" (F = 2.99).

    Validity
    --------
    Rated load and pressure; wear of the tread (up to 8 mm of radius, 2.5 %) left out.

    Source
    ------
    wdk-rolling-circumference

    Examples
    --------
    >>> rolling_circumference_mm(631.9)
    1927.3
    """
    within("speed_kmh", speed_kmh, 0, 250, "km/h", "Give the road speed.")
    one_of("construction", construction, tuple(ROLLING_FACTORS), "R on the sidewall means radial.")
    return ROLLING_FACTORS[construction] * _diameter(diameter_mm) * (1 + (speed_kmh - 60) / 10_000)


def loaded_radius_circumference_mm(diameter_mm: float) -> float:
    r"""Rolling circumference by the other rule in print, :math:`2 \pi \cdot 0.96 \, D/2`.

    It gives 1 % less than `rolling_circumference_mm`; the two stand side by side, the course uses the factor
    3.05.

    Source
    ------
    loaded-radius-rule

    Examples
    --------
    >>> loaded_radius_circumference_mm(660.5)
    1992.0
    """
    return LOADED_RADIUS_SHARE * pi * _diameter(diameter_mm)


def turns_per_km(circumference_mm: float) -> float:
    """Turns of the wheel on one kilometre.

    Source
    ------
    derived
    No published figure: the inverse of the circumference, which is checked.

    Examples
    --------
    >>> turns_per_km(1927.3)
    518.9
    """
    within("circumference_mm", circumference_mm, 900, 4000, "mm", "About 1700 to 2200 mm for a car.")
    return 1e6 / circumference_mm


def _diameter(diameter_mm: float) -> float:
    return within("diameter_mm", diameter_mm, 300, 1200, "mm", "Work the diameter out from the tyre size.")
