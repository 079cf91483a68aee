"""A dual-mass flywheel on the engine: its free angle against the locked ring gear, and its rock under a dial gauge."""

from bitepoint.mechanics.limits import whole
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SHADE, VERMILLION, WHITE, Canvas, Point, on_circle
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import IRON, STEEL, box, callout, part

TOOTH = 30.0
WHEEL: Point = (360.0, 1088.0)
WHEEL_RADIUS = 980.0
SHOWN = 22
_ANGLE = TOOTH / WHEEL_RADIUS * 57.29578
_FACE = WHEEL_RADIUS - 96


@picture("flywheel-teeth")
def flywheel_teeth(*, teeth: int = 4, first: int = 6) -> Drawing:
    """Part of a locked ring gear; the secondary mass inside it was turned both ways, and each end is marked on the ring.

    Parameters
    ----------
    teeth : int
        Free angle in teeth, 0 to 14: from mark A to mark B.
    first : int
        Tooth of mark A, counted from the left, 1 to 6.
    """
    whole("teeth", teeth, 0, 14, "Count the teeth between both marks.")
    whole("first", first, 1, 6, "Where the first mark stands in the picture.")
    canvas = Canvas(350)
    _ring(canvas)
    _secondary(canvas, first, teeth)
    for tooth, colour, name in ((first, VERMILLION, "A"), (first + teeth, BLUE, "B")):
        at = _at(tooth)
        canvas.line(on_circle(*WHEEL, WHEEL_RADIUS - 4, at), on_circle(*WHEEL, WHEEL_RADIUS - 46, at), colour, 9)
        x, y = on_circle(*WHEEL, WHEEL_RADIUS + 20, at)
        canvas.text(x, y, name, 24, bold=True, colour=colour)
    _lock(canvas)
    canvas.text(20, 28, "Ring gear: locked. Its teeth are numbered from the left.", 19, anchor="start", bold=True)
    return canvas.drawing(
        alt=(
            "Part of a flywheel's ring gear, held by a lock, its teeth counted from the left, every fifth numbered. Inside it the "
            "secondary mass was turned gently by hand one way and the other until resistance was felt. Where its line stood is "
            f"marked on the ring: end A on tooth {first}, end B on tooth {first + teeth}."
        ),
        caption="A and B: the ends of the free angle, marked on the ring.",
    )


def _at(tooth: float) -> float:
    return _ANGLE * (tooth - 11.5)


def _ring(canvas: Canvas) -> None:
    rim = [on_circle(*WHEEL, WHEEL_RADIUS - 84, _ANGLE * (i - 10.5)) for i in range(SHOWN)]
    corners = ((34, -0.4), (0, -0.2), (0, 0.2), (34, 0.4))
    outline = [
        on_circle(*WHEEL, WHEEL_RADIUS - deep, _ANGLE * (i - 10.5 + along))
        for i in range(SHOWN)
        for deep, along in corners
    ]
    canvas.polygon([*outline, *reversed(rim)], METAL)
    for tooth in range(5, SHOWN, 5):
        x, y = on_circle(*WHEEL, WHEEL_RADIUS - 70, _at(tooth))
        canvas.text(x, y, str(tooth), 18)


def _secondary(canvas: Canvas, first: int, teeth: int) -> None:
    """Draw the secondary mass with its line at end B, and pale where it stood at end A."""
    edge = [on_circle(*WHEEL, _FACE, 2 * _ANGLE * (i - 5.2)) for i in range(12)]
    low = [on_circle(*WHEEL, _FACE - 160, 2 * _ANGLE * (i - 5.2)) for i in range(11, -1, -1)]
    part(canvas, [*edge, *low], STEEL, slant_deg=None)
    ends = [_at(first), _at(first + teeth)]
    for at, dash in zip(ends, ("7 6", ""), strict=True):
        canvas.line(on_circle(*WHEEL, _FACE - 3, at), on_circle(*WHEEL, _FACE - 50, at), INK, 5, dash=dash)
    x, y = on_circle(*WHEEL, _FACE - 84, 0)
    canvas.text(x, y, "secondary mass with the friction face", 18, bold=True)
    for way in (-1, 1):
        canvas.arrow((x + way * 20, y + 20), (x + way * 110, y + 24), INK, 3)
    canvas.text(x, y + 42, "turned gently by hand, both ways", 18)


