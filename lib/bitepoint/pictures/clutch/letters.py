"""The clutch in section with letters in place of names: what a drill points at and asks for."""

from collections.abc import Sequence
from math import hypot

from bitepoint.errors import OutOfRange
from bitepoint.pictures.canvas import BLUE, INK, WHITE, Canvas, Point
from bitepoint.pictures.clutch.names import Name, names
from bitepoint.pictures.clutch.sizes import sizes
from bitepoint.pictures.clutch.view import STILL, draw_section, regions
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.workshop.part_names import SECTION
from bitepoint.workshop.vehicles import vehicle as sheet

LETTERS = "abcdefghij"
BADGE = 17.0


@picture("clutch-lettered")
def clutch_lettered(*, vehicle: str = "A", places: Sequence[int] = (8, 9, 1, 11, 7, 12)) -> Drawing:
    """The section, pedal up, letter a at the first of the places, and so on; a place is a number of `SECTION`."""
    v, s = sheet(vehicle), sizes(sheet(vehicle), 0)
    canvas = Canvas(560)
    canvas.text(20, 32, "Clutch in section, pedal up", 22, anchor="start", bold=True)
    canvas.text(20, 58, "← engine", 18, anchor="start", bold=True)
    canvas.text(700, 32, "gearbox →", 18, anchor="end", bold=True)
    view, found = draw_section(canvas, v, s, STILL)
    known = {name.key: name for name in names(view, v, s)}
    keys = _keys(places, set(known))
    shapes = {shape.key: shape for shape in regions(view, found)}
    lettered, places_at = [], _apart([known[key] for key in keys])
    for letter, key in zip(LETTERS, keys, strict=False):
        at = badge(canvas, letter, places_at[key], known[key].to)
        shape = shapes[key]
        lettered.append(Shape(letter, f"place {letter.upper()}", shape.shape, shape.points, at))
    canvas.frame(frame_words())
    seen = {part.key: part.seen for part in SECTION}
    places_told = "; ".join(f"{letter.upper()}: {seen[key]}" for letter, key in zip(LETTERS, keys, strict=False))
    return canvas.drawing(
        alt=f"Axial section of the upper half of the clutch of {v.name}, engine on the left, gearbox on the right. "
        f"Letters in place of names. {places_told}.",
        caption=f"{v.opening}, pedal up. Each letter stands for one part.",
        regions=tuple(lettered),
    )


def _keys(places: Sequence[int], drawn: set[str]) -> list[str]:
    """Keys of the parts at these places of `SECTION`, or one clear line."""
    allowed = [i for i, part in enumerate(SECTION) if part.key in drawn]
    if not places or len(places) > len(LETTERS) or len(set(places)) != len(places) or not set(places) <= set(allowed):
        rule = "up to 10 different ones of " + ", ".join(map(str, allowed))
        raise OutOfRange("places", rule, str(list(places))[:60], "Leave out what this vehicle does not have.")
    return [SECTION[i].key for i in places]


def _apart(called: Sequence[Name]) -> dict[str, Point]:
    """Return where the rings stand: beside their names' places, on each side far enough apart to be told from each other."""
    found: dict[str, Point] = {}
    for anchor in ("end", "start", "middle"):
        lowest = 0.0
        for name in sorted((n for n in called if n.anchor == anchor), key=lambda n: n.at[1]):
            x, y = _beside(name)
            if anchor != "middle":
                y = lowest = max(y, lowest + 2 * BADGE + 6)
            found[name.key] = (x, y)
    return found


def _beside(name: Name) -> Point:
    x, y = name.at
    return {"end": (x - 22, y - 6), "start": (x + 22, y - 6), "middle": (x, y)}[name.anchor]


def badge(canvas: Canvas, letter: str, at: Point, to: Point) -> tuple[float, float]:
    """Draw a letter in a ring with a line to what it stands for; return the ring's middle."""
    length = hypot(to[0] - at[0], to[1] - at[1]) or 1
    start = (at[0] + (to[0] - at[0]) * BADGE / length, at[1] + (to[1] - at[1]) * BADGE / length)
    canvas.line(start, to, WHITE, 6)
    canvas.line(start, to, BLUE, 3)
    canvas.circle(to, 5, BLUE, WHITE, 2)
    canvas.circle(at, BADGE, WHITE, BLUE, 3)
    canvas.text(at[0], at[1] + 8, letter.upper(), 22, bold=True, colour=INK)
    return round(at[0], 2), round(at[1], 2)
