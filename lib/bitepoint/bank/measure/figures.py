"""Lesson 6, measuring and deciding: the figure that is held against the limit, and what follows from it."""

from collections.abc import Sequence

from bitepoint.bank.forms import form_of
from bitepoint.bank.measure.outcomes import WORKS_OUT
from bitepoint.bank.registry import exercise
from bitepoint.errors import BadData
from bitepoint.mechanics.metrology import spread_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake, Picture

_WORN, _NOT_WORN = "worn out, which explains the slip", "not worn, look for another cause"
_LEVEL, _UNEVEN = "within, the cover sits level", "over, look for dirt under it"


def _in_turn(values: Sequence[float], places: int = 2) -> str:
    """Return readings in their order, as a workshop writes them down: all with the same decimals."""
    return ", ".join(f"{value:.{places}f}" for value in values)


@exercise("measure.rivets", lesson="measure", outcome=WORKS_OUT, minutes=2, title="Judge the old plate by its figures")
def rivets(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    sheet = car.clutch
    least = sheet.rivet_depth_min_mm if form.key == "rivet-depth" else sheet.plate_thickness_min_mm
    worn = draw.pick(True, False)
    values = draw.until(lambda found: _mean(found) > least + 0.02, lambda: _places(draw, least, worn))
    mean = _mean(values)
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        least=f"{least:.2f}",
        values=_in_turn(values),
        low=f"{min(values):.2f}",
        mean=f"{mean:.2f}",
        high=f"{max(values):.2f}",
        verdict=_WORN if worn else _NOT_WORN,
        mean_verdict=_NOT_WORN,
        high_verdict=_NOT_WORN,
        other_verdict=_NOT_WORN if worn else _WORN,
    )


def _mean(values: Sequence[float]) -> float:
    """Return the mean, the same to the last bit in every Python: from 3.12 on `sum` rounds less, and 7.125 is written as 7.12."""
    total = 0.0
    for value in values:
        total += value
    return total / len(values)


def _places(draw: Draw, least: float, worn: bool) -> list[float]:
    """Return eight readings [mm], the smallest under the least value or not, the largest well above all others."""
    low = least - draw.integer(1, 3) * 0.05 if worn else least + draw.integer(0, 3) * 0.05
    others = [low + more * 0.05 for more in draw.integers(6, 2, 6)]
    return draw.shuffle([round(value, 2) for value in (low, *others, low + 0.35)])


@exercise(
    "measure.fingers",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2,
    beyond=True,
    title="Judge the level of the fingers",
)
def fingers(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    limit = car.clutch.finger_coplanarity_limit_mm
    gap = round(limit * 10) + draw.pick(-2, -1, 0, 1, 2, 3)
    base = draw.value(32.0, 36.0, 0.1)
    tenths = draw.until(
        lambda found: 0 < 2 * _opposite(found) != gap and _opposite(found) < gap,
        lambda: draw.shuffle([0, gap, *draw.integers(6, 1, gap - 1)]),
    )
    heights = [round(base + t / 10, 1) for t in tenths]
    spread, opposite = spread_mm(heights), _opposite(tenths) / 10
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        limit=f"{limit:g}",
        values=_in_turn(heights, 1),
        high=f"{max(heights):.1f}",
        low=f"{min(heights):.1f}",
        spread=f"{spread:.1f}",
        verdict=_UNEVEN if gap / 10 > limit else _LEVEL,
        other_verdict=_LEVEL if gap / 10 > limit else _UNEVEN,
        opposite=f"{opposite:.1f}",
        opposite_verdict=_UNEVEN if opposite > limit else _LEVEL,
        half=f"{spread / 2:.2f}",
        half_verdict=_UNEVEN if spread / 2 > limit else _LEVEL,
    )


def _opposite(heights: Sequence[int]) -> int:
    """Return how far apart the worst pair of opposite fingers stands."""
    return max(abs(heights[i] - heights[i + 4]) for i in range(4))


_DUAL_MASS = ("dual-mass flywheel",)


@exercise(
    "measure.free-angle",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2.5,
    title="Judge free angle and rock",
    others=(_DUAL_MASS,),
)
def free_angle(draw: Draw) -> Choice:
    form, car = form_of(draw), draw.pick(*draw.cars(*_DUAL_MASS))
    limits = car.flywheel.dmf_limits
    if limits is None:
        raise BadData(f"{car.name} has a dual-mass flywheel, but no dmf_limits on its sheet.")
    if form.key == "rock":
        return form.choice(draw, vehicle=car.id, car=car.name, **_rock(draw, limits.rock_at_rim_mm_max))
    most = int(limits.free_angle_teeth_max)
    count, first = most + draw.pick(-2, -1, 0, 1, 2), draw.integer(2, 6)
    return form.choice(
        draw,
        picture=Picture("flywheel-teeth", {"teeth": count, "first": first}),
        vehicle=car.id,
        car=car.name,
        max=most,
        count=count,
        more=count + 1,
        less=count - 1,
        verdict=_held(count, most),
        more_verdict=_held(count + 1, most),
        less_verdict=_held(count - 1, most),
        other_verdict=_against(count, most),
    )


def _rock(draw: Draw, most: float) -> dict[str, str]:
    """Return readings of rock at both ends, and what each way of taking them leads to."""
    swing = round(most + draw.pick(-7, -5, -3, -1, 2, 3, 5, 6) * 0.05, 2)
    pushed = round(swing / 2 + draw.integer(2, 5) * 0.05, 2)
    pulled = round(pushed - swing, 2)
    lost = round(pushed + pulled, 2)
    return {
        "max": f"{most:g}",
        "pushed": f"{pushed:+.2f}",
        "pulled": f"{pulled:+.2f}".replace("-", "−"),
        "swing": f"{swing:.2f}",
        "larger": f"{pushed:.2f}",
        "difference": f"{lost:.2f}",
        "verdict": _held(swing, most),
        "larger_verdict": _held(pushed, most),
        "difference_verdict": _held(lost, most),
        "other_verdict": _against(swing, most),
    }


def _held(found: float, most: float) -> str:
    """Return what follows from a figure held against its limit, the limit itself within."""
    return f"more than {most:g}, replace the flywheel" if found > most else f"not more than {most:g}, it is good"


def _against(found: float, most: float) -> str:
    """Return the decision that is talked into the other one."""
    return f"hardly more than {most:g}, it is good" if found > most else f"close to {most:g}, replace the flywheel"


@exercise(
    "measure.pilot-depth",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2,
    beyond=True,
    title="Work out how deep the pilot bearing sits",
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
        solution=f"{read:.2f} − {block:.2f} = {depth:.2f} mm: "
        + ("within the sheet, it may stay so." if low <= depth <= high else "outside the sheet, press it to depth."),
        source="invented",
        vehicle=car.id,
    )
