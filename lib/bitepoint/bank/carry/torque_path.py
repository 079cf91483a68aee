"""Lesson 1, how a clutch carries torque: the path of the torque, and what turns when."""

from bitepoint.bank.carry.common import TRACES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake

_FLANGE, _FLYWHEEL = "Flange of the crankshaft", "Flywheel"
_FIRST, _ARCS, _SECOND = "First mass of the flywheel", "Long arc springs", "Second mass of the flywheel"
_FRONT, _REAR = "Facing on the flywheel side", "Facing on the pressure-plate side"
_COVER, _PRESSURE = "Cover, through its bolts", "Pressure plate, through the straps"
_SPRINGS, _HUB, _RIGID = "Damper springs of the plate", "Hub of the plate", "Plate with a rigid hub"
_SHAFT = "Input shaft, through the splines"


def _clutch_rules(flywheel: str, plate: str) -> tuple[Before, ...]:
    """Rules from the flywheel that carries the cover to the plate: the torque parts in two and meets again."""
    return (
        Before(flywheel, _FRONT, "the first face rubs on the flywheel itself.", "physical"),
        Before(flywheel, _COVER, "the cover is bolted to the flywheel.", "physical"),
        Before(_COVER, _PRESSURE, "straps hang the pressure plate in the cover.", "physical"),
        Before(_PRESSURE, _REAR, "the second face rubs on the pressure plate.", "physical"),
        Before(_FRONT, plate, "the facings sit on the outer part of the plate.", "physical"),
        Before(_REAR, plate, "both faces bring their share to the same plate.", "physical"),
    )


_FORMS: tuple[tuple[str, tuple[str, ...], tuple[Before, ...]], ...] = (
    (
        "A rigid flywheel, a plate with damper springs, the pedal up.",
        (_FLANGE, _FLYWHEEL, _FRONT, _COVER, _PRESSURE, _REAR, _SPRINGS, _HUB, _SHAFT),
        (
            Before(_FLANGE, _FLYWHEEL, "the flywheel is bolted to the flange.", "physical"),
            *_clutch_rules(_FLYWHEEL, _SPRINGS),
            Before(_SPRINGS, _HUB, "the springs sit between the outer part and the hub.", "physical"),
            Before(_HUB, _SHAFT, "the hub drives the shaft by its splines.", "physical"),
        ),
    ),
    (
        "A dual-mass flywheel, a plate with a rigid hub, the pedal up.",
        (_FLANGE, _FIRST, _ARCS, _SECOND, _FRONT, _COVER, _PRESSURE, _REAR, _RIGID, _SHAFT),
        (
            Before(_FLANGE, _FIRST, "the first mass is bolted to the flange.", "physical"),
            Before(_FIRST, _ARCS, "the first mass pushes the arc springs.", "physical"),
            Before(_ARCS, _SECOND, "the arc springs push the second mass.", "physical"),
            *_clutch_rules(_SECOND, _RIGID),
            Before(_RIGID, _SHAFT, "the hub drives the shaft by its splines.", "physical"),
        ),
    ),
)


@exercise("carry.torque-path", lesson="carry", title="The way of the torque", outcome=TRACES, minutes=4)
def torque_path(draw: Draw) -> Order:
    kit, example, rules = _FORMS[draw.form(2)]
    return Order.of(
        draw,
        example=example,
        rules=rules,
        ask=f"{kit} Put the parts in the order in which the torque passes them, engine first. "
        "Behind the flywheel it parts in two: either branch may come first.",
        why="About half goes straight into the plate, half through cover and pressure plate. "
        "That is why one plate has two friction faces.",
        step="Start where the engine ends: the flange. Then ask what is bolted, hung or pressed to what.",
        solution="\n".join(f"{i}. {part}." for i, part in enumerate(example, 1)),
        source="common-practice",
    )


_STANDS = Mistake(
    "Nothing turns, because the clutch is open",
    "thinks that an open clutch stops the flywheel",
    (
        "The flywheel is bolted to the crankshaft. As long as the engine runs, flywheel and cover turn. "
        "Fingers put there get hurt."
    ),
)
_PLATE_TURNS = Mistake(
    "The plate turns with the flywheel, only with less torque",
    "thinks that an open clutch still drives",
    "Open means a gap on both sides of the plate. Who thinks it still drives takes a dragging clutch for normal.",
)
_BEARING_STANDS = Mistake(
    "Flywheel and cover turn, the whole release bearing stands",
    "thinks that the whole release bearing stands",
    (
        "One ring of the bearing runs with the fingers while the other stands. Who forgets that misses "
        "the bearing as a noise."
    ),
)

_TURNS: tuple[tuple[str, str, tuple[Mistake, ...], str, str], ...] = (
    (
        "The engine idles at {rpm} rpm. The car stands in first gear, brakes on, pedal fully down. What turns?",
        "Flywheel, cover and one ring of the release bearing; plate and input shaft stand",
        (_PLATE_TURNS, _STANDS, _BEARING_STANDS),
        "The wheels stand, and the gear ties plate and input shaft to them. The gap lets the engine run on.",
        "First gear ties the input shaft to the wheels. Do the wheels turn?",
    ),
    (
        "The engine idles at {rpm} rpm in neutral, car standing, pedal up. What turns?",
        "Flywheel, cover, plate and input shaft, all at engine speed",
        (
            Mistake(
                "Flywheel and cover only, because the car stands",
                "thinks that neutral stops the plate",
                "In neutral the input shaft is free to turn. Who thinks it stands misses noises of its bearing.",
            ),
            Mistake(
                "The plate turns, the input shaft stands",
                "forgets the splines",
                "Plate and shaft share splines, so they always turn together. Else the splines would be stripped.",
            ),
            _STANDS,
        ),
        "The closed clutch takes the plate along, and the splines take the shaft. Only the output shaft stands.",
        "Pedal up means that the plate is gripped. What is the plate splined to?",
    ),
    (
        "The car rolls downhill in second gear, pedal fully down, engine idling at {rpm} rpm. What turns how?",
        "Flywheel and cover at engine speed; plate and shaft as the wheels turn them",
        (
            Mistake(
                "The plate stands, because the pedal is down",
                "thinks that the pedal stops the plate",
                (
                    "The pedal only frees the plate. In gear the wheels turn it, and far too low a gear "
                    "spins it until it bursts."
                ),
            ),
            Mistake(
                "Everything at engine speed",
                "thinks that the clutch is closed",
                (
                    "The clutch is open, so two speeds are possible. Letting the pedal up now "
                    "makes the clutch burn off the difference."
                ),
            ),
            Mistake(
                "Everything at the speed of the wheels",
                "thinks that wheels turn the engine with the pedal down",
                "The gap parts the engine from the plate. Who trusts engine braking with the pedal down rolls on.",
            ),
        ),
        "The gap makes two sides: one runs with the engine, the other with the wheels.",
        "Split the clutch at the gap. What is each side tied to?",
    ),
)


@exercise("carry.what-turns", lesson="carry", outcome=TRACES, minutes=2)
def what_turns(draw: Draw) -> Choice:
    ask, best, others, why, step = _TURNS[draw.form(3)]
    return Choice.of(
        draw,
        ask=ask.format(rpm=draw.value(750, 950, 10)),
        right=best,
        wrong=others,
        why=why,
        step=step,
        solution=f"{best}.",
        source="common-practice",
    )
