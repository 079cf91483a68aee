"""What to look at, and the sign of damage: each part sound and damaged, side by side."""

from typing import Any

from bitepoint.classroom.posters.images import image
from bitepoint.pictures.canvas import Canvas
from bitepoint.pictures.damage.bench import DRAWN, Wordless
from bitepoint.sources import SOURCES
from bitepoint.workshop.damage import Damage, damage

_CUT = (0.0, 62.0, 720.0, 350.0)
"""The part of a drawing that holds the part; above it stood its name."""


def values() -> dict[str, Any]:
    """Return the parts in the order of the list, each with two images, its sign and what is decided."""
    named = dict.fromkeys(
        SOURCES[part.source].title.split(":")[0] for part in damage().values() if part.source != "common-practice"
    )
    return {
        "tiles": [_tile(part) for part in damage().values()],
        "sources": f"{'; '.join(named)}; all else: common practice, no source.",
    }


def _tile(part: Damage) -> dict[str, Any]:
    return {"part": part, "sound": _drawn(part, sound=True), "damaged": _drawn(part, sound=False)}


def _drawn(part: Damage, *, sound: bool) -> Any:
    canvas: Canvas = Wordless(430)
    DRAWN[part.id](canvas, sound)
    state = "Sound" if sound else "Damaged"
    drawing = canvas.drawing(alt=f"{state} {part.name}: {part.sound if sound else part.damaged}.", caption="")
    return image(drawing, cut=_CUT)