def _lock(canvas: Canvas) -> None:
    x, y = on_circle(*WHEEL, WHEEL_RADIUS, _at(SHOWN - 1.5))
    part(
        canvas, [(x - 48, y - 66), (x + 36, y - 66), (x + 36, y + 8), (x - 48, y - 12)], ORANGE, slant_deg=None, width=3
    )
    canvas.bolt((x - 6, y - 40), 14)
    canvas.text(x - 62, y - 40, "lock", 18, anchor="end", bold=True)


@picture("flywheel-rock")
def flywheel_rock() -> Drawing:
    """Rock of a dual-mass flywheel from the side: dial gauge square near the rim, push and pull at the opposite edge."""
    canvas = Canvas(432)
    axis = 216.0
    part(canvas, box(20, 20, 130, 382), IRON, slant_deg=None)
    canvas.boxed(84, 80, "engine", 18)
    canvas.rect(110, axis - 30, 92, 60, STEEL)
    part(canvas, box(202, axis - 150, 26, 300), IRON)
    for y in (axis - 150, axis + 128):
        part(canvas, box(196, y, 22, 22), STEEL, slant_deg=135, gap=6)
    part(canvas, [(176, axis - 180), (222, axis - 180), (222, axis - 138), (192, axis - 138), (192, axis - 154), (176, axis - 154)], ORANGE, slant_deg=None)  # fmt: skip
    canvas.rect(228, axis - 36, 44, 72, SHADE)
    tilt = [(257, axis - 142), (299, axis - 136), (285, axis + 148), (243, axis + 142)]
    part(canvas, tilt, STEEL, slant_deg=135)
    canvas.line((278, axis - 148), (278, axis + 152), BLUE, 2, dash="10 6")
    canvas.line((20, axis), (470, axis), INK, 2, dash="22 5 4 5")
    y = axis - 112
    _side_gauge(canvas, (410, y), (298, y))
    canvas.rect(452, y - 6, 116, 12, METAL)
    canvas.rect(560, y - 20, 18, 402 - y + 20, METAL)
    part(canvas, box(150, 402, 460, 20), STEEL, slant_deg=135, gap=10)
    canvas.arrow((352, axis + 128), (296, axis + 128), VERMILLION, 6)
    canvas.arrow((310, axis + 150), (366, axis + 150), VERMILLION, 6)
    canvas.lines(384, axis + 134, ("push and pull", "at this edge"), 18, anchor="start")
    callout(canvas, "lock", (238, 30), (206, axis - 168))
    callout(canvas, ("stylus square on the", "face, near the rim"), (312, 26), (300, y), anchor="start")
    callout(canvas, "primary mass, ring gear", (334, axis + 46), (216, axis + 60), anchor="start")
    callout(canvas, ("secondary mass,", "drawn too far tilted"), (334, axis + 78), (274, axis + 90), anchor="start")
    canvas.lines(592, axis - 40, ("stand on", "the block"), 18, anchor="start")
    return canvas.drawing(
        alt=(
            "A dual-mass flywheel from the side on the engine, its ring gear locked. A dial gauge on a stand from the block stands "
            "square on the face of the secondary mass near the rim. Arrows push and pull at the opposite edge, and the secondary "
            "mass tilts in its bearing. The tilt is drawn too large."
        ),
        caption="Rock: push and pull at the opposite edge, and read the whole swing of the hand.",
    )


def _side_gauge(canvas: Canvas, at: Point, stylus: Point) -> None:
    canvas.line((at[0] - 36, at[1]), stylus, INK, 5)
    canvas.rect(at[0] - 60, at[1] - 8, 30, 16, METAL)
    canvas.circle(at, 42, WHITE, INK, 4)
    for k in range(20):
        canvas.line(on_circle(*at, 33 if k % 5 else 28, 18 * k), on_circle(*at, 38, 18 * k), INK, 2)
    canvas.line(at, on_circle(*at, 31, 50), VERMILLION, 3)
    canvas.circle(at, 4, INK)
    canvas.text(at[0], at[1] + 26, "0.01", 16)
