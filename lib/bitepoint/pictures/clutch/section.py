"""The clutch cut open along its axis, pedal up or down, and the path the torque takes through it."""

from bitepoint.pictures.canvas import BLUE, VERMILLION, WHITE, Canvas
from bitepoint.pictures.clutch.names import names
from bitepoint.pictures.clutch.parts import parts
from bitepoint.pictures.clutch.sizes import GAP_SCALE, Sizes, sizes
from bitepoint.pictures.clutch.view import STILL, SectionView, draw_section, regions
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import callout, share
from bitepoint.workshop.vehicles import Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet

HEIGHT = 560.0


def _names(canvas: Canvas, view: SectionView, v: Vehicle, pedal: float) -> None:
    for name in names(view, v, sizes(v, pedal)):
        callout(canvas, name.words, name.at, name.to, anchor=name.anchor)


@picture("clutch-section")
def clutch_section(*, vehicle: str = "A", pedal: float = 0) -> Drawing:
    """Upper half of a clutch in section, one vehicle's proportions, pedal from 0 (up) to 1 (down)."""
    v = sheet(vehicle)
    share("pedal", pedal)
    canvas = Canvas(HEIGHT)
    state = (
        "pedal up: clamped"
        if pedal == 0
        else "pedal down: released"
        if pedal == 1
        else f"pedal {100 * pedal:.0f} % down"
    )
    canvas.text(20, 32, f"Clutch in section, {state}", 22, anchor="start", bold=True)
    canvas.text(20, 58, "← engine", 18, anchor="start", bold=True)
    canvas.text(700, 32, "gearbox →", 18, anchor="end", bold=True)
    view, found = draw_section(canvas, v, sizes(v, pedal), STILL)
    _names(canvas, view, v, pedal)
    s = sizes(v, pedal)
    if pedal:
        _movement(canvas, view, s)
    canvas.frame(frame_words())
    return canvas.drawing(alt=_told(v, pedal), caption=_caption(v, pedal), regions=regions(view, found))


def _movement(canvas: Canvas, view: SectionView, s: Sizes) -> None:
    """What moves when the pedal goes down, and where the gap opens."""
    tip = s.thick + 24 - s.travel
    canvas.arrow(view.at(tip + 52, s.shaft + 32), view.at(tip + 20, s.shaft + 32), VERMILLION, 6)
    canvas.arrow(
        view.at(s.thick + s.opened - 2, s.outer - 22), view.at(s.thick + s.opened + 13, s.outer - 22), VERMILLION, 5
    )
    for x in (s.opened / 4, s.thick + s.opened * 0.75):
        canvas.arrow((view.at(x, 0)[0], 72), view.at(x, s.outer + 3), BLUE, 3)
    canvas.text(
        view.at(s.thick / 2 + s.opened / 2, 0)[0], 64, f"gap (drawn {GAP_SCALE} × too wide)", 17, bold=True, colour=BLUE
    )


def _told(v: Vehicle, pedal: float) -> str:
    named = "; ".join(piece.label for piece in parts(v, pedal))
    if pedal == 0:
        moves = "Pedal up: the diaphragm spring presses the pressure plate onto the plate, and the facings touch the flywheel and the pressure plate."
    else:
        moves = (
            f"Pedal {100 * pedal:.0f} percent down: the release bearing pushes the fingers towards the engine, the diaphragm spring tips on its "
            f"pivot rings, the straps draw the pressure plate towards the gearbox. A gap opens on both sides of the plate, drawn {GAP_SCALE} times too wide."
        )
    kit = ", with the rigid flywheel of the kit" if v.flywheel.bolt_dmf is not None else ""
    return f"Axial section of the upper half of the clutch of {v.name}{kit}, engine on the left. Named parts: {named}. {moves}"


def _caption(v: Vehicle, pedal: float) -> str:
    lift = v.clutch.plate_lift_required_mm
    if pedal == 0:
        return f"{v.opening}, pedal up: the spring clamps the plate between flywheel and pressure plate."
    return f"{v.opening}, pedal down: the pressure plate lifts {lift * pedal:.1f} mm. The gap is drawn {GAP_SCALE} times too wide."


@picture("torque-path")
def torque_path(*, vehicle: str = "A") -> Drawing:
    """The section with numbered arrows: the way of the torque from crankshaft to input shaft, pedal up."""
    v = sheet(vehicle)
    canvas = Canvas(HEIGHT + 36)
    canvas.text(20, 32, "The way of the torque, pedal up", 22, anchor="start", bold=True)
    canvas.text(20, 58, "← engine", 18, anchor="start", bold=True)
    canvas.text(700, 32, "gearbox →", 18, anchor="end", bold=True)
    view, _ = draw_section(canvas, v, sizes(v, 0), STILL)
    s = sizes(v, 0)
    mid, spring = s.thick / 2, s.hub + (s.inner - s.hub) * 0.56
    back = -s.recess - s.clamped
    ways = (
        (
            (back - 40, 12),
            (back - 8, s.bolts - 6),
            (back + 2, s.bolts + 6),
            (-17, s.inner + 8),
            (-12, s.outer - 18),
            (1, s.outer - 12),
        ),
        (
            (-12, s.outer - 12),
            (-12, s.cover - 8),
            (7, s.cover - 10),
            (s.thick + 18, s.outer + 6),
            (s.thick + 9, s.outer - 4),
            (s.thick - 0.5, s.outer - 12),
        ),
        ((mid, s.outer - 20), (mid, s.inner - 8), (mid + 3, spring), (mid + 4, s.hub - 1), (mid + 8, s.shaft - 2)),
        ((mid + 12, s.shaft * 0.5), (s.thick + 80, s.shaft * 0.5)),
    )
    for way, colour in zip(ways, (VERMILLION, BLUE, VERMILLION, VERMILLION), strict=True):
        points = [view.at(*p) for p in way]
        canvas.polyline(points[:-1], WHITE, 9)
        canvas.polyline(points[:-1], colour, 5)
        canvas.arrow(points[-2], points[-1], colour, 5)
    for i, spot in enumerate(
        (
            (back - 30, 17),
            (-17, s.outer - 26),
            (s.thick + 24, s.outer + 11),
            (mid, s.inner - 1),
            (s.thick + 52, s.shaft * 0.5),
        ),
        start=1,
    ):
        at = view.at(*spot)
        canvas.circle(at, 14, WHITE)
        canvas.text(at[0], at[1] + 6, str(i), 18, bold=True)
    left = ("1  crankshaft", "2  flywheel: half to its facing", "3  cover, straps: the other half")
    for x, rows in ((20, left), (388, ("4  facings, damper, splined hub", "5  gearbox input shaft"))):
        for i, row in enumerate(rows):
            canvas.text(x, 484 + 26 * i, row, 17, anchor="start")
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=(
            f"Axial section of the clutch of {v.name}, pedal up, with numbered arrows. 1 from the crankshaft into 2 the flywheel; "
            "half the torque goes straight from the flywheel to its facing; the other half through 3 cover and straps to the pressure plate and "
            "its facing; then 4 through the facings, cushion springs, torsion damper and splined hub into 5 the gearbox input shaft."
        ),
        caption="Two friction faces share the torque: one at the flywheel, one at the pressure plate.",
    )
