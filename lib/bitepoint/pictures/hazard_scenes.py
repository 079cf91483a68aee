"""Three scenes of a workshop bay with lettered places: some are hazards, some are right; the picture does not say which."""

from bitepoint.pictures import bay_parts as bay
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SHADE, SKY, WHITE, YELLOW, Canvas, Point
from bitepoint.pictures.gearbox import gearbox_outline
from bitepoint.pictures.hazard_meanings import HAZARDS
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import IRON, STEEL, bend, capsule, smooth

Place = tuple[str, str, tuple[float, float, float, float], Point, str]


def _finish(canvas: Canvas, scene: str, places: list[Place], what: str) -> Drawing:
    """Letter the places, list them below, hand the picture back."""
    letters = "ABCDEFGH"
    top = canvas.height - 112
    canvas.rect(0, top - 12, 720, 124, WHITE, WHITE, 0)
    canvas.line((0, top - 12), (720, top - 12), INK, 2)
    for i, (_, name, _, at, _) in enumerate(places):
        bay.number(canvas, at, letters[i])
        canvas.text(20 + 350 * (i // 4), top + 14 + 26 * (i % 4), f"{letters[i]}  {name}", 18, anchor="start")
    shapes = tuple(Shape(key, name, "rect", frame) for key, name, frame, _, _ in places)
    told = " ".join(f"{letters[i]}, {name}: {seen}." for i, (_, name, _, _, seen) in enumerate(places))
    return canvas.drawing(
        alt=f"{what} {told}",
        caption="What could hurt somebody here? Some of the lettered places are as they should be.",
        regions=shapes,
    )


def _start(title: str) -> Canvas:
    canvas = Canvas(640)
    bay.room(canvas, 470)
    canvas.text(20, 32, title, 22, anchor="start", bold=True)
    return canvas


@picture("bay-lifting")
def bay_lifting() -> Drawing:
    """A car going up on a two-post lift."""
    canvas = _start("The car goes up on the lift")
    bay.post(canvas, 352, 70, 470)
    bay.tag(canvas, 24, 66, ("lift examined", "06 2025", "every 6 months", "today 04 2026"), 138)
    bay.car(canvas, 160, 262, boot_open=True)
    canvas.rect(482, 128, 50, 30, "#B5683A", INK, 3)
    canvas.polyline([(496, 128), (496, 118), (518, 118), (518, 128)], INK, 4)
    for pad, joint, point in ((294.0, 330.0, 328.0), (426.0, 376.0, 426.0)):
        canvas.polygon([(point - 9, 210), (point + 9, 210), (point, 226)], INK)
        canvas.polygon(capsule((joint, 284), (pad, 270), 8), YELLOW, INK, 3)
        canvas.rect(pad - 7, 240, 14, 26, METAL)
        canvas.rect(pad - 18, 229, 36, 11, INK)
    canvas.rect(320, 268, 64, 36, SHADE, INK, 3)
    bay.person(canvas, 214, 466, reach=(232, 316), facing=1)
    bay.person(canvas, 640, 466, reach=(596, 350), facing=-1, goggles=True)
    canvas.rect(572, 318, 26, 152, METAL, INK, 3)
    canvas.rect(577, 330, 16, 34, WHITE)
    for y, colour in ((338, INK), (354, ORANGE)):
        canvas.circle((585, y), 5, colour)
    bay.bin_closed(canvas, 26, 470)
    _arm_lock(canvas)
    places: list[Place] = [
        (
            "tag",
            "tag of the lift",
            (20, 62, 146, 104),
            (178, 80),
            "lift examined 06 2025, every 6 months, today 04 2026",
        ),
        (
            "front-pad",
            "front pad",
            (270, 204, 72, 74),
            (284, 304),
            "it stands beside the black triangle that marks the lifting point",
        ),
        (
            "rear-pad",
            "rear pad",
            (400, 204, 54, 74),
            (434, 304),
            "it stands under the black triangle that marks the lifting point",
        ),
        ("boot", "boot", (476, 62, 130, 100), (612, 96), "open, with a heavy tool box on its edge"),
        (
            "person-below",
            "person on the left",
            (184, 300, 66, 170),
            (166, 330),
            "stands under the car while it goes up",
        ),
        (
            "operator",
            "person on the right",
            (566, 290, 106, 180),
            (690, 300),
            "stands at the control beside the post, looks at the car",
        ),
        (
            "arm-lock",
            "lock of the arm, drawn large",
            (400, 334, 128, 128),
            (402, 440),
            "the tooth stands above the teeth, not between them",
        ),
        ("bin", "waste bin", (18, 380, 68, 92), (104, 388), "closed, at the wall"),
    ]
    return _finish(canvas, "bay-lifting", places, "A workshop bay from the side: a car goes up on a two-post lift.")


def _arm_lock(canvas: Canvas) -> None:
    canvas.circle((464, 398), 62, WHITE, INK, 3)
    canvas.line((376, 304), (424, 352), INK, 2, dash="6 5")
    teeth: list[Point] = [(414, 436)]
    for k in range(5):
        x = 418.0 + 19 * k
        teeth += [(x, 420), (x + 5, 406), (x + 11, 406), (x + 16, 420)]
    canvas.polygon([*teeth, (514, 436)], METAL, INK, 3)
    canvas.polygon([(448, 356), (482, 356), (482, 380), (472, 394), (458, 394), (448, 380)], SKY, INK, 3)


@picture("bay-strip-down")
def bay_strip_down() -> Drawing:
    """A raised car with its gearbox coming out."""
    canvas = _start("The gearbox comes out")
    bay.post(canvas, 372, 60, 470)
    canvas.rect(194, 100, 112, 14, ORANGE, INK, 3)
    canvas.line((250, 114), (250, 176), INK, 4)
    bay.car(canvas, 180, 244)
    canvas.rect(200, 114, 10, 42, ORANGE)
    canvas.rect(290, 114, 10, 28, ORANGE)
    for pad in (318.0, 446.0):
        canvas.polygon(capsule((372, 268), (pad, 252), 8), YELLOW, INK, 3)
        canvas.rect(pad - 7, 222, 14, 26, METAL)
        canvas.rect(pad - 18, 211, 36, 11, INK)
    canvas.polygon([(206, 208), (262, 208), (262, 258), (250, 268), (214, 268), (206, 258)], IRON, INK, 3)
    canvas.polygon(capsule((214, 262), (208, 278), 9), METAL, INK, 2)
    bend(canvas, smooth([(208, 278), (196, 296), (192, 316)]), fill=METAL, width=6)
    canvas.polygon(capsule((192, 316), (190, 330), 8), METAL, INK, 2)
    _jack_with_gearbox(canvas)
    canvas.polygon(
        smooth([(352, 486), (392, 478), (440, 480), (476, 492), (440, 504), (388, 506)], closed=True), "#4A4038", INK, 2
    )
    bend(canvas, smooth([(236, 382), (196, 424), (120, 440), (40, 400), (8, 330)]), fill=BLUE, width=5)
    bay.person(canvas, 120, 466, reach=(232, 376), facing=1)
    canvas.polygon([(228, 368), (262, 352), (267, 360), (236, 384)], METAL)
    for k, height in enumerate((-9, 0, 9)):
        canvas.line((274, 352 + height * 0.5), (304, 344 + height * 1.6), INK, 2, dash="7 4" if k % 2 else "5 5")
    bay.bench(canvas, 560, 470, 150)
    canvas.rect(586, 360, 96, 18, IRON, INK, 3)
    canvas.rect(596, 350, 76, 10, STEEL)
    canvas.polygon(
        smooth([(580, 470), (576, 430), (600, 414), (612, 402), (622, 402), (632, 414), (654, 430), (650, 470)]),
        YELLOW,
        INK,
        3,
    )
    canvas.text(614, 446, "DUST", 16, bold=True)
    canvas.line((604, 412), (630, 412), INK, 4)
    bay.lamp(canvas, 524, 470)
    canvas.polyline([(524, 468), (540, 474), (716, 474)], INK, 3)
    places: list[Place] = [
        (
            "engine-support",
            "what holds the engine",
            (188, 94, 126, 62),
            (176, 108),
            "a rated beam across the engine bay with a hook",
        ),
        (
            "air-line",
            "hose in the hand on the left",
            (222, 330, 86, 60),
            (244, 330),
            "an air-line that blows into the bell housing on the jack",
        ),
        ("drive-shaft", "drive shaft", (178, 254, 48, 84), (160, 300), "hangs down from its joint, not tied up"),
        ("gearbox-jack", "gearbox on its jack", (310, 284, 150, 188), (474, 330), "lies on the jack, no strap over it"),
        ("oil", "floor", (346, 474, 136, 36), (504, 496), "a pool of oil in front of the jack"),
        ("flywheel", "flywheel", (580, 344, 108, 38), (566, 352), "lies flat on the bench"),
        ("dust-bag", "bag under the bench", (572, 398, 86, 74), (676, 420), "closed, marked dust"),
        ("lamp", "lamp", (498, 346, 54, 128), (524, 330), "on its stand, lead along the wall"),
    ]
    return _finish(
        canvas, "bay-strip-down", places, "A workshop bay from the side: a raised car, its gearbox has come out."
    )


def _jack_with_gearbox(canvas: Canvas) -> None:
    canvas.polygon(gearbox_outline(312, 336, 0.5), METAL, INK, 3)
    canvas.rect(286, 333, 26, 7, WHITE)
    canvas.polygon([(336, 378), (426, 378), (420, 390), (342, 390)], SHADE, INK, 3)
    canvas.rect(374, 390, 14, 44, METAL, INK, 3)
    canvas.rect(368, 420, 26, 36, SHADE, INK, 3)
    canvas.polygon([(326, 462), (368, 448), (394, 448), (436, 462)], METAL, INK, 3)
    for x in (332, 430):
        canvas.circle((x, 464), 8, INK)


@picture("bay-engine-running")
def bay_engine_running() -> Drawing:
    """A car on the ground, the engine about to run in steps after the repair."""
    canvas = _start("On the ground, engine lengthwise, about to run")
    bay.car(canvas, 150, 468, bonnet_open=True)
    _driver(canvas)
    bay.person(canvas, 300, 506, facing=-1, overall=ORANGE)
    for wheel in (228.0, 476.0):
        bay.chock(canvas, wheel - 34, 470, facing=-1)
        bay.chock(canvas, wheel + 34, 470)
    canvas.line((548, 440), (572, 440), INK, 8)
    for k in range(3):
        canvas.circle((590 + 22 * k, 436 - 9 * k), 9 + 3 * k, WHITE, SHADE, 3)
    bend(canvas, smooth([(640, 70), (650, 140), (610, 190), (640, 236), (680, 210), (664, 160)]), fill=SHADE, width=16)
    canvas.polygon([(636, 60), (664, 60), (664, 78), (636, 78)], METAL)
    canvas.circle((190, 372), 15, METAL)
    canvas.circle((218, 384), 11, METAL)
    canvas.polyline(
        smooth([(190, 357), (218, 373), (229, 384), (218, 395), (190, 387), (175, 372)], closed=True), INK, 4
    )
    canvas.rect(96, 190, 44, 26, YELLOW, INK, 3)
    canvas.polyline(smooth([(140, 204), (172, 240), (190, 300), (196, 362)]), INK, 3)
    canvas.line((118, 190), (118, 150), INK, 3)
    canvas.line((100, 150), (136, 150), INK, 4)
    bay.extinguisher(canvas, 40, 300)
    _gate(canvas)
    places: list[Place] = [
        (
            "tail-pipe",
            "tail pipe",
            (546, 396, 112, 62),
            (680, 412),
            "no hose on it, fumes come out; the extraction hose hangs on the wall",
        ),
        (
            "line-of-clutch",
            "person level with the clutch",
            (266, 330, 66, 180),
            (282, 318),
            "stands beside the car, level with the clutch behind the front wheel",
        ),
        ("front-wheel", "front wheel", (160, 436, 60, 40), (138, 444), "a chock before it and one behind"),
        ("rear-wheel", "rear wheel", (412, 396, 130, 80), (396, 448), "a chock before it and one behind"),
        (
            "gear-lever",
            "gear lever, drawn large",
            (424, 84, 140, 140),
            (580, 96),
            "the knob stands at 1, not in the middle",
        ),
        ("lamp-lead", "lead of the lamp", (92, 186, 116, 184), (82, 200), "hangs down into the belt drive"),
        ("driver", "person in the car", (326, 322, 44, 46), (372, 300), "sits at the wheel with ear protection"),
        ("extinguisher", "fire extinguisher", (34, 284, 48, 80), (58, 382), "on the wall, nothing in front of it"),
    ]
    return _finish(
        canvas,
        "bay-engine-running",
        places,
        "A workshop bay from the side: a car with its engine lengthwise on the ground, bonnet open, about to run.",
    )


def _driver(canvas: Canvas) -> None:
    canvas.circle((346, 346), 15, bay.SKIN)
    canvas.circle((346, 346), 6, ORANGE)
    canvas.polyline([(332, 342), (346, 330), (360, 342)], ORANGE, 4)
    canvas.polygon([(330, 364), (362, 364), (362, 361), (346, 360), (334, 361)], SKY)
    canvas.line((316, 362), (330, 346), INK, 4)


def _gate(canvas: Canvas) -> None:
    canvas.circle((494, 152), 68, WHITE, INK, 3)
    for x in (458, 494, 530):
        canvas.line((x, 118), (x, 186), INK, 5)
    canvas.line((458, 152), (530, 152), INK, 5)
    for x, y, words in (
        (458, 109, "1"),
        (446, 184, "2"),
        (510, 118, "3"),
        (510, 196, "4"),
        (546, 136, "5"),
        (546, 182, "R"),
    ):
        canvas.text(x, y, words, 17, bold=True)
    canvas.circle((458, 124), 10, BLUE)
    canvas.line((414, 340), (468, 216), INK, 2, dash="6 5")


__all__ = ["HAZARDS", "bay_engine_running", "bay_lifting", "bay_strip_down"]
