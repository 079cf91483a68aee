"""Parts of a release system from the side: pedal, master cylinder, housing with bearing, fork, slave cylinders."""

from math import cos, radians, sin

from bitepoint.pictures.canvas import INK, METAL, PALE, SHADE, SKY, VERMILLION, WHITE, Canvas, Point
from bitepoint.pictures.strokes import IRON, STEEL, bend, box, callout, capsule, coil, part, smooth

SWING_DEG = 26
PEDAL = (92.0, 104.0)
ARM = 214.0
AXIS = 392.0
FINGERS = 424.0
"""Where the finger tips stand, pedal up; the axis of the clutch; the pedal's pivot and arm."""


def swung(pivot: Point, length: float, angle_deg: float) -> Point:
    """End of an arm that hangs from its pivot, swung forward (to the right) by an angle."""
    return pivot[0] + length * sin(radians(angle_deg)), pivot[1] + length * cos(radians(angle_deg))


def pedal(canvas: Canvas, down: float, *, over: float = 0, under: float = 0) -> Point:
    """Draw bulkhead and pedal; return the end of its short arm, `over` or `under` the pivot."""
    canvas.rect(184, 44, 14, 270, SHADE)
    canvas.hatch(184, 44, 14, 270)
    angle = -14 + SWING_DEG * down
    foot = swung(PEDAL, ARM, angle)
    short = swung(PEDAL, -over if over else under, angle)
    if down:
        rest = swung(PEDAL, ARM, -14)
        canvas.polyline([PEDAL, rest], SHADE, 3)
        canvas.arrow((rest[0] - 6, rest[1] + 22), (foot[0] - 6, foot[1] + 22), VERMILLION, 5)
    canvas.polygon(capsule(short if over else PEDAL, foot, 8), METAL)
    canvas.polygon(capsule((foot[0] - 17, foot[1] + 4), (foot[0] + 10, foot[1] - 18), 8), INK)
    canvas.circle(PEDAL, 13, METAL)
    canvas.circle(PEDAL, 4, INK)
    canvas.circle(short, 6, WHITE)
    return short


def master(canvas: Canvas, rod: Point, stroke: float) -> Point:
    """Draw master cylinder and tank in front of the bulkhead; return where the pipe leaves."""
    y, front = rod[1], 340.0
    canvas.rect(198, y - 21, front - 198, 42, METAL)
    canvas.rect(206, y - 14, front - 212, 28, SKY)
    if stroke:
        canvas.rect(206, y - 14, stroke, 28, WHITE)
    canvas.rect(206 + stroke, y - 14, 26, 28, STEEL)
    canvas.line((219 + stroke, y - 14), (219 + stroke, y + 14))
    coil(canvas, (234 + stroke, y), (front - 8, y), 9, 6, width=2)
    canvas.line(rod, (206 + stroke, y), INK, 6)
    canvas.rect(252, y - 34, 16, 14, SKY)
    canvas.rect(222, y - 80, 80, 46, WHITE)
    canvas.rect(222, y - 68, 80, 34, SKY)
    canvas.rect(232, y - 91, 60, 11, METAL)
    canvas.line((292, y - 68), (312, y - 68))
    canvas.text(318, y - 62, "MAX", 16, anchor="start")
    return front, y


def pipe(canvas: Canvas, points: list[Point]) -> None:
    """Draw a pipe filled with fluid."""
    bend(canvas, smooth(points), fill=SKY, width=6)


def housing(canvas: Canvas, *, window: bool = True) -> None:
    """Draw the bell housing, the flywheel and the gearbox behind, in section round the release bearing."""
    part(canvas, [(360, AXIS - 168), (372, AXIS - 168), (372, AXIS + 118), (360, AXIS + 118)], IRON, slant_deg=45)
    top = [(372, AXIS - 160), (478, AXIS - 160), (478, AXIS - 148), (384, AXIS - 148)]
    part(
        canvas,
        [(372, AXIS - 172), *top[1:2], (478, AXIS - 150), (384, AXIS - 150), (384, AXIS - 140), (372, AXIS - 140)],
        STEEL,
        slant_deg=135,
        gap=8,
    )
    right = 540.0 if window else 478.0
    wall = [
        (right, AXIS - 160),
        (588, AXIS - 160),
        (600, AXIS - 146),
        (600, AXIS + 84),
        (584, AXIS + 84),
        (584, AXIS - 140),
        (578, AXIS - 148),
        (right, AXIS - 148),
    ]
    part(canvas, wall, STEEL, slant_deg=135, gap=8)
    canvas.rect(600, AXIS - 66, 96, 132, PALE)
    canvas.text(650, AXIS + 46, "gearbox", 17)


def bearing(canvas: Canvas, travel: float, *, tube: bool = True, sleeve: float = 46) -> float:
    """Draw shaft, guide tube, bearing and diaphragm fingers; the bearing has moved `travel` towards the clutch."""
    x = FINGERS - travel
    canvas.rect(384, AXIS - 9, 312, 18, WHITE)
    if tube:
        for y in (AXIS - 19, AXIS + 12):
            part(canvas, box(456, y, 128, 7), STEEL, slant_deg=None)
    for side in (-1, 1):
        tip = (x - 2, AXIS + side * 27)
        canvas.polygon([(391, AXIS + side * 78), (397, AXIS + side * 78), tip, (tip[0] - 6, tip[1])], SKY)
        part(
            canvas,
            [
                (372, AXIS + side * 112),
                (372, AXIS + side * 104),
                (394, AXIS + side * 96),
                (398, AXIS + side * 70),
                (405, AXIS + side * 70),
                (402, AXIS + side * 104),
            ],
            STEEL,
            slant_deg=None,
        )
        y = AXIS - 44 if side < 0 else AXIS + 22
        canvas.rect(x, y, 24, 22, METAL)
        canvas.circle((x + 12, y + 11), 7, WHITE)
        canvas.rect(x + 24, AXIS - 34 if side < 0 else AXIS + 21, sleeve, 13, STEEL)
    return x


def fork(canvas: Canvas, pivot: Point, inner: Point, outer: Point, *, ball: bool) -> None:
    """Draw lever and fork as one bar on its pivot."""
    canvas.polygon(capsule(outer, pivot, 7), METAL)
    canvas.polygon(capsule(pivot, inner, 9), METAL)
    if ball:
        canvas.rect(pivot[0] + 6, pivot[1] - 6, 584 - pivot[0] - 6, 12, METAL)
        canvas.circle((pivot[0] + 6, pivot[1]), 11, SHADE)
    else:
        canvas.circle(pivot, 14, SHADE)
        canvas.circle(pivot, 4, INK)


def label(canvas: Canvas, words: str | tuple[str, ...], at: Point, to: Point, anchor: str = "middle") -> None:
    """Name a part of a release system."""
    callout(canvas, words, at, to, anchor=anchor)  # type: ignore[arg-type]
