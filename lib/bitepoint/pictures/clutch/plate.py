"""The plate from both sides with its marking words; where grease goes and where never."""

from bitepoint.pictures.canvas import INK, METAL, SHADE, SKY, VERMILLION, WHITE, Canvas, Point, on_circle
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import FACING, STEEL, arc, callout
from bitepoint.workshop.vehicles import Vehicle
from bitepoint.workshop.vehicles import vehicle as sheet


def marked(v: Vehicle) -> tuple[str, bool]:
    """The words pressed into the plate, and whether they stand on the side that faces the flywheel."""
    return v.clutch.mark, v.clutch.mark_faces == "flywheel"


@picture("plate-sides")
def plate_sides(*, vehicle: str = "A") -> Drawing:
    """The plate from the flywheel side and from the gearbox side, with the words that say which is which."""
    v = sheet(vehicle)
    text, on_flat = marked(v)
    canvas = Canvas(560)
    canvas.text(184, 34, "Faces the flywheel", 22, bold=True)
    canvas.text(536, 34, "Faces the gearbox", 22, bold=True)
    scale = 156 / (v.clutch.plate_od_mm / 2)
    for x, cage in ((184.0, False), (536.0, True)):
        _front(canvas, (x, 212), v, scale, cage)
        if cage != on_flat:
            _stamped(canvas, (x, 212), text, v.clutch.plate_id_mm / 2 * scale)
    canvas.lines(184, 400, ("Flat side: the damper", "lies inside the plate"), 18)
    canvas.lines(536, 400, ("The spring cage", "stands out"), 18)
    _side_view(canvas, v)
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=(
            f"Plate of {v.name} from both sides. Left, the side that faces the flywheel: flat, the damper lies inside. Right, the side that faces the gearbox: "
            f"the spring cage stands out. The words {text} stand on the {'flywheel' if on_flat else 'gearbox'} side. Below, the plate from the side between flywheel and gearbox."
        ),
        caption=f"Read the word on the plate: {text}. The spring cage faces the gearbox.",
        regions=(
            Shape("flywheel-side", "side that faces the flywheel", "circle", (184, 212, 156)),
            Shape("gearbox-side", "side that faces the gearbox", "circle", (536, 212, 156)),
        ),
    )


def _front(canvas: Canvas, at: Point, v: Vehicle, scale: float, cage: bool) -> None:
    outer, inner = v.clutch.plate_od_mm / 2 * scale, v.clutch.plate_id_mm / 2 * scale
    canvas.circle(at, outer, FACING)
    for k in range(20):
        canvas.line(on_circle(*at, inner, 18 * k), on_circle(*at, outer, 18 * k), INK, 2)
        canvas.circle(on_circle(*at, inner + (outer - inner) * (0.3 if k % 2 else 0.7), 18 * k + 9), 4, WHITE)
    canvas.circle(at, inner, WHITE)
    canvas.circle(at, inner - 4, STEEL)
    if cage:
        canvas.circle(at, inner * 0.94 - 8, METAL, width=4)
    radius, half = inner * 0.43, inner * 0.1
    long_travel = v.clutch.damper.kind == "long-travel"
    count, span = (3, 86.0) if long_travel else (6, 38.0)
    for k in range(count):
        start = 360 * k / count + (60 - span) / 2 + (30 if long_travel else 0)
        canvas.polygon(
            [*arc(at, radius + half, start, start + span), *arc(at, radius - half, start + span, start)],
            SKY if cage else WHITE,
            INK,
            3,
        )
        for step in range(1, round(span / 7)):
            angle = start + 7 * step
            canvas.line(on_circle(*at, radius - half, angle - 3), on_circle(*at, radius + half, angle), INK, 2)
    canvas.circle(at, inner * 0.28, METAL)
    teeth = v.clutch.splines
    bore = v.clutch.spline_major_mm / 2 * scale
    rim = [on_circle(*at, bore * (1 if j % 4 in (1, 2) else 0.84), 360 * j / (4 * teeth)) for j in range(4 * teeth)]
    canvas.polygon(rim, WHITE)


