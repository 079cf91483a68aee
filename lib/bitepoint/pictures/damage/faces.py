"""A flywheel's friction face, sound, with hot spots or with heat cracks; each returns the region where one has to look."""

from bitepoint.pictures.canvas import BLUE, INK, SHADE, SKY, WHITE, Canvas, Point, on_circle
from bitepoint.pictures.registry import Shape
from bitepoint.pictures.strokes import IRON, arc, hatched, smooth


def _face(canvas: Canvas) -> Point:
    """A wide piece of a flywheel's face with its bolt holes."""
    at = (360.0, 620.0)
    canvas.polygon([*arc(at, 560, -37, 37, steps=30), *arc(at, 250, 37, -37, steps=30)], IRON, INK, 3)
    canvas.polygon([*arc(at, 505, -37, 37, steps=30), *arc(at, 330, 37, -37, steps=30)], "#ECEFF1", INK, 2)
    for r in (365, 400, 435, 470):
        canvas.polyline(arc(at, r, -36, 36, steps=24), SHADE, 2)
    for angle in (-30, -10, 10, 30):
        canvas.circle(on_circle(*at, 532, angle), 11, WHITE)
    return at


def _patch(at: Point, r: float, angle: float, size: float) -> list[Point]:
    x, y = on_circle(*at, r, angle)
    return smooth(
        [
            (x - size, y + 4),
            (x - size * 0.6, y - size * 0.62),
            (x + size * 0.3, y - size * 0.75),
            (x + size, y - size * 0.1),
            (x + size * 0.5, y + size * 0.7),
            (x - size * 0.4, y + size * 0.6),
        ],
        closed=True,
    )


def hot_spots(canvas: Canvas, ok: bool) -> Shape:
    """Blue patches on a flywheel's face."""
    at = _face(canvas)
    for angle, r, size in ((-28, 412, 30), (-14, 428, 38), (0, 410, 44), (14, 426, 36), (28, 414, 31)):
        if not ok:
            canvas.polygon(_patch(at, r, angle, size), SKY, INK, 2)
            canvas.polygon(_patch(at, r, angle, size * 0.62), BLUE, BLUE, 1)
            hatched(canvas, _patch(at, r, angle, size * 0.62), gap=7, colour=INK)
    return Shape("hot-spots", "friction face", "rect", (90, 110, 540, 190))


def heat_cracks(canvas: Canvas, ok: bool) -> Shape:
    """Radial cracks in a flywheel's face."""
    at = _face(canvas)
    if not ok:
        for k in range(15):
            angle, low, high = -12 + 1.7 * k + (k % 3) * 0.3, 350 + (k * 37) % 40, 440 + (k * 23) % 50
            bends = [on_circle(*at, low + (high - low) * j / 6, angle + (0.45 if j % 2 else -0.35)) for j in range(7)]
            canvas.polyline(bends, INK, 3 if k % 2 else 4)
    return Shape("heat-cracks", "friction face", "rect", (240, 110, 260, 190))
