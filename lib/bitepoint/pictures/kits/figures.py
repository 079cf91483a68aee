"""Pictures of finding the right kit: where the codes stand, the stack that places the fingers, a row held against a car."""

from bitepoint.mechanics.limits import within
from bitepoint.pictures.bays.parts import car
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, SHADE, VERMILLION, WHITE, Canvas, Point
from bitepoint.pictures.registry import Drawing, picture

_CODES: tuple[tuple[str, str, tuple[Point, ...]], ...] = (
    ("identification number", "body, and at the windscreen", ((128, -108), (262, -52))),
    ("build month", "plate on the door pillar", ((230, -74),)),
    ("engine code", "on the engine block", ((38, -66),)),
    ("gearbox code", "on the gearbox", ((100, -58),)),
    ("option codes", "plate in the boot", ((366, -84),)),
    ("flywheel now", "label, inspection hole", ((70, -52),)),
    ("release now", "fork outside, or a pipe in", ((100, -88),)),
)
"""What is read or looked at, where on a training vehicle, and the places on the car as drawn, from nose and ground."""


@picture("identify-path")
def identify_path() -> Drawing:
    """A car with the places of its codes numbered, and the list of what stands there."""
    canvas = Canvas(414)
    x, base = 12.0, 290.0
    car(canvas, x, base)
    canvas.rect(x + 22, base - 84, 42, 50, METAL)
    canvas.polygon([(x + 76, base - 84), (x + 122, base - 72), (x + 122, base - 44), (x + 76, base - 34)], METAL)
    canvas.rect(x + 64, base - 82, 12, 46, WHITE)
    canvas.line((0, base), (416, base), INK, 3)
    canvas.text(x, 84, "Read on the car, not in the papers", 18, anchor="start", bold=True)
    canvas.text(x + 20, 344, "engine", 16, anchor="start")
    canvas.text(x + 96, 344, "gearbox", 16, anchor="start")
    canvas.line((x + 44, 328), (x + 44, base - 38))
    canvas.line((x + 124, 328), (x + 112, base - 44))
    for i, (what, where, spots) in enumerate(_CODES, start=1):
        for spot in spots:
            _numbered(canvas, (x + spot[0], base + spot[1]), i)
        row = 22 + 51 * (i - 1)
        _numbered(canvas, (444, row), i)
        canvas.text(466, row + 6, what, 18, anchor="start", bold=True)
        canvas.text(466, row + 27, where, 16, anchor="start")
    canvas.text(360, 398, "All agree with one row of the kit list: then agree, order, check.", 18, bold=True)
    listed = "; ".join(f"{i} {what}: {where}" for i, (what, where, _) in enumerate(_CODES, start=1))
    return canvas.drawing(
        alt=f"A hatchback from the side with numbered places. {listed}. When all agree with one row of the kit list: agree, order, check.",
        caption="Where the codes stand on a training vehicle. The places differ: your car's repair data name them.",
    )


def _numbered(canvas: Canvas, at: Point, number: int) -> None:
    canvas.circle(at, 12, WHITE, BLUE, 3)
    canvas.text(at[0], at[1] + 6, str(number), 16, bold=True)


@picture("finger-stack")
def finger_stack(
    *, old_face: float = 52.0, old_cover: float = 48.5, new_face: float = 49.5, new_cover: float = 51.0
) -> Drawing:
    """Two stacks of flywheel and cover: the single heights differ, the sum that places the fingers is the same."""
    for name, value in (
        ("old_face", old_face),
        ("old_cover", old_cover),
        ("new_face", new_face),
        ("new_cover", new_cover),
    ):
        within(name, value, 20, 90, "mm", "Measure it on the part.")
    canvas = Canvas(346)
    base, scale = 270.0, 2.1
    for x, title, face, cover in ((180.0, "old parts", old_face, old_cover), (470.0, "new parts", new_face, new_cover)):
        middle = base - face * scale
        top = middle - cover * scale
        canvas.rect(x - 116, middle, 232, face * scale, METAL)
        canvas.rect(x - 102, top, 204, cover * scale, WHITE)
        canvas.hatch(x - 102, top, 204, cover * scale, SHADE, 20)
        canvas.boxed(x, (middle + base) / 2 + 6, f"face {face:.1f} mm", 20)
        canvas.boxed(x, (middle + top) / 2 + 6, f"cover {cover:.1f} mm", 20)
        canvas.text(x, base + 34, title, 22, bold=True)
        canvas.text(x, base + 64, f"together {face + cover:.1f} mm", 20)
    for face, cover, start, end in ((old_face, old_cover, 60, 330), (new_face, new_cover, 330, 660)):
        y = base - (face + cover) * scale
        canvas.line((start, y), (end, y), VERMILLION, 3, dash="10 6")
    canvas.text(360, 40, "finger tips", 20, bold=True, colour=VERMILLION)
    canvas.line((40, base), (680, base), INK, 4)
    canvas.text(640, base - 10, "flange", 18)
    same = "the same" if abs(old_face + old_cover - new_face - new_cover) < 0.05 else "not the same"
    return canvas.drawing(
        alt=f"Two stacks on the crankshaft flange. Old: flange to face {old_face:.1f} mm, cover {old_cover:.1f} mm, "
        f"together {old_face + old_cover:.1f} mm. New: {new_face:.1f} and {new_cover:.1f} mm, together "
        f"{new_face + new_cover:.1f} mm. The height of the finger tips is {same}.",
        caption=f"Single sizes may change with the flywheel type. The sum places the fingers: {same} here.",
    )


@picture("kit-row")
def kit_row() -> Drawing:
    """One row of a kit list held against a car, column by column, until one disagrees."""
    canvas = Canvas(226)
    columns = ("engine", "built", "gearbox", "option", "plate", "splines")
    kit = ("same", "same", "same", "same", "same", "other")
    canvas.text(60, 70, "kit", 20, anchor="end", bold=True)
    canvas.text(60, 150, "car", 20, anchor="end", bold=True)
    for i, (name, state) in enumerate(zip(columns, kit, strict=True)):
        x = 80.0 + 104 * i
        canvas.text(x + 48, 24, name, 19, bold=True)
        for y in (40.0, 120.0):
            canvas.rect(x, y, 96, 50, ORANGE if state == "other" else WHITE)
        if state == "same":
            for y in (72.0, 152.0):
                canvas.text(x + 48, y, "same", 18)
            canvas.text(x + 48, 113, "=", 24, bold=True)
        else:
            canvas.text(x + 48, 74, "26", 24, bold=True)
            canvas.text(x + 48, 154, "23", 24, bold=True)
            canvas.text(x + 48, 113, "≠", 24, bold=True)
    canvas.text(360, 214, "Five columns agree, one does not: the kit is out.", 22, bold=True)
    return canvas.drawing(
        alt="A row of a kit list above a car, in six columns. Engine, built, gearbox, option and plate agree. Splines, 26 against 23, do "
        "not agree: the kit is out.",
        caption="To order a kit, every column must agree.",
    )
