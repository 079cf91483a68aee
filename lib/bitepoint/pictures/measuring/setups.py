"""Set-ups at the flywheel: run-out with a dial gauge, the lock in and out, the centring tool."""

from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SHADE, SKY, VERMILLION, WHITE, Canvas, Point, on_circle
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import FACING, IRON, STEEL, box, callout, choice, part, verdict
from bitepoint.workshop.vehicles import vehicle as sheet


def _gauge(canvas: Canvas, at: Point, stylus: Point) -> None:
    """A dial gauge, its stylus to the left."""
    canvas.line((at[0] - 40, at[1]), stylus, INK, 5)
    canvas.rect(at[0] - 66, at[1] - 8, 34, 16, METAL)
    canvas.circle(at, 44, WHITE, INK, 4)
    for k in range(20):
        canvas.line(on_circle(*at, 34 if k % 5 else 29, 18 * k), on_circle(*at, 39, 18 * k), INK, 2)
    canvas.line(at, on_circle(*at, 33, 42), VERMILLION, 3)
    canvas.circle(at, 4, INK)
    canvas.text(at[0], at[1] + 26, "0.01", 16)


@picture("run-out-setup")
def run_out_setup(*, vehicle: str = "A") -> Drawing:
    """Dial gauge square on the friction face at the radius of the sheet, the crankshaft pushed one way for each reading."""
    v = sheet(vehicle)
    f = v.flywheel
    canvas = Canvas(444)
    axis, scale = 208.0, 150 / (v.clutch.cover.pcd_mm / 2 + 9)
    part(canvas, [(20, 20), (172, 20), (172, 396), (20, 396)], IRON, slant_deg=None)
    canvas.boxed(88, 76, "engine", 18)
    canvas.rect(96, axis - 34, 110, 68, STEEL)
    canvas.rect(206, axis - 70, 26, 140, STEEL)
    half = (v.clutch.cover.pcd_mm / 2 + 9) * scale
    bore = v.clutch.plate_id_mm / 2 * scale
    face = [
        (272, axis - half),
        (272, axis - bore),
        (264, axis - bore),
        (264, axis + bore),
        (272, axis + bore),
        (272, axis + half),
    ]
    part(canvas, [(232, axis - half), *face, (232, axis + half)], IRON)
    for y in (axis - half, axis + half - 22):
        part(canvas, box(226, y, 18, 22), STEEL, slant_deg=135, gap=6)
    canvas.line((20, axis), (470, axis), INK, 2, dash="22 5 4 5")
    y = axis - f.runout_radius_mm * scale
    _gauge(canvas, (396, y), (272, y))
    canvas.rect(424, y - 6, 110, 12, METAL)
    canvas.rect(528, y - 20, 18, 376 - y + 20, METAL)
    canvas.circle((537, y), 16, SHADE)
    part(canvas, [(172, 376), (590, 376), (590, 396), (172, 396)], STEEL, slant_deg=135, gap=10)
    canvas.line((286, axis), (286, y), BLUE, 2)
    canvas.arrow((302, axis - 30), (302, y + 4), BLUE, 3)
    canvas.arrow((302, y + 50), (302, axis), BLUE, 3)
    canvas.text(314, axis - 22, f"radius {f.runout_radius_mm:g} mm", 18, anchor="start", bold=True, colour=BLUE)
    canvas.arrow((400, axis + 40), (282, axis + 40), VERMILLION, 7)
    canvas.lines(
        330, axis + 76, ("push this way before", "every reading: keeps", "the end float out"), 17, anchor="start"
    )
    callout(canvas, ("stylus square on the face,", "1 mm of preload"), (312, 20), (277, y), anchor="start")
    callout(canvas, ("stiff", "stand"), (570, 316), (540, 326))
    canvas.lines(566, 178, ("8 places,", "turn by hand,", "lock out,", "key out"), 18, anchor="start")
    told = ("highest", "less lowest:", f"at most {f.face_runout_limit_mm:.2f} mm")
    canvas.lines(560, 60, told, 16, anchor="start")
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=(
            f"Flywheel of {v.name} from the side on the engine. A dial gauge of 0.01 mm on a stiff stand bolted to the block, stylus square on the friction face at a radius of "
            f"{f.runout_radius_mm:g} mm. An arrow pushes the crankshaft the same way before every reading, so that the end float stays out of it. Eight places, turned by hand, lock out. "
            f"Highest minus lowest at most {f.face_runout_limit_mm:.2f} mm."
        ),
        caption="Run-out of the friction face. The same push before every reading; the swing is never halved.",
        regions=(
            Shape("gauge", "dial gauge", "circle", (396, y, 46)),
            Shape("stand", "stand", "rect", (520, y - 22, 40, 400 - y)),
            Shape("push", "push on the crankshaft", "rect", (276, axis + 22, 200, 90)),
        ),
    )


