"""How a picture is written down and drawn by key."""

import importlib
import pkgutil
from collections.abc import Callable
from difflib import get_close_matches
from functools import cache
from inspect import signature
from pathlib import Path
from typing import Any, Literal

from msgspec import Struct, structs

from bitepoint.errors import BadInput
from bitepoint.missing import MissingFigure
from bitepoint.pictures.framing import CAR_NAMES, framed_for
from bitepoint.workshop.vehicles import built_like


class Shape(Struct, frozen=True):
    """A named region of a drawing that can be pointed at; points in the drawing's own units.

    circle: x, y, r · rect: x, y, width, height · polygon: x1, y1, x2, y2, …
    `at`: where the drawing itself has written the region's letter; empty when it has not.
    """

    key: str
    label: str
    shape: Literal["circle", "rect", "polygon"]
    points: tuple[float, ...]
    at: tuple[float, ...] = ()


class Drawing(Struct, frozen=True):
    """A finished picture: SVG text on an opaque white ground, or PNG bytes; its alt text and caption."""

    content: str | bytes
    alt: str
    caption: str
    regions: tuple[Shape, ...] = ()
    width_px: int = 720


class Frame(Struct, frozen=True):
    """One place of a moving picture: what is read there, and how its groups lie against the first drawing.

    `shift`: group to units to the right; `turn`: group to degrees clockwise round a point (degrees, x, y);
    `shapes`: group to the corners its polygons have now; `words`: group to the words it shows now.
    """

    at: float
    says: str
    words: dict[str, str]
    shift: dict[str, float]
    turn: dict[str, tuple[float, float, float]] = {}
    shapes: dict[str, str] = {}


class Motion(Struct, frozen=True):
    """A picture that follows a slider: its drawing at the first place, and a frame for each place, one `step` apart."""

    title: str
    label: str
    unit: str
    step: float
    drawing: Drawing
    frames: tuple[Frame, ...]
    frame: str = ""


class Sound(Struct, frozen=True):
    """What can be heard to a picture: beats (when [s], pitch [Hz], loudness 0 to 1), and what is told from when on."""

    seconds: float
    beats: tuple[tuple[float, float, float], ...]
    told: tuple[tuple[float, str], ...]


Make = Callable[..., Drawing]
Move = Callable[..., Motion]
Hear = Callable[..., Sound]
_PICTURES: dict[str, Make] = {}
_MOTIONS: dict[str, Move] = {}
_SOUNDS: dict[str, Hear] = {}


def picture(key: str) -> Callable[[Make], Make]:
    """Register the function below as the picture `key`; its parameters must all have a default."""

    def register(make: Make) -> Make:
        if key in _PICTURES and _PICTURES[key].__module__ != make.__module__:
            raise ValueError(f"the picture {key!r} is drawn in two modules")
        _PICTURES[key] = make
        return make

    return register


def moving(key: str) -> Callable[[Move], Move]:
    """Register the function below as the motion of the picture `key`; it takes some of the picture's parameters."""

    def register(make: Move) -> Move:
        _MOTIONS[key] = make
        return make

    return register


def sounding(key: str) -> Callable[[Hear], Hear]:
    """Register the function below as the sound of the picture `key`; it takes the picture's parameters."""

    def register(make: Hear) -> Hear:
        _SOUNDS[key] = make
        return make

    return register


@cache
def _load() -> None:
    """Import every module below this package once: each registers its own pictures."""
    for module in pkgutil.walk_packages([str(Path(__file__).parent)], "bitepoint.pictures."):
        importlib.import_module(module.name)


def keys() -> list[str]:
    """Return the keys of all pictures."""
    _load()
    return sorted(_PICTURES)


def draw(key: str, **parameters: Any) -> Drawing:
    """Return the picture `key` drawn with these parameters.

    Raises
    ------
    BadInput
        There is no such picture, or it does not take such a parameter.
    """
    _load()
    if key not in _PICTURES:
        near = get_close_matches(str(key), _PICTURES, n=1, cutoff=0.0)
        raise BadInput(f"There is no picture {str(key)[:60]!r}. Did you mean {near[0]!r}?")
    try:
        return _drawn(key, parameters)
    except TypeError as error:
        raise BadInput(f"The picture {key!r} cannot be drawn so ({error}). Leave that parameter out.") from None


def _drawn(key: str, parameters: dict[str, Any]) -> Drawing:
    """Draw a picture; where a college's sheet has no size for it, after the training vehicle that is built most like it."""
    try:
        with framed_for(parameters):
            return _PICTURES[key](**parameters)
    except MissingFigure as error:
        name = next((n for n in CAR_NAMES if parameters.get(n) == error.letter), "")
        if not name:
            raise
        like = built_like(error.letter)
        with framed_for({name: like}):
            made = _PICTURES[key](**{**parameters, name: like})
        told = f"Drawn after training vehicle {like}: the sheet of {error.letter} has no {error.key}."
        return structs.replace(made, alt=f"{made.alt} {told}", caption=f"{made.caption} {told}".strip())


def motion(key: str, **parameters: Any) -> Motion | None:
    """Return how the picture `key` follows a slider, or None where it stands still."""
    _load()
    make = _MOTIONS.get(key)
    if make is None:
        return None
    taken = {name: value for name, value in parameters.items() if name in signature(make).parameters}
    with framed_for(parameters):
        try:
            return make(**taken)
        except MissingFigure:
            # Without its sizes it stands still, drawn after another car.
            return None


def sound(key: str, **parameters: Any) -> Sound | None:
    """Return what can be heard to the picture `key` drawn with these parameters, or None where it is silent."""
    _load()
    make = _SOUNDS.get(key)
    return None if make is None else make(**parameters)
