"""What the workshop bays share: title, room and lettered places."""

from collections.abc import Mapping

from bitepoint.pictures.bays import parts as bay
from bitepoint.pictures.canvas import Canvas, Point
from bitepoint.pictures.registry import Drawing, Shape
from bitepoint.workshop.scenes import LETTERS, Scene, scenes

Frame = tuple[float, float, float, float]
FLOOR = 470.0


def start(id: str) -> tuple[Canvas, Scene]:
    """Return an empty bay with its title, and what is known of its places."""
    scene, canvas = scenes()[id], Canvas(516)
    bay.room(canvas, FLOOR)
    canvas.text(20, 32, scene.title, 22, anchor="start", bold=True)
    return canvas, scene


def finish(canvas: Canvas, scene: Scene, bad: frozenset[str], frames: Mapping[str, tuple[Frame, Point]]) -> Drawing:
    """Letter the places and hand the picture back; nothing in it says which are hazards."""
    shapes = []
    for i, place in enumerate(scene.places):
        frame, at = frames[place.id]
        bay.number(canvas, at, LETTERS[i].upper())
        shapes.append(Shape(LETTERS[i], place.name, "rect", frame, at))
    names = " · ".join(f"{LETTERS[i].upper()} {place.name}" for i, place in enumerate(scene.places))
    return canvas.drawing(
        alt=scene.alt(sorted(bad)),
        caption=f"What do you see at each letter? {names}.",
        regions=tuple(shapes),
    )
