"""The kit pulled apart: flywheel, plate, cover, bearing, bolts, grease, label, sheet."""

from bitepoint.errors import OutOfRange
from bitepoint.pictures import ovals
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SKY, WHITE, Canvas, Point
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import FACING, IRON, SPRING, STEEL, bend, side_bolt
from bitepoint.workshop.part_names import KIT
from bitepoint.workshop.vehicles import Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet

MIDDLE = 232.0
PLACES = (132.0, 322.0, 494.0, 650.0)


@picture("kit-exploded")
def kit_exploded(*, vehicle: str = "B") -> Drawing:
    """A kit with a rigid flywheel laid out from engine to gearbox; diameters of the sheet."""
    v = sheet(vehicle)
    canvas, scale, concentric = _laid_out(v)
    long_travel = v.clutch.damper.kind == "long-travel"
    tops = (
        (PLACES[0], ("1 rigid flywheel",)),
        (PLACES[1], ("2 plate, long-", "travel damper") if long_travel else ("2 plate",)),
        (PLACES[2], ("3 cover",)),
        (PLACES[3] - 12, ("4 concentric", "slave cylinder") if concentric else ("4 release", "bearing")),
    )
    for x, words in tops:
        canvas.lines(x, 62 if len(words) == 2 else 84, words, 18)
    _small_names(canvas, v)
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=_told(v, long_travel, concentric),
        caption=f"Kit for {v.name}. Tick every line with the part in your hand.",
        regions=_regions(v, scale, concentric),
    )


@picture("kit-lettered")
def kit_lettered(*, vehicle: str = "B", letters: str = "abcdefghi") -> Drawing:
    """The same kit with a letter in place of each name: `letters` holds one for each part of the list, a to i."""
    if sorted(letters) != list("abcdefghi"):
        raise OutOfRange("letters", "the nine letters a to i, each once", letters[:20], "Give them in any order.")
    v = sheet(vehicle)
    canvas, scale, concentric = _laid_out(v)
    shapes = []
    for letter, shape in zip(letters, _regions(v, scale, concentric), strict=True):
        x, y, wide, _ = shape.points
        at = (x + wide / 2, 74.0 if y < BOX else BOX + 148)
        canvas.circle(at, 17, WHITE, BLUE, 3)
        canvas.text(at[0], at[1] + 8, letter.upper(), 22, bold=True)
        shapes.append(Shape(letter, f"place {letter.upper()}", shape.shape, shape.points, (round(at[0], 2), at[1])))
    canvas.frame(frame_words())
    told = "; ".join(f"{letter.upper()}: {part.seen}" for letter, part in sorted(zip(letters, KIT, strict=True)))
    return canvas.drawing(
        alt=f"Kit for {v.name} laid out: four round parts along an axis, small things in a box below. "
        f"Letters in place of names. {told}.",
        caption=f"Kit for {v.name}. Each letter stands for one part.",
        regions=tuple(shapes),
    )


def _laid_out(v: Vehicle) -> tuple[Canvas, float, bool]:
    """Draw the parts without their names; return the canvas, its scale, and whether a concentric slave is there."""
    scale = 134 / (v.clutch.cover.pcd_mm / 2 + 9)
    canvas = Canvas(640)
    canvas.text(20, 30, "A kit with a rigid flywheel, from engine to gearbox", 22, anchor="start", bold=True)
    canvas.line((20, MIDDLE), (700, MIDDLE), INK, 2, dash="22 5 4 5")
    _flywheel(canvas, v, scale)
    plate_face(canvas, (PLACES[1], MIDDLE), v, scale)
    _cover(canvas, v, scale)
    concentric = v.release.kind == "hydraulic concentric slave"
    (_slave if concentric else _bearing)(canvas, scale)
    _small_parts(canvas, v)
    return canvas, scale, concentric


def _flywheel(canvas: Canvas, v: Vehicle, scale: float) -> None:
    at, r = (PLACES[0], MIDDLE), (v.clutch.cover.pcd_mm / 2 + 9) * scale
    ovals.disc(canvas, (at[0] - 18, MIDDLE), r, 14, STEEL, side=METAL)
    for k in range(46):
        angle = 184 + 172 * k / 45
        a, b = ovals.on_oval((at[0] - 32, MIDDLE), r, angle), ovals.on_oval((at[0] - 19, MIDDLE), r, angle)
        canvas.line(a, b, INK, 2)
    ovals.disc(canvas, at, r - 7, 18, IRON)
    face, inner = v.flywheel.friction_face_od_mm / 2 * scale, (v.clutch.plate_id_mm / 2 - 4) * scale
    canvas.polygon(ovals.oval(at, face), WHITE)
    canvas.polygon(ovals.oval(at, inner), IRON)
    canvas.polygon(ovals.oval((at[0] - 6, MIDDLE), inner * 0.86), METAL)
    ovals.holes(canvas, at, v.clutch.cover.pcd_mm / 2 * scale, list(v.clutch.cover.hole_angles_deg), 4)
    ovals.holes(canvas, (at[0] - 6, MIDDLE), v.flywheel.pcd_mm / 2 * scale, list(v.flywheel.hole_angles_deg), 5.5)
    canvas.polygon(ovals.oval((at[0] - 6, MIDDLE), v.flywheel.pcd_mm / 4 * scale), WHITE)


