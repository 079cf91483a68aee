"""Pictures of lifting: the mass a lift allows step by step, and the car on the lift with its gearbox out."""

from collections.abc import Sequence

from bitepoint.mechanics.limits import within
from bitepoint.mechanics.loads import axle_loads_without_kg, centre_of_gravity_mm
from bitepoint.pictures.axes import Axes, figure, label, round_up
from bitepoint.pictures.bays.parts import WHEELS, car
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    SKY,
    VERMILLION,
    WHITE,
    WIDTH,
    Canvas,
    Point,
)  # fmt: skip
from bitepoint.pictures.registry import Drawing, picture

_FRONT, _REAR, _SILL = 186.0, 534.0, 224.0
"""Both axles and the lower edge of the sill, in picture units."""
STEPS = ("best lift", "reach", "height", "way up", "twist", "how often", "grip")


@picture("lifting-limit")
def lifting_limit(
    *, masses: Sequence[float] = (23, 12.8, 10.5, 9.1, 8.2, 8.2, 7.4), load_kg: float = 33, refused: str = ""
) -> Drawing:
    """The mass left after each multiplier of the lifting equation beside the load; or why it does not apply."""
    if refused:
        return _refused(refused, load_kg)
    canvas = Canvas(470)
    axes = Axes(canvas, (90, 50, 690, 350), x=(0, len(masses)), y=(0, round_up(max(load_kg, *masses) * 1.12)))
    axes.grid("", "mass, kg", x_ticks=())
    wide = (690 - 90) / len(masses)
    for i, (mass, name) in enumerate(zip(masses, STEPS, strict=True)):
        left, top = axes.at(i + 0.12, mass)
        last = i == len(masses) - 1
        canvas.rect(left, top, wide * 0.76, 350 - top, ORANGE if last else SKY)
        if last:
            canvas.hatch(left, top, wide * 0.76, 350 - top)
        canvas.boxed(left + wide * 0.38, top - 8, f"{mass:.1f}", 19)
        for n, word in enumerate(name.split(" ", 1)):
            canvas.text(left + wide * 0.38, 376 + 22 * n, word, 18)
    axes.level(load_kg, VERMILLION, f"load {figure(load_kg)} kg")
    canvas.text(90, 30, "each step lowers the mass; hatched: what is left", 19, anchor="start")
    canvas.text(390, 440, "multipliers of the lifting equation, from left to right", 18)
    listed = ", ".join(f"{name} {mass:.1f}" for name, mass in zip(STEPS, masses, strict=True))
    return canvas.drawing(
        alt=(f"Bars of the mass in kg left after each step: {listed}. A line at the load, {figure(load_kg)} kg."),
        caption=(
            f"From 23 kg for the best of all lifts to {masses[-1]:.1f} kg for this one; the load "
            f"has {figure(load_kg)} kg."
        ),
    )


def _refused(words: str, load_kg: float) -> Drawing:
    canvas = Canvas(210)
    canvas.rect(60, 70, 120, 90, METAL)
    canvas.line((40, 50), (200, 180), VERMILLION, 9)
    canvas.line((40, 180), (200, 50), VERMILLION, 9)
    label(canvas, (120, 123), f"{figure(load_kg)} kg", 22)
    canvas.text(235, 92, "No figure for this lift.", 26, anchor="start", bold=True)
    lines = words.split("\n")
    canvas.lines(235, 128, lines, 20, anchor="start")
    return canvas.drawing(
        alt=f"A load of {figure(load_kg)} kg, crossed out: no figure for this lift. {' '.join(lines)}",
        caption=f"No figure for this lift: {' '.join(lines)}",
    )


