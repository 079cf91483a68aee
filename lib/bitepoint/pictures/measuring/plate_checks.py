"""Three checks before the new plate goes in: its run-out, the fit of its hub on the shaft, the play of the shaft."""

from bitepoint.pictures.canvas import INK, METAL, ORANGE, SHADE, VERMILLION, WHITE, Canvas, Point, on_circle
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import FACING, IRON, STEEL, part

MIDDLE = 158.0
_NAMES = ("1  plate run-out", "2  spline fit", "3  play of the shaft")
_HOW = (("turn it once", "between points"), ("shaft held, plate", "to and fro"), ("lift and press", "its end"))


@picture("plate-checks")
def plate_checks() -> Drawing:
    """A plate between points, a plate to and fro on a held shaft, the end of an input shaft lifted: a dial gauge at each."""
    canvas = Canvas(318)
    for i, (name, how) in enumerate(zip(_NAMES, _HOW, strict=True)):
        x = 16.0 + 236 * i
        canvas.text(x, 28, name, 19, anchor="start", bold=True)
        canvas.lines(x, 284, how, 17, anchor="start")
        if i:
            canvas.line((x - 14, 16), (x - 14, 308), SHADE, 2)
    _between_points(canvas, 76.0)
    _on_the_shaft(canvas, 352.0)
    _shaft_end(canvas, 492.0)
    return canvas.drawing(
        alt=(
            "Three set-ups. First: a plate from the side between two points, a dial gauge square on its facing near the rim, an arrow turns it once. "
            "Second: a plate from the front on a splined shaft that is held, a dial gauge at its rim along the way it turns, arrows to and fro. "
            "Third: the end of the input shaft out of the gearbox, a dial gauge across it, arrows up and down."
        ),
        caption="Each time the whole swing of the hand counts, highest less lowest.",
        regions=(
            Shape("run-out", "plate run-out", "rect", (10, 40, 220, 236)),
            Shape("fit", "spline fit", "rect", (246, 40, 220, 236)),
            Shape("play", "play of the shaft", "rect", (482, 40, 224, 236)),
        ),
    )


def _gauge(canvas: Canvas, at: Point, tip: Point) -> None:
    canvas.line(at, tip, INK, 5)
    canvas.circle(at, 27, WHITE, INK, 4)
    for k in range(12):
        canvas.line(on_circle(*at, 19, 30 * k), on_circle(*at, 23, 30 * k), INK, 2)
    canvas.line(at, on_circle(*at, 19, 40), VERMILLION, 3)
    canvas.circle(at, 3, INK)


def _between_points(canvas: Canvas, x: float) -> None:
    """A plate on its edge between two points."""
    for way in (-1, 1):
        canvas.polygon([(x + way * 24, MIDDLE), (x + way * 60, MIDDLE - 13), (x + way * 60, MIDDLE + 13)], STEEL)
    canvas.rect(x - 24, MIDDLE - 17, 48, 34, METAL)
    canvas.rect(x - 3, MIDDLE - 100, 6, 200, STEEL)
    for side in (-1, 1):
        for face in (-11.0, 3.0):
            canvas.rect(x + face, MIDDLE + (-100 if side < 0 else 52), 8, 48, FACING)
    canvas.line((x - 64, MIDDLE), (x + 140, MIDDLE), INK, 2, dash="16 5 4 5")
    _gauge(canvas, (x + 96, MIDDLE - 82), (x + 12, MIDDLE - 82))
    canvas.arrow((x + 30, MIDDLE + 92), (x + 30, MIDDLE + 36), VERMILLION, 5)


def _on_the_shaft(canvas: Canvas, x: float) -> None:
    """A plate from the front on its shaft; the gauge at the rim lies along the way the rim moves."""
    at = (x, MIDDLE + 24)
    canvas.circle(at, 86, FACING)
    canvas.circle(at, 54, STEEL)
    for k in range(4):
        spring = on_circle(*at, 38, 90 * k + 45)
        canvas.circle(spring, 9, WHITE)
    canvas.circle(at, 24, METAL)
    teeth = [on_circle(*at, 17 if k % 2 else 12, 360 * k / 28) for k in range(28)]
    canvas.polygon(teeth, WHITE)
    canvas.rect(x - 8, MIDDLE - 78, 16, 22, ORANGE)
    _gauge(canvas, (x + 74, MIDDLE - 68), (x + 9, MIDDLE - 68))
    canvas.arrow((x - 22, MIDDLE - 68), (x - 76, MIDDLE - 50), VERMILLION, 5)
    canvas.arrow((x - 66, MIDDLE - 28), (x - 22, MIDDLE - 46), VERMILLION, 5)


def _shaft_end(canvas: Canvas, x: float) -> None:
    """The input shaft out of its guide tube, the gauge across it near its end."""
    part(canvas, [(x, MIDDLE - 84), (x + 52, MIDDLE - 84), (x + 52, MIDDLE + 84), (x, MIDDLE + 84)], IRON, gap=12)
    canvas.text(x, MIDDLE - 94, "gearbox", 17, anchor="start")
    canvas.rect(x + 52, MIDDLE - 22, 50, 44, STEEL)
    canvas.rect(x + 52, MIDDLE - 11, 146, 22, WHITE)
    for y in (-6.0, 0.0, 6.0):
        canvas.line((x + 112, MIDDLE + y), (x + 178, MIDDLE + y), INK, 1)
    _gauge(canvas, (x + 152, MIDDLE - 82), (x + 152, MIDDLE - 11))
    canvas.arrow((x + 190, MIDDLE + 18), (x + 190, MIDDLE + 66), VERMILLION, 5)
    canvas.arrow((x + 190, MIDDLE - 18), (x + 190, MIDDLE - 66), VERMILLION, 5)
