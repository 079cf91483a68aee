"""Facts and words of a question: what decides its mark, and what is asked and said.

Facts decide whether an answer can be marked; words may be bettered at any time. Each has a digest of its own, and both
stand in the logbook line of an answer.
"""

import re
from collections.abc import Iterable
from functools import lru_cache
from hashlib import blake2b
from itertools import chain
from typing import Any

import msgspec

_FIGURE = re.compile(r"\d+(?:[.,]\d+)?")
_NO_KEY = re.compile(r"[^a-z0-9]+")
_NOUGHTS = bytes(ord("0") if chr(byte) in "0123456789." else byte for byte in range(256))
_DIGITS_KEPT = 10
_TOO_LONG = b"0" * (_DIGITS_KEPT + 2)
"""One digit too many, and the point."""
_as_json = msgspec.json.Encoder(order="sorted").encode
_LONGEST_KEY = 60
_PLAIN = frozenset({str, int, bool, type(None)})


# A mistake has the same name for every learner.
@lru_cache(maxsize=8192)
def key_from(text: str) -> str:
    """Return a key made from words: small letters, digits and hyphens; a long one ends in a digest of the whole.

    Examples
    --------
    >>> key_from("Use it: it looks strong")
    'use-it-it-looks-strong'
    """
    key = _NO_KEY.sub("-", text.casefold()).strip("-")
    if len(key) <= _LONGEST_KEY and key:
        return key
    return f"{key[:40]}-{blake2b(text.encode('utf-8'), digest_size=6).hexdigest()}".lstrip("-")


def figures_in(texts: Iterable[str]) -> list[str]:
    """Return every figure that stands in the texts, sorted: words may change places, figures may not change.

    Examples
    --------
    >>> figures_in(["84 N·m at 410 mm", "M10×1.25"])
    ['1.25', '10', '410', '84']
    """
    return sorted(chain.from_iterable(map(_figures_of, texts)))


# Most texts of a question are the same for every learner: those of the whole bank are some 3,000, and stay in it.
@lru_cache(maxsize=8192)
def _figures_of(text: str) -> tuple[str, ...]:
    return tuple(_FIGURE.findall(text))


def plain(value: Any) -> Any:
    """Return a value with its floats to ten significant digits, and next to nothing as nothing.

    The last bits of sines and logarithms differ between machines.
    """
    # Half of what marking a class costs was here: nearly every value is a text or a whole number.
    if type(value) in _PLAIN:
        return value
    if isinstance(value, float):
        return _rounded(value)
    if isinstance(value, dict):
        return {str(k): v if type(v) in _PLAIN else plain(v) for k, v in value.items()}
    if isinstance(value, (list, tuple)):
        return list(value) if _PLAIN.issuperset(map(type, value)) else list(map(plain, value))
    return value


# Right figures, tolerances and mistakes are few where a class has few cars: three of four were rounded before.
@lru_cache(maxsize=8192)
def _rounded(value: float) -> float:
    return 0.0 if abs(value) < 1e-12 else float(f"{value:.{_DIGITS_KEPT}g}")


def digest_of(value: Any) -> str:
    """Return 16 hexadecimal digits over a value, keys in order and floats as `plain` rounds them."""
    return blake2b(as_plain_json(value), digest_size=8).hexdigest()


def digest_of_plain(value: Any) -> str:
    """Return what `digest_of` does, of a value in which `plain` would change nothing: it is not looked for."""
    return blake2b(_as_json(value), digest_size=8).hexdigest()


def as_plain_json(value: Any) -> bytes:
    """Return a value as JSON, keys in order, its floats as `plain` rounds them."""
    try:
        text = _as_json(value)
    except (TypeError, ValueError):
        return _as_json(plain(value))
    # Most facts hold no float that rounding would change, and then making them plain first changes no letter.
    return _as_json(plain(value)) if _may_round(text) else text


def _may_round(text: bytes) -> bool:
    """Whether there could be a float that `plain` changes: of more than ten digits, next to nothing, or minus nought.

    Texts may look like one; that costs time and changes nothing.
    """
    # Digits and points as noughts are found faster than by an expression.
    digits = text.translate(_NOUGHTS)
    return _TOO_LONG in digits or b"0e-0" in digits or b"-0.0" in text
