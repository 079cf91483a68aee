"""A workshop bay: a raised car with its gearbox coming out."""

from collections.abc import Sequence

from bitepoint.pictures.bays import parts as bay
from bitepoint.pictures.bays.scene import FLOOR, finish, start
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, SHADE, SKY, WHITE, Canvas
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import IRON, STEEL, bend, capsule, smooth
from bitepoint.pictures.work.gearbox import transverse_outline

_ROPE = "#7A5A2E"
_OIL = "#4A4038"


@picture("bay-strip-down")
def bay_strip_down(*, wrong: Sequence[str] = ()) -> Drawing:
    """A raised car, its gearbox on a jack; `wrong` names the places that are drawn as hazards.

    Raises
    ------
    BadInput
        A place is named that cannot be a hazard here.
    """
    canvas, scene = start("bay-strip-down")
    bad = scene.check(wrong)
    bay.post(canvas, 372, 60, FLOOR)
    canvas.line((250, 104), (250, 176), _ROPE if "engine" in bad else INK, 5)
    canvas.line((300, 140), (592, 140), INK, 2, dash="6 5")
    bay.car(canvas, 180, 244)
    _support(canvas, rated="engine" not in bad)
    for pad in (318.0, 446.0):
        canvas.polygon(capsule((372, 268), (pad, 252), 8), SHADE, INK, 3)
        canvas.rect(pad - 7, 222, 14, 26, METAL)
        canvas.rect(pad - 18, 211, 36, 11, INK)
    canvas.polygon([(206, 208), (262, 208), (262, 258), (250, 268), (214, 268), (206, 258)], IRON, INK, 3)
    _drive_shaft(canvas, tied="drive-shaft" not in bad)
    _gearbox(canvas, strapped="gearbox" not in bad)
    if "floor" in bad:
        pool = [(352, 486), (392, 478), (440, 480), (476, 492), (440, 504), (388, 506)]
        canvas.polygon(smooth([(float(x), float(y)) for x, y in pool], closed=True), _OIL, INK, 2)
        canvas.polyline([(392, 489), (420, 486), (444, 489)], WHITE, 3)
    _air_line(canvas, blowing="air-line" in bad)
    bay.bench(canvas, 560, FLOOR, 150)
    _flywheel(canvas)
    _bag(canvas, shut="dust-bag" not in bad)
    _battery(canvas, off="battery" not in bad)
    return finish(
        canvas,
        scene,
        bad,
        {
            "engine": ((188, 84, 126, 72), (172, 104)),
            "air-line": ((222, 330, 86, 60), (250, 326)) if "air-line" in bad else ((20, 128, 104, 118), (138, 150)),
            "drive-shaft": ((178, 266, 40, 80), (160, 300))
            if "drive-shaft" in bad
            else ((132, 206, 74, 72), (116, 250)),
            "gearbox": ((310, 284, 150, 188), (476, 320)),
            "floor": ((346, 474, 136, 36), (504, 494)),
            "flywheel": ((580, 344, 108, 38), (704, 344)),
            "dust-bag": ((572, 390, 86, 80), (682, 420)),
            "battery": ((588, 84, 128, 128), (588, 78)),
        },
    )


def _support(canvas: Canvas, *, rated: bool) -> None:
    if not rated:
        sag = smooth([(194, 116), (220, 104), (250, 110), (280, 104), (306, 112)])
        bend(canvas, sag, fill=SHADE, width=9)
        for x in (243, 250, 257):
            canvas.line((x, 102), (x + 3, 119), _ROPE, 4)
        return
    canvas.rect(194, 92, 112, 24, ORANGE, INK, 3)
    canvas.rect(216, 95, 68, 18, WHITE)
    canvas.text(250, 110, "500 kg", 16, bold=True)
    canvas.rect(198, 116, 10, 42, ORANGE)
    canvas.rect(292, 116, 10, 28, ORANGE)


def _drive_shaft(canvas: Canvas, *, tied: bool) -> None:
    if tied:
        canvas.polygon(capsule((210, 254), (194, 254), 9), METAL, INK, 2)
        bend(canvas, [(194, 254), (156, 254)], fill=METAL, width=6)
        canvas.polygon(capsule((156, 254), (142, 254), 8), METAL, INK, 2)
        canvas.polyline([(162, 262), (156, 262), (156, 246), (196, 206)], BLUE, 5)
        return
    canvas.polygon(capsule((214, 262), (208, 278), 9), METAL, INK, 2)
    bend(canvas, smooth([(208, 278), (198, 296), (194, 320)]), fill=METAL, width=8)
    canvas.polygon(capsule((194, 320), (192, 336), 9), METAL, INK, 2)