def plate_face(canvas: Canvas, at: Point, v: Vehicle, scale: float) -> None:
    """The plate at a slant, spring cage towards the gearbox."""
    outer, inner = v.clutch.plate_od_mm / 2 * scale, v.clutch.plate_id_mm / 2 * scale
    ovals.disc(canvas, at, outer, 8, FACING, side=FACING)
    for k in range(16):
        ovals.spoke(canvas, at, inner, outer, k * 22.5 + 4)
    ovals.holes(canvas, at, (outer + inner) / 2, [k * 22.5 + 15 for k in range(16)], 3)
    canvas.polygon(ovals.oval(at, inner), METAL)
    cage = (at[0] + 8, at[1])
    ovals.disc(canvas, cage, inner - 9, 8, STEEL)
    long_travel = v.clutch.damper.kind == "long-travel"
    count, span = (3, 84.0) if long_travel else (6, 36.0)
    for k in range(count):
        start = k * 360 / count + 12
        ovals.window(canvas, cage, inner * 0.56, 8, start, start + span, WHITE)
        ovals.window(canvas, cage, inner * 0.56, 6, start + 2, start + span - 2, SKY)
        for step in range(1, round(span / 7)):
            angle = start + step * 7
            canvas.line(
                ovals.on_oval(cage, inner * 0.56 - 6, angle - 3), ovals.on_oval(cage, inner * 0.56 + 6, angle), INK, 2
            )
    ovals.disc(canvas, (cage[0] + 7, at[1]), inner * 0.26, 9, METAL)
    canvas.polygon(ovals.oval((cage[0] + 7, at[1]), inner * 0.17), WHITE)
    for k in range(14):
        ovals.spoke(canvas, (cage[0] + 7, at[1]), inner * 0.14, inner * 0.18, k * 360 / 14)


def _cover(canvas: Canvas, v: Vehicle, scale: float) -> None:
    at, rim = (PLACES[2], MIDDLE), (v.clutch.cover.pcd_mm / 2 + 8) * scale
    outer = v.clutch.plate_od_mm / 2 * scale
    ovals.disc(canvas, (at[0] - 22, MIDDLE), outer, 12, IRON)
    ovals.disc(canvas, at, rim, 5, STEEL)
    ovals.holes(canvas, at, v.clutch.cover.pcd_mm / 2 * scale, list(v.clutch.cover.hole_angles_deg), 4)
    dome = (at[0] + 22, MIDDLE)
    canvas.polygon([*ovals.oval(at, rim - 14, 180, 360, 24), *ovals.oval(dome, outer * 0.84, 0, 180, 24)], METAL)
    canvas.polygon(ovals.oval(dome, outer * 0.84), STEEL)
    canvas.polygon(ovals.oval(dome, outer * 0.74), WHITE)
    ovals.holes(canvas, dome, outer * 0.79, [k * 40 for k in range(9)], 2.5, METAL)
    for k in range(18):
        a = k * 20
        ends = [
            ovals.on_oval(dome, outer * 0.72, a + 1),
            ovals.on_oval(dome, outer * 0.72, a + 19),
            ovals.on_oval(dome, outer * 0.26, a + 16),
            ovals.on_oval(dome, outer * 0.26, a + 4),
        ]
        canvas.polygon(ends, SKY)


def _bearing(canvas: Canvas, scale: float) -> None:
    at = (PLACES[3], MIDDLE)
    ovals.disc(canvas, (at[0] - 8, MIDDLE), 34 * scale, 12, METAL)
    ovals.disc(canvas, (at[0] + 18, MIDDLE), 23 * scale, 26, STEEL)
    canvas.polygon(ovals.oval((at[0] + 18, MIDDLE), 16 * scale), WHITE)