@picture("axle-loads")
def axle_loads(
    *, front_kg: float = 555, rear_kg: float = 350, wheelbase_mm: float = 2340, part_kg: float = 33, part_mm: float = -60,
    front_pad_mm: float = 350, rear_pad_mm: float = 1900, to_work_out: bool = False,
) -> Drawing:  # fmt: skip
    """A car on a lift from the side: axle loads and centre of gravity before and after the part is out.

    `to_work_out`: somebody is asked how far it moves, so only what is so with the part in is drawn and told.
    """
    where = {"front_axle_kg": front_kg, "rear_axle_kg": rear_kg, "wheelbase_mm": wheelbase_mm}
    front, rear = axle_loads_without_kg(part_kg, part_behind_front_axle_mm=part_mm, **where)
    before = centre_of_gravity_mm(front_kg, rear_axle_kg=rear_kg, wheelbase_mm=wheelbase_mm)
    # Not by the function: with next to no load left on one axle it refuses, and the picture is to show just that.
    after = wheelbase_mm * rear / (front + rear)
    within("front_pad_mm", front_pad_mm, -1000, wheelbase_mm, "mm", "Measure from the front axle to the rear.")
    scale = (_REAR - _FRONT) / wheelbase_mm

    def at(mm: float, y: float) -> Point:
        return _FRONT + mm * scale, y

    canvas = Canvas(414)
    _car(canvas)
    part = at(part_mm, 0)[0]
    if _inside(part):
        canvas.rect(part - 24, 168, 48, 36, ORANGE)
        canvas.hatch(part - 24, 168, 48, 36)
    for x in (at(mm, 0)[0] for mm in (front_pad_mm, rear_pad_mm)):
        if _inside(x):
            canvas.rect(x - 14, _SILL, 28, 10, INK)
            canvas.rect(x - 7, _SILL + 10, 14, 30, METAL)
            canvas.rect(x - 34, _SILL + 40, 68, 12, METAL)
    for mm, fill, r in ((before, WHITE, 12), (after, BLUE, 9))[: 1 if to_work_out else 2]:
        canvas.line(at(mm, 116), at(mm, 258), BLUE, 3, dash="" if r == 9 else "8 6")
        canvas.circle(at(mm, 178), r, fill, INK, 3)
    canvas.text(
        20,
        30,
        "The gearbox is still in. The dot: balance of the whole car"
        if to_work_out
        else f"Balance behind the front axle: {before:.0f} mm, gearbox out: {after:.0f} mm",
        18,
        anchor="start",
        bold=True,
    )
    for mm, words, was, now in ((0.0, "front", front_kg, front), (wheelbase_mm, "rear", rear_kg, rear)):
        x = at(mm, 0)[0]
        canvas.text(x, 308, f"{words} axle", 19)
        canvas.text(x, 334, f"{was:.0f} kg" if to_work_out else f"{was:.0f} → {now:.0f} kg", 22, bold=True)
    dots = "light dot: with gearbox" if to_work_out else "light dot: with gearbox · dark dot: gearbox out"
    canvas.text(360, 370, f"{dots} · hatched: gearbox", 18)
    canvas.text(360, 398, "supports under the marked lifting points; front of the car on the left", 18)
    if to_work_out:
        return canvas.drawing(
            alt=f"Car from the side on two lift supports, the gearbox in. Front axle {front_kg:.0f} kg, rear axle {rear_kg:.0f} kg. "
            f"The centre of gravity lies between the supports.",
            caption="Which way does the balance move when the gearbox comes out?",
        )
    return canvas.drawing(
        alt=(
            f"Car from the side on two lift supports. Front axle {front_kg:.0f} kg, {front:.0f} kg with "
            "the gearbox out; rear axle "
            f"{rear_kg:.0f} kg, then {rear:.0f} kg. The centre of gravity moves from {before:.0f} to "
            f"{after:.0f} mm behind the front axle."
        ),
        caption=(
            f"With {figure(part_kg)} kg out at the front the centre of gravity moves "
            f"{after - before:.0f} mm to the rear."
        ),
    )


def _inside(x: float) -> bool:
    """Whether something so far along lies on the sheet; what does not is told in words alone."""
    return 45 <= x <= WIDTH - 45


def _car(canvas: Canvas) -> None:
    """The hatchback of the workshop bays, as large as its wheelbase asks for; it hangs on the pads, its wheels free."""
    size = (_REAR - _FRONT) / (WHEELS[1] - WHEELS[0])
    car(canvas, _FRONT - WHEELS[0] * size, _SILL + 34 * size, size=size)
