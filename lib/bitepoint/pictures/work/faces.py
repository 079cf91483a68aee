"""Faces and dowels between engine and gearbox: right, a bent dowel, a trapped loom; flatness with a straight-edge."""

from bitepoint.pictures.canvas import INK, METAL, ORANGE, SHADE, VERMILLION, WHITE, Canvas
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


def _feeler_beside(canvas: Canvas) -> None:
    """The set of leaves held in front of the face, one leaf slid in under the edge from the front."""
    leaf = [(346, 251), (374, 251), (470, 338), (444, 356)]
    canvas.polygon(leaf, ORANGE, INK, 3)
    for turn in (0, 1, 2):
        canvas.polygon([(440 + 8 * turn, 350 - 10 * turn), (462 + 8 * turn, 332 - 10 * turn), (560 + 16 * turn, 372 - 14 * turn), (548 + 16 * turn, 392 - 14 * turn)], METAL)  # fmt: skip
    canvas.circle((458, 344), 13, SHADE)
    canvas.lines(600, 376, ("feeler leaf,", "slid in from", "the front"), 17, anchor="start")


@picture("straight-edge")
def straight_edge(*, vehicle: str = "A") -> Drawing:
    """Flatness of a friction face: straight-edge on edge, feeler gauge where light shows."""
    v = sheet(vehicle)
    limit = v.flywheel.flatness_limit_mm
    canvas = Canvas(500)
    canvas.text(20, 34, "Flatness with straight-edge and feeler gauge", 22, anchor="start", bold=True)
    face = [(80, 250), (170, 252), (270, 257), (360, 266), (450, 257), (550, 252), (640, 250)]
    part(canvas, [*smooth(face), (640, 350), (430, 350), (430, 320), (290, 320), (290, 350), (80, 350)], IRON, gap=14)
    canvas.polygon([(60, 190), (660, 190), (660, 244), (652, 250), (68, 250), (60, 244)], METAL)
    canvas.text(240, 226, "straight-edge, on its edge", 18, bold=True)
    _feeler_beside(canvas)
    callout(canvas, "hollow, drawn too deep", (270, 386), (340, 259), anchor="end")
    canvas.circle((130, 116), 62, WHITE)
    for angle in (0, 1, 2):
        canvas.line(((74, 116), (102, 68), (102, 164))[angle], ((186, 116), (158, 164), (158, 68))[angle], INK, 5)
    canvas.circle((130, 116), 26, METAL)
    canvas.text(210, 92, "three", 18, anchor="start")
    canvas.text(210, 116, "directions", 18, anchor="start")
    canvas.text(300, 444, f"Limit {limit:g} mm: a thicker leaf must not go in anywhere.", 18, bold=True)
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=(
            f"Flywheel of training vehicle {v.id} from the side with a straight-edge on edge across its friction face and a feeler gauge slid in beside it, from the front, into the hollow under its edge, which is drawn too deep. "
            f"Small picture: straight-edge in three directions across the face. Limit {limit:g} mm."
        ),
        caption=f"Limit of the sheet {limit:g} mm: no thicker leaf may go in, in any of three directions.",
        regions=(
            Shape("straight-edge", "straight-edge", "rect", (60, 190, 600, 60)),
            Shape("feeler", "feeler gauge", "polygon", (346, 250, 374, 250, 486, 336, 452, 362)),
            Shape("face", "friction face", "rect", (80, 250, 560, 100)),
        ),
    )