def _slave(canvas: Canvas, scale: float) -> None:
    at = (PLACES[3], MIDDLE)
    ovals.disc(canvas, (at[0] - 34, MIDDLE), 30 * scale, 12, METAL)
    ovals.disc(canvas, (at[0] + 6, MIDDLE), 24 * scale, 36, SPRING)
    ovals.disc(canvas, (at[0] + 22, MIDDLE), 46 * scale, 10, STEEL)
    ovals.holes(canvas, (at[0] + 22, MIDDLE), 40 * scale, [60, 180, 300], 4)
    canvas.polygon(ovals.oval((at[0] + 22, MIDDLE), 16 * scale), WHITE)
    bend(
        canvas,
        [(at[0] + 28, MIDDLE - 40 * scale), (at[0] + 30, MIDDLE - 78 * scale), (at[0] + 44, MIDDLE - 92 * scale)],
        fill=WHITE,
        width=8,
    )


BOX = 404.0


def _small_parts(canvas: Canvas, v: Vehicle) -> None:
    bolt = v.flywheel.bolt
    canvas.rect(20, BOX, 680, 186, "#FAFAFA")
    for i in range(3):
        side_bolt(canvas, (50 + 46 * i, BOX + 44), bolt.length_mm * 1.8, bolt.d_mm * 0.9, towards="down")
    for i in range(3):
        side_bolt(canvas, (208 + 34 * i, BOX + 44), 30, 7, towards="down")
    canvas.polygon([(330, BOX + 36), (374, BOX + 36), (366, BOX + 98), (338, BOX + 98)], ORANGE)
    canvas.rect(344, BOX + 98, 16, 14, INK)
    canvas.rect(420, BOX + 40, 110, 62, WHITE)
    canvas.text(475, BOX + 66, "RIGID KIT", 16, bold=True)
    canvas.text(475, BOX + 90, "order by kit", 16)
    canvas.polygon([(580, BOX + 22), (638, BOX + 22), (656, BOX + 40), (656, BOX + 112), (580, BOX + 112)], WHITE)
    canvas.polyline([(638, BOX + 22), (638, BOX + 40), (656, BOX + 40)])
    for i in range(4):
        canvas.rect(588, BOX + 36 + 18 * i, 10, 10, WHITE)
        canvas.line((604, BOX + 42 + 18 * i), (632 if i == 0 else 648, BOX + 42 + 18 * i))


def _small_names(canvas: Canvas, v: Vehicle) -> None:
    bolt, cover = v.flywheel.bolt, v.clutch.cover
    ring = ("with their ring",) if bolt.ring_mm else ()
    for x, words in (
        (100, (f"{v.flywheel.bolt_count} flywheel bolts", f"{bolt.thread} × {bolt.length_mm:g}", *ring)),
        (244, (f"{cover.n} cover", "bolts", cover.thread)),
        (352, ("grease for", "the splines")),
        (475, ("label for the", "engine bay")),
        (618, ("contents list", "and fitting sheet")),
    ):
        canvas.lines(x, BOX + 134, words, 16)


def _told(v: Vehicle, long_travel: bool, concentric: bool) -> str:
    b = v.flywheel.bolt
    plate = "plate with long-travel damper" if long_travel else "plate with damper"
    last = "concentric slave cylinder" if concentric else "release bearing"
    return (
        f"Kit for {v.name} pulled apart along its axis, from the engine to the gearbox: 1 rigid flywheel with ring gear, 2 {plate}, "
        f"3 cover with diaphragm spring, 4 {last}. Below: {v.flywheel.bolt_count} flywheel bolts {b.thread} by {b.length_mm:g}, {v.clutch.cover.n} cover bolts, "
        "grease, label for the engine bay, contents list and fitting sheet."
    )


def _regions(v: Vehicle, scale: float, concentric: bool) -> tuple[Shape, ...]:
    big = (
        ("flywheel", "rigid flywheel", 134.0, -92, 150),
        ("plate", "plate", v.clutch.plate_od_mm / 2 * scale, -58, 112),
        ("cover", "cover", 133.0, -84, 148),
        ("slave", "concentric slave cylinder", 60.0, -60, 116)
        if concentric
        else ("bearing", "release bearing", 60.0, -44, 92),
    )
    shapes = [
        Shape(key, name, "rect", (round(x + left, 2), round(MIDDLE - r, 2), wide, round(2 * r, 2)))
        for x, (key, name, r, left, wide) in zip(PLACES, big, strict=True)
    ]
    small = (
        ("flywheel-bolts", "flywheel bolts", 26, 148),
        ("cover-bolts", "cover bolts", 182, 122),
        ("grease", "grease", 308, 90),
        ("label", "label", 404, 140),
        ("sheet", "contents list and fitting sheet", 552, 140),
    )
    return (*shapes, *(Shape(key, name, "rect", (x, BOX + 4, width, 178)) for key, name, x, width in small))
