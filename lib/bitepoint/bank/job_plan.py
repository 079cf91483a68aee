"""Lesson 12, the whole job: the kit out of ten, and the order of all the work."""

from collections.abc import Sequence

from bitepoint.bank.job_common import PLANS
from bitepoint.bank.job_story import Story, story_of
from bitepoint.bank.kit_common import kit_table
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque_common import Case, choice_from
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before
from bitepoint.questions.question import Mistake
from bitepoint.questions.work_order import WorkCard, WorkOrder
from bitepoint.workshop.kits import Kit, all_kits, found_on, kit_verdict
from bitepoint.workshop.operations import Never, job, never, operation, operations_for, rules_among
from bitepoint.workshop.vehicles import Vehicle


@exercise("job.kit", lesson="job", outcome=PLANS, minutes=6, title="One kit out of ten")
def kit(draw: Draw) -> Choice:
    story = story_of(draw)
    case = (_which, _wrong_box, _agreed)[draw.form(3)](story)
    return choice_from(draw, case, table=kit_table(), source="invented", vehicle=story.car.id)


def _read_on(story: Story) -> str:
    car = story.car
    return (
        f"Engine code {car.engine.code}, built {car.build.build_date}, gearbox {car.gearbox.code}, "
        f"option code {story.option}, {car.clutch.splines} splines"
    )


def _others(story: Story) -> tuple[Kit, Kit, Kit]:
    """The row that is nearest to the right one, and two of other engines."""
    mine = story.kit
    near = next(k for k in all_kits() if k.engine_code == mine.engine_code and k.kit != mine.kit)
    far = [k for k in all_kits() if k.engine_code != mine.engine_code]
    return near, far[0], far[-1]


def _against(story: Story, other: Kit) -> str:
    found = found_on(story.car, options={story.option}, flywheel_wanted="rigid")
    return kit_verdict(found, other).check


def _which(story: Story) -> Case:
    near, one, two = _others(story)
    return Case(
        f"Read on {story.car.name}: {_read_on(story)}. Agreed is a rigid flywheel. Which kit do you order?",
        story.kit.kit,
        (
            Mistake(
                near.kit,
                "stops at the engine code",
                f"The engine agrees, but the {_against(story, near)} does not. The car would stand in pieces.",
            ),
            Mistake(one.kit, "takes a row from the top of the list", _wrong_row(story, one)),
            Mistake(two.kit, "takes a row from the end of the list", _wrong_row(story, two)),
        ),
        "Every column agrees with the car. One that does not is enough to say no.",
        f"Cross out every row without the engine code {story.car.engine.code}. Two rows at most are left.",
    )


def _wrong_row(story: Story, other: Kit) -> str:
    return f"This kit says no at the {_against(story, other)}. It would be paid for and sent back."


def _wrong_box(story: Story) -> Case:
    near = _others(story)[0]
    return Case(
        f"Read on {story.car.name}: {_read_on(story)}. Agreed is a rigid flywheel. "
        f"The box on your bench says {near.kit}. What do you do?",
        f"Send it back: the {_against(story, near)} does not agree",
        (
            Mistake(
                "Fit it: the engine code agrees",
                "goes by the engine code alone",
                "One column that agrees is not enough. You would find out with the gearbox on the floor.",
            ),
            Mistake(
                "Strip the car first, then compare the parts",
                "checks the kit after the strip-down",
                "The car blocks the lift until the right box comes. Compare before the first bolt.",
            ),
            Mistake(
                "Take the old parts that fit and mix them with the new",
                "mixes parts of two kits",
                "Plate, cover and flywheel are made for each other. Mixed, they slip, drag or break.",
            ),
        ),
        "A box is checked column by column while the car still drives.",
        "Hold the row of this kit against the car, from left to right. Where do they part?",
    )


