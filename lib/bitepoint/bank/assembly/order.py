"""Lesson 9, assembly: the order of the work, the lock in and out, the last minutes before the gearbox."""

from bitepoint.bank.assembly.common import ORDERS
from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.work_cards import later_card, never_cards, strip_at, work_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.operations import job, operation, operations_for

_FITTING = ("X1", "X4", "X6", "X7", "X9", "X10")
"""What is never done in this part of the job: operations that lie on the bench as strangers."""


@exercise(
    "assembly.order-of-work",
    lesson="assembly",
    outcome=ORDERS,
    minutes=7,
    title="The whole order of work",
)
def order_of_work(draw: Draw) -> WorkOrder:
    car = draw.vehicle()
    ids = [step.id for step in operations_for(car, core=True, stages=["assemble"])]
    forbidden = [n for n in _FITTING if n != "X9" or car.flywheel.tightening.angle_deg is not None]
    strangers = draw.sample(forbidden, 2)
    refit = draw.pick(*(o.id for o in job().operations if o.stage == "refit" and o.core))
    minutes = draw.integer(2, 9) * 10
    first, last = operation(ids[0]).short, operation(ids[-1]).short
    return work_order(
        draw,
        ids,
        strangers=[*never_cards(strangers), later_card(refit)],
        stages=strip_at("assemble"),
        ask=f"The old clutch of {car.name} is out and everything is inspected; {minutes} minutes are left today. "
        "Fit the new clutch, up to the moment before the gearbox goes in. "
        "Pick one card after the other. Three cards do not belong here.",
        why="Every step rests on the one before: clean, then tight, then measured, then hidden, then counted.",
        step=f"It starts with “{first}” and ends with “{last}”. The lock goes in and out twice.",
        vehicle=car.id,
    )


@exercise("assembly.lock", lesson="assembly", outcome=ORDERS, minutes=1.5, title="The flywheel lock")
def lock(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    teeth = car.flywheel.ring_gear_teeth
    left_in = "Behind the housing nobody sees it. The starter breaks ring gear and lock, and pieces fly."
    cases = (
        Case(
            f"The ring gear of {car.name} has {teeth} teeth, and the lock grips two of them. When is it in, from start to end?",
            "In for the flywheel bolts, out for run-out, in for the cover, then out",
            (
                Mistake(
                    "In from the first flywheel bolt to the last cover bolt",
                    "leaves the lock in for the run-out check",
                    "The flywheel must turn under the gauge. Locked, nobody measures its run-out, and it may judder.",
                ),
                Mistake(
                    "In all the time, out after the gearbox is on",
                    "closes the housing with the lock in",
                    left_in,
                    True,
                ),
                Mistake(
                    "In for the flywheel bolts only",
                    "tightens the cover without the lock",
                    "The engine turns under the wrench. The pull is jerky, and the torque is not true.",
                ),
            ),
            "It holds while bolts are turned, and it is out while the flywheel has to turn.",
            "Go through the job: when do you turn bolts, and when must the flywheel itself turn?",
        ),
        Case(
            f"The last cover bolt of {car.name} has its torque, the tool slides, the fingers are level. The lock grips "
            f"two of {teeth} teeth. What comes next?",
            "Take the lock out and turn the engine two turns by hand",
            (
                Mistake(
                    "Leave it in until the gearbox is up",
                    "closes the housing with the lock in",
                    left_in,
                    True,
                ),
                Mistake(
                    "Turn the engine with the starter to see",
                    "turns the engine by starter with the lock in",
                    "The starter throws the lock about. Teeth break, and somebody's fingers may be there.",
                    True,
                ),
                Mistake(
                    "Slacken one cover bolt to check it",
                    "opens what was tight",
                    "What was good is then bad. The whole ring has to be started again.",
                ),
            ),
            "Out at once, because it is forgotten later. By hand you feel what rubs before it breaks.",
            "Which tool on this engine would break something at the next turn?",
        ),
        Case(
            f"You are about to measure the run-out of {car.name}. The lock still grips two of {teeth} teeth. What do you do?",
            "Take it out, measure, and fit it again for the cover",
            (
                Mistake(
                    "Measure at one place, with the lock in",
                    "measures at one place",
                    "One place tells nothing about run-out. A crooked flywheel passes, and the clutch judders.",
                ),
                Mistake(
                    "Turn the engine with force against the lock",
                    "turns against the lock",
                    "Lock or teeth give way at once, and the bar slips. You fall against the car.",
                    True,
                ),
                Mistake(
                    "Leave the run-out check out",
                    "leaves the run-out check out",
                    "Dirt under the seat stays hidden. It judders, and everything comes out again.",
                ),
            ),
            "Eight places need a flywheel that turns. The lock is needed again when cover bolts are turned.",
            "How many places does the gauge visit, and who brings them there?",
        ),
    )
    return choice_from(draw, cases[form], vehicle=car.id)


_SLIDE, _LEVEL, _OUT = "Centring tool out and in by hand", "Fingers level", "Flywheel lock out"
_TURN, _DOWELS, _FACES = "Two turns of the engine by hand", "Both housing dowels in place", "Housing faces clean"
_COUNT, _UP = "Count the tools", "Gearbox up to the engine"


@exercise("assembly.last-minutes", lesson="assembly", outcome=ORDERS, minutes=2, title="Before the gearbox")
def last_minutes(draw: Draw) -> Order:
    car = draw.vehicle()
    ask = (
        f"The last cover bolt of {car.name} has just had its torque. Put in order what comes before the gearbox.",
        f"The gearbox of {car.name} hangs ready on its jack, {draw.integer(20, 60)} cm away. The cover is just tight. "
        "Put in order what is left.",
    )[draw.form(2)]
    example = (_SLIDE, _LEVEL, _OUT, _TURN, _DOWELS, _FACES, _COUNT, _UP)
    rules = (
        Before(
            _SLIDE, _OUT, "a plate off centre means slackening the cover, and for that you need the lock.", "quality"
        ),
        Before(_LEVEL, _OUT, "fingers out of level mean slackening the cover, and that needs the lock.", "quality"),
        Before(_OUT, _TURN, "with the lock in nothing turns, and forced it breaks teeth.", "safety", True),
        Before(_TURN, _UP, "by hand you feel a rub that nobody sees later.", "quality"),
        Before(_DOWELS, _UP, "without its dowels the gearbox hangs beside its centre and bends the plate.", "quality"),
        Before(_FACES, _UP, "dirt or a cable between the faces keeps the joint open.", "quality"),
        Before(_OUT, _COUNT, "the lock is one of the tools that are counted.", "physical"),
        Before(_COUNT, _UP, "a tool left inside is thrown about by the engine.", "safety", True),
    )
    return Order.of(
        draw,
        example=example,
        rules=rules,
        ask=ask,
        why="First what may still need the lock, then the lock out, then a turn by hand, then the count.",
        step=f"Checks that could send you back come first. It ends with “{_UP}”.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="common-practice",
        vehicle=car.id,
    )
