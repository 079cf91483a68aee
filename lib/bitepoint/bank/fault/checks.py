"""Lesson 3, finding the fault: checks without dismantling."""

from bitepoint.bank.fault.common import CHECKS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order
from bitepoint.questions.question import Mistake

_TALK, _PEDAL = "Ask the driver and write the words down", "Measure pedal travel, free play and return"
_MOUNTS, _MEMORY = "Try mounts and shafts with a bar", "Read the fault memory"
_ROAD, _DECIDE = "Road test by the authorised driver", "Decide, and have the order signed"
_FLUID, _CABLE = "Look at fluid level and leaks", "Look at the cable from end to end"


def _check_rules(look: str, danger: str) -> tuple[Before, ...]:
    return (
        Before(_TALK, _ROAD, "the words say in which gear and load the test must be made."),
        Before(look, _ROAD, danger, "safety", True),
        Before(_PEDAL, _ROAD, "a pedal that does not come back can fail on the road.", "safety", True),
        Before(_MOUNTS, _ROAD, "a torn mount lets the engine move and jam something.", "safety", True),
        Before(_MEMORY, _ROAD, "a stored misfire explains a judder before anyone drives."),
        Before(_ROAD, _DECIDE, "the figure from the road is the proof for the order."),
        Before(_TALK, look, "you look where the words point.", "economy"),
        Before(look, _MOUNTS, "a look takes a minute, the bar takes ten.", "economy"),
    )


@exercise("fault.checks-order", lesson="fault", title="Order of the checks", outcome=CHECKS, minutes=3)
def checks_order(draw: Draw) -> Order:
    cable = draw.form(2) == 1
    look = _CABLE if cable else _FLUID
    danger = (
        "a frayed cable breaks under the foot and the car does not come free."
        if cable
        else "a leak near the brakes, or no release, is found on the road too late."
    )
    example = (_TALK, look, _PEDAL, _MEMORY, _MOUNTS, _ROAD, _DECIDE)
    return Order.of(
        draw,
        example=example,
        rules=_check_rules(look, danger),
        ask=f"A car with a clutch {'cable' if cable else 'worked by fluid'}. "
        "Put the checks before “gearbox out” in a sensible and safe order.",
        why="What makes the drive unsafe is found before the drive. The decision comes last, with a figure.",
        step="Which checks must be done before anyone drives the car? Put the drive behind them.",
        solution="\n".join(f"{i}. {text}." for i, text in enumerate(example, 1)),
        source="common-practice",
    )


_JUST_BLEED = Mistake(
    "Bleed it, then hand it back",
    "bleeds without finding the leak",
    "Air came in where fluid went out. In a week the pedal is down again, perhaps in traffic.",
)
_TOP_UP = Mistake(
    "Top up and watch for a month",
    "tops up a leak",
    "The fluid goes somewhere: onto the plate, the carpet or out of the brakes. The pedal may fall on the road.",
)
_WORN = Mistake(
    "Renew the plate: it must be worn",
    "thinks that wear costs fluid",
    "Wear pushes fluid back into the tank on most cars. The gearbox comes out and the leak stays in.",
)

_SOFT: tuple[tuple[str, str, tuple[Mistake, ...], str], ...] = (
    (
        (
            "Concentric slave. Pedal soft in the morning, good after {n} strokes. The level falls "
            "slowly, nothing drips. What next?"
        ),
        "Look at the lowest point of the housing and behind the pedal",
        (_JUST_BLEED, _TOP_UP, _WORN),
        "Where can fluid leave without dripping on the floor?",
    ),
    (
        (
            "External slave. The pedal sinks under the foot in {n} seconds; the level stays. "
            "Which part do you suspect first?"
        ),
        "The cups inside the master cylinder",
        (
            Mistake(
                "A leaking slave cylinder",
                "forgets the level",
                "A leak that lets the pedal sink empties the tank too. Changed in vain, the pedal sinks on.",
            ),
            Mistake(
                "Air in the line",
                "mixes up springy and sinking",
                "Air springs back but does not leave under the foot. Bled ten times, it still sinks.",
            ),
            _WORN,
        ),
        "The level stays, so the fluid has not left. Where can it flow back?",
    ),
    (
        "Cable. The pedal needs much more force for {n} weeks and comes back slowly. What next?",
        "Unhook the cable and see whether it runs freely by itself",
        (
            Mistake(
                "Grease the guide tube through the fork opening",
                "greases by guess",
                "Grease sprayed in there lands on the facing. Then it slips as well.",
            ),
            Mistake(
                "Gearbox out: the cover is worn",
                "takes the longest way first",
                "That is hours for a part that hangs outside. The stiff cable would spoil the new clutch too.",
            ),
            Mistake(
                "Set the free play smaller",
                "cures force with adjustment",
                "Less play does not take friction away. The bearing then rides on the fingers and it slips.",
            ),
        ),
        "Which part can be tested alone in a minute?",
    ),
)


@exercise("fault.soft-pedal", lesson="fault", outcome=CHECKS, minutes=2, beyond=True)
def soft_pedal(draw: Draw) -> Choice:
    ask, best, others, step = _SOFT[draw.form(3)]
    return Choice.of(
        draw,
        ask=ask.format(n=draw.integer(4, 9)),
        right=best,
        wrong=others,
        why="One thing at a time, the quickest first. It finds the place, not only the sign.",
        step=step,
        solution=f"{best}.",
        source="common-practice",
    )
