"""Two flywheels side by side in section: dual-mass with a plain plate, rigid with a long-travel damper in the plate."""

from bitepoint.errors import BadInput
from bitepoint.pictures.canvas import INK, ORANGE, SKY, WHITE, Canvas, Point
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import FACING, IRON, SPRING, STEEL, arc, box, callout, part
from bitepoint.workshop.vehicles import DmfBolt, FlywheelBolt, Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet

AXIS = 348.0


class _Half:
    """One half section: millimetres from a friction face and from the axis to units."""

    def __init__(self, canvas: Canvas, face: float, scale: float) -> None:
        self.canvas, self.face, self.scale = canvas, face, scale

    def at(self, x: float, r: float) -> Point:
        return self.face + x * self.scale, AXIS - r * self.scale

    def part(self, points: list[Point], fill: str, slant: float | None = 45, gap: float = 10) -> None:
        part(self.canvas, [self.at(*p) for p in points], fill, slant_deg=slant, gap=gap)

    def name(self, words: str | tuple[str, ...], at: Point, to: Point, anchor: str = "middle") -> None:
        callout(self.canvas, words, at, self.at(*to), anchor=anchor)  # type: ignore[arg-type]


@picture("flywheels-compared")
def flywheels_compared(*, vehicle: str = "B") -> Drawing:
    """Dual-mass flywheel and rigid flywheel of one vehicle, with their plates and their bolts."""
    v = sheet(vehicle)
    dual = v.flywheel.bolt_dmf
    if dual is None:
        raise BadInput(f"{v.opening} has no dual-mass flywheel. Choose B or C.")
    canvas = Canvas(508)
    scale = 286 / (v.clutch.cover.pcd_mm / 2 + 9)
    canvas.text(180, 28, "Dual-mass flywheel", 22, bold=True)
    canvas.text(540, 28, "Rigid flywheel", 22, bold=True)
    canvas.line((360, 40), (360, 462), INK, 2, dash="10 6")
    _dual(_Half(canvas, 224, scale), v, dual)
    _rigid(_Half(canvas, 534, scale), v)
    for x in (14, 374):
        canvas.line((x, AXIS), (x + 332, AXIS), INK, 2, dash="22 5 4 5")
    canvas.text(180, 424, "springs in the flywheel", 18)
    canvas.text(540, 424, "springs in the plate", 18)
    canvas.text(180, 452, f"bolt {dual.thread} × {dual.length_mm:g}", 20, bold=True)
    canvas.text(540, 452, f"bolt {v.flywheel.bolt.thread} × {v.flywheel.bolt.length_mm:g}", 20, bold=True)
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=(
            f"Two half sections for {v.name}. Left, dual-mass flywheel: primary mass on the crankshaft with the ring gear, long arc springs in grease, secondary mass "
            f"with the friction face on its own bearing, plate without damper, bolt {dual.length_mm:g} mm long. Right, rigid flywheel: one piece, plate with long-travel damper, "
            f"bolt {v.flywheel.bolt.length_mm:g} mm long. The bolts must not be swapped."
        ),
        caption="Same crankshaft, other flywheel, other bolts: never swap them.",
        regions=(
            Shape("dual-mass", "dual-mass flywheel", "rect", (14, 44, 330, 316)),
            Shape("rigid", "rigid flywheel", "rect", (374, 44, 330, 316)),
        ),
    )


def _bolt(half: _Half, bolt: FlywheelBolt | DmfBolt, r: float, seat: float) -> None:
    head, shank, tip = bolt.d_mm * 0.8, bolt.d_mm / 2, seat - bolt.length_mm
    upper = [
        (seat + head * 0.9, head * 0.72), (seat + head * 0.25, head * 0.8), (seat + head * 0.25, head), (seat, head), (seat, shank),
        (tip + 1.5, shank), (tip, shank - 1.5),
    ]  # fmt: skip
    half.part([*((x, r + y) for x, y in upper), *((x, r - y) for x, y in reversed(upper))], ORANGE, None)
    for k in range(5):
        x = tip + 2.6 + 2 * k
        half.canvas.line(half.at(x, r + shank - 0.4), half.at(x + 0.8, r - shank + 0.4), INK, 2)


def _flange(half: _Half, r: float, seat: float) -> None:
    left = ((24 if half.face < 360 else 384) - half.face) / half.scale
    half.part(
        [(seat, r + 11), (seat, 17), (left, 17), (left, r - 8), (seat - 22, r - 8), (seat - 22, r + 11)], IRON, 135, 12
    )


def _facings(half: _Half, v: Vehicle) -> None:
    thick, lining = v.clutch.plate_thickness_new_mm, v.clutch.plate_thickness_new_mm * 0.36
    inner, outer = v.clutch.plate_id_mm / 2, v.clutch.plate_od_mm / 2
    half.part(box(thick / 2 - 0.9, inner - 12, 1.8, outer - inner + 10), STEEL, None)
    for x in (0, thick - lining):
        half.part(box(x, inner, lining, outer - inner), FACING, 90, 6)


