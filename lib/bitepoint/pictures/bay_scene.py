"""What the workshop bays share: title, room, lettered places and the list of them below."""

from collections.abc import Mapping

from bitepoint.pictures import bay_parts as bay
from bitepoint.pictures.canvas import INK, WHITE, Canvas, Point
from bitepoint.pictures.registry import Drawing, Shape
from bitepoint.workshop.scenes import LETTERS, Scene, scenes

Frame = tuple[float, float, float, float]
FLOOR = 470.0


def start(id: str) -> tuple[Canvas, Scene]:
    """Return an empty bay with its title, and what is known of its places."""
    scene, canvas = scenes()[id], Canvas(640)
    bay.room(canvas, FLOOR)
    canvas.text(20, 32, scene.title, 22, anchor="start", bold=True)
    return canvas, scene


def finish(canvas: Canvas, scene: Scene, bad: frozenset[str], frames: Mapping[str, tuple[Frame, Point]]) -> Drawing:
    """Letter the places, list them below and hand the picture back; nothing in it says which are hazards."""
    top = canvas.height - 112
    canvas.rect(0, top - 12, 720, 124, WHITE, WHITE, 0)
    canvas.line((0, top - 12), (720, top - 12), INK, 2)
    shapes = []
    for i, place in enumerate(scene.places):
        frame, at = frames[place.id]
        letter = LETTERS[i].upper()
        bay.number(canvas, at, letter)
        canvas.text(20 + 350 * (i // 4), top + 14 + 26 * (i % 4), f"{letter}  {place.name}", 18, anchor="start")
        shapes.append(Shape(LETTERS[i], place.name, "rect", frame, at))
    return canvas.drawing(
        alt=scene.alt(sorted(bad)),
        caption="A workshop bay with lettered places. What do you see at each?",
        regions=tuple(shapes),
    )
