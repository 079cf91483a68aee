"""Pictures of finding the right kit: the path, the stack that places the fingers, where a change is labelled."""

from bitepoint.mechanics.limits import within
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, SHADE, VERMILLION, WHITE, YELLOW, Canvas
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.vehicle_kits import rigid_kits
from bitepoint.workshop.vehicles import FRAME, vehicle

_PATH = (
    ("engine code", "plate and block"),
    ("build month", "not the papers"),
    ("gearbox code", "on the gearbox"),
    ("option codes", "start-stop?"),
    ("plate, splines", "size and number"),
    ("flywheel now", "label, look in"),
    ("release type", "fork, concentric"),
)


@picture("identify-path")
def identify_path() -> Drawing:
    """Seven things to look up, one after the other, then the agreement and the order."""
    canvas = Canvas(470)
    for i, (what, where) in enumerate(_PATH):
        x, y = (30.0 + 172 * (i % 4), 30.0 if i < 4 else 160.0)
        canvas.rect(x, y, 146, 96, PALE, round=10)
        canvas.text(x + 73, y + 36, f"{i + 1} {what}", 16, bold=True)
        canvas.text(x + 73, y + 68, where, 16)
        if i not in (3, 6):
            canvas.arrow((x + 147, y + 48), (x + 170, y + 48), width=2)
    canvas.rect(546, 160, 146, 96, YELLOW, round=10)
    canvas.lines(619, 196, ("one row", "agrees in all"), 18)
    canvas.arrow((521, 208), (544, 208), width=2)
    for x, words in (
        (120, ("agree flywheel", "and price")),
        (360, ("order the kit", "")),
        (600, ("tick it, part", "in the hand")),
    ):
        canvas.rect(x - 100, 320, 200, 90, WHITE, round=10)
        canvas.lines(x, 360 if words[1] else 372, [w for w in words if w], 20)
    canvas.polyline([(619, 258), (619, 288), (120, 288), (120, 304)])
    canvas.arrow((120, 298), (120, 318), width=2)
    canvas.arrow((221, 365), (258, 365), width=2)
    canvas.arrow((461, 365), (498, 365), width=2)
    canvas.text(360, 448, "Only then the car goes on the lift.", 20, bold=True)
    listed = ", ".join(what for what, _ in _PATH)
    return canvas.drawing(
        alt=f"A path of boxes: {listed}; then one row of the kit list agrees in all. Then agree flywheel and price, "
        "order the kit, tick it with each part in the hand. Only then the car goes on the lift.",
        caption="First what is on the car, then the row of the list, then the agreement, then the parts.",
    )


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
    canvas = Canvas(430)
    base, scale = 350.0, 2.7
    for x, title, face, cover in ((180.0, "old parts", old_face, old_cover), (470.0, "new parts", new_face, new_cover)):
        middle = base - face * scale
        top = middle - cover * scale
        canvas.rect(x - 90, middle, 180, face * scale, METAL)
        canvas.rect(x - 70, top, 140, cover * scale, WHITE)
        canvas.hatch(x - 70, top, 140, cover * scale, SHADE, 20)
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


@picture("label-places")
def label_places() -> Drawing:
    """Where a change of flywheel type is written down, and what the label says."""
    canvas = Canvas(480)
    canvas.rect(110, 20, 500, 236, WHITE, line=4, round=12)
    canvas.text(360, 58, "FLYWHEEL TYPE CHANGED", 22, bold=True)
    canvas.line((126, 74), (594, 74), INK, 2)
    lines = (
        ("fitted", "rigid, long-travel plate"),
        ("kit, service no.", rigid_kits("B")[0]),
        ("date", vehicle("B").job_date),
        ("kilometres", "132,400 km"),
    )
    for i, (what, value) in enumerate(lines):
        canvas.text(134, 106 + 34 * i, what, 18, anchor="start")
        canvas.text(324, 106 + 34 * i, value, 18, anchor="start", bold=True)
    canvas.text(360, 244, "Order parts by this label", 18, bold=True)
    for x, name, who in (
        (120, "bell housing", "seen at the gearbox"),
        (360, "engine bay", "seen before ordering"),
        (600, "service record", "a label can fall off"),
    ):
        canvas.rect(x - 112, 310, 224, 84, PALE, round=8)
        canvas.text(x, 344, name, 20, bold=True)
        canvas.text(x, 374, who, 17)
        canvas.arrow((360 + (x - 360) * 0.4, 258), (x, 306), BLUE)
    canvas.frame(FRAME)
    told = "; ".join(f"{what}: {value}" for what, value in lines)
    return canvas.drawing(
        alt=f"A filled label: flywheel type changed; {told}; order parts by this label. Arrows lead to three places: "
        "bell housing, engine bay, service record.",
        caption="The codes of the car still name the old type. The label in three places names the new one.",
    )


@picture("kit-row")
def kit_row() -> Drawing:
    """One row of a kit list held against a car, column by column, until one disagrees."""
    canvas = Canvas(330)
    columns = ("engine", "built", "gearbox", "option", "plate", "splines")
    kit = ("same", "same", "same", "same", "same", "other")
    canvas.text(60, 120, "kit", 20, anchor="end", bold=True)
    canvas.text(60, 200, "car", 20, anchor="end", bold=True)
    for i, (name, state) in enumerate(zip(columns, kit, strict=True)):
        x = 80.0 + 104 * i
        canvas.text(x + 48, 60, name, 19, bold=True)
        for y in (90.0, 170.0):
            canvas.rect(x, y, 96, 50, ORANGE if state == "other" else WHITE)
        if state == "same":
            for y in (122.0, 202.0):
                canvas.text(x + 48, y, "same", 18)
            canvas.text(x + 48, 163, "=", 24, bold=True)
        else:
            canvas.text(x + 48, 124, "26", 24, bold=True)
            canvas.text(x + 48, 204, "23", 24, bold=True)
            canvas.text(x + 48, 163, "≠", 24, bold=True)
    canvas.text(360, 270, "Five columns agree, one does not: the kit is out.", 22, bold=True)
    canvas.text(360, 302, "Stop at the first that disagrees and write it down.", 18)
    return canvas.drawing(
        alt="A row of a kit list above a car, in six columns. Engine, built, gearbox, option and plate agree. Splines, 26 against 23, do "
        "not agree: the kit is out.",
        caption="A kit fits only when every column agrees. One that disagrees is enough.",
    )
