"""One cell of a log: a number with point or comma, a time of day, or nothing."""

import re
from collections.abc import Callable

NOTHING = frozenset(("", "nan", "na", "n/a", "-", "--", "null", "none", "#n/a"))
_NUMBER = {
    ".": re.compile(r"[+-]?(?:\d{1,15}\.?\d{0,17}|\.\d{1,17})(?:[eE][+-]?\d{1,2})?", re.ASCII),
    ",": re.compile(r"[+-]?(?:\d{1,15},?\d{0,17}|,\d{1,17})(?:[eE][+-]?\d{1,2})?", re.ASCII),
}
_CLOCK = re.compile(r"(?:[\d.\-/]{6,10}[ T])?(\d{1,3}):([0-5]?\d):([0-5]?\d)(?:[.,](\d{1,9}))?Z?", re.ASCII)
_GEARS = {"n": 0.0, "r": -1.0}
Reader = Callable[[str], float | None]


def number_reader(decimal: str) -> Reader:
    """Return what reads a number written with this decimal sign; None is an empty cell, `ValueError` is no number."""
    pattern = _NUMBER[decimal]

    def read(text: str) -> float | None:
        text = text.strip()
        if pattern.fullmatch(text):
            return float(text.replace(",", "."))
        if text.casefold() in NOTHING:
            return None
        raise ValueError(text)

    return read


def read_clock(text: str) -> float | None:
    """Return the seconds since midnight of hh:mm:ss with or without a fraction; a date before it is left alone.

    >>> read_clock("14:03:07,25"), read_clock("2026-11-29T00:00:01Z"), read_clock("")
    (50587.25, 1.0, None)
    """
    text = text.strip()
    found = _CLOCK.fullmatch(text)
    if found is None:
        if text.casefold() in NOTHING:
            return None
        raise ValueError(text)
    hours, minutes, seconds, fraction = found.groups()
    return 3600.0 * int(hours) + 60.0 * int(minutes) + float(f"{seconds}.{fraction or 0}")


def gear_reader(decimal: str) -> Reader:
    """Return what reads a gear: a whole number, N or R."""
    number = number_reader(decimal)

    def read(text: str) -> float | None:
        named = _GEARS.get(text.strip().casefold())
        value = number(text) if named is None else named
        if value is not None and value != int(value):
            raise ValueError(text)
        return value

    return read
