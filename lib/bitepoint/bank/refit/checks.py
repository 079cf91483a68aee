"""Lesson 11, final checks with the car standing: order, engine speed, gears, reverse."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.refit.common import STANDS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake

_GROUND, _LEVELS = "Car on the ground, chocks, parking brake, extraction", "Oil and fluid level checked"
_PEDAL, _HOLD = "Engine off: pedal travel and free play", "Engine off: hold the pedal a minute, look for leaks"
_START, _LISTEN = "Start in neutral", "Listen with the pedal up and down, in neutral"
_WARM, _REV = "Let the oil get warm", "Rev in steps, nobody in line with the housing"
_CLEAR, _GEARS = "Foot brake on, see that nobody is in front or behind", "Pedal down: every gear and reverse"
_OFF = "Engine off, look underneath"


@exercise("refit.static-order", lesson="refit", outcome=STANDS, minutes=3.5, title="Check it standing, in order")
def static_order(draw: Draw) -> Order:
    car = draw.vehicle()
    example = (_GROUND, _LEVELS, _PEDAL, _HOLD, _START, _LISTEN, _WARM, _REV, _CLEAR, _GEARS, _OFF)
    rules = (
        Before(_GROUND, _START, "a car that may roll or fill the bay with fumes is not started.", "safety", True),
        Before(_LEVELS, _START, "a gearbox without oil is ruined in a minute.", "quality"),
        Before(_PEDAL, _START, "a clutch that does not release lets the car jump at the first gear.", "safety"),
        Before(_HOLD, _START, "a leak shows better without noise, and you are still safe below.", "quality"),
        Before(_START, _LISTEN, "there is nothing to hear before.", "physical"),
        Before(_LISTEN, _REV, "what rubs at idle breaks at speed.", "safety"),
        Before(_START, _WARM, "oil warms with the engine running.", "physical"),
        Before(_WARM, _REV, "cold oil does not reach everything at high speed.", "quality"),
        Before(_LISTEN, _GEARS, "first the bearing is heard in neutral, then it works in gear.", "quality"),
        Before(_CLEAR, _GEARS, "if the clutch drags, the car moves, and somebody stands in its way.", "safety", True),
        Before(_GEARS, _OFF, "gears are tried with the engine running.", "physical"),
        Before(_REV, _OFF, "the engine must run for it.", "physical"),
    )
    return Order.of(
        draw,
        example=example,
        rules=rules,
        ask=f"Everything on {car.name} is refitted; it was {draw.integer(4, 9)} hours' work. Now you check it standing. "
        "Put the steps in order.",
        why="First what needs no engine, then neutral, then speed, then gears. Each step makes the next one safe.",
        step=f"It starts with “{_GROUND}”. What can be checked before the engine runs?",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="common-practice",
        vehicle=car.id,
    )


@exercise("refit.rev-test", lesson="refit", outcome=STANDS, minutes=2, title="How far to rev")
def rev_test(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    top, own = car.engine.static_test_max_rpm, draw.integer(31, 38) * 100
    ceiling = min(5000.0, top)
    limiter = Mistake(
        f"In steps up to {car.engine.limiter_rpm:g} rpm, where it limits itself on the road",
        "revs until the limiter stops it",
        "That is the last line for driving. Unloaded it harms engine and flywheel; a loose part would fly.",
        True,
    )
    none = Mistake(
        "Not above idle: the road will show",
        "leaves the rev test out",
        "A cover that sits badly shows only at speed. Better on chocks than in traffic.",
    )
    beside = Mistake(
        f"Up to {ceiling:g} rpm, a helper listening beside the bell housing",
        "lets someone stand in line with the housing",
        "If something comes loose it flies outwards there. Nobody stands in line with it.",
        True,
    )
    jump = Mistake(
        f"At once to {ceiling:g} rpm, cold, to be done with it",
        "revs cold and in one jump",
        "Steps let you stop at the first rub. Cold and at once, it is broken before you hear it.",
    )
    force = Mistake(
        "Override the limit by a light load on the brake",
        "works against the engine's own limit",
        "Loaded against the brake the new facing burns in seconds, and the car may leap forward.",
        True,
    )
    cases = (
        Case(
            f"The plan says: rev to 5000 rpm, or the lower figure on the sheet. The sheet of {car.name} says {top:g} rpm; "
            f"it is {draw.integer(12, 24)} °C in the bay. How far do you rev?",
            f"Oil warm, in steps up to {ceiling:g} rpm, a few seconds each",
            (limiter, none, beside),
            "The lower of plan and sheet counts. In steps you can stop at the first wrong sound.",
            "Two figures are given. Which of the two protects the engine, and who may stand where?",
        ),
        Case(
            f"The sheet of {car.name} says {top:g} rpm. Standing, this engine holds itself at {own} rpm. What do you do?",
            f"Oil warm, in steps up to {own} rpm, and write that figure down",
            (limiter, force, none),
            "An engine that limits its own standing speed sets the ceiling. What was reached is written down.",
            "Who decides how fast this engine turns while it stands? And what does an honest record say?",
        ),
        Case(
            f"{car.name[0].upper()}{car.name[1:]} has just been started after the refit; its oil is at "
            f"{draw.integer(15, 30)} °C. The rev test is next. What do you do?",
            "Listen at idle, let the oil get warm, then rev in steps",
            (jump, limiter, none),
            "Idle first shows what rubs. Warm oil then reaches every bearing at speed.",
            "What can you already hear at idle, while the oil gets warm?",
        ),
    )
    return choice_from(draw, cases[form], vehicle=car.id)


@exercise("refit.gears-where", lesson="refit", outcome=STANDS, minutes=1.5, title="Where gears are tried")
def gears_where(draw: Draw) -> Choice:
    form, cm = draw.form(3), draw.integer(10, 60)
    lift = Mistake(
        "On the lift, wheels free: then it cannot drive off",
        "tries gears on the lift",
        "Wheels that turn shake the car on its arms. When it drops or jerks off, it kills.",
        True,
    )
    hand = Mistake(
        "On the ground, parking brake on, a helper in front to watch",
        "lets someone stand in front of the car",
        "A clutch that drags pushes the car forward against the brake. The helper is crushed.",
        True,
    )
    stands = Mistake(
        "On stands, front wheels just free",
        "tries gears on stands",
        "The engine's jerk rocks the car on its stands. It comes down on whoever sits or kneels near.",
        True,
    )
    right = "On the ground: chocks, both brakes, nobody in front or behind"
    cases = (
        Case(
            "The engine idles after the refit. Every gear and reverse shall be tried. Where and how?",
            right,
            (lift, hand, stands),
            "On the ground with both brakes the car can at worst stall. The drag test with the car raised is not done.",
            "If the clutch does not release: in which place does the least happen?",
        ),
        Case(
            f"The car is {cm} cm up on the lift, engine idling, to look for leaks. Somebody asks for first gear, to see it turn. "
            "Where is that done?",
            right,
            (lift, stands, hand),
            "Looking up there in neutral is one thing. In gear the car comes down first.",
            "What carries the car now, and what would turning wheels do to that?",
        ),
        Case(
            f"Gears shall be tried. A tool trolley stands {cm} cm before the bumper, and a colleague fetches something there. "
            "How do you go on?",
            "Wait until front and back are clear, chocks in, both brakes on",
            (
                Mistake(
                    "Go on: the parking brake is on",
                    "trusts one brake",
                    "One brake may not hold a dragging clutch. The colleague is crushed against the trolley.",
                    True,
                ),
                lift,
                hand,
            ),
            "First the space, then both brakes, then the gear. One glance costs a second.",
            "Think of the worst moment: the clutch drags as first gear goes in. Who stands where?",
        ),
    )
    return choice_from(draw, cases[form], source="hse-working-under-vehicles")


@exercise("refit.reverse", lesson="refit", outcome=STANDS, minutes=2, title="Reverse grates")
def reverse(draw: Draw) -> Choice:
    form = draw.form(3)
    early, late, long = draw.integer(1, 2), draw.integer(3, 4), draw.integer(8, 12)
    normal = "Within limits: write down the seconds"
    drag = "The clutch drags: travel, air, plate tight on its splines"
    warm = "Try again with warm oil before judging"
    says = {
        normal: (
            "waves through what is not proven",
            "So long after the pedal a free shaft should stand, and the oil counts too. Gears get chipped.",
        ),
        drag: (
            "judges drag too soon",
            "A shaft needs its time to run down. You look for air that is not there, and lose an hour.",
        ),
        warm: (
            "puts off a clear result",
            "The oil was warm already. Trying again changes nothing, and the fault drives home.",
        ),
        "The gearbox is faulty: take it out": (
            "takes grating for a faulty gearbox",
            "Grating means a shaft that still turns. The reason mostly lies before the gearbox. It comes out for nothing.",
        ),
    }
    seen = (
        f"Oil warm. Pedal down, reverse grates after {early} s and is silent after {late} s.",
        f"Oil warm. Pedal down, reverse still grates after {long} s.",
        f"Oil at {draw.integer(8, 16)} °C. Pedal down, reverse grates after {late + 3} s, a little.",
    )[form]
    right = (normal, drag, warm)[form]
    return choice_from(
        draw,
        Case(
            f"{seen} The workshop's limit is 5 s with warm oil. Reverse has no synchroniser. What do you say?",
            right,
            tuple(Mistake(k, *v) for k, v in says.items() if k != right),
            (
                "Without a synchroniser the shaft must first come to rest. It did, within 5 s.",
                "After so long a shaft that is free stands still. Something still turns it.",
                "Cold oil turns the shaft along. The limit counts with warm oil.",
            )[form],
            "Compare the seconds with the limit, and the oil with what the limit asks for.",
        ),
    )
