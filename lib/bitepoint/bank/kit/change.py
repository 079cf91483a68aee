"""Lesson 4, the right kit: the order of the work, the agreement, the tools and the label."""

from bitepoint.bank.kit.codes import Form, choice_from
from bitepoint.bank.kit.common import CHANGES, IDENTIFIES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake
from bitepoint.workshop.kits import all_kits
from bitepoint.workshop.vehicles import Vehicle, vehicle

_CODES = "Read engine code, build month, gearbox code and option codes on the car"
_LOOK = "Look which flywheel and which release are fitted now"
_SHEET = "Open the kit list and find the row that agrees in every column"
_AGREE = "Agree price and flywheel type with the customer, in writing"
_ORDER = "Order the kit"
_CHECK = "Tick the contents, each part in the hand"
_STRIP = "Begin to strip down"

_RULES = (
    Before(_CODES, _SHEET, "without the codes you do not know which row to look for."),
    Before(_LOOK, _SHEET, "flywheel and release are columns of the list too."),
    Before(_SHEET, _AGREE, "you can only agree on a flywheel that may be fitted to this car."),
    Before(_AGREE, _ORDER, "nobody pays for a kit that was not agreed."),
    Before(_ORDER, _CHECK, "a kit can be checked only when it is there.", "physical"),
    Before(_CHECK, _STRIP, "a wrong part found later leaves the car on the lift."),
)


@exercise("kit.before-the-lift", lesson="kit", outcome=IDENTIFIES, minutes=2.5)
def before_the_lift(draw: Draw) -> Order:
    car = draw.vehicle()
    form = draw.form(2)
    example = (_CODES, _LOOK, _SHEET, _AGREE, _ORDER, _CHECK, _STRIP)
    steps = example if form else tuple(s for s in example if s != _CHECK)
    rules = _RULES if form else (*(r for r in _RULES if _CHECK not in (r.first, r.then)),
                                 Before(_ORDER, _STRIP, "a car in pieces waits for days on the lift."))  # fmt: skip
    return Order.of(
        draw,
        example=steps,
        rules=rules,
        ask=f"A car of the model of {car.name} needs a clutch. {draw.integer(2, 9)} days are left. "
        "Bring the steps into an order that leaves no car in pieces on the lift.",
        why="First the facts, then the agreement, then the parts, and only then the spanner.",
        step=f"Nothing can be looked up before this: “{_CODES}”.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(steps, start=1)),
        source="common-practice",
        vehicle=car.id,
    )


@exercise("kit.agree", lesson="kit", outcome=CHANGES, minutes=2)
def agree(draw: Draw) -> Choice:
    car = vehicle("BC"[draw.integer(0, 1)])
    return choice_from(draw, (_when, _what, _changes_mind)[draw.form(3)](draw, car), vehicle=car.id)


def _when(draw: Draw, car: Vehicle) -> Form:
    return (
        f"The customer of {car.name} wants a price on the telephone now, after {draw.integer(2, 6)} minutes. "
        "Nobody has read the codes yet. What do you say?",
        "“I read the codes first, then I call you with a price”",
        (
            Mistake(
                "“The rigid kit, it is cheaper”",
                "agrees before identifying",
                "It may not be allowed on this car. You then have to go back on your word.",
            ),
            Mistake(
                "“We see when the gearbox is out”",
                "agrees during the strip-down",
                "Then the customer has no choice left. Work without agreement may not be paid.",
            ),
            Mistake(
                "“The price of the last car like yours”",
                "goes by another car",
                "Another car has another gearbox or option code. Price and kit may both be wrong.",
            ),
        ),
        "What may be fitted decides what can be agreed. So identification comes first.",
        "Can you name a price for a kit that you have not found yet?",
    )


def _what(draw: Draw, car: Vehicle) -> Form:
    return (
        f"For {car.name} both flywheel types are allowed by its codes. The job sheet has "
        f"{draw.integer(3, 6)} free lines. What must the customer know and sign before you order?",
        "Flywheel type, what changes in noise and vibration, and the price",
        (
            Mistake(
                "The price: the rest is our business",
                "agrees the price only",
                "The customer drives with it for years. Noise that nobody spoke of comes back as a complaint.",
            ),
            Mistake(
                "Nothing, if the kit is cheaper than agreed",
                "thinks that cheaper needs no consent",
                "It is still another part than ordered. Without consent it may have to come out again.",
            ),
            Mistake(
                "The kit number",
                "takes a number for an explanation",
                "A number tells a customer nothing. Nobody can agree to what was not explained.",
            ),
        ),
        "A change of type changes how the car feels. Only the owner can say yes to that, in writing.",
        "What will the customer notice on the first day with the other flywheel?",
    )


def _changes_mind(draw: Draw, car: Vehicle) -> Form:
    return (
        f"Dual-mass was agreed for {car.name}. After {draw.integer(2, 5)} hours of work the parts counter brings "
        "the rigid kit, also allowed. The customer cannot be reached. What now?",
        "Stop and ask: it is not what was agreed",
        (
            Mistake(
                "Fit it: the codes allow it",
                "takes allowed for agreed",
                "Allowed by the sheet is not agreed with the owner. It may have to come out again unpaid.",
            ),
            Mistake(
                "Fit the dual-mass bolts and the rigid flywheel",
                "mixes parts of two kits",
                "Those bolts are too long and clamp nothing. The flywheel comes loose.",
                True,
            ),
            Mistake(
                "Fit it and tell nobody",
                "hides a change",
                "The next fitter orders the wrong parts. It is also the customer's money and car.",
            ),
        ),
        "What is agreed stands. A change needs the owner's word first, whatever the lift costs.",
        "Two things must hold: allowed by the sheet, and agreed. Which of them is missing?",
    )