def _stamped(canvas: Canvas, at: Point, words: str, r: float) -> None:
    canvas.rect(at[0] - len(words) * 5.2 - 4, at[1] + r * 0.7 - 14, len(words) * 10.4 + 8, 24, WHITE)
    canvas.text(at[0], at[1] + r * 0.7 + 4, words, 16, bold=True)


def _side_view(canvas: Canvas, v: Vehicle) -> None:
    y, x = 478.0, 360.0
    canvas.rect(x - 92, y - 30, 46, 60, SHADE)
    canvas.text(x - 104, y + 6, "flywheel", 17, anchor="end")
    thick = v.clutch.plate_thickness_new_mm * 2
    canvas.rect(x - thick / 2, y - 32, thick, 64, FACING)
    canvas.rect(x - thick / 2 - 2, y - 15, thick / 2 + 2, 30, STEEL)
    canvas.rect(x, y - 17, 26, 34, SKY)
    canvas.rect(x - 14, y - 7, 54, 14, METAL)
    canvas.rect(x + 72, y - 10, 70, 20, WHITE)
    canvas.text(x + 154, y + 6, "gearbox", 17, anchor="start")


@picture("grease-right-wrong")
def grease_right_wrong() -> Drawing:
    """Where a little grease goes, and the places that must never see any."""
    canvas = Canvas(640)
    canvas.text(20, 36, "A thin film of the stated grease, here:", 22, anchor="start", bold=True)
    _spline(canvas)
    _pivot(canvas)
    canvas.line((20, 326), (700, 326), INK, 2, dash="10 6")
    canvas.text(20, 364, "Never here:", 22, anchor="start", bold=True)
    _never_facing(canvas)
    _never_slave(canvas)
    _never_bolt(canvas)
    return canvas.drawing(
        alt=(
            "Where grease goes. Above, right: a thin film on the splines of the input shaft, about a match-head in all, the ring that forms wiped off; a thin film on the ball pivot and the fork's "
            "contact points. Below, never: on a facing or a friction face, on the body of a concentric slave cylinder, on a flywheel bolt with locking patch."
        ),
        caption="A match-head of grease on the splines, a film on the pivot. None on a facing, a slave cylinder or a bolt with patch.",
        regions=(
            Shape("splines", "splines of the input shaft", "rect", (30, 60, 330, 200)),
            Shape("pivot", "ball pivot and fork", "rect", (400, 60, 290, 200)),
            Shape("facing", "facing", "rect", (30, 380, 200, 180)),
            Shape("slave-body", "body of the concentric slave", "rect", (256, 380, 210, 180)),
            Shape("patch", "flywheel bolt with locking patch", "rect", (490, 380, 200, 180)),
        ),
    )


FILM = "#F5C76A"


def _spline(canvas: Canvas) -> None:
    canvas.rect(40, 128, 110, 60, METAL)
    canvas.rect(150, 118, 150, 80, WHITE)
    for i in range(9):
        y = 124 + i * 8.5
        canvas.line((150, y), (300, y), INK, 2)
    for i in range(9):
        canvas.line((150, 127.5 + i * 8.5), (300, 127.5 + i * 8.5), FILM, 4)
    canvas.polygon([(300, 122), (312, 130), (312, 186), (300, 194)], METAL)
    canvas.rect(312, 142, 40, 32, WHITE)
    for top, bottom in ((108, 120), (196, 208)):
        canvas.rect(138, top, 12, bottom - top, FILM, round=5)
    canvas.line((128, 100), (160, 128), VERMILLION, 5)
    canvas.line((160, 100), (128, 128), VERMILLION, 5)
    callout(canvas, "thin film all along", (226, 92), (226, 120), anchor="middle")
    canvas.lines(
        196, 236, ("About a match-head in all.", "Slide the plate on once,", "wipe off the ring that forms."), 18
    )
    canvas.line((54, 84), (84, 66), "#000000", 4)
    canvas.circle((86, 65), 6, FILM)


