"""Lesson 4, the right kit: reading the codes and looking at the car before anything is ordered."""

from bitepoint.bank.kit.common import IDENTIFIES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import Vehicle

Form = tuple[str, str, tuple[Mistake, ...], str, str]
"""Question, right answer, wrong answers, why, next step."""


def choice_from(draw: Draw, form: Form, *, vehicle: str = "", table: tuple[tuple[str, ...], ...] = ()) -> Choice:
    """Return a choice made from one form of a pool."""
    ask, right, wrong, why, step = form
    return Choice.of(
        draw,
        ask=ask,
        right=right,
        wrong=wrong,
        why=why,
        step=step,
        solution=f"{right}. {why}",
        source="common-practice",
        vehicle=vehicle,
        table=table,
    )


@exercise("kit.unreadable-code", lesson="kit", outcome=IDENTIFIES, minutes=2)
def unreadable_code(draw: Draw) -> Choice:
    car = draw.vehicle()
    form = (_dirty, _registered, _gearbox)[draw.form(3)](draw, car)
    return choice_from(draw, form, vehicle=car.id)


def _dirty(draw: Draw, car: Vehicle) -> Form:
    code = car.engine.code
    hidden = code[:-1] + "?"
    return (
        f"A car like {car.name} comes in. On its plate you read the engine code {hidden}. "
        f"Rust hides the last sign, and it is {draw.integer(8, 14)} minutes before the parts counter shuts.",
        "Look for the code in a second place, such as the stamping on the engine block",
        (
            Mistake(
                f"Write down {code}: it is the commonest one",
                "guesses the hidden sign",
                "A guess is right only now and then. The wrong kit shows when the gearbox is already out.",
            ),
            Mistake(
                "Order by model and colour of the car",
                "goes by the looks of the car",
                "One model has several engines and gearboxes. The kit then fits another engine.",
            ),
            Mistake(
                "Order two kits and send one back",
                "orders on trial",
                "Trial ordering only moves the question into the strip-down. The car then blocks the lift.",
            ),
        ),
        "The same code stands in more than one place. Two readings that agree are better than one good guess.",
        f"What can you still read? Only {hidden}. Ask where else this code is written.",
    )


def _registered(draw: Draw, car: Vehicle) -> Form:
    year = int(car.build.build_date[:4])
    return (
        f"A car like {car.name}: the papers say first registered {year + 1}-0{draw.integer(1, 6)}. "
        "The kit list is split by month. Which date do you hold against it?",
        "The month in which it was built",
        (
            Mistake(
                "The month of first registration",
                "takes the registration for the build date",
                "A car can stand for months before it is registered. You then order for the next gearbox.",
            ),
            Mistake(
                "The model year in the sales papers",
                "takes the model year for the build date",
                "A model year often begins in the autumn before. Near a split you get the wrong plate.",
            ),
            Mistake(
                "The month of the last service",
                "takes any date for the build date",
                "That date says nothing about the parts fitted. The kit is then right only by luck.",
            ),
        ),
        "Parts change at the works, from one build month to the next. Papers come later.",
        "Ask when the parts were put into the car: at the works, at the dealer or on the road?",
    )


def _gearbox(draw: Draw, car: Vehicle) -> Form:
    return (
        f"A car like {car.name}, {draw.integer(90, 190)} thousand kilometres. Engine code and build month agree "
        "with a kit. But the gearbox carries another code than the sheet.",
        "Stop and ask: this gearbox has been changed",
        (
            Mistake(
                "Take the kit: engine code and date decide",
                "leaves out the gearbox",
                "The splines sit on the gearbox shaft. The new plate may not slide on, or it rocks.",
            ),
            Mistake(
                "Take the kit for the gearbox and forget the engine",
                "looks at one code only",
                "The flywheel and the cover belong to the engine. A kit must agree with both.",
            ),
            Mistake(
                "Write the code of the sheet into the job card",
                "writes what ought to be there",
                "Then nobody after you can find the reason why nothing fits. A record holds what is seen.",
            ),
        ),
        "What is found on the car counts, and here two findings disagree. Somebody has to settle that first.",
        "Which part of the clutch slides on the gearbox shaft, and which sits on the engine?",
    )


@exercise("kit.flywheel-now", lesson="kit", outcome=IDENTIFIES, minutes=2)
def flywheel_now(draw: Draw) -> Choice:
    car = draw.vehicle()
    form = (_which_fitted, _label_found, _what_is_there)[draw.form(3)](draw, car)
    return choice_from(draw, form, vehicle=car.id)


def _which_fitted(draw: Draw, car: Vehicle) -> Form:
    return (
        f"A car like {car.name} had a clutch {draw.integer(2, 6)} years ago, elsewhere. "
        f"By the sheet it left the works with a {car.flywheel.factory_type} flywheel. "
        "What do you do about the flywheel?",
        "Look for a label and look through the inspection hole",
        (
            Mistake(
                "Order for the flywheel of the works",
                "trusts what the works fitted",
                "The last workshop may have changed the type. The bolts and the plate then do not fit.",
            ),
            Mistake(
                "Ask the driver how the pedal feels",
                "thinks that the pedal tells the flywheel",
                "A pedal does not tell the flywheel. You would order by a feeling.",
            ),
            Mistake(
                "Decide when the gearbox is out",
                "puts the look off",
                "Then the car waits on the lift for a kit. One look now saves days.",
            ),
        ),
        "A flywheel type can have been changed. The kit goes by the flywheel that is there and what is agreed.",
        "Who can know what was fitted last time: the works, or the car itself?",
    )


def _label_found(draw: Draw, car: Vehicle) -> Form:
    return (
        f"On a car like {car.name} a label in the engine bay says: flywheel type changed, kit number, "
        f"{draw.integer(40, 95)} thousand kilometres. What does it mean for your order?",
        "Order by the flywheel and the number on the label, then check on the car",
        (
            Mistake(
                "Nothing: the engine code decides",
                "takes the label for decoration",
                "The label is there because the code now leads to the wrong parts. You would order those.",
            ),
            Mistake(
                "Put the type of the works back without asking",
                "undoes a change unasked",
                "The customer paid for that change. Nobody agreed to pay for a second one.",
            ),
            Mistake(
                "Peel it off, it is out of date",
                "removes the label",
                "The next fitter then orders by the code, and the parts do not fit.",
            ),
        ),
        "The label tells what the code can no longer tell. A look at the car confirms it.",
        "Ask why somebody took the trouble to stick a label on.",
    )


def _what_is_there(draw: Draw, car: Vehicle) -> Form:
    kind = car.release.kind
    return (
        f"A catalogue page for a car like {car.name} offers two kits. One has a bearing for a fork, the other a "
        f"concentric slave. You have {draw.integer(10, 25)} minutes. What settles it?",
        "A look at the car: pipe into the bell housing, or fork and slave outside",
        (
            Mistake(
                "The dearer kit is the newer one",
                "goes by the price",
                "A price says nothing about the release. The wrong bearing does not even go on.",
            ),
            Mistake(
                "Every hydraulic clutch has a concentric slave",
                "thinks that hydraulic means concentric",
                "Many hydraulic clutches push a fork from outside. You would get the wrong release part.",
            ),
            Mistake(
                "The plate diameter",
                "lets the plate decide the release",
                "Both can come with one diameter. The release has to be seen by itself.",
            ),
        ),
        f"The sheet of {car.name} says: {kind}. The car in front of you must show the same.",
        "Where does the pipe or the cable end: outside on the gearbox, or inside the housing?",
    )
