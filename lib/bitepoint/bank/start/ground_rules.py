"""Lesson 0, start here: the ground rules of the workshop, one exercise a kind."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.start.rules import BATTERY, RAISE, Steps
from bitepoint.questions.choice import Choice, Several, needed, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order
from bitepoint.questions.question import Mistake

RULES = "Keeps the ground rules of the workshop"


_OWN_DATA = "From the repair data of that very car"


_CHOICES: tuple[tuple[str, str, tuple[Mistake, ...], str, str], ...] = (
    (
        "A car in the yard looks just like training vehicle {letter}. From where do you take its torques?",
        _OWN_DATA,
        (
            Mistake(
                "From the data sheet of the training vehicle",
                "uses training figures on a car",
                (
                    "Those figures are invented. On a car they leave bolts too loose or overstretched, "
                    "and parts come off."
                ),
                True,
            ),
            Mistake(
                "From memory: the last one was the same",
                "works from memory",
                ("Two cars that look alike can have other bolts. A torque from memory can let a flywheel come loose."),
                True,
            ),
            Mistake(
                "From a film about a similar car",
                "trusts a similar car",
                "Similar is not the same, and nobody checked the film. A wrong torque lets parts come loose.",
                True,
            ),
        ),
        (
            "Training figures are invented, so they are for practice only. The repair data of the car "
            "itself always come first."
        ),
        "Ask who answers for the figure. Nobody answers for an invented sheet.",
    ),
    (
        (
            "In the middle of a job you are not sure whether the next step is safe. It is {minutes} "
            "minutes to the break. What do you do?"
        ),
        "Stop and ask",
        (
            Mistake(
                "Go on slowly and carefully",
                "goes on unsure",
                "Slow does not make a wrong step safe. Someone can be hurt before you notice.",
                True,
            ),
            Mistake(
                "Finish first and ask after the break",
                "asks too late",
                "After the step the damage may be done. The question costs a minute, an injury much more.",
                True,
            ),
            Mistake(
                "Do it the way a classmate does it",
                "copies a classmate",
                "Your classmate may have another car or be as unsure as you. Then two people do it wrong.",
                True,
            ),
        ),
        "Stopping is part of good work. Nobody is marked down for asking.",
        "Think what each answer costs if you are wrong: a minute, or a hand.",
    ),
    (
        ("Your torque wrench fell about {height:.1f} m onto the floor. It still clicks. What do you do?"),
        "Label it and hand it in to be checked",
        (
            Mistake(
                "Use it: it still clicks",
                "trusts the click",
                (
                    "It clicks, but nobody knows at what torque. Bolts tightened with it can be loose, "
                    "and parts come off."
                ),
                True,
            ),
            Mistake(
                "Set it a little higher to be safe",
                "adds a margin by guess",
                ("You do not know in which direction it is off. Too high stretches the bolts until they break."),
                True,
            ),
            Mistake(
                "Compare it by feel with another wrench",
                "checks by feel",
                (
                    "A hand cannot feel a few per cent. A wrench that is off goes on tightening wrongly, "
                    "bolt after bolt."
                ),
                True,
            ),
        ),
        (
            "A wrench that fell is not to be trusted until it was checked. The label keeps the next "
            "person from using it."
        ),
        "Ask how you would know its true torque now. A click alone does not tell.",
    ),
)


@exercise("start.choice", lesson="start", outcome=RULES, minutes=1.5, title="What comes first")
def choice(draw: Draw) -> Choice:
    minutes = draw.integer(8, 15)
    ask, best, others, why, step = _CHOICES[draw.form(len(_CHOICES))]
    car = draw.vehicle()
    return Choice.of(
        draw,
        ask=ask.format(letter=car.id, minutes=minutes, height=minutes / 10),
        vehicle=car.id if "{letter}" in ask else "",
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}. {why}",
        source="common-practice",
    )


@exercise("start.several", lesson="start", outcome=RULES, minutes=2, title="Dress and dust")
def several(draw: Draw) -> Several:
    return _dust(draw) if draw.form(2) else _dressed(draw)


def _dressed(draw: Draw) -> Several:
    options = [
        needed(
            "Safety shoes",
            "leaves out the shoes",
            ("Shoes are missing from your list. A flywheel weighs as much as a bucket of water, and it falls on toes."),
        ),
        needed(
            "Ring and watch off",
            "keeps ring or watch on",
            (
                "Ring and watch are missing. They catch in turning parts and bridge a live terminal: the "
                "burn goes to the bone."
            ),
        ),
        needed(
            "Hair tied back, sleeves closed",
            "leaves hair or sleeves loose",
            "Loose hair or sleeves are drawn into turning parts faster than you can pull back.",
        ),
        wrong(
            "Loose cloth gloves near turning parts",
            "wears gloves near turning parts",
            "A glove is caught and pulls the hand in. Near turning parts it makes things worse.",
            critical=True,
        ),
        wrong(
            "Light trainers, because you stand all day",
            "wears trainers",
            "Trainers hold off neither weight nor oil. A falling part breaks the foot.",
        ),
    ]
    spare = needed(
        "Safety glasses where things spring or fly",
        "leaves out the glasses",
        "Glasses are missing. Circlips and dust fly faster than an eyelid closes.",
    )
    return Several.of(
        draw,
        options=[*options, spare],
        ask=(
            f"You will work {draw.integer(2, 6)} hours on a car today. What belongs to being dressed for "
            "it? Pick all that are right."
        ),
        why=("Each of them keeps a known injury away: crushed toes, caught fingers, burns, something in the eye."),
        step="Go from head to foot: eyes, hair, hands, feet. What protects each, and what could be caught?",
        solution="Shoes, glasses, hair and sleeves, ring and watch off. No loose gloves near turning parts.",
        source="common-practice",
    )


def _dust(draw: Draw) -> Several:
    options = [
        needed(
            "Wet the dust before you wipe it up",
            "leaves the dust dry",
            "Wetting is missing. Dry dust stays in the air for hours, and everyone breathes it.",
        ),
        needed(
            "Put the wipes in a closed, labelled bag",
            "throws the wipes in an open bin",
            "The bag is missing. From an open bin the dust comes back into the air.",
        ),
        needed(
            "Wash your hands before you eat",
            "eats with dusty hands",
            "Washing is missing. Dust on the hands ends up in the mouth.",
        ),
        wrong(
            "Blow the bell housing out with compressed air",
            "blows clutch dust about",
            ("Compressed air throws the dust into every lung in the room. It can do harm that shows only years later."),
            critical=True,
        ),
        wrong(
            "Sweep it out with a dry brush",
            "brushes clutch dust dry",
            ("A dry brush lifts the fine dust into the air you breathe. It can do harm that shows only years later."),
            critical=True,
        ),
    ]
    car = draw.vehicle()
    return Several.of(
        draw,
        options=options,
        ask=(
            f"The bell housing of {car.name} is full of clutch dust, and {draw.integer(2, 9)} people work "
            "near. What is right? Pick all."
        ),
        why=("Clutch dust must not get into the air or the mouth. Wet it, bag it, wash. Local rules may ask for more."),
        step="Ask of each line: does it lift the dust into the air, or does it hold the dust down?",
        vehicle=car.id,
        solution="Wet, bag, wash. No compressed air and no dry brush.",
        source="common-practice",
    )


@exercise("start.order", lesson="start", outcome=RULES, minutes=2, title="Steps in a safe order")
def order(draw: Draw) -> Order:
    steps: Steps = (RAISE, BATTERY)[draw.form(2)]
    return Order.of(
        draw,
        example=steps.example,
        rules=steps.rules,
        ask=steps.ask,
        why=steps.why,
        step=f"It starts with “{steps.example[0]}”. It ends with “{steps.example[-1]}”.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(steps.example, start=1)),
        source="common-practice",
    )
