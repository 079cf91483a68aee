"""Numbers with a unit as people type them.

No text that a learner types reaches `eval`, a grammar or an unbounded `int()`.
"""

import re
from functools import lru_cache
from typing import NamedTuple

from bitepoint.errors import Ambiguous, NotUnderstood
from bitepoint.units.misspelt import refuse_what_is_no_single_figure
from bitepoint.units.table import SUCH, TOO_LARGE, is_unit, unit_named

_NUMBER = re.compile(
    r"\s*([+\-−–]?)\s*(\d{1,3}(?:[ \u00a0\u2009\u202f']\d{3})+|\d{1,12})?(?:([.,])(\d{1,12}))?\s*(.*)", re.S
)
_NO_DIGIT = re.compile(r"\D")
_TWO_READINGS = re.compile(r"[+\-−–]?[1-9]\d{0,2}\.\d00")
MAX_LENGTH = 80
_LARGEST = 10**12
_LIKE = "Write, for example, 12.5 N·m."
_ONE = "Write one number with its unit."


class Quantity(NamedTuple):
    """A number with its unit as shown; unit "" is a plain number, None is no unit typed."""

    value: float
    unit: str | None


def quantity(typed: object, *, advice: str = "") -> Quantity:
    """Read a number with an optional unit, as a person types it.

    Takes text ("84,2 Nm", "62 lbf·ft"), a number, or the pair that Python makes of 84,2. `advice` says how to write
    it where no torque is asked.

    Raises
    ------
    Ambiguous
        "1,200" and "1.200" mean thousands to one and decimals to another: both readings are asked back.
    NotUnderstood
        Says what is wrong and how to write it.
    """
    if isinstance(typed, str):
        return _from_text(typed, advice or _LIKE)
    if isinstance(typed, bool):
        raise NotUnderstood(f"{typed} is no number. {advice or SUCH}")
    if isinstance(typed, (int, float)):
        if not abs(typed) <= _LARGEST:
            raise NotUnderstood(f"{TOO_LARGE} {advice or SUCH}")
        return Quantity(_unsigned_nought(float(typed)), None)
    if isinstance(typed, (tuple, list)) and len(typed) == 2 and all(type(part) is int for part in typed):
        whole, decimals = typed
        if abs(whole) < 10**12 and 0 <= decimals < 10**12:
            return quantity(f"{whole},{decimals}", advice=advice)
    raise NotUnderstood(f"That is no number. {advice or SUCH}")


def unambiguous(number: str) -> str:
    """Return a number that the project writes so that `quantity` reads it back: 1.200 gets a fourth decimal.

    Examples
    --------
    >>> unambiguous("1.200"), unambiguous("0.125"), unambiguous("12.5")
    ('1.2000', '0.125', '12.5')
    """
    return f"{number}0" if _TWO_READINGS.fullmatch(number) else number


# Half of what a class types is typed by others too. What is too long, or not understood, is not kept.
@lru_cache(maxsize=4096)
def _from_text(typed: str, advice: str) -> Quantity:
    text = typed.strip()
    shown = text[:30]
    if len(typed) > MAX_LENGTH:
        raise NotUnderstood(f"{shown!r}… is too long for a number with a unit. {advice}")
    refuse_what_is_no_single_figure(text, shown)
    match = _NUMBER.fullmatch(typed)
    if match is None or not (match[2] or match[4]):
        raise NotUnderstood(f"{shown!r} does not start with a number. {advice}")
    sign, whole, mark, decimals, unit = match.groups()
    whole = whole or "0"
    whole = whole if whole.isdecimal() else _NO_DIGIT.sub("", whole)
    factor = -1 if sign in ("-", "−", "–") else 1
    value = _unsigned_nought(factor * float(f"{whole}.{decimals or '0'}"))
    # Three decimals with a unit, or such as 6.708, are a careful reading; “1.200” alone is as often twelve hundred.
    two_readings = mark == "," or (decimals or "").endswith("00") and not unit.strip()
    if mark and two_readings and len(decimals) == 3 and whole.strip("0") and len(whole) <= 3:
        raise Ambiguous(_both_readings(whole, mark, decimals), (factor * float(whole + decimals), value), unit.strip())
    _refuse_more_than_a_unit(unit, shown, advice)
    return Quantity(value, unit_named(unit) if unit.strip() else None)


def _both_readings(whole: str, mark: str, decimals: str) -> str:
    short = f"{whole}.{decimals.rstrip('0') or '0'}"
    way_out = f"{short}." if decimals.endswith("0") else f"{short}0 with one more decimal."
    return f"{whole}{mark}{decimals} can mean {whole}{decimals} or {whole}.{decimals}. Write {whole}{decimals}, or {way_out}"


def _refuse_more_than_a_unit(unit: str, shown: str, advice: str) -> None:
    if not unit.strip() or is_unit(unit):
        return
    if unit[0].isdigit() or unit[0] in ",.*/+^" or unit.startswith("−"):
        raise NotUnderstood(f"{shown!r} is more than one number with a unit. {advice}")
    start = re.match(r"(\D*?)[\s\-–—+,;]*\d", unit)
    if start and is_unit(start[1]):
        raise NotUnderstood(f"{shown!r} goes on after its unit. {_ONE}")


def _unsigned_nought(value: float) -> float:
    """Turn minus nought, which prints as “-0”, into nought."""
    return value + 0.0
