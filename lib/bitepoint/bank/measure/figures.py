"""Lesson 6, measuring and deciding: the figure that is held against the limit."""

from bitepoint.bank.measure import readings, readings_wrench
from bitepoint.bank.measure.common import IS_SURE, WORKS_OUT, hundredths
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.decisions import guard_band
from bitepoint.mechanics.metrology import spread_mm
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.vehicles import vehicle


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
        f"{hundredths(values)}. Which figure do you hold against the least value of the sheet?",
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
        f"{hundredths(heights)}. Which figure do you hold against the limit of the sheet?",
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


@exercise("measure.free-angle", lesson="measure", outcome=WORKS_OUT, minutes=2.5, title="Free angle, counted in teeth")
def free_angle(draw: Draw) -> Number:
    car = vehicle("BC"[draw.form(2)])
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
)
def pilot_depth(draw: Draw) -> Number:
    block = draw.pick(12.0, 15.0) if draw.form(2) else 10.0
    depth = draw.value(2.2, 4.4, 0.1)
    read = round(block + depth, 2)
    low, high = vehicle("D").gearbox.pilot_bearing_depth_mm or (0.0, 0.0)
    return Number(
        ask=f"Training vehicle D: the pilot bearing sits {low:g} to {high:g} mm below the flange. Across the flange lies "
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
        vehicle="D",
    )


@exercise("measure.guard-band", lesson="measure", outcome=IS_SURE, minutes=2.5, title="Limit with a guard band")
def guard(draw: Draw) -> Number:
    form = draw.form(2)
    u = draw.pick(0.005, 0.006, 0.008, 0.010)
    limit = draw.pick(0.08, 0.10, 0.11, 0.12) if form == 0 else draw.pick(6.2, 6.5, 6.7, 7.0)
    band = guard_band(u)
    right = limit - band if form == 0 else limit + band
    sign, kind, word = ("−", "max", "up to") if form == 0 else ("+", "min", "from")
    return Number(
        ask=f"A report gives a standard uncertainty of {u:.3f} mm for this measurement. "
        f"The limit is {kind} {limit:.2f} mm. The guard band is 1.645 times the uncertainty. "
        f"The part is surely good {word} which measured figure?",
        answer=right,
        unit="mm",
        within=plus_minus(0.0008),
        decimals=3,
        mistakes=(
            Mistake(
                limit,
                "leaves the uncertainty out",
                "An uncertainty is given here, so it counts. At the limit itself half of such parts are bad.",
            ),
            Mistake(
                2 * limit - right,
                "puts the band on the wrong side",
                "Your band lies outside the limit. There you would pass parts that are bad.",
            ),
        ),
        why="Who says that a part is good has to be sure of it. So the doubt goes to the side of the limit.",
        step=f"The band is 1.645 × {u:.3f} = {band:.4f} mm. Ask on which side of the limit the good parts lie.",
        solution=f"{limit:.2f} {sign} {band:.4f} = {right:.3f} mm.",
        source="jcgm-106",
    )


@exercise(
    "measure.facing-life",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2.5,
    beyond=True,
    title="How far the plate may still go",
)
def facing_life(draw: Draw) -> Number:
    car = draw.vehicle()
    new, least = car.clutch.rivet_depth_new_mm, car.clutch.rivet_depth_min_mm
    whole = draw.form(2) == 1
    now, km = draw.until(
        lambda case: case[1] * (new - least) / (new - case[0]) < 200 and abs(case[0] - new + least) > 0.07,
        lambda: (draw.value(0.6, 0.95, 0.05), draw.integer(4, 12) * 10),
    )
    gone = km / (new - now)
    left, life = gone * (now - least), gone * (new - least)
    asked = "At how many thousand kilometres is the limit reached" if whole else "How many thousand kilometres are left"
    other = (
        Mistake(
            left,
            "gives what is left",
            "That is what is still to come. Asked is the figure on the clock, so add what is driven.",
        )
        if whole
        else Mistake(
            life,
            "gives the whole life",
            "That is counted from new. Part of it is already driven, so the plate would run too long.",
        )
    )
    return Number(
        ask=f"Rivets of {car.name}: {new:g} mm deep when new, {now:g} mm after {km} thousand kilometres. "
        f"The least depth is {least:g} mm. Wear goes on evenly. {asked}?",
        answer=life if whole else left,
        unit="",
        within=percent(2),
        decimals=0,
        mistakes=(
            Mistake(
                gone * (new if whole else now),
                "counts down to nothing",
                "The limit comes before the rivets are flush. On your figure they cut the flywheel.",
            ),
            other,
        ),
        why="What is left over what is gone, times the way driven. Real wear is not even: it is an estimate.",
        step=f"Gone: {new - now:.2f} mm in {km} thousand kilometres. Left: {now - least:.2f} mm.",
        solution=f"{km} × {now - least:.2f} / {new - now:.2f} = {left:.0f} thousand kilometres left, {life:.0f} in all.",
        source="derived",
        vehicle=car.id,
    )
