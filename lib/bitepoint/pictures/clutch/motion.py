"""The clutch in section while the pedal goes down: true to scale, with an enlarged strip where the gap opens."""

from math import cos, radians, sin

from bitepoint.pictures.canvas import BLUE, INK, METAL, PALE, SHADE, VERMILLION, WHITE, YELLOW, Canvas, Point, number
from bitepoint.pictures.clutch.parts import parts_at
from bitepoint.pictures.clutch.sizes import Sizes, true_sizes
from bitepoint.pictures.clutch.view import SectionView, draw_section
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Frame, Motion, moving, picture
from bitepoint.pictures.strokes import FACING, IRON, STEEL, callout, capsule, part
from bitepoint.workshop.pedal_motion import Moved, moved, pedal_for_lift_mm
from bitepoint.workshop.vehicles import Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet

SLIDE_WITH_PLATE = ("cushion", "facings", "hub", "damper")
SLIDE_WITH_BEARING = ("release-bearing", "fork", "piston")
CHANGE_SHAPE = ("diaphragm", "strap")
STEP_MM = 2.0
"""From one stored place of the pedal to the next [mm]."""

PIVOT: Point = (86.0, 128.0)
ARM, ARM_MM = 150.0, 300.0
"""Pedal as drawn, and the length that gives its angle (source: common-practice)."""
LENS: Point = (462.0, 74.0)
ZOOM, STUB = 13.0, 40.0
BAR_X, BAR_Y, BAR_WIDE = 40.0, 590.0, 640.0


@picture("clutch-in-motion")
def clutch_in_motion(*, vehicle: str = "A", pedal_mm: float | None = None) -> Drawing:
    """The section with the pad at `pedal_mm`, 0 to the travel of the sheet; None is the whole travel."""
    v = sheet(vehicle)
    at = moved(v, v.release.pedal_travel_mm if pedal_mm is None else pedal_mm)
    return _drawn(v, at)


