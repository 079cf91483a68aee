"""The gearbox going in: carried by a jack, level with the engine; and hanging on its shaft, which ruins plate and hub."""

from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    Canvas,
    Point,
)
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import FACING, IRON, STEEL, bend, callout, capsule, cross_out, part, smooth, verdict
from bitepoint.workshop.vehicles import vehicle

LEVEL = 236.0


def gearbox_outline(x: float, y: float, size: float = 1, tilt: float = 0) -> list[Point]:
    """A bell housing with gearbox, mouth to the left at x, axis at y; `tilt` is the fall of its far end over its length."""
    points = [
        (0, -92),
        (14, -98),
        (22, -92),
        (70, -84),
        (96, -58),
        (196, -54),
        (204, -44),
        (262, -40),
        (276, -28),
        (276, 28),
        (262, 40),
        (206, 46),
        (198, 58),
        (100, 66),
        (72, 88),
        (22, 92),
        (14, 98),
        (0, 92),
    ]
    return [(x + px * size, y + (py + tilt * px / 276) * size) for px, py in points]


def transverse_outline(x: float, y: float, size: float = 1) -> list[Point]:
    """A gearbox for an engine across the car, from the front: short, its final drive below; mouth at x, input axis at y."""
    upper = [(0, -92), (14, -98), (22, -92), (60, -82), (86, -64), (178, -60), (190, -50), (208, -46), (216, -30)]
    lower = [(216, 30), (208, 46), (190, 52), (164, 62), (150, 92), (126, 108), (66, 108), (40, 100), (14, 98), (0, 92)]
    return [(x + px * size, y + py * size) for px, py in (*upper, *lower)]


def _transverse(canvas: Canvas, x: float, y: float, *, shaft: float = 62) -> None:
    canvas.polygon([(x - shaft, y - 7), (x, y - 7), (x, y + 7), (x - shaft, y + 7)], WHITE)
    canvas.line((x - shaft + 6, y), (x - shaft * 0.4, y), INK, 2)
    canvas.polygon(transverse_outline(x, y), METAL, INK, 3)
    for rib, half in ((22.0, 92.0), (60.0, 80.0), (190.0, 48.0)):
        canvas.line((x + rib, y - half), (x + rib, y + half), INK, 2)
    for rib in (110.0, 134.0, 158.0):
        canvas.line((x + rib, y - 46), (x + rib, y + 20), SHADE, 3)
    canvas.circle((x + 96, y + 68), 30, SHADE)
    canvas.circle((x + 96, y + 68), 15, WHITE)


def _ribs(canvas: Canvas, x: float, y: float, size: float, tilt: float) -> None:
    for rib in (112.0, 136.0, 160.0, 184.0):
        fall = tilt * rib / 276
        canvas.line((x + rib * size, y + (fall - 44) * size), (x + rib * size, y + (fall + 44) * size), SHADE, 3)
    for px, half in ((22.0, 92.0), (72.0, 84.0), (98.0, 60.0), (200.0, 50.0)):
        fall = tilt * px / 276
        canvas.line((x + px * size, y + (fall - half) * size), (x + px * size, y + (fall + half) * size), INK, 2)
    canvas.circle((x + 236 * size, y + tilt * 236 / 276 * size), 13 * size, METAL)


def gearbox(canvas: Canvas, x: float, y: float, *, size: float = 1, tilt: float = 0, shaft: float = 62) -> None:
    """Draw a gearbox from the side with its input shaft out of the bell housing."""
    canvas.polygon([(x - shaft, y - 7), (x, y - 7), (x, y + 7), (x - shaft, y + 7)], WHITE)
    canvas.line((x - shaft + 6, y), (x - shaft * 0.4, y), INK, 2)
    canvas.polygon(gearbox_outline(x, y, size, tilt), METAL, INK, 3)
    _ribs(canvas, x, y, size, tilt)


def _engine(canvas: Canvas) -> None:
    block = [
        (24, LEVEL - 150),
        (60, LEVEL - 168),
        (186, LEVEL - 168),
        (196, LEVEL - 150),
        (196, LEVEL + 92),
        (176, LEVEL + 128),
        (50, LEVEL + 128),
        (24, LEVEL + 96),
    ]
    part(canvas, block, IRON, slant_deg=None, width=3)
    for y in (-112.0, -56.0, 40.0):
        canvas.line((24, LEVEL + y), (196, LEVEL + y), SHADE, 3)
    canvas.boxed(108, LEVEL - 78, "engine", 18)
    canvas.rect(196, LEVEL - 104, 16, 208, STEEL)
    canvas.rect(212, LEVEL - 84, 10, 168, FACING)
    canvas.polygon(
        [
            (222, LEVEL - 92),
            (240, LEVEL - 82),
            (250, LEVEL - 60),
            (250, LEVEL + 60),
            (240, LEVEL + 82),
            (222, LEVEL + 92),
        ],
        STEEL,
    )
    for y in (LEVEL - 104, LEVEL + 94):
        canvas.rect(196, y, 30, 10, ORANGE)


