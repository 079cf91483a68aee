"""Finding the fault: the way from the complaint to the decision, the bearing at the fingers, the gear of the slip test, the place of the drag test."""

from bitepoint.mechanics.limits import within
from bitepoint.pictures.axes import Axes, figure, round_up
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    Canvas,
)
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.vehicles import vehicle

COMPLAINTS = (
    ("Engine howls,", "car gets no faster", "SLIP"),
    ("Gears go in hard,", "car creeps", "DRAG"),
    ("Car shakes", "at moving off", "JUDDER"),
)
LOOKS = (
    (("Free play of the pedal,", "does it come right back?"), ("Fluid, leaks, cable:", "is anything lost?"), ("Pedal up, does it shake?", "Read the fault memory")),
    (("Slip in the test gear,", "twice, and light foot"), ("Pedal travel, free play,", "air in the fluid"), ("Mounts: load them", "with a bar")),
    (("Tyre, gear, dials:", "is a figure wrong?"), ("Drag test, on the", "ground, brakes on"), ("Housing, lowest point:", "an oil track?")),
)  # fmt: skip
"""What is looked at for each complaint, from quick to slow; a row of the picture holds one look of each."""


@picture("fault-tree")
def fault_tree() -> Drawing:
    """Three complaints, for each the looks from outside in their order, and what they may end in."""
    canvas = Canvas(384)
    for i, (first, second, name) in enumerate(COMPLAINTS):
        x = 12 + 236.0 * i
        canvas.rect(x, 8, 224, 74, SKY, round=8)
        canvas.lines(x + 112, 27, (first, second), 17)
        canvas.text(x + 112, 74, name, 22, bold=True)
        for row, looks in enumerate(LOOKS):
            top = 98 + 64.0 * row
            canvas.arrow((x + 112, top - 16 if row == 0 else top - 12), (x + 112, top), INK, 3)
            canvas.rect(x, top, 224, 52, WHITE if row % 2 else PALE, round=8)
            canvas.lines(x + 112, top + 22, looks[i], 16)
        canvas.arrow((x + 112, 278), (x + 112, 292), INK, 3)
    canvas.rect(12, 292, 696, 38, METAL, round=8)
    canvas.text(360, 317, "Found outside: put it right, test again. All in order: gearbox out", 17, bold=True)
    canvas.text(360, 352, "The findings contradict each other: stop and ask", 17)
    canvas.text(360, 376, "One gear alone, or with road speed in neutral: not the clutch", 17)
    told = "; ".join(
        f"{name.casefold()}, “{first} {second}”: " + ", then ".join(" ".join(row[i]) for row in LOOKS)
        for i, (first, second, name) in enumerate(COMPLAINTS)
    )
    return canvas.drawing(
        alt=f"Three columns, one a complaint, each with its looks from quick to slow. {told}. All columns end in one box: "
        "found outside, put it right and test again; all in order, gearbox out. Below: contradicting findings, stop and "
        "ask; one gear alone or a sign with road speed in neutral, not the clutch.",
        caption="From the complaint to the decision: what is quick and outside comes first.",
    )


@picture("bearing-at-fingers")
def bearing_at_fingers() -> Drawing:
    """Pedal up: a release bearing that stands clear, one that presses, and one that fluid holds against the fingers."""
    canvas = Canvas(300)
    for i, (gap, words, told, pushed) in enumerate(_BEARINGS):
        x = 12 + 236.0 * i
        canvas.rect(x, 36, 224, 166, WHITE, SHADE, 2, round=8)
        canvas.text(x + 112, 24, words, 17, bold=True)
        bend = -12 if pushed else 0
        canvas.polygon([(x + 60, 48), (x + 70, 46), (x + 96 + bend, 164), (x + 84 + bend, 168)], SKY)
        canvas.text(x + 34, 84, "fingers", 16)
        canvas.rect(x + 92, 188, 132, 12, METAL)
        left = x + 97 + gap + bend
        canvas.rect(left, 136, 44, 52, PALE)
        canvas.circle((left + 22, 162), 14, METAL)
        canvas.text(x + 172, 120, "bearing", 16)
        if gap:
            canvas.text(x + 97 + gap / 2, 116, "gap", 16, bold=True, colour=BLUE)
            canvas.arrow((x + 97 + gap / 2, 122), (x + 97 + gap / 2, 154), BLUE, 3)
        if pushed:
            canvas.arrow((x + 212, 162), (left + 48, 162), VERMILLION, 5)
        canvas.lines(x + 112, 228, told, 16)
    return canvas.drawing(
        alt="Three drawings of spring fingers and release bearing, pedal up. "
        + " ".join(f"{words}: {' '.join(told)}." for _, words, told, _ in _BEARINGS),
        caption="Pedal up. The bearing may stand clear or touch lightly; it must never press.",
    )


