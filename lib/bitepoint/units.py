"""Quantities as people type them: one regular expression and a closed table of spellings.

No text that a learner types reaches `eval`, a grammar or an unbounded `int()`.
Factors are exact by definition: 1 lb = 0.453 592 37 kg, g_n = 9.806 65 m/s², 1 in = 25.4 mm, 1 mile = 1609.344 m
(source key nist-sp-811).
"""

import re
from functools import lru_cache
from math import isfinite, pi
from typing import NamedTuple

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
            "lbfft ftlbf lbft ftlb ftlbs lbsft footlb footlbs footpound footpounds poundfoot poundfeet poundsfeet poundsfoot",
        ),
        "lbf·in": (POUND_FORCE_N * INCH_M, "lbfin inlbf lbin inlb inlbs lbsin inchpound inchpounds"),
        "kgf·m": (STANDARD_GRAVITY, "kgfm mkgf kpm mkp"),
        "cN·m": (0.01, "cnm ncm"),
        "ozf·in": (POUND_FORCE_N / 16 * INCH_M, "ozfin inozf ozin inoz"),
    },
    "length": {
        "mm": (1.0, "millimetre millimeter millimetres millimeters"),
        "cm": (10.0, "centimetre centimeter"),
        "m": (1000.0, "metre meter metres meters"),
        "µm": (0.001, "um μm micron microns micrometre micrometer"),
        "in": (25.4, 'inch inches " ″'),
        "thou": (0.0254, "thous mil"),
        "ft": (304.8, "foot feet"),
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
        "m/s": (3.6, "ms"),
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
    "temperature difference": {"K": (1.0, "kelvin")},
    "share": {"%": (1.0, "percent pct")},
    "count": {
        "": (
            1.0,
            "bolts bolt pulls pull teeth tooth times pieces stages stage rounds round turnsofthewrench",
        )
    },
}

_OTHERWISE = {
    "mPa": "mPa is a thousandth of a pascal. Write MPa, kPa or bar.",
    "°C": "°C is a temperature, and a difference of temperatures is given in K. Write K.",
    "C": "°C is a temperature, and a difference of temperatures is given in K. Write K.",
}
"""Units that are no slip of spelling but another thing, as they are written."""
_SLIPS = (
    (re.compile(r"±|\+/?-"), "Give one figure, without a tolerance."),
    (re.compile(r"^\s*[\d.,]+\s*(?:[–—-]|to|bis)\s*[\d.,]+"), "That is a range. Give one figure."),
    (re.compile(r"^\s*0x", re.I), "Write the figure in the digits 0 to 9."),
    (re.compile(r"^\s*[\d.,]+e[+-]?\d", re.I), "Write the figure out, without a power of ten."),
    (re.compile(r"^\s*\d+\s*/\s*\d+"), "Write the fraction as a decimal, such as 0.5."),
    (re.compile(r"^\s*\d{1,3}\.\d{3},\d|^\s*\d{1,3},\d{3}\.\d"), "Leave the thousands unmarked, such as 1200.5."),
    (re.compile(r"^\s*[+−–-]?\s*\d{13}"), "That number is too large to be meant."),
    (re.compile(r"^\s*[\d.,]+\s*[^\d\s]+\s+[+-]?\d"), "That is more than one number. Give one figure with its unit."),
)
"""What is wrong with an answer that cannot be read, told by its look, the first that fits."""
_MASS_TIMES_LENGTH = {"kgm", "mkg", "kgmm", "gm", "kilogrammetre", "kilogrammeter"}
_NUMBER = re.compile(
    r"\s*([+\-−–]?)\s*(\d{1,3}(?:[ \u00a0\u2009\u202f']\d{3})+|\d{1,12})?(?:([.,])(\d{1,12}))?\s*(.*)", re.S
)
_DROPPED = re.compile(r"[\s·.*×⋅•_\-‑–]+")
MAX_LENGTH = 80
_LARGEST = 10**12
_SUCH = "Write a number and its unit, such as 12.5 N·m."
_LIKE = "Write, for example, 12.5 N·m."
_TOO_LARGE = "That number is too large to be meant."


