"""A picture that follows a slider: all places of the drawing are there from the start, so the kernel is not asked."""

from typing import Any, ClassVar

import anywidget
import traitlets
from msgspec import to_builtins

from bitepoint.pictures import Motion

from .common import text


class SlidingPicture(anywidget.AnyWidget):  # type: ignore[misc]
    """A drawing whose named groups are moved by a slider.

    Traits
    ------
    spec : dict
        title; label, unit and step of the slider; frame (words or ""); svg and alt of the drawing at the first place;
        frames, one a step: {"at", "says", "words", "shift", "turn", "shapes"} as in `bitepoint.pictures.Frame`.
        A group of the drawing has the class "bp-part-" and its name.
    """

    _esm: ClassVar[str] = text("common.js", "slide.js")
    _css: ClassVar[str] = text("common.css", "slide.css")
    spec = traitlets.Dict().tag(sync=True)

    def __repr__(self) -> str:
        return f"SlidingPicture({len(self.spec.get('frames', ()))} places)"


def slide_spec(moving: Motion) -> dict[str, Any]:
    """Return the spec of the control for one moving picture."""
    return {
        "title": moving.title,
        "label": moving.label,
        "unit": moving.unit,
        "step": moving.step,
        "frame": moving.frame,
        "svg": moving.drawing.content,
        "alt": moving.drawing.alt,
        "frames": to_builtins(moving.frames),
    }
