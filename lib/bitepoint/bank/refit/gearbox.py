"""Lesson 11, refit: the gearbox comes home by hand, in a safe order."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.refit.common import JOINS
from bitepoint.bank.registry import exercise
from bitepoint.bank.work_cards import later_card, never_cards, strip_at, work_order
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.operations import job, operation, operations_for

_TEMPTING = ("X2", "X3", "X8")
"""What is never done in this part of the job."""


@exercise("refit.order-of-work", lesson="refit", outcome=JOINS, minutes=6, title="Gearbox in: the whole order")
def order_of_work(draw: Draw) -> WorkOrder:
    car = draw.vehicle()
    ids = [step.id for step in operations_for(car, stages=["refit"])]
    strangers = draw.sample(_TEMPTING, 2)
    later = draw.pick(*(o.id for o in job().operations if o.stage == "check"))
    minutes = draw.integer(4, 12) * 10
    return work_order(
        draw,
        ids,
        strangers=[
            *never_cards(strangers),
            later_card(
                later,
                "That is a check and comes when the car is whole. Done now, something is still open or loose.",
            ),
        ],
        stages=strip_at("refit"),
        ask=f"The new clutch of {car.name} is in and checked; {minutes} minutes are left today. "
        "Bring the gearbox in, up to the moment before the checks. "
        "Pick one card after the other. Three cards do not belong here.",
        why="Weight on the jack, faces by hand, bolts, mount, and only then what hangs on the gearbox.",
        step=f"It starts with “{operation(ids[0]).short}”. The jack stays until the mount carries. The battery comes late.",
        vehicle=car.id,
    )


@exercise("refit.gap", lesson="refit", outcome=JOINS, minutes=2, title="A gap between the faces")
def gap(draw: Draw) -> Choice:
    form, mm = draw.form(3), draw.integer(4, 15)
    side, other = draw.integer(25, 45) / 100, draw.integer(20, 40) / 100
    pull = Mistake(
        "Pull it in evenly with all bolts",
        "draws the gearbox in with the bolts",
        "The bolts pull harder than a plate can bear. Hub, shaft or an ear of the housing breaks.",
        True,
    )
    knock = Mistake(
        "Knock it home with the weight of the gearbox",
        "knocks the gearbox against the clutch",
        "The shaft hits hub and fingers like a hammer. The plate is bent, and the clutch drags from the start.",
    )
    hang = Mistake(
        "Lower the jack a little and wriggle the box",
        "lets the gearbox hang on its shaft",
        "Then the weight hangs on the plate's hub and bends it. The box can come down on you.",
        True,
    )
    limit = Mistake(
        "Tighten: so small a gap is within limits",
        "invents a limit for a gap",
        "Flush means no gap. It closes by bending, and the shaft stands at an angle to the crankshaft.",
    )
    dismantle = Mistake(
        "Take the clutch cover off and start again",
        "starts all over before looking",
        "Look first: mostly it is angle, spline or dowel. You spend new bolts and an hour on nothing.",
    )
    cases = (
        Case(
            f"The splines are in, the gearbox stands {mm} mm off the engine all round. A helper takes the long bolts. "
            "What do you do?",
            "No bolts: match the angle, turn the shaft, look for what holds it",
            (pull, knock, hang),
            "It must go home by hand. If it does not, the shaft end, a dowel or the plate's centre is in the way.",
            "What would have to give way, if the bolts closed this gap?",
        ),
        Case(
            f"Before tightening, feelers at four places of the joint show 0.00, 0.00, {side:.2f} and {other:.2f} mm. "
            "What do you do?",
            "Ease it back and look there: burr, dowel, cable in the joint",
            (pull, limit, dismantle),
            "Two places are home and two are not, so something sits on that side. Faces meet all round first.",
            "Where is it closed and where is it open? What can lie between two faces on one side only?",
        ),
        Case(
            f"The box is {mm} mm from home, and the housing bolts lie on the bench, three steps away. What do you do?",
            "Keep it strapped on its jack at its angle, have the bolts handed to you",
            (hang, knock, pull),
            "The weight stays on the jack until faces meet and bolts hold. Only then is the shaft safe.",
            "What carries the gearbox in the next ten seconds: the jack, or the plate's hub?",
        ),
    )
    return choice_from(draw, cases[form])
