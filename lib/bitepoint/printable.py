"""Text out of a file as a person may see it: on a terminal, in a message, on a page."""

import re
import unicodedata
from typing import Any

_BREAKS = re.compile(r"[\t\n\r]+")


def printable(text: str) -> str:
    """Return text on one line; a character that cannot be printed is written out as its code point.

    Control and escape characters would move or colour what a terminal shows; marks of writing direction turn a name
    round; what is invisible makes two names look alike. Spaces of all widths stay.

    Examples
    --------
    >>> printable("L07-K" + chr(0x202E) + "piz.exe"), printable("two" + chr(10) + "lines")
    ('L07-K[U+202E]piz.exe', 'two lines')
    """
    if text.isprintable():
        return text
    return "".join(map(_shown, _BREAKS.sub(" ", text)))


def _shown(character: str) -> str:
    if character.isprintable() or unicodedata.category(character) == "Zs":
        return character
    return f"[U+{ord(character):04X}]"


def on_page(value: Any) -> Any:
    """Return a value for a template: text as `printable`, but with its lines; what is marked as safe is left alone."""
    if not isinstance(value, str) or hasattr(value, "__html__"):
        return value
    if value.isprintable():
        return value
    return "\n".join(map(printable, value.split("\n")))
