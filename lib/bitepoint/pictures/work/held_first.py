"""The gearbox before it comes out: what holds engine and gearbox is numbered before what frees them."""

from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SHADE, SKY, VERMILLION, WHITE, Canvas, Point
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import IRON, bend, part
from bitepoint.pictures.work.gearbox import beam

RUBBER = "#4A4038"
AXIS = 190.0
_HOLDS = ("1  a beam holds the engine", "2  jack and strap hold the gearbox")
_FREES = ("3  the mount comes off", "4  the last two bolts come out", "5  straight back, then down")
_NUMBERS: tuple[Point, ...] = ((330.0, 29.0), (404.0, 326.0), (536.0, 118.0), (222.0, 76.0), (590.0, 272.0))


@picture("strip-order")
def strip_order() -> Drawing:
    """Engine on its beam and gearbox on its jack, seen from the front of the car, five steps numbered in their order."""
    canvas = Canvas(472)
    _engine(canvas)
    _gearbox(canvas)
    _mount(canvas)
    _jack(canvas)
    canvas.arrow((462, 272), (566, 272), VERMILLION, 7)
    canvas.line((20, 372), (700, 372), INK, 3)
    for i, at in enumerate(_NUMBERS, start=1):
        canvas.circle(at, 17, WHITE, INK, 3)
        canvas.text(at[0], at[1] + 7, str(i), 20, bold=True)
    for x, title, rows in ((24.0, "First what holds:", _HOLDS), (392.0, "Then what frees:", _FREES)):
        canvas.text(x, 396, title, 19, anchor="start", bold=True)
        canvas.lines(x, 418, rows, 18, anchor="start")
    return canvas.drawing(
        alt=(
            "Engine and gearbox side by side, seen from the front of the car. The engine hangs on a beam that stands on both wings; the gearbox lies strapped on "
            f"its jack; its far end sits on a mount. First what holds: {'; '.join(_HOLDS)}. Then what frees: {'; '.join(_FREES)}."
        ),
        caption="Seen from the front of the car. What holds a load comes before what frees it.",
    )


def _engine(canvas: Canvas) -> None:
    beam(canvas, 128, 20, 78)
    canvas.circle((128, 80), 9, WHITE)
    part(canvas, [(44, 98), (70, 80), (196, 80), (216, 94), (216, 286), (190, 316), (66, 316), (44, 292)], IRON, gap=16)
    canvas.boxed(130, 170, "engine", 20)


def _gearbox(canvas: Canvas) -> None:
    outline = [(216, 94), (238, 92), (302, 112), (330, 136), (424, 138), (440, 158), (440, 222), (424, 244), (384, 250)]
    outline += [(368, 286), (334, 304), (272, 304), (240, 292), (216, 286)]
    canvas.polygon(outline, METAL, INK, 3)
    canvas.line((238, 92), (238, 290), INK, 2)
    for x in (346.0, 372.0, 398.0):
        canvas.line((x, 146), (x, 226), SHADE, 3)
    canvas.circle((320, 262), 26, SHADE)
    canvas.circle((320, 262), 12, WHITE)
    canvas.line((30, AXIS), (470, AXIS), BLUE, 2, dash="22 5 4 5")
    canvas.boxed(318, 222, "gearbox", 18)
    for y in (100.0, 272.0):
        canvas.rect(198, y, 44, 12, ORANGE)
        canvas.rect(242, y - 5, 12, 22, ORANGE)


def _mount(canvas: Canvas) -> None:
    canvas.polygon([(438, 156), (508, 150), (508, 186), (438, 196)], METAL, INK, 3)
    canvas.polygon([(508, 142), (568, 138), (568, 200), (508, 194)], RUBBER, INK, 3)
    canvas.rect(568, 100, 26, 140, METAL, INK, 3)
    canvas.lines(606, 160, ("body of", "the car"), 18, anchor="start")
    canvas.text(538, 224, "mount", 18)


def _jack(canvas: Canvas) -> None:
    x, top = 322.0, 304.0
    bend(canvas, [(x - 62, top + 8), (x - 58, 100), (x + 40, 128), (x + 62, top + 8)], fill=SKY, width=8)
    canvas.polygon([(x - 76, top - 12), (x - 60, top + 2), (x + 60, top + 2), (x + 76, top - 12), (x + 76, top + 16), (x - 76, top + 16)], SHADE)  # fmt: skip
    canvas.rect(x - 14, top + 16, 28, 24, METAL)
    canvas.polygon(
        [(x - 104, 358), (x - 18, 338), (x + 18, 338), (x + 104, 358), (x + 104, 366), (x - 104, 366)], METAL
    )
    canvas.text(x - 92, 346, "jack", 18, anchor="end")
