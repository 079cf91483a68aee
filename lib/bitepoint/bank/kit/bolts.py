"""Lesson 4, the right kit: how far a flywheel bolt reaches, and what happens with the wrong ones."""

from bitepoint.bank.kit.codes import Form, choice_from
from bitepoint.bank.kit.common import REACHES, can_change
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import Vehicle, vehicle, vehicles

ENOUGH = 1.25
"""Engaged thread over thread diameter that is usually asked for (source: common-practice)."""


@exercise("kit.bolt-reach", lesson="kit", outcome=REACHES, minutes=2.5)
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
    return "rigid kit" if can_change(car) else "rigid"


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


@exercise("kit.bolt-bottoms", lesson="kit", outcome=REACHES, minutes=2.5)
def bolt_bottoms(draw: Draw) -> Number:
    letters = [k for k, v in vehicles().items() if can_change(v)]
    form = draw.form(3)
    if form < 2:
        car = vehicle(letters[form])
        own, long = car.flywheel.bolt, car.flywheel.bolt_dmf
        length, other = (long.length_mm if long else 0.0), own.length_mm
        clamped, depth, name = own.hub_clamped_mm, own.crank_thread_depth_mm, car.name
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
        vehicle=letters[form] if form < 2 else "",
    )


@exercise("kit.wrong-bolts", lesson="kit", outcome=REACHES, minutes=2)
def wrong_bolts(draw: Draw) -> Choice:
    car = vehicle("BC"[draw.integer(0, 1)])
    return choice_from(draw, (_too_long, _one_short)[draw.form(2)](draw, car), vehicle=car.id)


def _too_long(draw: Draw, car: Vehicle) -> Form:
    own, long = car.flywheel.bolt, car.flywheel.bolt_dmf
    length = long.length_mm if long else 0.0
    return (
        f"The bag with the rigid kit of {car.name} holds bolts of {length:g} mm. The list says {own.length_mm:g} mm. "
        f"The other {draw.integer(5, 8)} parts are right. What do you do?",
        "Do not start: order the bolts of the list",
        (
            Mistake(
                "Put washers under the heads",
                "packs long bolts with washers",
                "Loose packing settles and the preload is gone. A flywheel that comes loose breaks the housing.",
                True,
            ),
            Mistake(
                "Shorten them on the grinder",
                "shortens bolts",
                "Heat and a torn thread make them weak. They can break, and the flywheel comes loose.",
                True,
            ),
            Mistake(
                "Fit them: the torque wrench will tell",
                "trusts the click",
                "A bolt that bottoms makes the wrench click and clamps nothing. The flywheel comes loose.",
                True,
            ),
        ),
        "Only the bolts that belong to this flywheel reach the right depth. The kit is not complete without them.",
        "Work out where the tip of the long bolt ends up.",
    )


def _one_short(draw: Draw, car: Vehicle) -> Form:
    have = car.flywheel.bolt_count - 1
    return (
        f"In the kit of {car.name} you find {have} flywheel bolts instead of {have + 1}. "
        f"The customer comes in {draw.integer(2, 4)} hours. What do you do?",
        "Do not start: order the missing bolt",
        (
            Mistake(
                "Use the best one of the old bolts",
                "uses an old bolt again",
                "What stretched once cannot be seen. The old bolt can break, and the others then follow.",
                True,
            ),
            Mistake(
                "Leave one hole empty",
                "leaves a bolt out",
                "The others carry more, and the flywheel is pressed on unevenly. It can work loose.",
                True,
            ),
            Mistake(
                "Take one of the same thread from the shelf",
                "takes a bolt by its thread",
                "Same thread is not same length, strength or patch. It can come loose or break.",
                True,
            ),
        ),
        "A flywheel hangs on every one of its bolts. All are new, and all are of one kind.",
        "Count, length, thread, strength, patch: which of the ideas keeps all five?",
    )