def _dual(half: _Half, v: Vehicle, bolt: DmfBolt) -> None:
    rim, inner, r = v.clutch.cover.pcd_mm / 2 + 9, v.clutch.plate_id_mm / 2, v.flywheel.pcd_mm / 2
    back, spring = -52.0, (v.clutch.plate_od_mm / 2) * 0.86
    hub_seat = back + 10
    _flange(half, r, hub_seat - bolt.hub_clamped_mm if bolt.hub_clamped_mm < 10 else back)
    primary = [
        (back, 17),
        (back + 10, 17),
        (back + 10, r + 12),
        (back + 7, r + 14),
        (back + 7, spring - 14),
        (back + 4, spring - 12),
        (back + 4, spring + 12),
        (back + 24.5, spring + 12),
        (back + 24.5, spring - 14),
        (back + 27.5, spring - 14),
        (back + 30, spring + 6),
        (back + 30, rim - 12),
        (back, rim - 12),
    ]
    half.part(primary, IRON, 45, 12)
    half.part(box(back + 3, rim - 12, 11, 9), STEEL, 135, 6)
    half.part([(-x, y) for x, y in arc((-(back + 14), spring), 9, 0, 360, steps=24)], SPRING, None)
    half.part([(-x, y) for x, y in arc((-(back + 14), spring), 5, 0, 360, steps=24)], SKY, None)
    half.part(
        [(back + 12.5, r + 16), (back + 12.5, spring - 2), (back + 15.5, spring - 2), (back + 15.5, r + 16)],
        STEEL,
        None,
    )
    secondary = [
        (0, v.clutch.plate_od_mm / 2 + 3),
        (0, inner - 5),
        (-8, inner - 10),
        (-8, r + 13),
        (back + 12, r + 13),
        (back + 12, r + 24),
        (-14, inner - 4),
        (-17, inner + 4),
        (-17, spring + 6),
        (-16, rim),
        (0, rim),
    ]
    half.part(secondary, STEEL, 135, 12)
    half.part([(back + 10, r + 9), (back + 22, r + 9), (back + 22, r + 13), (back + 10, r + 13)], WHITE, None)
    _bolt(half, bolt, r, back + bolt.hub_clamped_mm)
    half.part(
        [
            (back + 10, r - 12),
            (back + bolt.hub_clamped_mm, r - 12),
            (back + bolt.hub_clamped_mm, r - 5.5),
            (back + 10, r - 5.5),
        ],
        IRON,
        45,
        12,
    )
    _facings(half, v)
    thick = v.clutch.plate_thickness_new_mm
    half.part(
        [(thick / 2 - 2, 18), (thick / 2 - 2, inner - 8), (thick / 2 + 2, inner - 8), (thick / 2 + 2, 18)], STEEL, None
    )
    half.part(box(thick / 2 - 9, 12, 24, 6), STEEL, 135, 8)
    half.name("primary mass", (70, 60), (back + 15, rim - 16))
    half.name(("arc springs", "in grease"), (110, 150), (back + 14, spring), "end")
    half.name(("secondary", "mass"), (262, 62), (-8, rim - 6), "start")
    half.name("plate, no damper", (262, 394), (thick / 2, 40), "middle")
    half.name("bearing", (84, 238), (back + 16, r + 11), "end")
    half.name("bolt", (110, 394), (back + 4, r), "middle")


def _rigid(half: _Half, v: Vehicle) -> None:
    rim, inner, r, bolt = (
        v.clutch.cover.pcd_mm / 2 + 9,
        v.clutch.plate_id_mm / 2,
        v.flywheel.pcd_mm / 2,
        v.flywheel.bolt,
    )
    seat = -14.0
    back = seat - bolt.hub_clamped_mm
    _flange(half, r, back)
    ring = bolt.ring_mm or 0
    body = [
        (0, rim),
        (0, inner - 4),
        (seat - ring, inner - 10),
        (seat - ring, 17),
        (back, 17),
        (back, r + 12),
        (-26, inner + 4),
        (-30, inner + 14),
        (-30, rim - 9),
        (-18, rim - 9),
        (-18, rim),
    ]
    half.part(body, IRON, 45, 12)
    half.part(box(-29, rim - 9, 11, 9), STEEL, 135, 6)
    if ring:
        half.part(box(seat - ring, r - 12, ring, 24), STEEL, 135, 7)
    _bolt(half, bolt, r, seat)
    _facings(half, v)
    thick = v.clutch.plate_thickness_new_mm
    centre, coil = thick / 2 + 6, (18 + inner) * 0.52
    half.part(box(centre - 1.7, 18, 3.4, coil - 12), STEEL, None)
    for side in (-1, 1):
        half.part(
            [
                (centre + side * 3, 18),
                (centre + side * 3, coil - 12),
                (centre + side * 9, coil - 5),
                (centre + side * 9, coil + 5),
                (centre + side * 3, coil + 12),
                (centre + side * 3, inner - 6),
                (centre + side * 4.6, inner - 6),
                (centre + side * 4.6, coil + 13),
                (centre + side * 11, coil + 6),
                (centre + side * 11, coil - 6),
                (centre + side * 4.6, coil - 13),
                (centre + side * 4.6, 18),
            ],
            STEEL,
            None,
        )
    half.part([(-x, y) for x, y in arc((-centre, coil), 9, 0, 360, steps=24)], SPRING, None)
    half.part([(-x, y) for x, y in arc((-centre, coil), 5, 0, 360, steps=24)], SKY, None)
    half.part(box(thick / 2 - 9, 12, 30, 6), STEEL, 135, 8)
    half.name("one piece", (424, 72), (-16, rim - 24))
    half.name(("long-travel", "damper"), (604, 196), (centre + 5, coil + 2), "start")
    half.name("bolt", (440, 394), (seat - 18, r))
    if ring:
        half.name(("reinforcing", "ring"), (414, 214), (seat - ring / 2, r + 10))
    half.name("plate", (632, 120), (thick * 0.9, inner + 16), "start")
