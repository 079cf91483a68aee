"""The three ways from pedal to release bearing: cable, external slave cylinder, concentric slave cylinder."""

from math import asin, degrees

from bitepoint.pictures.canvas import INK, METAL, SHADE, SKY, VERMILLION, WHITE, Canvas, Point
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.release import parts
from bitepoint.pictures.release.parts import AXIS, FINGERS, PEDAL, label, swung
from bitepoint.pictures.strokes import STEEL, bend, box, coil, part, share, smooth
from bitepoint.workshop.vehicles import Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet

TRAVEL = 26.0
"""Travel of the bearing in picture units, pedal down; drawn larger than the pedal's scale, and said so."""


def _start(title: str, pedal: float) -> Canvas:
    share("pedal", pedal)
    canvas = Canvas(620)
    canvas.text(
        20,
        30,
        f"{title}, pedal {'up' if pedal == 0 else 'down' if pedal == 1 else f'{100 * pedal:.0f} % down'}",
        22,
        anchor="start",
        bold=True,
    )
    return canvas


def _end(canvas: Canvas, v: Vehicle, pedal: float, words: str, regions: tuple[Shape, ...]) -> Drawing:
    r = v.release
    canvas.text(
        20,
        544,
        f"Pedal travel {r.pedal_travel_mm:g} mm, free play {r.free_play_mm[0]:g} to {r.free_play_mm[1]:g} mm",
        17,
        anchor="start",
    )
    canvas.text(
        20,
        568,
        f"Bearing travel needed {r.bearing_travel_required_mm:g} mm (drawn larger than to scale)",
        17,
        anchor="start",
    )
    if pedal:
        canvas.arrow((FINGERS + 84, AXIS + 62), (FINGERS + 24, AXIS + 62), VERMILLION, 6)
    canvas.frame(frame_words())
    state = "Pedal up" if pedal == 0 else f"Pedal {100 * pedal:.0f} percent down, arrows show what moves"
    return canvas.drawing(
        alt=f"Release system of {v.name} from the side. {words} {state}. The bearing's travel is drawn larger than to scale.",
        caption=f"{v.opening}: {r.detail}.",
        regions=regions,
    )


def _around(key: str, name: str, x: float, y: float, width: float, height: float) -> Shape:
    return Shape(key, name, "rect", (x, y, width, height))


def _lever_ends(pivot: Point, inner: float, outer: float, travel: float) -> tuple[Point, Point]:
    """Ends of a lever that has moved its lower end by `travel` to the left."""
    angle = -degrees(asin(travel / inner))
    return swung(pivot, inner, angle), swung(pivot, -outer, angle)


@picture("release-cable-fork")
def release_cable_fork(*, vehicle: str = "A", pedal: float = 0) -> Drawing:
    """Pedal, cable, release lever, fork and release bearing; the levers are drawn in the ratios of the sheet."""
    v = sheet(vehicle)
    canvas = _start("Cable and fork", pedal)
    ratio = v.release.outer_lever_ratio or 2.5
    pivot = (486.0, AXIS - 92)
    inner, outer = _lever_ends(pivot, 66, 66 * ratio, TRAVEL * pedal)
    parts.housing(canvas)
    parts.bearing(canvas, TRAVEL * pedal)
    parts.fork(canvas, pivot, inner, outer, ball=False)
    top = parts.pedal(canvas, pedal, over=parts.ARM / v.release.pedal_ratio)
    canvas.line(top, (184, 62), INK, 3)
    rest = pivot[1] - 66 * ratio
    sheath = smooth([(198, 62), (300, 66), (420, 46), (560, 40), (650, 48), (688, 76), (664, rest - 2), (604, rest)])
    bend(canvas, sheath, fill=SHADE, width=7)
    canvas.rect(592, rest - 17, 12, 34, METAL)
    canvas.line((592, rest), outer, INK, 3)
    canvas.circle(outer, 6, WHITE)
    canvas.rect(586, rest + 17, 18, AXIS - 177 - rest, METAL)
    if pedal:
        canvas.arrow((outer[0] + 4, outer[1] + 26), (outer[0] + 64, outer[1] + 26), VERMILLION, 5)
    label(canvas, "cable in its sheath", (330, 98), (330, 62))
    label(canvas, "release lever", (400, 150), ((2 * outer[0] + pivot[0]) / 3, (2 * outer[1] + pivot[1]) / 3), "end")
    label(canvas, "fork shaft", (360, 190), (pivot[0] - 8, pivot[1] - 6), "end")
    label(canvas, "fork", (538, AXIS - 60), (inner[0] + 4, inner[1] - 22), "start")
    _common_names(canvas, pedal)
    shapes = (
        _around("pedal", "pedal", 50, 44, 120, 300),
        _around("cable", "cable", 200, 26, 460, 60),
        _around("release lever", "release lever", outer[0] - 18, outer[1], 60, 180),
        _around("fork", "fork", inner[0] - 16, AXIS - 92, 60, 80),
        _around("release-bearing", "release bearing", FINGERS - TRAVEL * pedal, AXIS - 46, 60, 92),
    )
    return _end(
        canvas,
        v,
        pedal,
        "The pedal pulls the cable in its sheath, the cable pulls the release lever on the fork shaft, the fork pushes the release bearing along the guide tube against the fingers of the diaphragm spring.",
        shapes,
    )