def beam(canvas: Canvas, hook: float, top: float, down: float, *, across: bool = True) -> None:
    """Draw an engine beam seen from the front, its feet on both wings, with the chain to the engine; `across` False: its end."""
    if across:
        canvas.rect(8, top, 704, 14, ORANGE)
        for foot in (18.0, 692.0):
            canvas.polygon(
                [(foot - 6, top + 14), (foot + 6, top + 14), (foot + 10, top + 30), (foot - 10, top + 30)], INK
            )
            canvas.polygon(
                [(foot - 16, top + 30), (foot + 16, top + 30), (foot + 16, top + 40), (foot - 16, top + 40)], SHADE
            )
    else:
        canvas.rect(hook - 16, top, 32, 16, ORANGE)
    canvas.line((hook, top + 14), (hook, down), INK, 4, dash="7 3")
    canvas.circle((hook, down + 4), 8, WHITE)


def _beam(canvas: Canvas, *, across: bool = True) -> None:
    beam(canvas, 108, 42, LEVEL - 168, across=across)


@picture("gearbox-on-jack")
def gearbox_on_jack(*, car: str = "A") -> Drawing:
    """Gearbox strapped on a gearbox jack, in line with the engine, slid home by hand on two guide studs."""
    across = vehicle(car).drive == "front"
    canvas = Canvas(600)
    verdict(canvas, 250, 36, True, "carried, strapped, in line")
    _beam(canvas, across=across)
    _engine(canvas)
    x = 352.0
    for y in (LEVEL - 86.0, LEVEL + 86.0):
        canvas.polygon(capsule((196, y), (x + 30, y), 4), ORANGE)
    (_transverse if across else gearbox)(canvas, x, LEVEL)
    canvas.line((140, LEVEL), (706, LEVEL), BLUE, 2, dash="22 5 4 5")
    seat = LEVEL + (108 if across else 74)
    _jack(canvas, x + 138 - (24 if across else 0), seat)
    strap = (x + 68, x + 150) if across else (x + 106, x + 176)
    bend(
        canvas,
        [(strap[0], seat), (strap[0] - 2, LEVEL - 66), (strap[1], LEVEL - 64), (strap[1] + 2, seat)],
        fill=SKY,
        width=8,
    )
    canvas.arrow((x - 4, LEVEL - 130), (x - 84, LEVEL - 130), VERMILLION, 6)
    canvas.text(x + 8, LEVEL - 124, "by hand only", 18, anchor="start", bold=True)
    callout(canvas, "engine beam", (262, 80), (110 if not across else 230, 52))
    callout(canvas, "guide stud", (272, LEVEL + 148), (284, LEVEL + 88), anchor="middle")
    callout(canvas, "strap", (600, LEVEL - 90), (strap[1] + 2, LEVEL - 40))
    callout(canvas, ("gearbox jack", "that tilts"), (590, LEVEL + 180), (x + 130, LEVEL + 160))
    callout(canvas, "one axis", (640, LEVEL + 60), (672, LEVEL), anchor="middle")
    if across:
        callout(canvas, "final drive", (604, LEVEL + 116), (x + 126, LEVEL + 76))
    seen = "Engine across the car, seen from the front" if across else "Engine along the car, seen from the side"
    return canvas.drawing(
        alt=(
            f"{seen}. Right: the engine hangs on its beam{' across both wings' if across else ''}; the gearbox is strapped on a gearbox jack that tilts, its axis in line with the crankshaft. Two guide studs lead the bell housing; "
            "an arrow shows it slid home by hand only, with the dowels and the clutch in view."
        ),
        caption=f"{seen}. The jack carries the weight, the studs lead, your hands push. Nothing else does.",
        regions=(
            Shape("beam", "engine beam", "rect", (16, 40, 216, 24)),
            Shape("stud", "guide studs", "rect", (230, LEVEL - 94, 120, 16)),
            Shape("strap", "strap", "rect", (strap[0] - 12, LEVEL - 74, strap[1] - strap[0] + 26, 150)),
            Shape("jack", "gearbox jack", "rect", (x + 40, seat + 2, 160, 240)),
        ),
    )


