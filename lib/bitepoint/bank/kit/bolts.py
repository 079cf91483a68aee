"""Lesson 4, the right kit: how far a flywheel bolt reaches, and what happens with the wrong ones."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.kit.common import REACHES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import Vehicle

ENOUGH = 1.25
"""Engaged thread over thread diameter that is usually asked for (source: common-practice)."""


@exercise("kit.bolt-reach", title="How far a bolt reaches", lesson="kit", outcome=REACHES, minutes=2.5)
def bolt_reach(draw: Draw) -> Number:
    car = draw.vehicle()
    bolt = car.flywheel.bolt
    reach = bolt.length_mm - bolt.hub_clamped_mm
    facts = (
        f"Right bolts and the {_now(car)} flywheel of {car.name}. A bolt is {bolt.length_mm:g} mm long under "
        f"its head. It passes {bolt.hub_clamped_mm:g} mm of clamped parts. "
        f"The crankshaft has {bolt.crank_thread_depth_mm:g} mm of thread. "
    )
    make = (_engaged, _room, _share)[draw.form(3)]
    question, answer, unit, mistakes, solution = make(car, reach)
    return Number(
        ask=facts + question,
        answer=answer,
        unit=unit,
        within=plus_minus(0.3 if unit else 0.02),
        mistakes=mistakes,
        why=f"{solution} Usual workshop rule: at least {ENOUGH} times the diameter, and free room at the end.",
        step=f"First what sticks out below the clamped parts: {bolt.length_mm:g} − {bolt.hub_clamped_mm:g} mm.",
        solution=solution,
        source="invented",
        vehicle=car.id,
    )


def _now(car: Vehicle) -> str:
    return "rigid kit" if car.flywheel.bolt_dmf else car.flywheel.fitted_now


Asked = tuple[str, float, str, tuple[Mistake, ...], str]


def _engaged(car: Vehicle, reach: float) -> Asked:
    bolt = car.flywheel.bolt
    mistakes = (
        Mistake(
            bolt.length_mm,
            "takes the whole length",
            "Part of the bolt stands in the flywheel and holds no thread. You would think a short bolt long enough.",
        ),
        Mistake(
            bolt.crank_thread_depth_mm,
            "takes the depth of the hole",
            "The hole is deeper than the bolt goes. A short bolt in a deep hole still strips.",
        ),
    )
    text = f"{bolt.length_mm:g} − {bolt.hub_clamped_mm:g} = {reach:g} mm."
    return "How many millimetres of thread are engaged?", reach, "mm", mistakes, text


def _room(car: Vehicle, reach: float) -> Asked:
    bolt = car.flywheel.bolt
    mistakes = (
        Mistake(
            abs(bolt.length_mm - bolt.crank_thread_depth_mm),
            "forgets the clamped parts",
            "You compared the whole bolt with the hole. Part of it never gets into the hole. "
            "So you would throw a right bolt away.",
        ),
        Mistake(
            reach,
            "gives the thread engaged",
            "That is what is inside. Asked is the room below it. Without room the bolt bottoms and clamps nothing.",
        ),
    )
    text = f"{bolt.crank_thread_depth_mm:g} − {reach:g} = {bolt.crank_thread_depth_mm - reach:g} mm are free."
    asked = "How many millimetres stay free between the tip and the end of the thread?"
    return asked, bolt.crank_thread_depth_mm - reach, "mm", mistakes, text


def _share(car: Vehicle, reach: float) -> Asked:
    bolt = car.flywheel.bolt
    mistakes = (
        Mistake(
            bolt.length_mm / bolt.d_mm,
            "takes the whole length",
            "The part inside the flywheel holds nothing. So the share looks better than it is.",
        ),
        Mistake(
            bolt.crank_thread_depth_mm / bolt.d_mm,
            "takes the depth of the hole",
            "That is the share of the hole. The bolt does not fill it, so the joint holds less than you think.",
        ),
    )
    text = f"{reach:g} mm / {bolt.d_mm:g} mm = {reach / bolt.d_mm:.2f}."
    asked = f"The thread is M{bolt.d_mm:g}. How many times the thread diameter is engaged? No unit."
    return asked, reach / bolt.d_mm, "", mistakes, text


@exercise(
    "kit.bolt-bottoms",
    title="How far the head stands off",
    lesson="kit",
    outcome=REACHES,
    minutes=2.5,
    others=(("change to rigid",),),
)
def bolt_bottoms(draw: Draw) -> Number:
    cars, form, about = draw.cars("change to rigid"), draw.form(3), ""
    if form < 2:
        car = cars[form % len(cars)]
        own, long = car.flywheel.bolt, car.flywheel.bolt_dmf
        length, other = (long.length_mm if long else 0.0), own.length_mm
        clamped, depth, name, about = own.hub_clamped_mm, own.crank_thread_depth_mm, car.name, car.id
    else:
        clamped, depth = float(draw.integer(14, 22)), float(draw.integer(17, 21))
        other = clamped + depth - draw.integer(3, 5)
        length, name = other + draw.integer(9, 16), "another car"
    gap = length - clamped - depth
    return Number(
        ask=f"Somebody puts the {length:g} mm bolts of the dual-mass flywheel into the rigid flywheel of {name}. "
        f"The right ones have {other:g} mm. The bolt passes {clamped:g} mm of clamped parts. "
        f"The crankshaft has {depth:g} mm of thread. The tip meets the end of the thread. "
        "How far is the head then still off its seat?",
        answer=gap,
        unit="mm",
        within=plus_minus(0.4),
        mistakes=(
            Mistake(
                length - other,
                "compares bolt with bolt",
                "You compared two bolts. Compare the bolt with the hole, or you miss the room that was there.",
            ),
            Mistake(
                length - clamped,
                "forgets the thread depth",
                "That is what sticks out below the flywheel. Some of it still finds thread. "
                "Take that off, or every bolt looks too long.",
            ),
        ),
        why=f"The head stands {gap:g} mm off, and the wrench still clicks. The bolt presses on the end of the thread "
        "and clamps nothing.",
        step=f"What sticks out under the clamped parts is {length:g} − {clamped:g} mm. Hold it against the thread.",
        solution=f"{length:g} − {clamped:g} − {depth:g} = {gap:g} mm.",
        source="invented",
        vehicle=about,
    )


@exercise(
    "kit.wrong-bolts",
    title="Wrong bolts in the bag",
    lesson="kit",
    outcome=REACHES,
    minutes=2,
    others=(("change to rigid",),),
)
def wrong_bolts(draw: Draw) -> Choice:
    car, form = draw.pick(*draw.cars("change to rigid")), form_of(draw)
    own, long, bolts = car.flywheel.bolt, car.flywheel.bolt_dmf, car.flywheel.bolt_count
    return form.choice(
        draw,
        vehicle=car.id,
        car=car.name,
        length=f"{long.length_mm:g}" if long else "",
        listed=f"{own.length_mm:g}",
        have=bolts - 1,
        all=bolts,
    )
