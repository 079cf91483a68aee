"""Where a car stands on a two-post lift: four pads and the centre of gravity with and without the gearbox, from above."""

from bitepoint.pictures.canvas import GREEN, INK, METAL, PALE, SHADE, VERMILLION, WHITE, Canvas, Point
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import callout, capsule, smooth
from bitepoint.workshop.vehicles import Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet

FRONT, REAR, MIDDLE = 160.0, 548.0, 232.0
"""Front and rear axle and the car's centre line, in picture units."""


def balance(v: Vehicle) -> tuple[float, float]:
    """Distance of the centre of gravity behind the front axle [mm]: whole car, and without the gearbox."""
    m = v.masses
    whole = m.rear_axle_kg / m.vehicle_kg * m.wheelbase_mm
    without = (m.vehicle_kg * whole + m.gearbox_kg * m.gearbox_cg_ahead_of_front_axle_mm) / (
        m.vehicle_kg - m.gearbox_kg
    )
    return whole, without


@picture("lift-arm-points")
def lift_arm_points(*, vehicle: str = "A") -> Drawing:
    """A car from above on four pads, its centre of gravity before and after the gearbox is out."""
    v = sheet(vehicle)
    whole, without = balance(v)
    scale = (REAR - FRONT) / v.masses.wheelbase_mm
    canvas = Canvas(504)
    canvas.text(20, 32, "On the lift, from above", 22, anchor="start", bold=True)
    canvas.text(20, 62, "front of the car", 18, anchor="start")
    _posts(canvas)
    _car(canvas, FRONT - v.masses.gearbox_cg_ahead_of_front_axle_mm * scale, v.drive == "rear")
    pads = _pads(canvas)
    at = FRONT + whole * scale
    after = FRONT + without * scale
    canvas.line((pads[0][0], MIDDLE), (pads[1][0], MIDDLE), SHADE, 2, dash="8 6")
    _gravity(canvas, (at, MIDDLE), INK)
    _gravity(canvas, (after, MIDDLE + 36), VERMILLION)
    callout(
        canvas,
        ("with gearbox:", f"{whole:.0f} mm behind front axle"),
        (at + 34, MIDDLE - 62),
        (at + 9, MIDDLE - 10),
        bold=True,
        size=16,
    )
    callout(
        canvas,
        (f"gearbox out: {without:.0f} mm,", f"{without - whole:.0f} mm further back"),
        (after + 34, MIDDLE + 48),
        (after + 12, MIDDLE + 42),
        bold=True,
        size=16,
    )
    canvas.text(360, 442, "Both points lie on the centre line; one is drawn lower so that both can be seen.", 16)
    canvas.frame(frame_words())
    shapes = tuple(
        Shape(key, name, "circle", (x, y, 22))
        for (key, name), (x, y) in zip(
            (
                ("front-left", "front left pad"),
                ("rear-left", "rear left pad"),
                ("front-right", "front right pad"),
                ("rear-right", "rear right pad"),
            ),
            pads,
            strict=True,
        )
    )
    return canvas.drawing(
        alt=(
            f"{v.opening} from above between the two posts of a lift, on four pads under the sills. Centre of gravity {whole:.0f} mm behind the front axle with the gearbox, "
            f"{without:.0f} mm without it: {without - whole:.0f} mm further back. It stays between front and rear pads."
        ),
        caption=f"Without the gearbox the centre of gravity lies {without - whole:.0f} mm further back.",
        regions=shapes,
    )


def _car(canvas: Canvas, gearbox: float, behind: bool) -> None:
    outline = [
        (74, MIDDLE - 74),
        (64, MIDDLE),
        (74, MIDDLE + 74),
        (112, MIDDLE + 104),
        (220, MIDDLE + 108),
        (480, MIDDLE + 108),
        (590, MIDDLE + 104),
        (632, MIDDLE + 84),
        (640, MIDDLE),
        (632, MIDDLE - 84),
        (590, MIDDLE - 104),
        (480, MIDDLE - 108),
        (220, MIDDLE - 108),
        (112, MIDDLE - 104),
    ]
    for axle in (FRONT, REAR):
        canvas.line((axle, MIDDLE - 90), (axle, MIDDLE + 90), SHADE, 6)
        for side in (-1, 1):
            canvas.rect(axle - 32, MIDDLE + side * 94 - 14, 64, 28, INK, round=6)
    canvas.polygon(smooth(outline, closed=True), "none", INK, 3)
    for glass in (
        [(226, MIDDLE - 82), (206, MIDDLE), (226, MIDDLE + 82)],
        [(556, MIDDLE - 78), (574, MIDDLE), (556, MIDDLE + 78)],
    ):
        canvas.polyline(smooth(glass), SHADE, 3)
    if behind:
        canvas.rect(96, MIDDLE - 30, 110, 60, PALE)
        canvas.text(151, MIDDLE + 6, "engine", 16)
        canvas.polygon(
            [
                (206, MIDDLE - 30),
                (228, MIDDLE - 30),
                (246, MIDDLE - 18),
                (2 * gearbox - 206, MIDDLE - 14),
                (2 * gearbox - 206, MIDDLE + 14),
                (246, MIDDLE + 18),
                (228, MIDDLE + 30),
                (206, MIDDLE + 30),
            ],
            METAL,
        )
        callout(canvas, "gearbox", (250, MIDDLE + 62), (gearbox - 40, MIDDLE + 20), anchor="middle", size=16)
    else:
        canvas.rect(96, MIDDLE - 66, 84, 58, PALE)
        canvas.text(138, MIDDLE - 31, "engine", 16)
        canvas.rect(gearbox - 38, MIDDLE + 4, 76, 50, METAL)
        canvas.text(gearbox, MIDDLE + 35, "gearbox", 16)


def _posts(canvas: Canvas) -> None:
    for side in (-1, 1):
        y = MIDDLE + side * 158
        canvas.rect(318, y - 22, 84, 44, SHADE)
        canvas.hatch(318, y - 22, 84, 44)
        canvas.boxed(360, y + 6, "post", 17)


def _pads(canvas: Canvas) -> list[Point]:
    pads = []
    for side in (1, -1):
        for x, joint in ((236.0, 336.0), (486.0, 384.0)):
            pad = (x, MIDDLE + side * 98)
            canvas.polygon(capsule((joint, MIDDLE + side * 138), pad, 9), SHADE)
            canvas.circle((joint, MIDDLE + side * 138), 8, WHITE)
            canvas.circle(pad, 17, METAL, width=3)
            canvas.circle(pad, 6, GREEN, GREEN)
            pads.append(pad)
    return pads


def _gravity(canvas: Canvas, at: Point, colour: str) -> None:
    """The sign for a centre of gravity: a circle with two dark quarters."""
    x, y = at
    canvas.circle(at, 14, WHITE, colour, 3)
    for sx, sy in ((1, -1), (-1, 1)):
        canvas.polygon([at, (x + sx * 14, y), (x + sx * 10, y + sy * 10), (x, y + sy * 14)], colour, colour, 1)