@exercise("kit.fitting-tools", lesson="kit", outcome=CHANGES, minutes=1.5)
def fitting_tools(draw: Draw) -> Choice:
    form = draw.form(2)
    car = vehicle("C") if form else vehicle("ABD"[draw.integer(0, 2)])
    return choice_from(draw, (_conventional, _self_adjusting)[form](draw, car), vehicle=car.id)


def _conventional(draw: Draw, car: Vehicle) -> Form:
    return (
        f"{draw.integer(2, 5)} days before the job you lay out tools for {car.name}. "
        f"Its cover is conventional, {car.clutch.cover.n} bolts. What pulls the cover down?",
        "Its own bolts, in small even steps; a centring tool holds the plate",
        (
            Mistake(
                "A preloading tool: without it no cover goes on",
                "wants the special tool for every cover",
                "This spring is drawn down by the bolts. Waiting for a tool that nobody needs costs a day.",
            ),
            Mistake(
                "Its own bolts, each home at once",
                "pulls a cover down on one side",
                "The rim bends and the fingers stand uneven. The clutch judders.",
            ),
            Mistake(
                "A jack under the cover",
                "presses the cover on from below",
                "It can tilt and slip off the dowels, onto your hands.",
                True,
            ),
        ),
        "A conventional cover needs no special fitting tool. Even steps keep its rim flat.",
        "Look at the cover line of the sheet. Does it name a tool?",
    )


def _self_adjusting(draw: Draw, car: Vehicle) -> Form:
    return (
        f"{draw.integer(2, 5)} days before the job you lay out tools for {car.name}. "
        "Its cover is self-adjusting, the ring held in transport position. What do you lay out?",
        "The preloading tool that the sheet names, and a centring tool",
        (
            Mistake(
                "Spanners: the bolts pull it down",
                "pulls a self-adjusting cover down with its bolts",
                "The ring can turn while you tighten. It then sits wrong, and the pedal never comes right.",
            ),
            Mistake(
                "A hammer to seat the ring",
                "knocks the adjuster ring",
                "One blow lets the ring go. The new cover is scrap before it is fitted.",
            ),
            Mistake(
                "Nothing: the cover adjusts itself",
                "thinks that it adjusts itself while fitting",
                "It adjusts for wear while it runs. On the bench it must be held, or it is spoilt.",
            ),
        ),
        "The tool takes the spring load, so the ring cannot turn. Whether one is needed stands on the sheet.",
        "What must not turn while this cover is tightened?",
    )


@exercise("kit.label", lesson="kit", outcome=CHANGES, minutes=2)
def label(draw: Draw) -> Several:
    car = vehicle("BC"[draw.integer(0, 1)])
    number = next(k.kit for k in all_kits() if k.engine_code == car.engine.code and k.flywheel == "rigid")
    km = draw.integer(90, 190)
    where = draw.form(2) == 0
    question = "Where is the change recorded?" if where else "What do you write on the label?"
    options = _places() if where else _words(number)
    return Several.of(
        draw,
        options=options,
        ask=f"{car.name[0].upper()}{car.name[1:]} now has a rigid flywheel instead of a dual-mass one, kit {number}, "
        f"at {km} thousand kilometres. {question} Pick all that are right.",
        why="The codes of the car still lead to the old type. The label sends the next fitter to the right parts.",
        step="Think of the next fitter, who reads the engine code. Where, and what, must that person read?",
        solution="\n".join(o.text for o in options if o.right),
        source="common-practice",
        vehicle=car.id,
    )


def _places() -> list[Option]:
    return [
        needed(
            "Bell housing",
            "leaves out the bell housing",
            "One place is missing. Whoever has the gearbox in front of them must see it as well.",
        ),
        needed(
            "Engine bay",
            "leaves out the engine bay",
            "One place is missing. Parts are ordered with the bonnet open, before anything is stripped.",
        ),
        needed(
            "Service record",
            "leaves out the service record",
            "One place is missing. A label can come off; paper or file stays.",
        ),
        wrong(
            "Inside of the flywheel cover, before closing",
            "puts the label where nobody sees it",
            "Nobody sees it until the gearbox is out. Then the wrong kit is already there.",
        ),
        wrong(
            "The key ring",
            "labels the key",
            "A key ring gets lost, and the note with it.",
        ),
    ]


def _words(number: str) -> list[Option]:
    return [
        needed(
            "Flywheel type changed: rigid, with long-travel plate",
            "leaves out what was changed",
            "The label must say what was changed. Else the next fitter cannot make sense of it.",
        ),
        needed(
            f"Part number for service: {number}",
            "leaves out the part number",
            "The number for the next order is missing. Without it somebody orders by engine code.",
        ),
        needed(
            "Date and kilometres",
            "leaves out date and kilometres",
            "Without them nobody knows how old the clutch is.",
        ),
        wrong(
            "Name and telephone of the customer",
            "writes personal data on a label",
            "Personal data do not belong on a part of the car. Everyone who opens the bonnet reads it.",
        ),
        wrong(
            "Clutch checked, all in order",
            "writes empty words",
            "That helps nobody to order. Facts and a number do.",
        ),
    ]
