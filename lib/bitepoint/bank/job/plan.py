"""Lesson 12, the whole job: what is settled before the first bolt, and the gearbox back in without force."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.job.common import ORDERS
from bitepoint.bank.job.story import Story, story_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import torque_wrench


@exercise("job.plan", lesson="job", outcome=ORDERS, minutes=3, title="Before the first bolt")
def plan(draw: Draw) -> Choice:
    story = story_of(draw)
    case = (_agreed, _tools, _safe)[draw.form(3)](story)
    return choice_from(draw, case, vehicle=story.car.id)


def _agreed(story: Story) -> Case:
    kind = "changes to a rigid flywheel" if story.changes_flywheel else "keeps its rigid flywheel"
    return Case(
        f"{story.kit.kit} is found for {story.car.name}. The car {kind}. "
        "What do you agree with the customer, and when?",
        "Price, flywheel type and what may come on top, in writing, before ordering",
        (
            Mistake(
                "The price, by phone, after ordering",
                "orders before it is agreed",
                "The customer may say no. Then the kit is yours, and so is the quarrel.",
            ),
            Mistake(
                "Nothing: the customer wants a clutch that works",
                "decides for the customer",
                "Noise and cost are for the customer to judge. Without a word you answer for every complaint.",
            ),
            Mistake(
                "Price and flywheel type, when the car is fetched",
                "asks for leave when all is done",
                "Asked at the end, a no comes too late. The work cannot be undone.",
            ),
        ),
        "In writing, before money is spent. What the bench shows later is agreed again.",
        "When can the customer still say no without harm to anybody?",
    )


def _tools(story: Story) -> Case:
    final = story.car.flywheel.tightening.final_nm
    late = torque_wrench("TW3")
    return Case(
        f"Kit and price for {story.car.name} are agreed. Which tools must lie ready before the first bolt?",
        "Every tool of the sheet, looked at, and torque wrenches in date whose scales reach each figure",
        (
            Mistake(
                f"TW3 alone: up to {late.highest_nm:g} N·m, it reaches everything",
                "overlooks a wrench out of date",
                f"TW3 was due on {late.due}. Nobody knows what it clicks at, and these bolts hold the flywheel.",
                True,
            ),
            Mistake(
                "A spanner and a feel for it: no lists",
                "trusts the feel of the hand",
                f"No hand feels {final:g} N·m. Some bolts stay loose, others stretch, and nobody can tell which.",
                True,
            ),
            Mistake(
                "Start: what is missing is fetched as it turns up",
                "looks for tools with the gearbox hanging",
                "The gearbox waits on its jack while you search. Somebody then makes do with the wrong tool.",
            ),
        ),
        "Lock, centring tool, gauge, wrenches in date: seen now, they cost minutes. Missed later, they cost the day.",
        "Think of the hour when the gearbox is out. What must not be missing then?",
    )


def _safe(story: Story) -> Case:
    kg = story.car.masses.gearbox_kg
    return Case(
        f"The gearbox of {story.car.name} weighs {kg:g} kg, and old clutch dust lies in its housing. "
        "What is settled before the car goes up?",
        "Lift in date, engine held, box strapped to its jack, dust kept wet or drawn off, battery off",
        (
            Mistake(
                "Lift and jack; the dust is blown out with air",
                "blows dust about",
                "Old dust can hold fibres that kill years later. Blown out, everybody in the bay breathes it.",
                True,
            ),
            Mistake(
                f"Nothing special: two people carry {kg:g} kg",
                "carries a gearbox by hand",
                "Above your head no grip holds. It drops on a foot or a face.",
                True,
            ),
            Mistake(
                "All that is settled as the work goes on",
                "thinks of risk as it turns up",
                "With the engine hanging free it is too late to look for a beam. It tips on whoever is below.",
                True,
            ),
        ),
        "What holds, what lifts and what is breathed is settled while the car still stands on its wheels.",
        "What could fall, what could be breathed, and what could start by itself?",
    )
