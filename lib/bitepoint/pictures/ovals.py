"""Round parts seen at a slant: ovals, discs, rings of holes."""

from math import cos, radians, sin

from bitepoint.pictures.canvas import INK, METAL, WHITE, Canvas, Point
from bitepoint.pictures.strokes import IRON

SLANT = 0.42
"""Width of a circle seen at a slant, as a share of its height."""


def on_oval(centre: Point, r: float, angle_deg: float) -> Point:
    """Point of a slanted circle, clockwise from 12 o'clock."""
    return centre[0] + r * SLANT * sin(radians(angle_deg)), centre[1] - r * cos(radians(angle_deg))


def oval(centre: Point, r: float, start_deg: float = 0, end_deg: float = 360, steps: int = 40) -> list[Point]:
    """Points of a slanted circle or of an arc of it."""
    return [on_oval(centre, r, start_deg + (end_deg - start_deg) * k / steps) for k in range(steps + 1)]


def disc(canvas: Canvas, centre: Point, r: float, depth: float, fill: str = IRON, *, side: str = METAL) -> None:
    """Draw a round slab: its edge to the left, its face to the right."""
    back = (centre[0] - depth, centre[1])
    canvas.polygon([*oval(back, r, 180, 360, 24), *oval(centre, r, 0, 180, 24)], side)
    canvas.polygon(oval(centre, r), fill)


def holes(canvas: Canvas, centre: Point, r: float, angles_deg: list[float], size: float, fill: str = WHITE) -> None:
    """Draw holes or bolts round a slanted circle."""
    for angle in angles_deg:
        canvas.polygon(oval(on_oval(centre, r, angle), size, steps=14), fill)


def spoke(
    canvas: Canvas, centre: Point, inner: float, outer: float, angle_deg: float, colour: str = INK, width: float = 2
) -> None:
    """Draw a line from one radius to another."""
    canvas.line(on_oval(centre, inner, angle_deg), on_oval(centre, outer, angle_deg), colour, width)


def window(canvas: Canvas, centre: Point, r: float, half: float, start_deg: float, end_deg: float, fill: str) -> None:
    """Draw a curved window between two angles, `half` wide to both sides of a radius."""
    canvas.polygon(
        [*oval(centre, r + half, start_deg, end_deg, 10), *oval(centre, r - half, end_deg, start_deg, 10)], fill
    )