@moving("clutch-in-motion")
def clutch_moving(*, vehicle: str = "A") -> Motion:
    """The section with the pedal up, and where everything lies at each further place of the pedal."""
    v = sheet(vehicle)
    travel = v.release.pedal_travel_mm
    places = [k * STEP_MM for k in range(int(travel // STEP_MM) + 1)]
    up = _drawn(v, moved(v, 0))
    return Motion(
        title="Press the pedal: what moves, where the gap opens",
        label="Travel of the pedal pad",
        unit="mm",
        step=STEP_MM,
        drawing=up,
        frames=tuple(_frame(v, moved(v, p)) for p in places),
        frame=frame_words(),
    )


def _frame(v: Vehicle, at: Moved) -> Frame:
    """Shifts from the place with the pedal up, in picture units, and what is to be read."""
    rest, s = true_sizes(v, moved(v, 0)), true_sizes(v, at)
    view = SectionView(s)
    plate, pressure = at.lift / 2 * view.scale, at.lift * view.scale
    bearing = (s.clear - rest.clear - s.travel) * view.scale
    shift = dict.fromkeys(SLIDE_WITH_PLATE, plate) | dict.fromkeys(SLIDE_WITH_BEARING, bearing)
    shift |= {"pressure-plate": pressure, "lens-plate": at.lift / 2 * ZOOM, "lens-pressure": at.lift * ZOOM}
    shift |= {"mark": at.pedal / v.release.pedal_travel_mm * BAR_WIDE}
    shapes = {p.key: _points(view, p.outlines[0]) for p in parts_at(v, s) if p.key in CHANGE_SHAPE}
    return Frame(
        at=at.pedal,
        says=told(at),
        words={"state": titled(at), "figures": figures(at)},
        shift={key: round(value, 2) for key, value in shift.items()},
        turn={"pedal": (round(-_angle_deg(at), 2), *PIVOT)},
        shapes=shapes,
    )


def _points(view: SectionView, outline: tuple[Point, ...]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in view.outline(outline))


def _angle_deg(at: Moved) -> float:
    return at.pedal / ARM_MM * 57.29578


def told(at: Moved) -> str:
    """What a screen reader hears at one place of the pedal."""
    gap = f", gap {at.gap:.1f} mm on each side" if at.lift else ""
    return f"{at.pedal:g} mm: {at.state}{gap}"


def titled(at: Moved) -> str:
    """The heading of one place of the pedal."""
    return f"Pedal {at.pedal:g} mm: {at.state}"


def figures(at: Moved) -> str:
    """The three figures that follow from the pedal."""
    return f"bearing {at.bearing:.1f} mm · lift {at.lift:.2f} mm · gap {at.gap:.2f} mm on each side"


def _drawn(v: Vehicle, at: Moved) -> Drawing:
    canvas, s = Canvas(740), true_sizes(v, at)
    with canvas.group("state"):
        canvas.text(20, 34, titled(at), 22, anchor="start", bold=True)
    view, _ = draw_section(canvas, v, s)
    _pedal(canvas, at)
    _lens(canvas, view, s, at)
    _names(canvas, view, v, s)
    _bar(canvas, v, at)
    canvas.frame(frame_words())
    return canvas.drawing(alt=_alt(v, at), caption=_caption(v, at))


def _alt(v: Vehicle, at: Moved) -> str:
    kit = ", with the rigid flywheel of the kit" if v.flywheel.bolt_dmf is not None else ""
    return (
        f"Clutch pedal and axial section of the clutch of {v.name}{kit}, true to scale, engine on the left. "
        f"{titled(at)}; {figures(at)}. The pedal moves the release bearing towards the engine; the diaphragm spring tips on its pivot rings; "
        "straps draw the pressure plate towards the gearbox. An enlarged strip shows flywheel, plate and pressure plate with the gap on both "
        "sides of the plate. A bar shows the way of the pad: free play, parts bend, the gap opens and the plate may still drag, the plate is free."
    )


def _caption(v: Vehicle, at: Moved) -> str:
    free = pedal_for_lift_mm(v, v.clutch.plate_lift_required_mm)
    return (
        f"{v.opening}, pedal at {at.pedal:g} mm. The plate is free from about {free:.0f} mm on. "
        "The cushion springs between the facings are left out."
    )


def _pedal(canvas: Canvas, at: Moved) -> None:
    """The pedal hangs; pressed, its pad swings towards the bulkhead."""
    canvas.polygon([(166, 84), (180, 84), (180, 300), (166, 300)], SHADE)
    canvas.hatch(166, 84, 14, 216, INK, 9)
    down = _angle_deg(at)
    with canvas.group("pedal"):
        pad = _swung((PIVOT[0] - 44, PIVOT[1] + ARM - 8), -down)
        canvas.polygon(capsule(PIVOT, pad, 8), METAL)
        ends = [_swung((PIVOT[0] - 44 + dx, PIVOT[1] + ARM - 8 + dy), -down) for dx, dy in ((-12, 9), (14, -13))]
        canvas.polygon(capsule(ends[0], ends[1], 9), INK)
    canvas.circle(PIVOT, 12, WHITE)
    canvas.circle(PIVOT, 4, INK)
    canvas.text(20, 336, "pedal", 18, anchor="start", bold=True)
    canvas.text(20, 358, "(drawn smaller)", 16, anchor="start")


def _swung(point: Point, turn_deg: float) -> Point:
    a, (x, y) = radians(turn_deg), (point[0] - PIVOT[0], point[1] - PIVOT[1])
    return PIVOT[0] + x * cos(a) - y * sin(a), PIVOT[1] + x * sin(a) + y * cos(a)


def _lens(canvas: Canvas, view: SectionView, s: Sizes, at: Moved) -> None:
    """A strip of the friction faces, enlarged: the flywheel stands, plate and pressure plate move away."""
    x, y = LENS
    high, thick = 150.0, s.thick * ZOOM
    left, top = view.at(-1.5, s.outer - 22)
    right, low = view.at(s.thick + 3.5, s.outer - 34)
    canvas.line((right, top), (x, y + high + 22), BLUE, 2, dash="7 5")
    canvas.rect(left, top, right - left, low - top, "none", BLUE, 3)
    canvas.rect(x, y, 238, high + 22, WHITE, BLUE, 3)
    canvas.text(x + 119, y - 10, f"friction faces, {ZOOM / view.scale:.1f} × larger", 17, bold=True, colour=BLUE)
    face, base = x + 8 + STUB, y + 11
    part(canvas, [(x + 8, base), (face, base), (face, base + high), (x + 8, base + high)], IRON, slant_deg=45, gap=12)
    with canvas.group("lens-plate"):
        shift, lining = at.lift / 2 * ZOOM, thick * 0.36
        for start, wide, fill in (
            (0.0, lining, FACING),
            (lining, thick - 2 * lining, STEEL),
            (thick - lining, lining, FACING),
        ):
            canvas.rect(face + shift + start, base, wide, high, fill)
        canvas.text(face + shift + thick / 2 + 6, base + high / 2, "plate", 18, bold=True, turn=-90)
    with canvas.group("lens-pressure"):
        edge = face + thick + at.lift * ZOOM
        part(
            canvas,
            [(edge, base), (edge + STUB, base), (edge + STUB, base + high), (edge, base + high)],
            IRON,
            slant_deg=135,
            gap=12,
        )
        _upright(canvas, edge + STUB / 2, base + high / 2, "pressure plate")
    _upright(canvas, x + 8 + STUB / 2, base + high / 2, "flywheel")


def _upright(canvas: Canvas, x: float, y: float, words: str) -> None:
    half = len(words) * 4.4 + 4
    canvas.rect(x - 11, y - half, 22, 2 * half, WHITE, WHITE, 0)
    canvas.text(x + 6, y, words, 17, bold=True, turn=-90)


def _names(canvas: Canvas, view: SectionView, v: Vehicle, s: Sizes) -> None:
    rest = s.thick + 16.5
    callout(canvas, "diaphragm spring", (548, 292), view.at(rest + 1.2, s.pivot - 9))
    with canvas.group("release-bearing"):
        tip = rest + 7.3 - s.travel + s.clear
        callout(canvas, ("release", "bearing"), (620, 330), view.at(tip + 13, s.shaft + 24))
    canvas.text(250, 548, "flywheel", 17)
    canvas.line((250, 530), view.at(-s.recess - 3, s.shaft + 9), INK, 2)
    canvas.text(430, 548, "input shaft", 17)
    canvas.line((430, 530), view.at(s.thick + 26, s.shaft * 0.4), INK, 2)


def _bar(canvas: Canvas, v: Vehicle, at: Moved) -> None:
    """The whole way of the pad: free play, bending, gap opens, free; a mark at the pad's place."""
    travel = v.release.pedal_travel_mm
    marks = (
        0.0,
        v.release.free_play_set_mm,
        pedal_for_lift_mm(v, 0),
        pedal_for_lift_mm(v, v.clutch.plate_lift_required_mm),
        travel,
    )
    xs = [BAR_X + m / travel * BAR_WIDE for m in marks]
    for left, right, fill in zip(xs, xs[1:], (WHITE, PALE, METAL, YELLOW), strict=False):
        canvas.rect(left, BAR_Y, right - left, 30, fill)
    canvas.text((xs[2] + xs[3]) / 2, BAR_Y + 21, "gap opens, may still drag", 17, bold=True)
    canvas.text((xs[3] + xs[4]) / 2, BAR_Y + 21, "free", 17, bold=True)
    canvas.text(xs[0], BAR_Y + 52, "free play, then parts bend", 16, anchor="start")
    for x, mm in zip(xs[3:], marks[3:], strict=True):
        canvas.text(x - (0 if mm == travel else 8), BAR_Y + 52, f"{mm:.0f} mm", 16, anchor="end")
    with canvas.group("figures"):
        canvas.text(BAR_X, BAR_Y + 84, figures(at), 19, anchor="start", bold=True)
    with canvas.group("mark"):
        x = BAR_X + at.pedal / travel * BAR_WIDE
        canvas.polygon([(x, BAR_Y + 2), (x - 11, BAR_Y - 16), (x + 11, BAR_Y - 16)], VERMILLION, INK)
        canvas.line((x, BAR_Y), (x, BAR_Y + 5), VERMILLION, 4)
