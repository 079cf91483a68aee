"""Lesson 3, finding the fault: free play in the driveline, which a new clutch does not take away."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.fault.common import CHECKS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

_CLUTCH = Mistake(
    "Fit the clutch: a clonk at take-up comes from there",
    "takes free play in the shafts for a clutch fault",
    "The play stays where it is. The new clutch clonks as the old one did, and the customer is back.",
)
_HAND = Mistake(
    "Feel the shaft with a hand while a helper lets the pedal in",
    "feels for play with the engine running",
    "A shaft that takes up drive pulls hand and sleeve in. Play is felt with the engine off, by turning to and fro.",
    True,
)
_TIGHTEN = Mistake(
    "Tighten the hub nuts a little more",
    "tightens against play",
    "A hub nut holds the bearing, not the joints. Over its torque it is stretched, and bearing and nut can fail.",
    True,
)
_LATER = Mistake(
    "Say nothing now and look when the gearbox is out",
    "leaves a finding out of the order",
    "Then the customer learns of it with the car in pieces. What is found before is agreed before.",
)

_WHY = "Each joint, spline and mount has a little play, and all of it is heard as one clonk when the load changes."


@exercise("fault.driveline-play", lesson="fault", outcome=CHECKS, minutes=1.5, title="A clonk when the load changes")
def driveline_play(draw: Draw) -> Choice:
    form, kmh, miles = draw.form(3), draw.pick(20, 30, 40), draw.integer(60, 140)
    cases = (
        Case(
            f"At {kmh} km/h you lift your foot and press again: one clonk each time. With the pedal down there is none, "
            "and the clutch takes up smoothly. What do you do?",
            "Engine off: turn each drive shaft to and fro by hand and watch joints and mounts",
            (_CLUTCH, _HAND, _TIGHTEN),
            _WHY + " Turned by hand, the joint that has it is seen to lag.",
            "Which parts are pushed the other way when the load changes? How do you move them without the engine?",
        ),
        Case(
            f"After {miles} thousand miles the clutch slips. You also find a drive-shaft joint that turns a finger's "
            "breadth before the shaft follows. Only the clutch is ordered. What do you do?",
            "Write it down and ask the customer before the gearbox comes out",
            (
                _LATER,
                Mistake(
                    "Renew the joint with the rest and put it on the bill",
                    "does work that nobody ordered",
                    "The joint may well be due. But who pays decides, and before the work.",
                ),
            ),
            "The shaft comes out for the clutch anyway, so this is the cheap moment. But it is the customer's decision.",
            "What costs less together with the clutch, and who has to agree?",
        ),
        Case(
            f"A rear-wheel-drive car clonks at {kmh} km/h when you come off the throttle. Gearbox in neutral, engine off, "
            "the propeller shaft turns a little before its rear joint follows. What is it?",
            "Play in the joint of the propeller shaft: not the clutch",
            (
                _CLUTCH,
                Mistake(
                    "A worn damper in the plate: kit and flywheel",
                    "blames the damper for play outside the clutch",
                    "In neutral the plate is not between your hand and that joint. The damper stays, and so does the clonk.",
                ),
                Mistake(
                    "Nothing: every joint has some play",
                    "takes every play for normal",
                    "Some is normal, and the sheet says how much. A worn joint goes on wearing until it breaks.",
                ),
            ),
            _WHY + " In neutral your hand turned nothing of the clutch.",
            "Follow the path from your hand to the part that lagged. Is the clutch on that path?",
        ),
    )
    return choice_from(draw, cases[form])
