"""Lesson 10, the release system: right fluid, no pedal before the gearbox is on, bleeding step by step."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.common import BLEEDS, hydraulic_car
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake

_WAIT = "No: connect and bleed when the gearbox is bolted on"


@exercise("release.box-off", lesson="release", outcome=BLEEDS, minutes=1.5, title="The pedal with the gearbox off")
def box_off(draw: Draw) -> Choice:
    metres, form = draw.value(0.5, 1.5, 0.1), draw.form(3)
    gently = Mistake(
        "Yes, but only gently and half-way",
        "thinks that slow is safe",
        "Nothing stops the piston. A few millimetres too far, and seal and spring fly out at whoever holds it.",
        True,
    )
    open_line = Mistake(
        "Yes, if the bleed nipple is open",
        "thinks that without pressure nothing moves",
        "The piston moves all the same, and fluid squirts out. Someone near it gets it in the eyes.",
        True,
    )
    thumbs = Mistake(
        "Yes, if a helper holds the bearing with both hands",
        "holds the piston with the hands",
        "The foot's force is multiplied on the way. Fingers are crushed between bearing and housing.",
        True,
    )
    cover = Mistake(
        "Yes, the clutch cover is bolted on and stops it",
        "takes the cover for a stop that is not near",
        "The cover is on the engine, far from the slave. The piston leaves its cylinder, and a seal is lost.",
        True,
    )
    cases = (
        Case(
            f"A new concentric slave is bolted into the housing. The gearbox stands on its jack, {metres:g} m away. "
            "A helper wants to press the pedal to see whether it is tight. May they?",
            _WAIT,
            (gently, open_line, cover),
            "The piston needs the fingers as its stop. Without them it leaves the cylinder.",
            "What stops the piston, once the bearing no longer meets the fingers?",
        ),
        Case(
            f"The external slave hangs on its pipe, {metres:g} m beside the gearbox. Someone wants to bleed it there with "
            "the pedal, to save time. May they?",
            _WAIT,
            (gently, open_line, thumbs),
            "In its place the fork stops the piston. Hanging free, it is shot out of the cylinder.",
            "What does the push-rod of the slave lean on, when it hangs on its pipe?",
        ),
        Case(
            f"Gearbox out, {metres:g} m of pipe still joined to the old concentric slave on the bench. The pedal hangs low. "
            "May you pump it up by foot?",
            _WAIT,
            (gently, thumbs, cover),
            "A label on the pedal helps: “Do not press”. What falls apart here costs a new part.",
            "Where does the piston go, when nothing stands in front of it?",
        ),
    )
    return choice_from(draw, cases[form])


@exercise("release.fluid", lesson="release", outcome=BLEEDS, minutes=1.5, title="Which bottle")
def fluid(draw: Draw) -> Choice:
    car, form = hydraulic_car(draw), draw.form(2)
    months = draw.integer(5, 14)
    silicone = Mistake(
        "DOT 5 silicone fluid, sealed: the number is higher",
        "thinks that a higher number is better",
        "DOT 5 is silicone and does not mix with glycol. In a shared tank it can spoil the brakes.",
        True,
    )
    mineral = Mistake(
        "Mineral hydraulic oil, sealed: it is made for hydraulics",
        "takes oil for brake fluid",
        "Oil swells the rubber until seals jam and leak. In a shared tank the brakes fail with them.",
        True,
    )
    opened = Mistake(
        f"DOT 4, opened {months} months ago and closed again",
        "uses an opened bottle",
        "It has drawn water from the air. Its boiling point has fallen, and vapour is as soft as air.",
    )
    drained = Mistake(
        "What came out of the nipple, when it has settled",
        "uses drained fluid again",
        "It carries dirt, water and fine bubbles. The seals wear, and the pedal stays soft.",
    )
    stop = "None of these: stop and ask"
    sealed = "DOT 4, sealed, in date"
    if form == 0:
        right, wrong = sealed, (silicone, mineral, opened)
        why = "The stated grade from a sealed bottle. Grade is not a ladder: silicone and glycol do not mix."
    else:
        right, wrong = stop, (silicone, opened, drained)
        why = "The stated grade is not there in a sealed bottle. Fetching one is cheaper than a new set of seals."
    return choice_from(
        draw,
        Case(
            f"The sheet of {car.name} says: {car.release.fluid}. Brakes and clutch share one tank. Which goes in?",
            right,
            wrong,
            why,
            "Two things count: the stated grade, and a bottle that nobody has opened before.",
        ),
        source="fmvss-116",
        vehicle=car.id,
    )


_GRADE, _FILL = "Check the grade on sheet and sealed bottle", "Fill the tank to its upper mark"
_HOSE = "Hose on the nipple, its end in clean fluid"
_PUSH, _SHUT = "Open the nipple and push the pedal down slowly", "Close the nipple, pedal still down"
_LIFT = "Let the pedal up, by hand if it stays down"
_AGAIN, _TOP = "Repeat until no bubble comes, tank never low", "Fill up to the mark, tank lid on"
_HOLD = "Hold the pedal one minute, look for leaks"
_DEVICE, _LOW = "Put the pressure device on the tank", "Low pressure by the sheet, look for leaks at the tank"
_FLOW, _CLOSE = "Open the nipple until no bubble comes", "Close the nipple"
_RELIEVE = "Let the pressure off, take the device off"
_CLEAR = "the grade cannot be put right once the wrong fluid is in. Then seals fail, in the brakes too."


@exercise("release.bleeding", lesson="release", outcome=BLEEDS, minutes=4, title="Bleed it in order")
def bleeding(draw: Draw) -> Order:
    car, form = hydraulic_car(draw), draw.form(2)
    ml = draw.integer(15, 30) * 10
    if form == 0:
        way = "with a helper at the pedal"
        example: tuple[str, ...] = (_GRADE, _FILL, _HOSE, _PUSH, _SHUT, _LIFT, _AGAIN, _TOP, _HOLD)
        rules: tuple[Before, ...] = (
            Before(_GRADE, _FILL, _CLEAR, "safety", True),
            Before(_FILL, _PUSH, "an empty tank sends air after the fluid, perhaps into the brakes too.", "quality"),
            Before(_HOSE, _PUSH, "fluid squirts into eyes and onto paint.", "safety"),
            Before(_PUSH, _SHUT, "it must be open while the fluid moves.", "physical"),
            Before(_SHUT, _LIFT, "a pedal coming back draws air in past the nipple's thread.", "quality"),
            Before(_LIFT, _AGAIN, "only a pedal that is up has filled the master again.", "physical"),
            Before(_AGAIN, _TOP, "bleeding takes fluid from the tank.", "physical"),
            Before(_AGAIN, _HOLD, "only a line without air shows what it holds.", "quality"),
        )
        why = "Open, push slowly, close, let up. Closed before the pedal comes back, no air gets in."
        step = f"It starts with “{_GRADE}”. When must the nipple be closed: before or after the pedal comes up?"
    else:
        way = "with a pressure device on the tank"
        example = (_GRADE, _FILL, _DEVICE, _LOW, _HOSE, _FLOW, _CLOSE, _RELIEVE, _TOP, _HOLD)
        rules = (
            Before(_GRADE, _FILL, _CLEAR, "safety", True),
            Before(_FILL, _DEVICE, "under the device nobody can fill up or see the mark.", "quality"),
            Before(_DEVICE, _LOW, "pressure needs its lid first.", "physical"),
            Before(
                _LOW,
                _FLOW,
                "a device that leaks sprays fluid over the car, and no pressure drives the air out.",
                "quality",
            ),
            Before(_HOSE, _FLOW, "fluid squirts into eyes and onto paint.", "safety"),
            Before(_FLOW, _CLOSE, "only an open nipple lets the air out.", "physical"),
            Before(_CLOSE, _RELIEVE, "without pressure an open nipple draws air back.", "quality"),
            Before(_RELIEVE, _TOP, "a lid taken off under pressure sprays fluid into your face.", "safety", True),
            Before(_RELIEVE, _HOLD, "the device's pressure would hide how the pedal holds.", "quality"),
        )
        why = "Low pressure drives the air out while the nipple is open. Closed first, then the pressure off."
        step = (
            f"It starts with “{_GRADE}”. The pressure goes off after the nipple is closed, before the lid is touched."
        )
    return Order.of(
        draw,
        example=example,
        rules=rules,
        ask=f"The gearbox of {car.name} is bolted on, the pipe is joined. You bleed the clutch {way}. "
        f"The jar already holds {ml} ml of old fluid. Put the steps in order.",
        why=why,
        step=step,
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="tm-5-3810-300-24",
        vehicle=car.id,
    )