def _common_names(canvas: Canvas, pedal: float, *, tube: str = "guide tube") -> None:
    travel = TRAVEL * pedal
    label(canvas, "release bearing", (470, AXIS + 116), (FINGERS - travel + 12, AXIS + 42))
    label(canvas, ("diaphragm", "fingers"), (346, AXIS + 66), (FINGERS - 12 - travel * 0.8, AXIS + 46), "end")
    if tube:
        label(canvas, tube, (592, AXIS + 116), (548, AXIS + 17))
    label(canvas, "pedal", (48, 176), swung(PEDAL, 70, -14 + parts.SWING_DEG * pedal), "end")


@picture("release-external-slave")
def release_external_slave(*, vehicle: str = "D", pedal: float = 0) -> Drawing:
    """Pedal, master cylinder, pipe, external slave cylinder, fork on its ball pivot, release bearing."""
    v = sheet(vehicle)
    canvas = _start("External slave cylinder and fork", pedal)
    ratio = v.release.fork_ratio or 1.6
    pivot = (496.0, AXIS - 92)
    inner, outer = _lever_ends(pivot, 72, 72 * ratio, TRAVEL * pedal)
    parts.housing(canvas)
    parts.bearing(canvas, TRAVEL * pedal)
    parts.fork(canvas, pivot, inner, outer, ball=True)
    out = _master_side(canvas, v, pedal)
    slave_x, y = 372.0, pivot[1] - 72 * ratio
    parts.pipe(canvas, [out, (358, out[1] + 4), (352, (out[1] + y) / 2), (356, y - 4), (slave_x, y)])
    _external(canvas, slave_x, y, outer, outer[0] - pivot[0])
    if pedal:
        canvas.arrow((pivot[0], y - 28), (outer[0] + 12, y - 28), VERMILLION, 5)
    label(canvas, "bleed nipple", (430, y - 62), (slave_x + 22, y - 40), "start")
    label(canvas, ("external", "slave cylinder"), (334, y + 62), (slave_x + 12, y + 16), "end")
    label(canvas, "push-rod", (590, y - 34), (outer[0] - 8, y - 1), "start")
    label(canvas, "ball pivot", (618, AXIS - 120), (pivot[0] + 12, pivot[1]), "start")
    label(canvas, "fork", (538, AXIS - 44), (inner[0] + 4, inner[1] - 18), "start")
    _common_names(canvas, pedal)
    shapes = (
        _around("pedal", "pedal", 50, 90, 120, 260),
        _around("master-cylinder", "master cylinder", 198, 110, 144, 60),
        _around("slave-cylinder", "external slave cylinder", 348, y - 36, 90, 60),
        _around("ball-pivot", "ball pivot", pivot[0] - 10, pivot[1] - 16, 40, 32),
        _around("release-bearing", "release bearing", FINGERS - TRAVEL * pedal, AXIS - 46, 60, 92),
    )

    return _end(
        canvas,
        v,
        pedal,
        "The pedal pushes the piston of the master cylinder, fluid goes through the pipe to the external slave cylinder, its push-rod moves the outer end of the fork, the fork tips on its ball pivot and pushes the release bearing along the guide tube against the fingers of the diaphragm spring.",
        shapes,
    )


