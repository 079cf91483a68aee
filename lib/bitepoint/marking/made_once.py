"""What is made of each of a few names, made when it is first asked for: as long as somebody keeps the table, no longer."""

from collections.abc import Callable
from typing import TypeVar

T = TypeVar("T")


class MadeOnce(dict[str, T]):
    """A table of what `make` makes of each name."""

    def __init__(self, make: Callable[[str], T]) -> None:
        super().__init__()
        self._make = make

    def __missing__(self, name: str) -> T:
        made = self[name] = self._make(name)
        return made