def _air_line(canvas: Canvas, *, blowing: bool) -> None:
    if not blowing:
        bay.person(canvas, 120, 466, facing=1)
        canvas.line((70, 128), (70, 152), INK, 6)
        for r in (46, 36, 26):
            canvas.circle((70, 196), r, "none", BLUE, 6)
        return
    bend(canvas, smooth([(236, 382), (196, 424), (120, 440), (40, 400), (8, 330)]), fill=BLUE, width=5)
    bay.person(canvas, 120, 466, reach=(232, 376), facing=1)
    canvas.polygon([(228, 368), (262, 352), (267, 360), (236, 384)], METAL)
    for k, height in enumerate((-9, 0, 9)):
        canvas.line((272, 354 + height * 0.5), (306, 346 + height * 1.8), INK, 3, dash="7 4" if k % 2 else "5 5")


def _gearbox(canvas: Canvas, *, strapped: bool) -> None:
    outline = transverse_outline(326, 324, 0.5)
    canvas.polygon(outline, METAL, INK, 3)
    canvas.rect(300, 321, 26, 7, WHITE)
    canvas.circle((374, 358), 13, SHADE)
    canvas.circle((374, 358), 6, WHITE)
    canvas.polygon([(336, 378), (426, 378), (420, 390), (342, 390)], SHADE, INK, 3)
    canvas.rect(374, 390, 14, 44, METAL, INK, 3)
    canvas.rect(368, 420, 26, 36, SHADE, INK, 3)
    canvas.polygon([(326, 462), (368, 448), (394, 448), (436, 462)], METAL, INK, 3)
    for x in (332.0, 430.0):
        canvas.circle((x, 464), 8, INK)
    if not strapped:
        return
    for x in (350.0, 406.0):
        top = _top_at(outline, x)
        canvas.line((x, top - 4), (x, 386), INK, 13)
        canvas.line((x, top - 2), (x, 384), BLUE, 8)
        canvas.rect(x - 8, top + 26, 16, 13, WHITE, INK, 2)


def _top_at(outline: list[tuple[float, float]], x: float) -> float:
    """Highest point of an outline above or below x."""
    found = []
    for (ax, ay), (bx, by) in zip(outline, [*outline[1:], outline[0]], strict=True):
        if ax != bx and min(ax, bx) <= x <= max(ax, bx):
            found.append(ay + (by - ay) * (x - ax) / (bx - ax))
    return min(found)


def _battery(canvas: Canvas, *, off: bool) -> None:
    canvas.circle((652, 148), 62, WHITE, INK, 3)
    canvas.rect(610, 146, 84, 44, METAL)
    canvas.text(630, 176, "−", 22, bold=True)
    canvas.text(674, 176, "+", 22, bold=True)
    canvas.rect(668, 134, 12, 12, SHADE)
    canvas.rect(624, 134, 12, 12, SHADE)
    if off:
        canvas.rect(620, 126, 20, 18, SKY, round=4)
        canvas.polyline([(600, 166), (602, 130), (616, 108)], INK, 6)
        canvas.rect(608, 96, 22, 15, SKY, round=4)
        return
    canvas.polyline([(600, 166), (602, 138), (624, 132)], INK, 6)
    canvas.rect(619, 126, 22, 11, INK, round=3)


def _flywheel(canvas: Canvas) -> None:
    canvas.rect(586, 360, 96, 18, IRON, INK, 3)
    canvas.rect(596, 350, 76, 10, STEEL)


def _bag(canvas: Canvas, *, shut: bool) -> None:
    if shut:
        neck = [(600, 414), (612, 402), (622, 402), (632, 414)]
    else:
        neck = [(584, 414), (580, 404), (652, 404), (648, 414)]
        for points in (
            [(588, 420), (582, 396), (600, 388), (614, 404)],
            [(612, 404), (628, 386), (646, 396), (642, 420)],
        ):
            canvas.polygon(smooth([(float(x), float(y)) for x, y in points], closed=True), SHADE, INK, 2)
    low = [(580, 470), (576, 430)]
    canvas.polygon(smooth([(float(x), float(y)) for x, y in [*low, *neck, (654, 430), (650, 470)]]), PALE, INK, 3)
    canvas.text(614, 448, "DUST", 16, bold=True)
    if shut:
        canvas.line((604, 412), (630, 412), INK, 4)
        return
    for points in (
        [(600, 406), (604, 392), (616, 394), (620, 430), (608, 432)],
        [(636, 406), (640, 420), (652, 424), (660, 404), (650, 394)],
    ):
        canvas.polygon(smooth([(float(x), float(y)) for x, y in points], closed=True), SHADE, INK, 2)
