"""Lesson 6, measuring and deciding: the figure that is held against the limit."""

from collections.abc import Sequence

from bitepoint.bank.measure import readings, readings_wrench
from bitepoint.bank.measure.outcomes import WORKS_OUT
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.metrology import spread_mm
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture


def _in_turn(values: Sequence[float]) -> str:
    """Return readings in their order, as prose."""
    return ", ".join(f"{value:g}" for value in values)


@exercise("measure.rivets", lesson="measure", outcome=WORKS_OUT, minutes=2, title="The figure for the least value")
def rivets(draw: Draw) -> Number:
    car = draw.vehicle()
    thickness = draw.form(2) == 1
    base = draw.value(6.9, 7.6, 0.1) if thickness else draw.value(0.6, 1.0, 0.1)
    low = round(base - draw.value(0.3, 0.45, 0.05), 2)
    values = draw.shuffle([round(base + draw.integer(0, 5) * 0.05, 2) for _ in range(7)] + [low])
    mean = round(sum(values) / len(values), 3)
    what = "plate thickness, pressed flat" if thickness else "rivet depth, four places on each side of the plate"
    return Number(
        ask=f"You measure on the driven plate of {car.name}: {what}, in millimetres. "
        f"{_in_turn(values)}. Which figure do you hold against the least value of the sheet?",
        answer=low,
        unit="mm",
        within=plus_minus(0.006),
        decimals=2,
        mistakes=(
            Mistake(
                mean,
                "takes the mean",
                "One rivet that touches scores the flywheel, whatever the others do. The mean hides it.",
            ),
            Mistake(
                max(values),
                "takes the best place",
                "The best place is not where it fails first. With it a worn plate goes back in.",
            ),
        ),
        why="A least value has to hold at every place. So the smallest of all readings counts.",
        step="The sheet gives a least value. Where would the part fall below it first?",
        solution=f"The smallest of the {len(values)} is {low:.2f} mm.",
        source="tm-5-2420-222-34",
        vehicle=car.id,
    )


@exercise(
    "measure.fingers", lesson="measure", outcome=WORKS_OUT, minutes=2, beyond=True, title="Level of the finger tips"
)
def fingers(draw: Draw) -> Number:
    car = draw.vehicle()
    turned = draw.form(2) == 1
    base = draw.value(32.0, 36.0, 0.1)
    gap = draw.integer(4, 9)
    tenths = draw.shuffle([0, gap, *(draw.integer(1, gap - 1) for _ in range(6))])
    heights = [round(base + t / 10, 1) for t in tenths]
    right = spread_mm(heights)
    mean = sum(heights) / 8
    how = "from the housing face down" if turned else "from the flywheel face up"
    return Number(
        ask=f"Cover of {car.name} tightened down. Height of eight finger tips, {how}, in millimetres: "
        f"{_in_turn(heights)}. Which figure do you hold against the limit of the sheet?",
        answer=right,
        unit="mm",
        within=plus_minus(0.03),
        decimals=1,
        mistakes=_finger_mistakes(heights, right, mean),
        why=f"Highest {max(heights):.1f}, lowest {min(heights):.1f} mm. The bearing meets the highest finger first.",
        step="Mark the highest and the lowest of the eight, wherever they stand.",
        solution=f"{max(heights):.1f} − {min(heights):.1f} = {right:.1f} mm.",
        source="invented",
        vehicle=car.id,
    )


def _finger_mistakes(heights: list[float], right: float, mean: float) -> tuple[Mistake, ...]:
    opposite = max(abs(heights[i] - heights[i + 4]) for i in range(4))
    found = [
        Mistake(
            mean,
            "gives the mean height",
            "The mean says nothing about level. Fingers far apart can have the same mean, and the clutch judders.",
        ),
        Mistake(
            right / 2,
            "measures from the middle",
            "From the middle is half of it. The sheet compares the highest with the lowest.",
        ),
    ]
    if min(abs(opposite - right), abs(opposite - right / 2)) > 0.07:
        says = "The worst pair may stand anywhere. Opposite fingers alone can look level while others are not."
        found.append(Mistake(opposite, "compares opposite fingers only", says))
    return tuple(found)


_DUAL_MASS = ("dual-mass flywheel",)


@exercise(
    "measure.free-angle",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2.5,
    title="Free angle, counted in teeth",
    others=(_DUAL_MASS,),
)
def free_angle(draw: Draw) -> Number:
    cars = draw.cars(*_DUAL_MASS)
    car = cars[draw.form(len(cars))]
    ring, moved, first = car.flywheel.ring_gear_teeth, draw.integer(3, 9), draw.integer(1, 5)
    tooth = 360 / ring
    right, within = moved * tooth, percent(2)
    miscounted = [Mistake(m.value * tooth, m.name, m.says) for m in readings_wrench.teeth(moved, first=first)]
    as_degrees = Mistake(
        float(moved),
        "gives teeth for degrees",
        "That is a count of teeth. One tooth is more than one degree, so a worn flywheel would pass.",
    )
    return Number(
        ask=f"Dual-mass flywheel of {car.name}, {ring} teeth all round. You turned the ring by hand, with the other "
        "mass held, until the springs began to bite. The picture shows how far the paint mark went. "
        "Give the free angle in degrees.",
        answer=right,
        unit="°",
        within=within,
        decimals=1,
        mistakes=readings.told_apart(right, [as_degrees, *miscounted], within),
        why=f"{moved} of {ring} teeth is that share of 360°. Counting teeth needs no angle gauge.",
        step=f"From the paint mark to the fixed mark are {moved} steps from tooth to tooth. One step is 360° / {ring}.",
        solution=f"{moved} × 360 / {ring} = {right:.1f}°.",
        picture=Picture("flywheel-teeth", {"teeth": moved, "first": first}),
        source="invented",
        vehicle=car.id,
    )


@exercise(
    "measure.pilot-depth",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2,
    beyond=True,
    title="How deep the pilot bearing sits",
    needs=("pilot bearing",),
)
def pilot_depth(draw: Draw) -> Number:
    car = draw.vehicle()
    block = draw.pick(12.0, 15.0) if draw.form(2) else 10.0
    depth = draw.value(2.2, 4.4, 0.1)
    read = round(block + depth, 2)
    low, high = car.gearbox.pilot_bearing_depth_mm or (0.0, 0.0)
    return Number(
        ask=f"{car.opening}: the pilot bearing sits {low:g} to {high:g} mm below the flange. Across the flange lies "
        f"a ground block of {block:.2f} mm. From its top the depth gauge reads {read:.2f} mm. How deep is it?",
        answer=depth,
        unit="mm",
        within=plus_minus(0.04),
        decimals=2,
        mistakes=(
            Mistake(
                read,
                "forgets the block",
                "You stand on the block. Its height is part of the reading, so a good bearing looks much too deep.",
            ),
            Mistake(
                block - depth,
                "takes it off twice",
                "The block comes off once. Twice off, the figure shows nothing that is on the car.",
            ),
        ),
        why="What you stand on comes off the reading, once.",
        step=f"The gauge measures block and depth together: {read:.2f} mm. The block alone is {block:.2f} mm.",
        solution=f"{read:.2f} − {block:.2f} = {depth:.2f} mm.",
        source="invented",
        vehicle=car.id,
    )
