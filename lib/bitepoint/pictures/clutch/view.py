"""The section on the page: millimetres to picture units, parts with threads, splines and pilot bearing, regions."""

from bitepoint.pictures.canvas import INK, Canvas, Point
from bitepoint.pictures.clutch.parts import parts_at
from bitepoint.pictures.clutch.sizes import SectionPart, Sizes
from bitepoint.pictures.registry import Shape
from bitepoint.pictures.strokes import part
from bitepoint.workshop.vehicles import Vehicle

ZERO = 300.0
"""Place of the friction face, in picture units."""
MOVING, STILL = (520.0, 415.0), (452.0, 366.0)
"""Level of the centre line and height of the ring gear above it: where the pedal moves, and where names stand all round."""


class SectionView:
    """Millimetres of the section to units of the picture."""

    def __init__(self, s: Sizes, room: tuple[float, float] = MOVING) -> None:
        self.axis, self.scale = room[0], room[1] / s.ring

    def at(self, x: float, r: float) -> Point:
        """Place of a point `x` along the axis and `r` out from it."""
        return ZERO + x * self.scale, self.axis - r * self.scale

    def outline(self, points: tuple[Point, ...]) -> list[Point]:
        """Places of all points of an outline."""
        return [self.at(*p) for p in points]


def draw_section(
    canvas: Canvas, v: Vehicle, s: Sizes, room: tuple[float, float] = MOVING
) -> tuple[SectionView, list[SectionPart]]:
    """Draw every part, each in a group named by its key, then the centre line."""
    view, found = SectionView(s, room), parts_at(v, s)
    for piece in found:
        with canvas.group(piece.key):
            for outline in piece.outlines:
                part(canvas, view.outline(outline), piece.fill, slant_deg=piece.slant_deg, gap=piece.gap)
            _detail(canvas, view, piece, s)
    canvas.line((118, view.axis), (640, view.axis), INK, 2, dash="22 5 4 5")
    canvas.text(700, view.axis + 6, "axis", 17, anchor="end")
    return view, found


def _detail(canvas: Canvas, view: SectionView, piece: SectionPart, s: Sizes) -> None:
    """Threads of a bolt, splines of the shaft, the cross of a sealed bearing."""
    if piece.key == "input-shaft":
        canvas.line(view.at(-5, s.shaft - 1.6), view.at(s.thick + 29, s.shaft - 1.6), INK, 2)
    if piece.key == "pilot-bearing":
        corners = view.outline(piece.outlines[0])
        canvas.line(corners[0], corners[2])
        canvas.line(corners[1], corners[3])
    if piece.key.endswith("-bolt"):
        points = piece.outlines[0]
        end, low, high = min(x for x, _ in points), points[4][1], points[-5][1]
        for k in range(5):
            x = end + 2.6 + 2 * k
            canvas.line(view.at(x, max(low, high) - 0.4), view.at(x + 0.8, min(low, high) + 0.4), INK, 2)


def regions(view: SectionView, found: list[SectionPart]) -> tuple[Shape, ...]:
    """One region a part: its outline, or the frame round it where it has several; the small ones first."""
    shapes = []
    for piece in reversed(found):
        points = [view.at(*p) for outline in piece.outlines for p in outline]
        if len(piece.outlines) == 1:
            flat = tuple(round(c, 2) for p in points for c in p)
            shapes.append(Shape(piece.key, piece.label, "polygon", flat))
        else:
            left, top = min(x for x, _ in points), min(y for _, y in points)
            right, low = max(x for x, _ in points), max(y for _, y in points)
            frame = tuple(round(c, 2) for c in (left, top, right - left, low - top))
            shapes.append(Shape(piece.key, piece.label, "rect", frame))
    return tuple(shapes)
