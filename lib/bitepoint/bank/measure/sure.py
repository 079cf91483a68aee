"""Lesson 6, measuring and deciding: how sure a figure is."""

from bitepoint.bank.measure import readings
from bitepoint.bank.measure.common import IS_SURE, Form, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.tools import FEELER_LEAVES_MM
from bitepoint.workshop.vehicles import Vehicle


@exercise("measure.feeler", lesson="measure", outcome=IS_SURE, minutes=2, title="What the feeler leaves say")
def feeler(draw: Draw) -> Number:
    car = draw.vehicle()
    upper = draw.form(2) == 1
    left_out = draw.pick(*FEELER_LEAVES_MM)
    leaves = [leaf for leaf in FEELER_LEAVES_MM if leaf != left_out]
    at = draw.integer(1, 4 if not upper else 3)
    goes, stops = leaves[at], leaves[at + 1]
    right, within = stops if upper else goes, plus_minus(0.004)
    asked = "Which leaf does the gap surely stay below" if upper else "How wide is the gap at least"
    return Number(
        ask=f"Straight edge across the flywheel of {car.name}, place {draw.integer(1, 6)}. Every leaf of the set was tried; "
        f"the gap is drawn enlarged. {asked}, in mm?",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings.feeler(leaves, goes, upper=upper), within),
        why=f"Leaf {goes:.2f} goes, leaf {stops:.2f} does not. Two leaves give two bounds, never a figure.",
        step="Go from thin to thick: which leaf is the last that reaches under the edge, and which is the first that stops?",
        solution=f"At least {goes:.2f} mm, surely below {stops:.2f} mm.",
        picture=Picture("feeler-and-straight-edge", {"goes_mm": goes, "leaves_mm": leaves}),
        source="tm-5-2420-222-34",
        vehicle=car.id,
    )


@exercise("measure.on-the-limit", lesson="measure", outcome=IS_SURE, minutes=2, title="On the limit, or nearly")
def on_the_limit(draw: Draw) -> Choice:
    car = draw.vehicle()
    form = draw.form(4)
    make = (_exactly, _rounded, _with_uncertainty, _no_leaf)[form]
    source = ("common-practice", "common-practice", "iso-14253-1", "tm-5-2420-222-34")[form]
    return choice_from(draw, make(draw, car), source=source, vehicle=car.id)


def _no_leaf(draw: Draw, car: Vehicle) -> Form:
    limit = car.flywheel.flatness_limit_mm
    goes = limit - 0.01
    return (
        f"Flywheel of {car.name}, limit {limit:g} mm. Leaf {goes:.2f} mm goes under the straight edge, leaf "
        f"{limit + 0.02:.2f} mm does not. The set has no leaf between. It is {draw.integer(3, 5)} o'clock. What do you do?",
        "Stop and ask: with these leaves it cannot be told",
        (
            Mistake(
                "Push harder until the thick leaf goes",
                "forces a leaf",
                "A forced leaf lifts the straight edge and shows a gap that is not there.",
            ),
            Mistake(
                "Reuse it: the thin leaf went easily",
                "decides without knowing",
                "Easy or not, the gap may be above the limit. Then the clutch judders and slips.",
            ),
            Mistake(
                "Write down the limit as the figure",
                "writes what ought to be there",
                "A record holds what was measured. The next person relies on a figure nobody saw.",
            ),
        ),
        "The limit lies between the two leaves. Another set of leaves or a senior eye settles it.",
        "What is sure about the gap, and what is not?",
    )


def _exactly(draw: Draw, car: Vehicle) -> Form:
    limit = car.clutch.plate_runout_limit_mm
    return (
        f"Plate run-out of {car.name}: the sheet says max {limit:g} mm. On {draw.integer(2, 4)} tries you measure "
        f"{limit:.2f} mm. No uncertainty is given. What do you decide?",
        "It is within: write the figure down and tell the customer",
        (
            Mistake(
                "Scrap: on the limit is over the limit",
                "thinks that max leaves the value out",
                "The word max includes the value. The customer pays for a part that was good.",
            ),
            Mistake(
                "Take off a guard band and scrap it",
                "keeps a guard band where none is due",
                "A guard band needs an uncertainty, and none is given. You would be making up a limit.",
            ),
            Mistake(
                "Write down a little less, to be clear",
                "bends the figure",
                "A record holds what was read. Bent once, no figure of yours is worth anything.",
            ),
        ),
        "Max means not more than. The value itself still passes, and the customer hears that it is close.",
        "Say the limit in full words: not more than. Is the figure more?",
    )


def _rounded(draw: Draw, car: Vehicle) -> Form:
    limit = car.flywheel.face_runout_limit_mm
    found = limit + draw.integer(2, 4) / 1000
    return (
        f"Flywheel run-out of {car.name}: max {limit:.2f} mm. A gauge that shows thousandths reads {found:.3f} mm, "
        "three times the same. What do you decide?",
        "It is over: take it off, clean, and measure again",
        (
            Mistake(
                f"It is {limit:.2f} mm when rounded: within",
                "rounds towards the limit",
                "Rounding does not make a face run true. With it every limit moves by half a step.",
            ),
            Mistake(
                "A few thousandths do no harm",
                "widens a limit by feeling",
                "Who draws the line then? The next one passes a little more, until it judders.",
            ),
            Mistake(
                "Measure until one reading fits",
                "picks the reading that pleases",
                "Three readings agree. A fourth that fits by luck does not outweigh them.",
            ),
        ),
        "A figure is read as finely as the gauge shows it, and held against the limit as it is.",
        f"Is {found:.3f} more than {limit:.3f}?",
    )


def _with_uncertainty(draw: Draw, car: Vehicle) -> Form:
    limit = car.flywheel.face_runout_limit_mm
    found = limit - draw.integer(4, 8) / 1000
    return (
        f"Flywheel run-out of {car.name}: max {limit:.2f} mm, measured {found:.3f} mm. The measuring card gives a "
        "standard uncertainty of 0.010 mm. The guard band is 1.645 times that. What do you decide?",
        "Stop and ask: it lies in the guard band",
        (
            Mistake(
                "Reuse: it is below the limit",
                "leaves a given uncertainty out",
                "An uncertainty is given, so it counts. The true figure may well be over.",
            ),
            Mistake(
                "Replace: it is over the limit",
                "takes doubt for proof",
                "It is not proven to be over either. You would scrap a part that may be good.",
            ),
            Mistake(
                "Add the uncertainty to the limit, then reuse",
                "turns the doubt the wrong way",
                "Then the worst gauge would give the widest limit. The doubt counts against whoever says good.",
            ),
        ),
        "Between surely good and surely bad lies an honest third answer. A better measurement settles it.",
        "Work out the guard band first, then see how far the figure is from the limit.",
    )
