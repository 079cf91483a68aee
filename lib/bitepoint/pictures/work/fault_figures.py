"""Finding the fault: the way from the words to the decision, the gear of the slip test, the place of the drag test."""

from bitepoint.mechanics.limits import within
from bitepoint.pictures.axes import Axes, figure, round_up
from bitepoint.pictures.canvas import (
    BLUE,
    GREEN,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    YELLOW,
    Canvas,
)
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.workshop.figures import road_speed_kmh
from bitepoint.workshop.vehicles import FRAME, vehicle

_WAY = (
    ("Words", "what the driver noticed, when, since when"),
    ("May it be driven?", "no release, leak, deep knock: fetch it"),
    ("Look and measure", "fluid or cable, pedal, memory, mounts"),
    ("Test", "slip on the road, drag on the ground"),
)
_ENDS = (("Clutch", SKY), ("Not the clutch", METAL), ("Stop and ask", YELLOW))


@picture("words-to-decision")
def words_to_decision() -> Drawing:
    """Four steps from the phone to the three possible decisions."""
    canvas = Canvas(470)
    for i, (name, told) in enumerate(_WAY):
        top = 16 + 84 * i
        canvas.rect(40, top, 640, 58, PALE if i % 2 else WHITE, round=8)
        canvas.text(58, top + 36, f"{i + 1}", 26, anchor="start", bold=True)
        canvas.text(92, top + 36, name, 21, anchor="start", bold=True)
        canvas.text(668, top + 36, told, 18, anchor="end")
        canvas.arrow((360, top + 58), (360, top + 84), INK, 3)
    for i, (name, fill) in enumerate(_ENDS):
        canvas.rect(40 + 222 * i, 354, 196, 60, fill, round=8)
        canvas.text(138 + 222 * i, 391, name, 21, bold=True)
    canvas.text(360, 448, "5  decide: each with the figure that proves it, then a signed order", 19)
    return canvas.drawing(
        alt=(
            "Four boxes one below the other: words of the driver; may it be driven; look and measure fluid or cable, "
            "pedal, memory and mounts; test slip on the road and drag on the ground. Below them three ends: "
            "clutch, not the clutch, stop and ask."
        ),
        caption="Five steps from the phone to the decision. Nothing is taken apart on the way.",
    )


@picture("slip-test-gears")
def slip_test_gears(*, car: str = "A", limit_kmh: float = 90) -> Drawing:
    """Road speed at greatest torque in each gear of a training vehicle, against the limit of the road."""
    within("limit_kmh", limit_kmh, 20, 200, "km/h", "Give the limit of the road.")
    v = vehicle(car)
    rpm = v.engine.max_torque_rpm
    kmh = [road_speed_kmh(v, gear=gear, rpm=rpm) for gear in range(1, len(v.gearbox.ratios) + 1)]
    chosen = max((gear for gear, speed in enumerate(kmh, start=1) if speed < limit_kmh), default=0)
    canvas = Canvas(510)
    axes = Axes(canvas, (96, 50, 690, 390), x=(0, len(kmh)), y=(0, round_up(max(*kmh, limit_kmh) * 1.1)))
    axes.grid(f"gear, engine at {figure(rpm, 4)} rpm", "road speed, km/h", x_ticks=())
    for gear, speed in enumerate(kmh, start=1):
        _bar(canvas, axes, gear, speed, chosen=gear == chosen)
    axes.level(limit_kmh, VERMILLION)
    canvas.text(96, 32, f"dashed: limit {figure(limit_kmh)} km/h · hatched: gear of the slip test", 19, anchor="start")
    canvas.frame(FRAME)
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
    canvas.boxed((left + right) / 2, top - 8, f"{kmh:.0f}", 20)
    canvas.text((left + right) / 2, base + 26, str(gear), 20, bold=chosen)


@picture("drag-test-place")
def drag_test_place() -> Drawing:
    """A car from above on the ground, its wheels chocked, the way in front and behind kept free."""
    canvas = Canvas(420)
    for left in (20, 546):
        canvas.rect(left, 70, 154, 210, WHITE)
        canvas.hatch(left, 70, 154, 210, SHADE, 18)
        canvas.rect(left + 12, 146, 130, 58, WHITE, WHITE, 0)
        canvas.text(left + 77, 171, "nobody", 20, bold=True)
        canvas.text(left + 77, 196, "here", 20, bold=True)
    for x in (236, 426):
        for y in (92, 230):
            canvas.rect(x, y, 58, 26, INK)
            for chock in (x - 17, x + 61):
                canvas.polygon([(chock, y + 26), (chock + 14, y + 26), (chock + 7, y)], ORANGE)
    canvas.rect(188, 106, 344, 136, PALE, round=30)
    canvas.rect(262, 120, 66, 108, METAL, round=8)
    canvas.rect(412, 120, 50, 108, METAL, round=8)
    canvas.text(222, 181, "front", 18, turn=-90)
    canvas.arrow((300, 318), (250, 262), GREEN, 3)
    canvas.text(308, 334, "chocks before and behind the wheels", 19, anchor="start")
    canvas.text(360, 30, "engine idling, pedal down, gear engaged: only so", 21, bold=True)
    canvas.text(360, 372, "on the ground · parking brake on · foot on the foot brake", 20)
    canvas.text(360, 402, "never in gear on a lift", 21, bold=True, colour=VERMILLION)
    return canvas.drawing(
        alt=(
            "A car seen from above, standing on the ground, all four wheels chocked on both sides. The areas in front "
            "and behind are hatched and marked: nobody here. Below: parking brake on, foot on the foot brake, never "
            "in gear on a lift."
        ),
        caption="The drag test is made on the ground only, with the way in front and behind free.",
    )