def _agreed(story: Story) -> Case:
    kind = "changes to a rigid flywheel" if story.changes_flywheel else "keeps its rigid flywheel"
    return Case(
        f"{story.kit.kit} is found for {story.car.name}. The car {kind}. What do you agree with the owner, and when?",
        "Price, flywheel type and what may come on top, in writing, before ordering",
        (
            Mistake(
                "The price, by phone, after ordering",
                "orders before it is agreed",
                "The owner may say no. Then the kit is yours, and so is the quarrel.",
            ),
            Mistake(
                "Nothing: the owner wants a clutch that works",
                "decides for the owner",
                "Noise and cost are the owner's to judge. Without a word you answer for every complaint.",
            ),
            Mistake(
                "Price and flywheel type, when the car is fetched",
                "asks for leave when all is done",
                "Asked at the end, a no comes too late. The work cannot be undone.",
            ),
        ),
        "In writing, before money is spent. What the bench shows later is agreed again.",
        "When can the owner still say no without harm to anybody?",
    )


_CARDS = (
    ("D4", "D5b", "D6", "R2", "R4", "R7", "R11", "R15", "C1", "C2", "C6", "I7",
     "A6", "A8b", "A9", "A12", "A14", "F2", "F3", "T1", "T5", "H2"),
    ("D4", "D6", "R2", "R4", "R10", "R13", "R15", "C1", "C3", "C6", "I2", "I7",
     "A2", "A5", "A6", "A9", "A10", "A12", "A16", "F1", "F4", "T2", "T4", "H2"),
    ("D4", "D6", "R2", "R4", "R11", "R13", "R15", "C2", "C6", "I7",
     "A5", "A6", "A8b", "A9", "A13", "A13b", "A14", "A15", "F2", "F3", "F6", "T4", "T5", "H2"),
)  # fmt: skip
"""Three hands of cards from the short list of the whole job; a bench holds 26 letters, two of them strangers."""
_STRANGERS = ("X1", "X2", "X3", "X5", "X6", "X7", "X8")


@exercise("job.order", lesson="job", outcome=PLANS, minutes=10, title="The order of the whole job")
def order(draw: Draw) -> WorkOrder:
    car = draw.vehicle()
    ids = cards_of(car, draw.form(len(_CARDS)))
    forbidden = [known for name in draw.sample(_STRANGERS, 2) if (known := never(name))]
    example = tuple(operation(name).short for name in ids)
    return WorkOrder.of(
        draw,
        example=example,
        rules=_rules(ids),
        strangers=[_stranger(known) for known in forbidden],
        ask=f"The whole job on {car.name}, from the decision to the record. These are {len(ids)} of its operations. "
        "Pick one card after the other, so that nothing falls, jumps or is hidden unmeasured. "
        "Two cards show what is never done: leave them.",
        why="First know, then agree, then make safe. What will be hidden is measured before it is hidden.",
        step=f"It starts with “{example[0]}” and ends with “{example[-1]}”. The parts are decided before any is fitted.",
        solution="\n".join(f"{i}. {text}" for i, text in enumerate(example, start=1)),
        source="common-practice",
        vehicle=car.id,
    )


def cards_of(car: Vehicle, form: int) -> tuple[str, ...]:
    """Return the ids of one hand of cards in the order of the list, those only that this car has."""
    listed = [step.id for step in operations_for(car.id, core=True)]
    return tuple(name for name in listed if name in _CARDS[form])


def _rules(ids: Sequence[str]) -> tuple[Before, ...]:
    return tuple(
        Before(operation(r.before).short, operation(r.after).short, f"{r.because}.", r.kind, r.critical)
        for r in rules_among(ids)
        if r.kind != "never"
    )


def _stranger(known: Never) -> WorkCard:
    return WorkCard(known.text, belongs=False, says=f"That is never done: {known.because}.", never=True)


def stages_of(ids: Sequence[str]) -> set[str]:
    """Return the parts of the job that a hand of cards touches."""
    return {step.stage for step in job().operations if step.id in ids}