Steps = tuple[tuple[tuple[str, ...], bool], ...]
LOCK_STEPS: dict[str, Steps] = {
    "off": (
        (("cover bolts", "slackened"), True),
        (("dual-mass only:", "free angle"), True),
        (("flywheel bolts", "slackened"), True),
        (("flywheel off,", "flange bare"), False),
    ),
    "on": (
        (("flywheel bolts", "tightened"), True),
        (("run-out check,", "turned by hand"), False),
        (("cover bolts", "tightened"), True),
        (("two turns", "by hand"), False),
    ),
}
"""What is done with the lock in or out, in the order of the job."""
_LAST = {"off": "The flywheel never turns under the bar.", "on": "Out and counted before the gearbox comes back."}


@picture("flywheel-lock")
def flywheel_lock(*, job: str = "on") -> Drawing:
    """The lock in the ring gear and out of it, and a line of the job, taking off or fitting, with when it is in or out."""
    choice("job", job, tuple(LOCK_STEPS))
    steps = LOCK_STEPS[job]
    canvas = Canvas(424)
    for x, inside in ((20.0, True), (376.0, False)):
        canvas.text(x + 160, 28, "Lock IN" if inside else "Lock OUT", 22, bold=True)
        _teeth(canvas, (x + 160, 540), inside)
    canvas.text(20, 296, {"off": "Taking off:", "on": "Fitting:"}[job], 20, anchor="start", bold=True)
    for i, (words, inside) in enumerate(steps):
        _lock_step(canvas, 20 + 172.0 * i, i + 1, words, inside)
        if i:
            canvas.arrow((7 + 172.0 * i, 362), (22 + 172.0 * i, 362), INK, 2)
    canvas.text(700, 296, _LAST[job], 18, anchor="end", bold=True)
    told = "; ".join(
        f"{i} {' '.join(w)}, lock {'in' if inside else 'out'}" for i, (w, inside) in enumerate(steps, start=1)
    )
    return canvas.drawing(
        alt=(
            "Left, lock in: a toothed block bolted to the engine sits in the ring gear. Right, lock out: the ring gear is free. "
            f"Below, {'taking off' if job == 'off' else 'fitting'}: {told}. {_LAST[job]}"
        ),
        caption={
            "off": "In from the first cover bolt to the last flywheel bolt, so that nothing turns.",
            "on": "In for the flywheel bolts, out for the run-out, in for the cover, out after the last cover bolt.",
        }[job],
        regions=(
            Shape("in", "lock in", "rect", (20, 36, 330, 240)),
            Shape("out", "lock out", "rect", (370, 36, 330, 240)),
        ),
    )


def _lock_step(canvas: Canvas, x: float, number: int, words: tuple[str, ...], inside: bool) -> None:
    canvas.rect(x, 310, 160, 108, SKY if inside else WHITE, INK, 3)
    if inside:
        canvas.hatch(x, 384, 160, 34)
    canvas.text(x + 80, 331, str(number), 18, bold=True)
    canvas.lines(x + 80, 352, words, 17)
    canvas.boxed(x + 80, 408, "IN" if inside else "OUT", 20)


def _teeth(canvas: Canvas, at: Point, inside: bool) -> None:
    r, n, span = 360.0, 17, 50.0
    rim: list[Point] = []
    pitch = span / n
    for k in range(n):
        a = -span / 2 + k * pitch
        rim += [
            on_circle(*at, r, a),
            on_circle(*at, r + 20, a + pitch * 0.3),
            on_circle(*at, r + 20, a + pitch * 0.55),
            on_circle(*at, r, a + pitch * 0.85),
        ]
    low = [on_circle(*at, r - 60, -span / 2 + span * k / 12) for k in range(12, -1, -1)]
    part(canvas, [*rim, on_circle(*at, r, span / 2), *low], IRON, gap=12)
    lift = 0.0 if inside else -62.0
    x, top = at[0], at[1] - r - 22 + lift
    body = [(x - 62, top - 62), (x + 62, top - 62), (x + 62, top - 6)]
    for k in (2, 1, 0, -1, -2):
        middle = x + k * 19.0
        sag = (k * 19) ** 2 / (2 * r)
        body += [
            (middle + 6, top - 2 + sag),
            (middle + 3, top + 17 + sag),
            (middle - 3, top + 17 + sag),
            (middle - 6, top - 2 + sag),
        ]
    part(canvas, [*body, (x - 62, top - 6)], ORANGE, slant_deg=None, width=3)
    canvas.bolt((x, top - 36), 15)
    if not inside:
        canvas.arrow((x + 84, at[1] - r - 26), (x + 84, at[1] - r - 108), VERMILLION, 6)
    canvas.boxed(x, at[1] - r + 38, "ring gear", 18)
    canvas.text(x - 74, top - 34, "lock", 18, anchor="end", bold=True)