def _pivot(canvas: Canvas) -> None:
    canvas.polygon(
        [
            (420, 112),
            (520, 130),
            (560, 118),
            (600, 130),
            (680, 116),
            (680, 140),
            (602, 154),
            (560, 146),
            (518, 154),
            (420, 138),
        ],
        STEEL,
    )
    canvas.rect(546, 168, 28, 46, METAL)
    canvas.circle((560, 160), 17, WHITE)
    canvas.polygon([*arc((560, 160), 21, -70, 70), *arc((560, 160), 14, 70, -70)], FILM)
    canvas.polygon([(424, 138), (470, 146), (468, 154), (424, 146)], FILM)
    callout(canvas, "ball pivot", (616, 200), (572, 147))
    callout(canvas, "fork tips", (416, 192), (440, 146), anchor="start")
    canvas.lines(552, 254, ("A thin film on ball and tips;", "guide tube only if the sheet says so."), 18)


def _blob(canvas: Canvas, x: float, y: float) -> None:
    canvas.polygon(
        [
            (x - 30, y + 8),
            (x - 18, y - 10),
            (x - 2, y - 6),
            (x + 10, y - 16),
            (x + 28, y),
            (x + 18, y + 16),
            (x - 6, y + 12),
        ],
        FILM,
    )
    canvas.line((x - 22, y - 22), (x + 22, y + 22), "#D55E00", 6)
    canvas.line((x - 22, y + 22), (x + 22, y - 22), "#D55E00", 6)


def _never_facing(canvas: Canvas) -> None:
    at = (130.0, 590.0)
    canvas.polygon([*arc(at, 190, -30, 30), *arc(at, 110, 30, -30)], FACING, INK, 3)
    for angle in (-22, -11, 0, 11, 22):
        canvas.line(on_circle(*at, 110, angle), on_circle(*at, 190, angle), INK, 2)
    _blob(canvas, 134, 440)
    canvas.lines(130, 560, ("facing, flywheel and", "pressure plate: slip, judder"), 17)


def _never_slave(canvas: Canvas) -> None:
    """In section: flange on the gearbox, ring piston with its spring and the bearing in front, shaft through all."""
    canvas.rect(256, 453, 206, 24, WHITE)
    canvas.rect(440, 404, 16, 122, METAL)
    for side in (-1, 1):
        body = [(440, 20), (440, 54), (356, 54), (356, 46), (428, 46), (428, 28), (356, 28), (356, 20)]
        canvas.polygon([(x, 465 + side * y) for x, y in body], STEEL)
        piston = 465 + side * 28 - (18 if side < 0 else 0)
        canvas.rect(408, piston, 20, 18, SKY)
        canvas.rect(318, piston, 72, 18, METAL)
        canvas.circle((304, 465 + side * 37), 11, WHITE, INK, 3)
    canvas.line((434, 419), (434, 396), INK, 10)
    canvas.line((434, 419), (434, 398), SKY, 5)
    _blob(canvas, 386, 414)
    callout(canvas, "bearing", (270, 412), (302, 424), anchor="middle")
    canvas.lines(362, 560, ("concentric slave body:", "it stays dry"), 17)


def _never_bolt(canvas: Canvas) -> None:
    canvas.polygon([(520, 420), (548, 416), (548, 504), (520, 500)], METAL)
    canvas.rect(548, 442, 126, 36, WHITE)
    canvas.rect(604, 442, 46, 36, SKY)
    for i in range(11):
        canvas.line((560 + i * 10, 442), (564 + i * 10, 478), INK, 2)
    _blob(canvas, 600, 444)
    callout(canvas, "patch", (660, 420), (638, 448), anchor="start")
    canvas.lines(594, 560, ("bolt with patch:", "it gets overloaded"), 17)
