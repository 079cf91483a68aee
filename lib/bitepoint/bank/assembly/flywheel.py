"""Lesson 9, assembly: the flywheel in its one position, with bolts that fit."""

from bitepoint.bank.assembly.outcomes import FLYWHEEL
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.joints import clearance_to_thread_end_mm, engagement_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import Vehicle


@exercise(
    "assembly.bolt-length",
    lesson="assembly",
    outcome=FLYWHEEL,
    minutes=2.5,
    title="See if a bolt fits its hole",
)
def bolt_length(draw: Draw) -> Number:
    form = draw.form(3 if draw.covers("change to rigid") else 2)
    car = draw.vehicle() if form < 2 else draw.pick(*draw.cars("change to rigid"))
    bolt = car.flywheel.bolt
    length, clamped, depth = bolt.length_mm, bolt.hub_clamped_mm, bolt.crank_thread_depth_mm
    told = (
        f"Flywheel bolts of {car.name} are {length:g} mm long under the head. They clamp {clamped:g} mm of metal. "
        f"The threaded hole is {depth:g} mm deep. "
    )
    reach = engagement_mm(length, clamped_mm=clamped)
    if form == 0:
        return _length(
            told + "How far does a bolt reach into the thread, in mm?",
            reach,
            (
                Mistake(length, "forgets the clamped parts", _CLAMPED),
                Mistake(depth, "takes the hole for the bolt", _HOLE),
            ),
            f"It reaches {reach:g} mm into the thread and leaves {depth - reach:g} mm free.",
            f"Take what is clamped away from the length: {length:g} − {clamped:g} mm.",
            f"{length:g} − {clamped:g} = {reach:g} mm.",
            car.id,
        )
    if form == 1:
        free = clearance_to_thread_end_mm(length, clamped_mm=clamped, thread_depth_mm=depth)
        return _length(
            told + "How much thread stays free below the bolt, in mm?",
            free,
            (
                Mistake(
                    reach,
                    "gives the reach",
                    "That is the part inside the thread. Asked is what stays free below. "
                    "Too little of it, and the bolt bottoms.",
                ),
                Mistake(length - depth, "forgets the clamped parts", _CLAMPED),
            ),
            f"{free:g} mm stay free, so the bolt cannot bottom.",
            f"The bolt reaches {length:g} − {clamped:g} = {reach:g} mm into the hole.",
            f"{depth:g} − {reach:g} = {free:g} mm.",
            car.id,
        )
    other = car.flywheel.bolt_dmf
    assert other is not None
    early = -clearance_to_thread_end_mm(other.length_mm, clamped_mm=clamped, thread_depth_mm=depth)
    return _length(
        f"Somebody takes bolts of the dual-mass flywheel for the rigid flywheel of {car.name}. "
        f"They are {other.length_mm:g} mm long; {clamped:g} mm are clamped; the hole has {depth:g} mm of thread. "
        "How far does the head stand off when the bolt bottoms, in mm?",
        early,
        (
            Mistake(other.length_mm - depth, "forgets the clamped parts", _CLAMPED),
            Mistake(
                other.length_mm - clamped,
                "forgets the hole",
                "You left the depth of the hole out. So you do not see when the bolt meets the bottom.",
            ),
        ),
        f"The head stands {early:g} mm off: the wrench clicks, and nothing is clamped.",
        f"It would have to reach {other.length_mm:g} − {clamped:g} = {other.length_mm - clamped:g} mm into the hole.",
        f"{other.length_mm:g} − {clamped:g} − {depth:g} = {early:g} mm.",
        car.id,
    )


_CLAMPED = "You forgot the metal between head and crankshaft. So a bolt of the wrong length looks right."
_HOLE = "That is the depth of the hole. A short bolt in a deep hole holds by a few turns only."


def _length(
    ask: str, right: float, mistakes: tuple[Mistake, ...], why: str, step: str, solution: str, letter: str
) -> Number:
    return Number(
        ask=ask,
        answer=right,
        unit="mm",
        within=plus_minus(0.2),
        decimals=1,
        mistakes=mistakes,
        why=f"{why} Measure every new bolt against the old one before it goes in.",
        step=step,
        solution=solution,
        source="derived",
        vehicle=letter,
    )


@exercise(
    "assembly.odd-hole",
    lesson="assembly",
    outcome=FLYWHEEL,
    minutes=2,
    title="Decide what a bolt that sticks tells",
    needs=("uneven flywheel bolts",),
)
def odd_hole(draw: Draw) -> Choice:
    car = draw.vehicle()
    *most, last = (f"{angle:g}" for angle in car.flywheel.hole_angles_deg)
    return form_of(draw).choice(
        draw,
        vehicle=car.id,
        car=car.name,
        bolt=draw.integer(1, car.flywheel.bolt_count),
        holes=f"{', '.join(most)} and {last}",
        **bolts_that_start(car),
    )


def bolts_that_start(car: Vehicle) -> dict[str, str]:
    """Return how many bolts there are, how many start by hand in a wrong position, and how many where one is bad."""
    count, some = car.flywheel.bolt_count, car.flywheel.bolts_when_turned
    words = {"count": count, "some": some, "stuck": count - some, "rest": count - 1}
    said = {place: _NUMBERS[number] if number < len(_NUMBERS) else str(number) for place, number in words.items()}
    return {**said, "Some": said["some"].capitalize(), "Rest": said["rest"].capitalize()}


_NUMBERS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")


@exercise(
    "assembly.ring-left-out",
    lesson="assembly",
    outcome=FLYWHEEL,
    beyond=True,
    minutes=2,
    title="Decide about the ring in the box",
    needs=("reinforcing ring",),
)
def ring_left_out(draw: Draw) -> Choice:
    car = draw.vehicle()
    bolt, ring = car.flywheel.bolt, car.flywheel.bolt.ring_mm or 0
    reach = engagement_mm(bolt.length_mm, clamped_mm=bolt.hub_clamped_mm - ring)
    return form_of(draw).choice(
        draw,
        vehicle=car.id,
        car=car.name,
        ring=f"{ring:g}",
        shorter=f"{ring:.0f}",
        reach=f"{reach:g}",
        depth=f"{bolt.crank_thread_depth_mm:g}",
        done=draw.integer(3, 8),
    )