@picture("centring-tool")
def centring_tool() -> Drawing:
    """The plate held in the middle by a centring tool until the cover is tight; and the plate hanging low without it."""
    canvas = Canvas(620)
    for i, right in enumerate((True, False)):
        x = 20 + 360.0 * i
        verdict(canvas, x, 40, right, "on one axis" if right else "plate hangs low", size=20)
        _centred(canvas, x, 290, 0 if right else 22, right)
    canvas.line((360, 60), (360, 520), INK, 2, dash="10 6")
    canvas.lines(180, 556, ("The tool slides in and out by hand", "after the last cover bolt."), 18)
    canvas.lines(540, 556, ("The shaft meets the hub's edge:", "the gearbox does not go home."), 18)
    return canvas.drawing(
        alt=(
            "Two sections of flywheel, plate and cover. Right: a stepped centring tool goes through the plate's hub into the pilot bore of the crankshaft, all on one axis; it slides by hand after the "
            "last cover bolt. Wrong: no tool, the plate hangs low, its hub is below the axis, the input shaft meets the edge of the hub and the gearbox does not go home."
        ),
        caption="Centre the plate, tighten the cover, then feel: the tool must slide by hand.",
        regions=(
            Shape("tool", "centring tool", "rect", (70, 274, 260, 32)),
            Shape("hub-low", "hub below the axis", "rect", (484, 290, 80, 44)),
        ),
    )


def _shaft_that_misses(canvas: Canvas, left: float, axis: float) -> None:
    """Draw an input shaft whose end meets the edge of a hub that hangs low."""
    nose, end = left + 152, left + 330
    canvas.rect(nose, axis - 13, end - nose, 26, WHITE)
    for y in range(-8, 13, 5):
        canvas.line((nose + 4, axis + y), (nose + 92, axis + y), SHADE, 2)
    canvas.circle((nose, axis + 2), 17, "none", VERMILLION, 5)
    canvas.text(left + 292, axis - 24, "input shaft", 17)
    callout(canvas, ("meets the edge", "of the hub"), (left + 258, axis + 72), (nose + 12, axis + 14), anchor="middle")


def _centred(canvas: Canvas, left: float, axis: float, drop: float, tool: bool) -> None:
    part(
        canvas,
        [(left, axis - 60), (left + 62, axis - 60), (left + 62, axis + 60), (left, axis + 60)],
        IRON,
        slant_deg=135,
    )
    canvas.rect(left + 26, axis - 13, 36, 26, WHITE)
    for side in (-1, 1):
        half = [(62, 26), (84, 26), (84, 96), (104, 110), (104, 202), (62, 202)]
        part(canvas, [(left + px, axis + side * py) for px, py in half], IRON)
    y = axis + drop
    for side in (-1, 1):
        part(
            canvas,
            [
                (left + 104, y + side * 110),
                (left + 120, y + side * 110),
                (left + 120, y + side * 172),
                (left + 104, y + side * 172),
            ],
            FACING,
            slant_deg=90,
            gap=6,
        )
        canvas.polygon(
            [
                (left + 109, y + side * 20),
                (left + 115, y + side * 20),
                (left + 115, y + side * 112),
                (left + 109, y + side * 112),
            ],
            STEEL,
        )
        canvas.circle((left + 116, y + side * 62), 15, SKY)
        part(
            canvas,
            [
                (left + 94, y + side * 14),
                (left + 150, y + side * 14),
                (left + 150, y + side * 26),
                (left + 94, y + side * 26),
            ],
            STEEL,
            slant_deg=135,
            gap=7,
        )
    for side in (-1, 1):
        part(
            canvas,
            [
                (left + 122, axis + side * 106),
                (left + 150, axis + side * 106),
                (left + 150, axis + side * 176),
                (left + 122, axis + side * 176),
            ],
            IRON,
            slant_deg=135,
        )
        canvas.polygon(
            [
                (left + 152, axis + side * 172),
                (left + 158, axis + side * 172),
                (left + 178, axis + side * 40),
                (left + 171, axis + side * 40),
            ],
            SKY,
        )
        canvas.polygon(
            [
                (left + 104, axis + side * 202),
                (left + 104, axis + side * 192),
                (left + 164, axis + side * 180),
                (left + 172, axis + side * 130),
                (left + 182, axis + side * 130),
                (left + 174, axis + side * 190),
                (left + 110, axis + side * 202),
            ],
            STEEL,
        )
    if tool:
        canvas.polygon(
            [
                (left + 30, axis - 11),
                (left + 80, axis - 11),
                (left + 92, axis - 14),
                (left + 164, axis - 14),
                (left + 176, axis - 9),
                (left + 300, axis - 9),
                (left + 300, axis + 9),
                (left + 176, axis + 9),
                (left + 164, axis + 14),
                (left + 92, axis + 14),
                (left + 80, axis + 11),
                (left + 30, axis + 11),
            ],
            ORANGE,
            INK,
            3,
        )
        canvas.circle((left + 304, axis), 18, ORANGE, INK, 3)
        callout(canvas, "centring tool", (left + 262, axis + 62), (left + 246, axis + 6), anchor="middle")
        callout(canvas, "pilot bore", (left + 40, axis - 90), (left + 44, axis - 8), anchor="middle")
    else:
        _shaft_that_misses(canvas, left, axis)
    canvas.line((left, axis), (left + 336, axis), BLUE, 2, dash="18 5 4 5")
