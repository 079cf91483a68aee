"""What stands in the frame of a picture: that of the car it is drawn for, else that of the training vehicles."""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from bitepoint.workshop.vehicles import FRAME, vehicles

CAR_NAMES = ("car", "vehicle")
"""What a picture calls the car that it is drawn for."""
_in_use: ContextVar[str] = ContextVar("frame")


def frame_words() -> str:
    """Return the words for the frame of the picture that is being drawn."""
    return _in_use.get(FRAME)


@contextmanager
def framed(words: str) -> Iterator[None]:
    """Let pictures drawn in the block carry these words, as those of a job do."""
    token = _in_use.set(words)
    try:
        yield
    finally:
        _in_use.reset(token)


@contextmanager
def framed_for(parameters: Mapping[str, Any]) -> Iterator[None]:
    """Let a picture carry the words of the car that its parameters name; where others were set, those stay."""
    letters = (parameters[name] for name in CAR_NAMES if isinstance(parameters.get(name), str))
    car = next((vehicles()[letter] for letter in letters if letter in vehicles()), None)
    if car is None or _in_use.get(None) is not None:
        yield
        return
    with framed(car.frame):
        yield
