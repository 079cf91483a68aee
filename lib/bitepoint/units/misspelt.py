"""What people type in place of one figure (a tolerance, a range, a fraction, a power of ten), named for what it is.

Each is refused with what to write instead; nothing is worked out behind anybody's back.
"""

import re
from collections.abc import Callable

from bitepoint.errors import NotUnderstood

_FRACTIONS = {"½": " 1/2", "¼": " 1/4", "¾": " 3/4"}
_SIGN = r"[+\-−–]?\s*"
_FIGURE = rf"{_SIGN}\d+(?:[.,]\d+)?"
_LARGEST_POWER = 9
_SINGLE = re.compile(r"\d{1,12}(?:\.\d{1,12})?[^\d.,±+½¼¾x]*", re.I).fullmatch
"""One figure and no other after it, nor a sign that could begin one: none of the wrong forms below looks like that."""


def refuse_what_is_no_single_figure(text: str, shown: str) -> None:
    """Raise `NotUnderstood` where `text` is one of the known wrong forms; `shown` is how a message quotes it.

    Raises
    ------
    NotUnderstood
        Says what the text is and what to write.
    """
    if _SINGLE(text):
        return
    for sign, figures in _FRACTIONS.items():
        text = text.replace(sign, figures)
    for pattern, told in _FORMS:
        match = pattern.match(text.strip())
        if match:
            raise NotUnderstood(told(match, shown))


def _tolerance(match: re.Match[str], shown: str) -> str:
    return f"{shown!r} has a tolerance. Write the figure alone: {match[1].strip()[:20]}."


def _range(match: re.Match[str], shown: str) -> str:
    return f"{shown!r} is a range. Write one number with its unit."


def _hexadecimal(match: re.Match[str], shown: str) -> str:
    return f"{shown!r} is no decimal number. Write it in the digits 0 to 9."


def _power(match: re.Match[str], shown: str) -> str:
    exponent = match[2].replace("−", "-")
    if abs(int(exponent)) > _LARGEST_POWER:
        return f"{shown!r} is written with a power of ten. Write it out in plain digits."
    value = float(f"{_plain(match[1])}e{exponent}")
    return f"{shown!r} is written with a power of ten. Write it out: {_decimal(value, match[3])}."


def _fraction(match: re.Match[str], shown: str) -> str:
    whole, over, under = int(match[1] or 0), int(match[2]), int(match[3])
    if not under:
        return f"{shown!r} is a fraction. Write it as a decimal."
    return f"{shown!r} is a fraction. Write it as a decimal: {_decimal(whole + over / under, match[4])}."


def _both_marks(match: re.Match[str], shown: str) -> str:
    whole, mark, decimals = match.groups()
    plain = f"{re.sub(r'[.,]', '', whole)}.{decimals}"
    return f"{whole}{mark}{decimals} has both a point and a comma. Write {plain} without the mark of the thousands."


def _two_marks(match: re.Match[str], shown: str) -> str:
    return f"{match[1]} has two marks. Write {re.sub(r'[.,]', '', match[1])} without the marks of the thousands."


def _too_many_digits(match: re.Match[str], shown: str) -> str:
    return f"{shown!r} has more than 12 digits in a row. Round it."


def _plain(number: str) -> str:
    return re.sub(r"\s", "", number).replace(",", ".").replace("−", "-").replace("–", "-")


def _decimal(value: float, unit: str | None) -> str:
    figure = f"{value:.12f}".rstrip("0").rstrip(".")
    return f"{figure} {(unit or '').strip()[:20]}".strip()


_Told = Callable[[re.Match[str], str], str]
# In this order: the first that fits is told.
_FORMS: tuple[tuple[re.Pattern[str], _Told], ...] = (
    (re.compile(r"\D*\d{13,}|\D*\d{1,12}[.,]\d{13,}"), _too_many_digits),
    (re.compile(rf"({_FIGURE}[^±\d]*)(?:±|\+\s*/\s*[-−–]|\+[-−–])"), _tolerance),
    (re.compile(rf"{_SIGN}0x[0-9a-f]", re.I), _hexadecimal),
    (
        re.compile(rf"({_FIGURE})\s*(?:e|[x×*·]\s*10\s*(?:\^|\*\*))\s*([+\-−]?\d{{1,3}})(?!\d)\s*(.*)", re.S | re.I),
        _power,
    ),
    (re.compile(rf"{_FIGURE}\s*(?:[-–—]|\.\.+|…|to\b)\s*\d", re.I), _range),
    (re.compile(rf"{_SIGN}(\d{{1,3}}(?:\.\d{{3}})+)(,)(\d{{1,12}})(?![\d.,])"), _both_marks),
    (re.compile(rf"{_SIGN}(\d{{1,3}}(?:,\d{{3}})+)(\.)(\d{{1,12}})(?![\d.,])"), _both_marks),
    (re.compile(rf"{_SIGN}(\d{{1,3}}(?:\.\d{{3}}){{2,3}}|\d{{1,3}}(?:,\d{{3}}){{2,3}})(?![\d.,])"), _two_marks),
    (re.compile(r"(?:(\d{1,4})\s+)?(\d{1,4})\s*[/⁄]\s*(\d{1,4})(?!\d)\s*(.*)", re.S), _fraction),
)