class Quantity(NamedTuple):
    """A number with its unit as shown; unit "" is a plain number, None is no unit typed."""

    value: float
    unit: str | None


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


@lru_cache(maxsize=1024)
def unit_named(spelling: str) -> str:
    """Return the unit as shown for a spelling, such as "N·m" for "Nm" or "newton metres".

    Raises
    ------
    NotUnderstood
        The spelling is not in the table, or is a mass times a length.
    """
    if spelling.strip() in _OTHERWISE:
        raise NotUnderstood(_OTHERWISE[spelling.strip()])
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
    converted = value if unit == to else value * _SIZE[unit] / _SIZE[to]
    if not isfinite(converted):
        raise NotUnderstood(f"{_TOO_LARGE} {_SUCH}")
    return converted


def quantity(typed: object, *, advice: str = "") -> Quantity:
    """Read a number with an optional unit, as a person types it.

    Takes text ("84,2 Nm", "62 lbf·ft"), a number, or the pair that Python makes of 84,2. `advice` says how to write
    it where no torque is asked.

    Raises
    ------
    NotUnderstood
        Says what is wrong and how to write it; "1,200" is ambiguous and is asked back.
    """
    if isinstance(typed, bool):
        raise NotUnderstood(f"{typed} is no number. {advice or _SUCH}")
    if isinstance(typed, (int, float)):
        if not abs(typed) <= _LARGEST:
            raise NotUnderstood(f"{_TOO_LARGE} {advice or _SUCH}")
        return Quantity(float(typed), None)
    if isinstance(typed, (tuple, list)) and len(typed) == 2 and all(type(part) is int for part in typed):
        whole, decimals = typed
        if abs(whole) < 10**12 and 0 <= decimals < 10**12:
            return quantity(f"{whole},{decimals}", advice=advice)
    if not isinstance(typed, str):
        raise NotUnderstood(f"That is no number. {advice or _SUCH}")
    return _from_text(typed, advice or _LIKE)


def _from_text(typed: str, advice: str) -> Quantity:
    shown = typed.strip()[:30]
    if len(typed) > MAX_LENGTH:
        raise NotUnderstood(f"{shown!r}… is too long for a number with a unit. {advice}")
    slip = next((told for look, told in _SLIPS if look.search(typed)), "")
    if slip:
        raise NotUnderstood(f"{shown!r}: {slip} {advice}" if "Give" not in slip else f"{shown!r}: {slip}")
    match = _NUMBER.fullmatch(typed)
    if match is None or not (match[2] or match[4]):
        raise NotUnderstood(f"{shown!r} does not start with a number. {advice}")
    sign, whole, mark, decimals, unit = match.groups()
    whole = re.sub(r"\D", "", whole or "0")
    # Three decimals with a unit are a careful reading; “1.200” alone is as often twelve hundred.
    marks_thousands = mark == "," or (mark == "." and decimals.endswith("00") and not unit.strip())
    if mark and marks_thousands and len(decimals) == 3 and whole != "0" and len(whole) <= 3:
        shorter = (
            f"{whole}.{decimals}".rstrip("0").rstrip(".")
            if decimals.endswith("0")
            else f"{whole}.{decimals} with a point"
        )
        raise NotUnderstood(
            f"{whole}{mark}{decimals} can mean {whole}{decimals} or {shorter}. Write {whole}{decimals}, or {shorter}."
        )
    if unit and ((unit[0].isdigit() and _key(unit) not in _SPELLINGS) or unit[0] in ",.*/+^" or unit.startswith("−")):
        raise NotUnderstood(f"{shown!r} is more than one number with a unit. {advice}")
    value = float(f"{whole}.{decimals or '0'}")
    signed = -value if sign in ("-", "−", "–") and value else value
    return Quantity(signed, unit_named(unit) if unit.strip() else None)
