"""Units and their spellings: a closed table with exact factors, and conversions by it.

Factors are exact by definition: 1 lb = 0.453 592 37 kg, g_n = 9.806 65 m/s², 1 in = 25.4 mm, 1 mile = 1609.344 m
(source key nist-sp-811).
"""

import re
import sys
from functools import lru_cache
from math import inf, isfinite, pi

from bitepoint.errors import NotUnderstood

INCH_M = 0.0254
FOOT_M = 0.3048
POUND_KG = 0.45359237
STANDARD_GRAVITY = 9.80665
POUND_FORCE_N = POUND_KG * STANDARD_GRAVITY
MILE_M = 1609.344

# dimension -> unit as shown -> (size in the first unit of the dimension, other spellings).
# A spelling is compared case-folded, without spaces, dots, hyphens, asterisks and the like (see `_key`).
_TABLE: dict[str, dict[str, tuple[float, str]]] = {
    "torque": {
        "N·m": (1.0, "nm newtonmetre newtonmeter newtonmetres newtonmeters"),
        "lbf·ft": (
            POUND_FORCE_N * FOOT_M,
            "lbfft ftlbf lbft ftlb ftlbs lbsft footpound footpounds footlb footlbs "
            "poundfoot poundfeet poundsfoot poundsfeet",
        ),
        "lbf·in": (POUND_FORCE_N * INCH_M, "lbfin inlbf lbin inlb inlbs lbsin inchpound inchpounds"),
        "kgf·m": (STANDARD_GRAVITY, "kgfm mkgf kpm mkp"),
        "ozf·in": (POUND_FORCE_N / 16 * INCH_M, "ozfin inozf ozin inoz"),
        "cN·m": (0.01, "cnm centinewtonmetre centinewtonmeter centinewtonmetres centinewtonmeters"),
    },
    "length": {
        "mm": (1.0, "millimetre millimeter millimetres millimeters"),
        "cm": (10.0, "centimetre centimeter"),
        "m": (1000.0, "metre meter metres meters"),
        "µm": (0.001, "um μm micron microns micrometre micrometer"),
        "in": (25.4, 'inch inches " ″ ”'),
        "ft": (304.8, "foot feet"),
        "thou": (0.0254, "thous"),
    },
    "force": {
        "N": (1.0, "newton newtons"),
        "kN": (1000.0, "kilonewton kilonewtons"),
        "lbf": (POUND_FORCE_N, ""),
        "kgf": (STANDARD_GRAVITY, "kp"),
    },
    "mass": {
        "kg": (1.0, "kilo kilos kilogram kilograms"),
        "g": (0.001, "gram grams"),
        "lb": (POUND_KG, "lbs"),
    },
    "pressure": {
        "bar": (1.0, ""),
        "kPa": (0.01, ""),
        "MPa": (10.0, "n/mm2 n/mm²"),
        "psi": (POUND_FORCE_N / INCH_M**2 / 1e5, "lbf/in2 lbf/in²"),
    },
    "speed": {
        "km/h": (1.0, "kmh kph kmph"),
        "m/s": (3.6, ""),
        "mph": (MILE_M / 1000, "mile/h miles/h mi/h"),
    },
    "angle": {
        "°": (1.0, "deg degree degrees º"),
        "rad": (180 / pi, "radian radians"),
        "turns": (360.0, "turn rev revs revolution revolutions"),
    },
    "volume": {
        "ml": (1.0, "cc cm3 cm³ millilitre millilitres"),
        "l": (1000.0, "litre liter litres liters"),
    },
    "time": {"s": (1.0, "sec second seconds"), "min": (60.0, "minute minutes"), "h": (3600.0, "hour hours")},
    "rotational speed": {"rpm": (1.0, "1/min r/min min1 min⁻¹ rev/min revs/min")},
    "frequency": {"Hz": (1.0, "hertz 1/s")},
    "energy": {"J": (1.0, "joule joules"), "kJ": (1000.0, "")},
    "temperature": {"°C": (1.0, "c")},
    "temperature difference": {"K": (1.0, "kelvin")},
    "share": {"%": (1.0, "percent pct")},
    "count": {
        "": (
            1.0,
            "bolts bolt pulls pull teeth tooth times pieces stages stage rounds round turnsofthewrench",
        )
    },
}

_MASS_TIMES_LENGTH = {"kgm", "mkg", "kgmm", "gm", "kilogrammetre", "kilogrammeter"}
_DROPPED = re.compile(r"[\s·.*×⋅•_\-‑–]+")
_LARGEST_FLOAT = sys.float_info.max
TOO_LARGE = "That number is too large to be meant."
SUCH = "Write a number and its unit, such as 12.5 N·m."


@lru_cache(maxsize=1024)
def _key(text: str) -> str:
    return _DROPPED.sub("", text.casefold())


_SPELLINGS: dict[str, str] = {}
_DIMENSION: dict[str, str] = {}
_SIZE: dict[str, float] = {}
for _dimension, _units in _TABLE.items():
    for _unit, (_size, _others) in _units.items():
        _DIMENSION[_unit], _SIZE[_unit] = _dimension, _size
        for _spelling in (_unit, *_others.split()):
            _SPELLINGS[_key(_spelling)] = _unit


def units_of(dimension: str) -> tuple[str, ...]:
    """Return every unit of `dimension`, as shown, the usual one first."""
    return tuple(_TABLE[dimension])


def dimension_of(unit: str) -> str:
    """Return the dimension ("torque", "length", …) of a unit as shown.

    Raises
    ------
    NotUnderstood
        The unit is not in the table.
    """
    return _DIMENSION[unit_named(unit)]


def is_unit(spelling: str) -> bool:
    """Whether a spelling is in the table."""
    return _key(spelling) in _SPELLINGS


@lru_cache(maxsize=1024)
def unit_named(spelling: str) -> str:
    """Return the unit as shown for a spelling, such as "N·m" for "Nm" or "newton metres".

    Raises
    ------
    NotUnderstood
        The spelling is not in the table, or is a mass times a length.
    """
    if spelling.strip() == "mPa":
        raise NotUnderstood("'mPa' with a small m is a thousandth of a pascal. Write MPa if megapascals are meant.")
    key = _key(spelling)
    if key in _MASS_TIMES_LENGTH:
        raise NotUnderstood(
            f"{spelling.strip()!r} is a mass times a length, which is no torque. Write kgf·m if a force is meant, or N·m."
        )
    unit = _SPELLINGS.get(key)
    if unit is None:
        raise NotUnderstood(f"The unit {spelling.strip()[:20]!r} is not known here. Write it as on the data sheet.")
    return unit


def convert(value: float, unit: str, to: str) -> float:
    """Return `value`, given in `unit`, in the unit `to`.

    Raises
    ------
    NotUnderstood
        One of the units is unknown, or they measure different things.

    Examples
    --------
    >>> convert(1, "lbf·ft", "N·m")
    1.3558179483
    """
    unit, to = unit_named(unit), unit_named(to)
    if _DIMENSION[unit] != _DIMENSION[to]:
        raise NotUnderstood(
            f"{unit or 'a plain number'} measures {_DIMENSION[unit]}, but {to} measures {_DIMENSION[to]}."
        )
    # A whole number beyond the floats would overflow in the product; isfinite would overflow as well.
    converted = inf if abs(value) > _LARGEST_FLOAT else value if unit == to else value * _SIZE[unit] / _SIZE[to]
    if not isfinite(converted):
        raise NotUnderstood(f"{TOO_LARGE} {SUCH}")
    return converted
