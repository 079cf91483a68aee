"""Eight parts drawn large, each sound or damaged; every function returns the region where one has to look."""

from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, SHADE, SKY, WHITE, Canvas, on_circle
from bitepoint.pictures.registry import Shape
from bitepoint.pictures.strokes import FACING, IRON, STEEL, arc, box, hatched, part, side_bolt, smooth

DARK = "#4A4038"
OIL = "#7A5A2E"
RUST = "#B5683A"


def oil_on_facing(canvas: Canvas, ok: bool) -> Shape:
    """A facing, dry or with tracks of oil."""
    at = (360.0, 560.0)
    canvas.polygon([*arc(at, 500, -40, 40, steps=30), *arc(at, 320, 40, -40, steps=30)], FACING, INK, 3)
    canvas.polygon([*arc(at, 320, -40, 40, steps=30), *arc(at, 180, 40, -40, steps=30)], STEEL, INK, 3)
    for angle in range(-36, 37, 12):
        canvas.line(on_circle(*at, 320, angle), on_circle(*at, 500, angle), INK, 3)
    for angle in range(-30, 31, 12):
        for r in (370, 450):
            canvas.circle(on_circle(*at, r, angle), 10, METAL)
            canvas.circle(on_circle(*at, r, angle), 5, WHITE)
    if not ok:
        for middle, wide, reach in ((-24, 3.2, 470), (-9, 4.4, 496), (5, 3.4, 480), (19, 4.8, 494), (30, 2.6, 450)):
            left = [
                on_circle(*at, 190 + (reach - 190) * j / 6, middle - wide * (0.35 + 0.12 * j) + (0.9 if j % 2 else 0))
                for j in range(7)
            ]
            right = [
                on_circle(*at, 190 + (reach - 190) * j / 6, middle + wide * (0.35 + 0.12 * j) - (0.7 if j % 2 else 0))
                for j in range(6, -1, -1)
            ]
            streak = smooth([*left, *right], closed=True, steps=4)
            canvas.polygon(streak, OIL, INK, 2)
            hatched(canvas, streak, gap=9, slant_deg=70, colour=INK)
    return Shape("oil-on-facing", "facing", "rect", (80, 66, 560, 220))


def worn_rivets(canvas: Canvas, ok: bool) -> Shape:
    """A facing in section with two rivets."""
    top = 130.0 if ok else 214.0
    part(canvas, box(60, 290, 600, 26), STEEL, slant_deg=None, width=3)
    for left, right in ((60.0, 176.0), (264.0, 456.0), (544.0, 660.0)):
        part(canvas, box(left, top, right - left, 290 - top), FACING, slant_deg=90, gap=9, width=3)
    for x in (220.0, 500.0):
        for side in (-1, 1):
            part(
                canvas,
                [(x + side * 44, 262), (x + side * 44, 290), (x + side * 18, 290), (x + side * 18, 262)],
                FACING,
                slant_deg=90,
                gap=9,
            )
        canvas.polygon(
            [
                (x - 36, 216),
                (x + 36, 216),
                (x + 36, 262),
                (x + 17, 262),
                (x + 17, 340),
                (x + 34, 354),
                (x - 34, 354),
                (x - 17, 340),
                (x - 17, 262),
                (x - 36, 262),
            ],
            ORANGE,
            INK,
            3,
        )
        if not ok:
            canvas.line((x - 30, 218), (x + 30, 218), WHITE, 4)
    canvas.text(80, 366, "plate", 18, anchor="start")
    canvas.text(80, top - 12, "facing", 18, anchor="start")
    canvas.text(500, 384, "rivet", 18)
    if not ok:
        for x in (230, 340, 400):
            canvas.line((x, top + 1), (x + 30, top + 1), INK, 4)
    return Shape("worn-rivets", "rivet heads and surface of the facing", "rect", (160, 110, 410, 160))


