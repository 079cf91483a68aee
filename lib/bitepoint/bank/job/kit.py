"""Lesson 12, the whole job: one kit out of ten."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.job.common import FINDS, own_first
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.kit.common import kit_table
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.kits import Kit, all_kits, found_on, kit_verdict


@exercise("job.kit", lesson="job", outcome=FINDS, minutes=4, title="One kit out of ten")
def kit(draw: Draw) -> Choice:
    story = story_of(draw)
    case = (_which, _wrong_box)[own_first(draw, 2)](story)
    return choice_from(draw, case, table=kit_table(), source="invented", vehicle=story.car.id)


def _read_on(story: Story) -> str:
    car = story.car
    return (
        f"engine code {car.engine.code}, built {car.build.build_date}, gearbox {car.gearbox.code}, "
        f"option code {story.option}, {car.clutch.splines} splines"
    )


def _near(story: Story) -> Kit:
    """The row that is nearest to the right one: the same engine, another column that says no."""
    mine = story.kit
    return next(k for k in all_kits() if k.engine_code == mine.engine_code and k.kit != mine.kit)


def _other_engines(story: Story) -> list[Kit]:
    return [kit for kit in all_kits() if kit.engine_code != story.car.engine.code]


def _against(story: Story, other: Kit) -> str:
    found = found_on(story.car, options={story.option}, flywheel_wanted="rigid")
    return kit_verdict(found, other).check


def _which(story: Story) -> Case:
    near = _near(story)
    return Case(
        f"Read on {story.car.name}: {_read_on(story)}. Agreed is a rigid flywheel. Which kit do you order?",
        story.kit.kit,
        (
            Mistake(
                near.kit,
                "stops at the engine code",
                f"The engine agrees, but the {_against(story, near)} does not. The car would stand in pieces.",
            ),
            *(
                Mistake(kit.kit, f"reads past the engine code, row {row}", _wrong_row(story, kit))
                for row, kit in enumerate(_other_engines(story), start=1)
            ),
        ),
        "Every column agrees with the car. One that does not is enough to say no.",
        f"Cross out every row without the engine code {story.car.engine.code}. Two rows at most are left.",
    )


def _wrong_row(story: Story, other: Kit) -> str:
    return f"This kit says no at the {_against(story, other)}. It would be paid for and sent back."


def _wrong_box(story: Story) -> Case:
    near = _near(story)
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