def _master_side(canvas: Canvas, v: Vehicle, pedal: float) -> Point:
    rod = parts.pedal(canvas, pedal, under=parts.ARM / v.release.pedal_ratio)
    out = parts.master(canvas, (rod[0], PEDAL[1] + parts.ARM / v.release.pedal_ratio), 34 * pedal)
    label(canvas, "fluid tank", (372, 64), (284, out[1] - 86), "start")
    label(canvas, "master cylinder", (270, out[1] + 58), (240, out[1] + 18))
    return out


def _external(canvas: Canvas, x: float, y: float, outer: Point, stroke: float) -> None:
    """Slave cylinder from the side: body, piston, boot, push-rod, bleed nipple at its highest point."""
    canvas.rect(x, y - 20, 76, 40, METAL)
    canvas.rect(x + 6, y - 13, 70, 26, SKY)
    piston = x + 14 + stroke * 0.75
    canvas.rect(piston, y - 13, 20, 26, STEEL)
    canvas.rect(piston + 20, y - 13, x + 76 - piston - 20, 26, WHITE)
    canvas.line((piston + 20, y), outer, INK, 6)
    coil(canvas, (x + 76, y), (x + 98 + stroke * 0.6, y), 11, 3, width=3)
    canvas.rect(x + 16, y - 34, 12, 14, METAL)
    canvas.rect(x + 18, y - 46, 8, 12, WHITE)
    canvas.circle(outer, 7, WHITE)


@picture("release-concentric-slave")
def release_concentric_slave(*, vehicle: str = "B", pedal: float = 0) -> Drawing:
    """Pedal, master cylinder, pipe with connector, concentric slave cylinder round the input shaft with its bearing."""
    v = sheet(vehicle)
    canvas = _start("Concentric slave cylinder", pedal)
    parts.housing(canvas, window=False)
    x = parts.bearing(canvas, TRAVEL * pedal, tube=False, sleeve=18)
    for side in (-1, 1):
        low = AXIS - 44 if side < 0 else AXIS + 12
        part(canvas, box(500, low, 84, 32), STEEL, slant_deg=135, gap=8)
        chamber = AXIS - 36 if side < 0 else AXIS + 20
        canvas.rect(500, chamber, 72, 16, SKY)
        canvas.rect(x + 42, chamber, 500 + 44 - TRAVEL * pedal - x - 42, 16, METAL)
    for side in (-1, 1):
        canvas.rect(572, AXIS + (-62 if side < 0 else 44), 12, 18, METAL)
    out = _master_side(canvas, v, pedal)
    parts.pipe(
        canvas,
        [
            out,
            (420, out[1]),
            (620, out[1] + 10),
            (648, out[1] + 70),
            (628, 290),
            (612, 318),
            (566, 324),
            (548, AXIS - 36),
        ],
    )
    canvas.rect(612, 276, 28, 24, METAL)
    canvas.rect(620, 262, 12, 14, WHITE)
    label(canvas, ("connector with", "bleed nipple"), (590, 182), (620, 272), "end")
    label(canvas, "slave cylinder", (464, AXIS - 92), (522, AXIS - 40))
    label(canvas, "ring piston", (596, AXIS + 116), (x + 60, AXIS + 28))
    label(canvas, "slave bolts", (660, AXIS + 138), (578, AXIS + 54))
    _common_names(canvas, pedal, tube="")
    shapes = (
        _around("pedal", "pedal", 50, 90, 120, 260),
        _around("master-cylinder", "master cylinder", 198, 110, 144, 60),
        _around("connector", "connector with bleed nipple", 606, 256, 40, 50),
        _around("concentric-slave", "concentric slave cylinder", 486, AXIS - 46, 100, 92),
        _around("release-bearing", "release bearing", x, AXIS - 46, 44, 92),
    )
    return _end(
        canvas,
        v,
        pedal,
        "The pedal pushes the piston of the master cylinder, fluid goes through the pipe and a connector with bleed nipple into the concentric slave cylinder round the input shaft; its ring piston pushes the release bearing straight against the fingers of the diaphragm spring. There is no fork and no separate guide tube.",
        shapes,
    )