def bent_fingers(canvas: Canvas, ok: bool) -> Shape:
    """Nine fingers from the side, tips on a line or not."""
    canvas.polygon([(40, 90), (680, 90), (664, 130), (56, 130)], METAL, INK, 3)
    canvas.line((40, 330), (680, 330), BLUE, 3, dash="14 8")
    canvas.text(676, 366, "line of the tips", 18, anchor="end")
    for k in range(9):
        x = 80.0 + 70 * k
        low = 330.0 + (0 if ok else {5: 34, 6: 22}.get(k, 0))
        lean = 0 if ok else {5: 9, 6: -5}.get(k, 0)
        canvas.polygon(
            [
                (x - 26, 130),
                (x + 26, 130),
                (x + 15 + lean, low - 30),
                (x + 12 + lean, low),
                (x - 12 + lean, low),
                (x - 15 + lean, low - 30),
            ],
            SKY,
            INK,
            3,
        )
        if not ok and k in (5, 6):
            canvas.polyline([(x - 9 + lean, low - 6), (x + 9 + lean, low - 6)], INK, 5)
    return Shape("bent-fingers", "tips of the fingers", "rect", (390, 280, 150, 100))


def worn_splines(canvas: Canvas, ok: bool) -> Shape:
    """The splined end of an input shaft."""
    canvas.rect(30, 190, 130, 110, METAL, INK, 3)
    canvas.rect(160, 160, 380, 170, STEEL, INK, 3)
    for k in range(10):
        y = 172 + 16.2 * k
        canvas.line((160, y), (540, y), INK, 3)
        canvas.line((160, y + 7), (540, y + 7), SHADE, 2)
    canvas.polygon([(540, 166), (560, 186), (560, 304), (540, 324)], METAL, INK, 3)
    canvas.rect(560, 206, 110, 78, WHITE, INK, 3)
    canvas.text(90, 346, "gearbox", 18)
    canvas.text(616, 346, "pilot end", 18)
    if not ok:
        part(canvas, [(290, 156), (430, 156), (430, 174), (290, 174)], WHITE, slant_deg=None, width=0)
        part(canvas, [(290, 316), (430, 316), (430, 334), (290, 334)], WHITE, slant_deg=None, width=0)
        canvas.polyline([(160, 160), (290, 160), (294, 174), (426, 174), (430, 160), (540, 160)], INK, 3)
        canvas.polyline([(160, 330), (290, 330), (294, 316), (426, 316), (430, 330), (540, 330)], INK, 3)
        for k in range(1, 9):
            y = 172 + 16.2 * k
            canvas.line((292, y), (428, y), STEEL, 5)
            canvas.line((292, y + 3), (428, y + 3), SHADE, 3)
        for x in (282, 440):
            canvas.polygon(
                smooth(
                    [
                        (x - 9, 168),
                        (x + 9, 190),
                        (x + 4, 240),
                        (x + 10, 300),
                        (x - 8, 324),
                        (x - 11, 260),
                        (x - 5, 210),
                    ],
                    closed=True,
                ),
                RUST,
                INK,
                2,
            )
    return Shape("worn-splines", "splines where the hub sits", "rect", (268, 146, 186, 198))


def leaking_seal(canvas: Canvas, ok: bool) -> Shape:
    """Crankshaft end from behind with its seal."""
    at = (360.0, 190.0)
    canvas.polygon([(120, 60), (600, 60), (640, 140), (640, 400), (80, 400), (80, 140)], IRON, INK, 3)
    canvas.circle(at, 118, PALE, INK, 3)
    for k in range(6):
        canvas.bolt(on_circle(*at, 104, 60 * k + 30), 11)
    if not ok:
        track = smooth(
            [(336, 258), (322, 300), (304, 340), (296, 399), (432, 399), (420, 350), (404, 306), (386, 258)],
            closed=True,
        )
        canvas.polygon(track, OIL, INK, 2)
        hatched(canvas, track, gap=9, slant_deg=80, colour=INK)
        canvas.polygon([*arc(at, 92, 120, 240), *arc(at, 74, 240, 120)], OIL, INK, 2)
        for x, y in ((330, 418), (384, 420)):
            canvas.circle((x, y - 6), 6, OIL)
    canvas.circle(at, 80, DARK, INK, 3)
    canvas.circle(at, 68, METAL, INK, 3)
    for k in range(6):
        canvas.circle(on_circle(*at, 44, 60 * k), 9, WHITE)
    canvas.circle(at, 18, WHITE)
    canvas.text(512, 110, "engine block", 18)
    canvas.pointed(496, 196, "seal", (438, 190))
    return Shape("leaking-seal", "below the seal", "rect", (286, 250, 150, 160))


