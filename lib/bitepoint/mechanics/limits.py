"""Range checks shared by all calculators: out of range raises, nothing is clamped or mended."""

import math
import numbers

from bitepoint.errors import OutOfRange
from bitepoint.missing import look_up

_LARGEST = 10**300


def _number(value: float) -> str:
    return _length_of(value) if _beyond_floats(value) else f"{value:.10g}"


def _beyond_floats(value: object) -> bool:
    """Whether it is a whole number that no float holds: isfinite, formats and products overflow on it."""
    return isinstance(value, int) and abs(value) > _LARGEST


def _length_of(value: float) -> str:
    # By its logarithm: Python refuses to print what has more than 4300 digits.
    return f"a number of {int(math.log10(abs(value))) + 1} digits"


def _refuse_other_numbers(name: str, value: object) -> None:
    """Refuse a number of another library for its kind: of what it would become, this project knows nothing."""
    if isinstance(value, numbers.Number) and not isinstance(value, (int, float, complex)):
        advice = "Write int(…) or float(…) around it."
        raise OutOfRange(name, "a plain number of Python", repr(value)[:60], advice)


def within(name: str, value: float, low: float, high: float, unit: str, advice: str) -> float:
    """Return `value` if it is a finite number with low <= value <= high.

    Raises
    ------
    OutOfRange
        Names the argument, the range with its unit, the value given and what to do.
    """
    # Nearly every call ends here; the words of the rule are made for an error alone.
    if type(value) in (float, int) and low <= value <= high:
        return value
    unit_text = f" {unit}" if unit else ""
    rule = f"between {_number(low)} and {_number(high)}{unit_text}"
    look_up(value)
    _refuse_other_numbers(name, value)
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise OutOfRange(name, rule, repr(value)[:60], advice)
    if _beyond_floats(value):
        raise OutOfRange(name, rule, _length_of(value), advice)
    if not (math.isfinite(value) and low <= value <= high):
        raise OutOfRange(name, rule, f"{_number(value)}{unit_text}", advice)
    return value


def whole(name: str, value: int, low: int, high: int, advice: str) -> int:
    """Return `value` if it is a whole number (int) with low <= value <= high.

    Raises
    ------
    OutOfRange
        As for `within`; a float is refused even when it is whole.
    """
    if type(value) is int and low <= value <= high:
        return value
    look_up(value)
    _refuse_other_numbers(name, value)
    if isinstance(value, bool) or not isinstance(value, int) or not low <= value <= high:
        shown = _length_of(value) if _beyond_floats(value) else repr(value)[:60]
        raise OutOfRange(name, f"a whole number from {low} to {high}", shown, advice)
    return value


def one_of(name: str, value: str, allowed: tuple[str, ...], advice: str) -> str:
    """Return `value` if it is one of `allowed`.

    Raises
    ------
    OutOfRange
        Lists what is allowed.
    """
    if value not in allowed:
        raise OutOfRange(name, f"one of {', '.join(allowed)}", repr(value)[:60], advice)
    return value
