"""Faces and dowels between engine and gearbox: right, a bent dowel, a trapped loom; flatness with a straight-edge."""

from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    VERMILLION,
    WHITE,
    Canvas,
    Point,
    on_circle,
)
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import IRON, STEEL, bend, callout, part, smooth, verdict
from bitepoint.workshop.vehicles import vehicle as sheet


@picture("dowels-and-faces")
def dowels_and_faces() -> Drawing:
    """Three joints between engine and bell housing: closed, held open by a bent dowel, held open by a loom."""
    canvas = Canvas(660)
    for i, (right, title) in enumerate(
        (
            (True, "faces meet all round, feeler 0.00"),
            (False, "dowel bent: gap on one side"),
            (False, "loom trapped: gap"),
        )
    ):
        top = 20 + 208 * i
        verdict(canvas, 20, top + 22, right, title)
        _joint(canvas, top + 36, i)
    return canvas.drawing(
        alt=(
            "Three joints between engine block and bell housing from the side. Right: both hollow dowels straight, the faces meet all round, feeler gauge 0.00. "
            "Wrong: a dowel is bent and the faces gape on its side. Wrong: a wiring loom is trapped between the faces and holds a gap. Never pull a gap shut with the bolts."
        ),
        caption="A gap has a cause. Back off and look; never pull it shut with the bolts.",
        regions=tuple(
            Shape(key, name, "rect", (60, 58 + 208 * i, 600, 150))
            for i, (key, name) in enumerate(
                (("closed", "upper joint"), ("bent-dowel", "middle joint"), ("loom", "lower joint"))
            )
        ),
    )


def _joint(canvas: Canvas, top: float, case: int) -> None:
    """One joint; the housing is tilted where something holds it open (the gap is drawn too wide)."""
    upper, lower = {0: (0.0, 0.0), 1: (26.0, 0.0), 2: (6.0, 24.0)}[case]
    face, low = 330.0, top + 150
    part(canvas, [(110, top + 10), (face, top + 10), (face, low), (110, low)], IRON, gap=14)
    part(
        canvas,
        [
            (face + upper, top + 10),
            (610, top + 10 + upper * 0.4),
            (610, low + (0 if case < 2 else 2)),
            (face + lower, low),
        ],
        STEEL,
        slant_deg=135,
        gap=14,
    )
    for k, y in enumerate((top + 42, low - 32)):
        slope = 12 if case == 1 and k == 0 else 0
        shift = upper if k == 0 else lower
        canvas.polygon(
            [
                (face - 34, y - 9),
                (face + 2, y - 9),
                (face + shift + 34, y - 9 - slope),
                (face + shift + 34, y + 9 - slope),
                (face + 2, y + 9),
                (face - 34, y + 9),
            ],
            ORANGE,
        )
        canvas.line((face - 34, y), (face + 2, y), INK, 2)
        canvas.line((face + 2, y), (face + shift + 34, y - slope), INK, 2)
    if case == 2:
        bend(canvas, [(face + 12, low + 16), (face + 12, low - 8)], fill=INK, width=9)
        canvas.circle((face + 12, low - 10), 11, VERMILLION)
    canvas.boxed(180, top + 88, "engine", 18)
    canvas.boxed(520, top + 88, "bell housing", 18)
    if case == 0:
        callout(canvas, "dowel", (80, top + 50), (face - 28, top + 42), anchor="end")
    elif case == 1:
        callout(canvas, "gap", (80, top + 50), (face + 12, top + 18), anchor="end")
    else:
        callout(canvas, "loom", (80, low - 4), (face + 6, low - 12), anchor="end")


def _face_from_above(canvas: Canvas, at: Point) -> None:
    """The face seen from above: straight-edge across it, a leaf slid in under its edge, two more directions dashed."""
    x, y = at
    canvas.circle(at, 142, IRON, INK, 3)
    canvas.circle(at, 128, PALE)
    canvas.circle(at, 62, METAL)
    for k in range(6):
        canvas.circle(on_circle(x, y, 40, 60 * k + 30), 7, WHITE)
    for angle in (30, 150):
        canvas.line(on_circle(x, y, 136, angle), on_circle(x, y, 136, angle + 180), BLUE, 4, dash="10 7")
    canvas.rect(x + 82, y, 16, 104, ORANGE)
    canvas.rect(x - 158, y - 12, 316, 24, SHADE, INK, 3)
    for turn in (-10.0, 0.0, 10.0):
        canvas.polygon(
            [(x + 80, y + 98), (x + 100, y + 98), (x + 100 + turn, y + 158), (x + 80 + turn, y + 158)], METAL
        )
    canvas.circle((x + 90, y + 100), 9, SHADE)


def _gap_enlarged(canvas: Canvas, left: float) -> None:
    """Under the edge, enlarged: the hollow and the leaf in it, seen on its end."""
    right = left + 310
    hollow = smooth([(left, 118), (left + 70, 120), (left + 155, 142), (left + 240, 120), (right, 118)])
    part(canvas, [*hollow, (right, 206), (left, 206)], IRON, gap=14)
    canvas.rect(left, 52, 310, 66, SHADE, INK, 3)
    canvas.boxed(left + 155, 92, "straight-edge", 18)
    canvas.rect(left + 132, 120, 46, 16, ORANGE)
    canvas.boxed(left + 76, 186, "friction face", 17)
    callout(canvas, "leaf", (left + 250, 176), (left + 166, 129))


@picture("straight-edge")
def straight_edge(*, vehicle: str = "A") -> Drawing:
    """Flatness of a friction face: straight-edge on edge, feeler gauge where light shows."""
    v = sheet(vehicle)
    limit = v.flywheel.flatness_limit_mm
    canvas = Canvas(376)
    _face_from_above(canvas, (180.0, 164.0))
    _gap_enlarged(canvas, 390.0)
    canvas.text(390, 34, "Under the edge, enlarged", 19, anchor="start", bold=True)
    told = ("three directions: two are dashed", f"limit {limit:g} mm: no thicker leaf", "may go in, anywhere")
    canvas.lines(390, 240, told, 18, anchor="start")
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=(
            f"Left, the friction face of {v.name} from above: a straight-edge stands on edge across it, and a leaf of a feeler gauge is slid in under its edge from beside it; two more of the three directions are dashed. "
            f"Right, enlarged, seen along the leaf: the straight-edge bridges a hollow in the face, and the leaf lies in it. Limit {limit:g} mm."
        ),
        caption="The hollow is drawn far too deep. A leaf goes in beside the edge, never by force.",
        regions=(
            Shape("straight-edge", "straight-edge", "rect", (22, 152, 316, 24)),
            Shape("feeler", "feeler gauge", "rect", (252, 176, 40, 150)),
            Shape("face", "friction face", "circle", (180, 164, 142)),
        ),
    )