def torn_mount(canvas: Canvas, ok: bool) -> Shape:
    """An engine mount: bracket, rubber, bracket."""
    sink = 0.0 if ok else 26.0
    canvas.rect(120, 320, 480, 30, METAL, INK, 3)
    for x in (160.0, 560.0):
        side_bolt(canvas, (x, 320), 60, 10, towards="down")
    rubber = smooth(
        [
            (220, 320),
            (200, 260 + sink * 0.4),
            (230, 200 + sink),
            (300, 168 + sink),
            (420, 168 + sink),
            (490, 200 + sink),
            (520, 260 + sink * 0.4),
            (500, 320),
        ]
    )
    canvas.polygon(rubber, DARK, INK, 3)
    canvas.rect(286, 128 + sink, 148, 42, METAL, INK, 3)
    canvas.rect(340, 74 + sink, 40, 54, STEEL, INK, 3)
    canvas.pointed(526, 156, "rubber", (466, 216))
    if not ok:
        tear = [
            (216, 262),
            (262, 250),
            (300, 270),
            (350, 248),
            (396, 272),
            (440, 256),
            (442, 266),
            (398, 292),
            (352, 268),
            (300, 292),
            (262, 268),
            (214, 276),
        ]
        canvas.polygon(tear, WHITE, INK, 2)
    return Shape("torn-mount", "rubber of the mount", "rect", (196, 190, 330, 130))


def worn_guide_tube(canvas: Canvas, ok: bool) -> Shape:
    """Guide tube on the gearbox."""
    canvas.rect(40, 90, 60, 270, METAL, INK, 3)
    canvas.rect(100, 130, 24, 190, STEEL, INK, 3)
    for y in (150, 300):
        canvas.bolt((112, y), 11)
    canvas.rect(124, 172, 470, 106, STEEL, INK, 3)
    canvas.rect(594, 200, 96, 50, WHITE, INK, 3)
    for k in range(1, 5):
        canvas.line((596, 200 + 10 * k), (690, 200 + 10 * k), INK, 2)
    canvas.text(70, 386, "gearbox", 18)
    canvas.text(642, 290, "input shaft", 18)
    if not ok:
        canvas.rect(318, 168, 160, 16, WHITE, WHITE, 0)
        canvas.polyline([(124, 172), (318, 172), (324, 186), (470, 186), (478, 172), (594, 172)], INK, 3)
        for i, y in enumerate((202, 216, 233, 252, 266)):
            canvas.polyline([(330 - 6 * (i % 2), y), (390, y + 2), (466 + 5 * (i % 3), y - 1)], INK, 3)
        canvas.line((324, 186), (324, 276), INK, 2)
        canvas.line((470, 186), (470, 276), INK, 2)
    return Shape("worn-guide-tube", "where the bearing slides", "rect", (306, 156, 186, 134))


def bent_dowel(canvas: Canvas, ok: bool) -> Shape:
    """A hollow dowel in the engine's face, in section."""
    part(canvas, [(60, 90), (340, 90), (340, 380), (60, 380)], IRON, gap=14, width=3)
    lean = 0.0 if ok else 34.0
    canvas.polygon(
        [(220, 204), (340, 204), (470, 204 - lean), (470, 264 - lean), (340, 264), (220, 264)], ORANGE, INK, 3
    )
    canvas.polygon(
        [(220, 222), (344, 222), (470, 222 - lean), (470, 246 - lean), (340, 246), (220, 246)], WHITE, INK, 2
    )
    if not ok:
        canvas.polygon([(302, 204), (340, 182), (341, 206)], WHITE, INK, 3)
        canvas.polygon([(340, 196), (364, 184), (356, 200)], IRON, INK, 2)
    canvas.line((220, 234), (640, 234), BLUE, 2, dash="18 5 4 5")
    canvas.boxed(150, 126, "engine", 18)
    canvas.text(648, 260, "square to the face", 18, anchor="end")
    return Shape("bent-dowel", "dowel", "rect", (290, 156, 200, 130))
