"""Range checks shared by all calculators: out of range raises, nothing is clamped or mended."""

from numbers import Integral, Real

from bitepoint.errors import OutOfRange
from bitepoint.missing import look_up


def _number(value: float) -> str:
    try:
        return f"{float(value):.10g}"
    except OverflowError:
        return f"a number of {len(str(abs(int(value)) // 10**300)) + 300} digits"


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
    if isinstance(value, bool) or not isinstance(value, Real):
        raise OutOfRange(name, rule, repr(value)[:60], advice)
    # A whole number may be longer than any float; it is compared as it is.
    if not (value == value and low <= value <= high):
        raise OutOfRange(name, rule, f"{_number(value)}{unit_text}", advice)
    return value if isinstance(value, (int, float)) else float(value)


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
    if isinstance(value, bool) or not isinstance(value, Integral) or not low <= value <= high:
        shown = _number(value) if isinstance(value, int) and abs(value) >= 10**300 else repr(value)[:60]
        raise OutOfRange(name, f"a whole number from {low} to {high}", shown, advice)
    return int(value)


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