_BEARINGS = (
    (24.0, "Cable, free play", ("gap: the bearing", "stands still, quiet,", "the clutch is closed"), False),
    (0.0, "Cable, no free play", ("it presses: the clutch", "slips, the bearing", "turns and wears"), True),
    (0.0, "Fluid", ("it touches lightly and", "turns all the time;", "the clutch is closed"), False),
)
"""Gap in the drawing, heading, what follows, and whether the bearing presses."""


@picture("slip-test-gears")
def slip_test_gears(*, car: str = "A", limit_kmh: float = 90) -> Drawing:
    """Road speed at greatest torque in each gear of a training vehicle, against the limit of the road."""
    within("limit_kmh", limit_kmh, 20, 200, "km/h", "Give the limit of the road.")
    v = vehicle(car)
    rpm = v.engine.max_torque_rpm
    kmh = [road_speed_kmh(v, gear=gear, rpm=rpm) for gear in range(1, len(v.gearbox.ratios) + 1)]
    chosen = max((gear for gear, speed in enumerate(kmh, start=1) if speed < limit_kmh), default=0)
    canvas = Canvas(312)
    axes = Axes(canvas, (96, 46, 690, 198), x=(0, len(kmh)), y=(0, round_up(max(*kmh, limit_kmh) * 1.1)))
    axes.grid(f"gear, engine at {figure(rpm, 4)} rpm", "road speed, km/h", x_ticks=())
    for gear, speed in enumerate(kmh, start=1):
        _bar(canvas, axes, gear, speed, chosen=gear == chosen)
    axes.level(limit_kmh, VERMILLION)
    for gear, speed in enumerate(kmh, start=1):
        _named(canvas, axes, gear, speed, chosen=gear == chosen)
    canvas.text(96, 28, f"dashed: limit {figure(limit_kmh)} km/h · hatched: gear of the slip test", 19, anchor="start")
    canvas.frame(frame_words())
    told = ", ".join(f"gear {gear} {speed:.0f}" for gear, speed in enumerate(kmh, start=1))
    which = f"gear {chosen}" if chosen else "no gear"
    return canvas.drawing(
        alt=(
            f"Bars of road speed of {v.name} in km/h at {figure(rpm, 4)} rpm: {told}. Limit of the road "
            f"{figure(limit_kmh)} km/h. Highest gear below it: {which}."
        ),
        caption=f"The slip test is made in the highest gear that stays below the limit: {which}.",
    )


def _bar(canvas: Canvas, axes: Axes, gear: int, kmh: float, *, chosen: bool) -> None:
    (left, top), (right, base) = axes.at(gear - 0.8, kmh), axes.at(gear - 0.2, 0)
    canvas.rect(left, top, right - left, base - top, SKY if chosen else METAL)
    if chosen:
        canvas.hatch(left, top, right - left, base - top, BLUE)


def _named(canvas: Canvas, axes: Axes, gear: int, kmh: float, *, chosen: bool) -> None:
    (left, top), (right, base) = axes.at(gear - 0.8, kmh), axes.at(gear - 0.2, 0)
    canvas.boxed((left + right) / 2, top - 8, f"{kmh:.0f}", 20)
    canvas.text((left + right) / 2, base + 26, str(gear), 20, bold=chosen)


@picture("drag-test-place")
def drag_test_place() -> Drawing:
    """A car from above on the ground, its wheels chocked, the way in front and behind kept free."""
    canvas = Canvas(352)
    for left in (20, 546):
        canvas.rect(left, 50, 154, 206, WHITE)
        canvas.hatch(left, 50, 154, 206, SHADE, 18)
        canvas.rect(left + 12, 124, 130, 58, WHITE, WHITE, 0)
        canvas.text(left + 77, 149, "nobody", 20, bold=True)
        canvas.text(left + 77, 174, "here", 20, bold=True)
    for x in (236, 426):
        for y in (70, 208):
            canvas.rect(x, y, 58, 26, INK)
            for chock in (x - 17, x + 61):
                canvas.polygon([(chock, y + 26), (chock + 14, y + 26), (chock + 7, y)], ORANGE)
    canvas.rect(188, 84, 344, 136, PALE, round=30)
    canvas.rect(262, 98, 66, 108, METAL, round=8)
    canvas.rect(412, 98, 50, 108, METAL, round=8)
    canvas.text(222, 159, "front", 18, turn=-90)
    canvas.arrow((300, 284), (250, 240), INK, 3)
    canvas.text(308, 288, "chocks before and behind the wheels", 19, anchor="start")
    canvas.text(360, 30, "engine idling, pedal down, gear engaged: only so", 21, bold=True)
    canvas.text(360, 314, "on the ground · parking brake on · foot on the foot brake", 20)
    canvas.text(360, 341, "never in gear on a lift", 21, bold=True, colour=VERMILLION)
    return canvas.drawing(
        alt=(
            "A car seen from above, standing on the ground, all four wheels chocked on both sides. The areas in front "
            "and behind are hatched and marked: nobody here. Below: parking brake on, foot on the foot brake, never "
            "in gear on a lift."
        ),
        caption="The drag test is made on the ground only, with the way in front and behind free.",
    )
