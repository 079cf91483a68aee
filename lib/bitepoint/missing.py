"""A figure that a sheet does not have: whoever uses it is told to look it up, and never gets a default."""

from collections.abc import Callable
from typing import Any, NoReturn

from bitepoint.errors import NotCovered

LOOK_UP = "look it up"
"""How a sheet says that it has no such figure; a page prints the same words."""


class MissingFigure(NotCovered):
    """A figure was used that the sheet does not have."""

    def __init__(self, letter: str, key: str) -> None:
        self.letter, self.key = letter, key
        super().__init__(f"The sheet of {letter} has no {key}. Look it up in the vehicle's repair data.")


class Missing:
    """Stands in a data sheet where a figure is missing. Whatever is done with it raises `MissingFigure`."""

    def __init__(self, letter: str, key: str) -> None:
        self.letter, self.key = letter, key

    def __repr__(self) -> str:
        return LOOK_UP

    def __hash__(self) -> int:
        return hash((self.letter, self.key))

    def _used(self, *_: Any) -> NoReturn:
        raise MissingFigure(self.letter, self.key)

    __str__ = __format__ = _used
    __bool__ = __float__ = __int__ = __index__ = __round__ = __abs__ = __neg__ = _used
    __eq__ = __ne__ = __lt__ = __le__ = __gt__ = __ge__ = _used
    __add__ = __radd__ = __sub__ = __rsub__ = __mul__ = __rmul__ = _used
    __truediv__ = __rtruediv__ = __floordiv__ = __rfloordiv__ = __mod__ = __rmod__ = __pow__ = __rpow__ = _used
    __iter__ = __len__ = __getitem__ = __contains__ = _used


def is_missing(value: object) -> bool:
    """Whether a value of a sheet is one that it does not have."""
    return isinstance(value, Missing)


def look_up(value: object) -> None:
    """Raise `MissingFigure` where a value is one that a sheet does not have."""
    if isinstance(value, Missing):
        raise MissingFigure(value.letter, value.key)


def told(figure: Callable[[], str]) -> str:
    """Return what a figure is on paper: “look it up” where the sheet does not have it.

    Examples
    --------
    >>> told(lambda: f"{22:g} N·m"), told(lambda: f"{Missing('K7V', 'wheels.torque_nm'):g} N·m")
    ('22 N·m', 'look it up')
    """
    try:
        return figure()
    except MissingFigure:
        return LOOK_UP