def _jack(canvas: Canvas, x: float, top: float) -> None:
    canvas.polygon(
        [(x - 74, top - 18), (x - 62, top), (x + 62, top), (x + 74, top - 14), (x + 74, top + 12), (x - 74, top + 12)],
        SHADE,
    )
    canvas.polygon([(x - 40, top + 12), (x + 40, top + 12), (x + 18, top + 40), (x - 18, top + 40)], METAL)
    canvas.circle((x, top + 26), 8, WHITE)
    canvas.rect(x - 12, top + 40, 24, 90, METAL)
    canvas.rect(x - 20, top + 110, 40, 536 - top - 110, SHADE)
    canvas.polygon(
        [(x - 110, 566), (x - 20, 534), (x + 20, 534), (x + 110, 566), (x + 110, 574), (x - 110, 574)], METAL
    )
    for wheel in (x - 100, x + 100):
        canvas.circle((wheel, 580), 12, INK)
    canvas.line((20, 593), (700, 593), INK, 3)


@picture("gearbox-hanging")
def gearbox_hanging() -> Drawing:
    """Wrong: no jack under the gearbox; its weight hangs on the input shaft, dishes the plate and bends the hub."""
    canvas = Canvas(492)
    verdict(canvas, 256, 30, False, "it hangs on its shaft")
    _beam(canvas)
    _engine(canvas)
    x = 330.0
    canvas.polygon([(214, LEVEL - 6), (x, LEVEL + 4), (x, LEVEL + 20), (214, LEVEL + 8)], WHITE)
    _fallen(canvas, x, LEVEL + 12)
    canvas.arrow((x + 150, LEVEL + 120), (x + 150, LEVEL + 174), VERMILLION, 8)
    canvas.text(x + 170, LEVEL + 164, "the whole weight", 20, anchor="start", bold=True)
    cross_out(canvas, x + 6, LEVEL - 90, 240, 210)
    canvas.rect(24, 374, 400, 106, PALE)
    _dished(canvas)
    callout(canvas, ("weight on", "the hub"), (272, 112), (226, LEVEL - 2))
    canvas.lines(
        444,
        434,
        ("In seconds the plate is", "dished and the hub bent:", "it drags from the first day."),
        19,
        anchor="start",
    )
    return canvas.drawing(
        alt=(
            "Wrong, crossed out: no jack under the gearbox. It has tilted and its whole weight hangs on the input shaft in the plate's hub. "
            "Enlarged: a straight plate beside one that is dished with a bent hub; it drags from the first day."
        ),
        caption="Not for a second: a jack and a strap carry the gearbox until its shaft is clear.",
        regions=(
            Shape("shaft", "input shaft in the hub", "rect", (206, LEVEL - 30, 130, 66)),
            Shape("gearbox", "gearbox", "rect", (x, LEVEL - 90, 290, 260)),
        ),
    )


def _fallen(canvas: Canvas, x: float, y: float) -> None:
    """A gearbox for an engine across the car that has dropped at its far end."""

    def low(px: float, py: float) -> Point:
        return px, py + 46 * (px - x) / 216

    canvas.polygon([low(*point) for point in transverse_outline(x, y)], METAL, INK, 3)
    for rib, half in ((22.0, 92.0), (60.0, 80.0), (190.0, 48.0)):
        canvas.line(low(x + rib, y - half), low(x + rib, y + half), INK, 2)
    for rib in (110.0, 134.0, 158.0):
        canvas.line(low(x + rib, y - 46), low(x + rib, y + 20), SHADE, 3)
    drive = low(x + 96, y + 68)
    canvas.circle(drive, 30, SHADE)
    canvas.circle(drive, 15, WHITE)


def _dished(canvas: Canvas) -> None:
    canvas.text(124, 396, "straight", 18, bold=True)
    canvas.rect(112, 402, 12, 74, FACING)
    canvas.rect(94, 429, 56, 20, METAL)
    canvas.text(300, 396, "dished, hub bent", 18, bold=True)
    bow = smooth([(300, 402), (309, 420), (314, 439), (309, 458), (300, 476)])
    canvas.polygon([*bow, *[(x + 12, y) for x, y in reversed(bow)]], FACING)
    canvas.polygon([(294, 423), (350, 437), (346, 457), (290, 443)], METAL)
