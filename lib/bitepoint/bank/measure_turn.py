"""Lesson 6, measuring and deciding: run-out and end float, held apart."""

from math import cos, pi

from bitepoint.bank.measure_common import DECIDES, RUNS_OUT, WORKS_OUT, Form, choice_from, hundredths
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.metrology import run_out_limit_mm, run_out_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import Vehicle


def turn_readings(draw: Draw, swing: int, rest: int) -> list[int]:
    """Return eight readings of one turn [0.01 mm]: a tilted face of about that swing, none left at nought."""
    start = draw.integer(0, 7)
    return [round(rest + swing / 2 * (1 - cos(2 * pi * (i - start) / 8)) + draw.integer(0, 1)) for i in range(8)]


@exercise("measure.run-out", lesson="measure", outcome=RUNS_OUT, minutes=2.5)
def run_out(draw: Draw) -> Number:
    car = draw.vehicle()
    form = draw.form(2)
    readings = draw.until(
        _tells_apart,
        lambda: turn_readings(draw, draw.integer(6, 14), draw.integer(5, 9) if form else -draw.integer(4, 6)),
    )
    right = run_out_mm([r / 100 for r in readings])
    high, low = max(readings), min(readings)
    first = (
        Mistake(
            high / 100,
            "takes the highest reading alone",
            "Where zero was set is chance. Only the whole swing of the hand counts, so the figure means nothing.",
        )
        if form
        else Mistake(
            abs(high + low) / 100,
            "drops the minus sign",
            "A minus reading lies on the other side of zero. Without the sign the swing comes out too small.",
        )
    )
    return Number(
        ask=f"Flywheel of {car.name}, dial gauge at the radius of the sheet, crankshaft pushed to the same side each "
        f"time. Eight readings in hundredths of a millimetre: {hundredths(readings)}. Give the run-out.",
        answer=right,
        unit="mm",
        within=plus_minus(0.004),
        decimals=2,
        mistakes=(
            first,
            Mistake(
                right / 2,
                "halves it",
                "Run-out is the full swing of the hand. Half of it is how far the centre is off. "
                "Halved, a face twice over the limit passes.",
            ),
        ),
        why=f"Highest {high}, lowest {low}: the hand swings over {high - low} hundredths.",
        step=f"Find the highest reading, {high}, and the lowest, {low}. Take one from the other, with its sign.",
        solution=f"{high} − ({low}) = {high - low} hundredths = {right:.2f} mm.",
        source="tm-9-2815-202-34",
        vehicle=car.id,
    )


def _tells_apart(readings: list[int]) -> bool:
    """Whether the usual mistakes give figures of their own."""
    high, low = max(readings), min(readings)
    swing = high - low
    wrong = high if low > 0 else abs(high + low)
    return 6 <= swing <= 16 and abs(wrong - swing) > 1 and abs(2 * wrong - swing) > 2


@exercise("measure.end-float", lesson="measure", outcome=RUNS_OUT, minutes=2)
def end_float(draw: Draw) -> Number:
    car = draw.vehicle()
    crossing = draw.form(2) == 1
    low = -draw.integer(3, 9) if crossing else draw.integer(4, 12)
    high = low + draw.integer(10, 38) + (10 if crossing else 0)
    right = (high - low) / 100
    return Number(
        ask=f"You lever the crankshaft of {car.name} to and fro and push it against both stops. The dial gauge reads "
        f"{low / 100:+.2f} mm at one stop and {high / 100:+.2f} mm at the other. Give the end float.",
        answer=right,
        unit="mm",
        within=plus_minus(0.006),
        decimals=2,
        mistakes=(
            Mistake(
                high / 100,
                "takes the second reading alone",
                "The first stop did not read zero. Where the gauge stood at first is part of the travel.",
            ),
            Mistake(
                (high + low) / 100,
                "adds instead of taking away",
                "You want the way from one reading to the other. Take away, and mind the signs.",
            ),
        ),
        why="End float is the way from one stop to the other: one reading less the other.",
        step=f"From {low / 100:+.2f} to {high / 100:+.2f} mm: how far is that on a line?",
        solution=f"{high / 100:.2f} − ({low / 100:.2f}) = {right:.2f} mm.",
        source="common-practice",
        vehicle=car.id,
    )


@exercise("measure.jumping-hand", lesson="measure", outcome=RUNS_OUT, minutes=2)
def jumping_hand(draw: Draw) -> Choice:
    return choice_from(draw, (_jumps, _first_again)[draw.form(2)](draw), source="tm-9-2815-202-34")


def _jumps(draw: Draw) -> Form:
    jump = draw.integer(11, 18)
    return (
        f"Between two neighbouring places the hand jumps by {jump} hundredths. Pushed in and held, "
        f"the same face swings over {draw.integer(4, 7)} hundredths in the whole turn. What was it?",
        "The crankshaft moved in its end float; only the held readings count",
        (
            Mistake(
                "The flywheel is dented at that place",
                "takes every reading for true",
                "A face does not jump so far within an eighth of a turn. You would scrap a good flywheel.",
            ),
            Mistake(
                "Take the mean of both sets",
                "averages wrong figures",
                "Wrong readings do not get better by averaging. The figure then means nothing.",
            ),
            Mistake(
                "Leave the jump out and use the rest",
                "leaves out what does not please",
                "The shaft may have moved at other places too. Part of the set is still false.",
            ),
        ),
        "End float goes straight into the reading. So the shaft is pushed to the same side before every reading.",
        "Which of the two can jump: a turned steel ring, or a shaft with play?",
    )


def _first_again(draw: Draw) -> Form:
    off = draw.integer(5, 12)
    return (
        f"After a full turn you are back at place 1. The hand shows {off} hundredths more than at the start. "
        "What do you do?",
        "Fix the stand, push the shaft to one side and measure again",
        (
            Mistake(
                "Use the eight readings as they are",
                "trusts a set that does not close",
                "The same place gave two figures. So something moved, and no reading of the set is sure.",
            ),
            Mistake(
                f"Take {off} hundredths off every reading",
                "corrects by guess",
                "Nobody knows at which place it moved. You would only shift the error about.",
            ),
            Mistake(
                "Write the second reading over the first",
                "makes the figures agree",
                "Then the record hides that the set is false. Somebody decides on it.",
            ),
        ),
        "Place 1 read twice is the check of the whole set. Two hundredths apart is usual, more is not.",
        "One place, two readings. What can have moved in between?",
    )


@exercise("measure.over-the-limit", lesson="measure", outcome=DECIDES, minutes=2.5)
def over_the_limit(draw: Draw) -> Choice:
    car = draw.vehicle()
    limit = car.flywheel.face_runout_limit_mm
    found = limit + draw.integer(3, 8) / 100
    form = (_new_over, _still_over)[draw.form(2)]
    return choice_from(draw, form(draw, car, found), source="tm-9-2815-202-34", vehicle=car.id)


def _new_over(draw: Draw, car: Vehicle, found: float) -> Form:
    return (
        f"Fitted and finally tightened, the new flywheel of {car.name} runs out {found:.2f} mm. "
        f"The sheet allows {car.flywheel.face_runout_limit_mm:g} mm. What next?",
        "Take it off, clean both seats, look for burrs, fit it with new bolts, measure again",
        (
            Mistake(
                "Go on: a new part is true",
                "trusts a new part",
                "A chip under the seat tilts the best flywheel. Judder comes back with the customer.",
            ),
            Mistake(
                "Same again, with the bolts that were just in",
                "uses tightened bolts again",
                "Those bolts have done their work. Used again they can come loose or break.",
                True,
            ),
            Mistake(
                "Strike the high side with a hammer",
                "knocks a flywheel straight",
                "A flywheel is not knocked straight. The blow hurts the seat and can start a crack.",
                True,
            ),
        ),
        "Most often it is dirt or a burr. Only a clean second try shows whether the part is at fault.",
        "What lies between two clean faces that ought to be flat?",
    )


def _still_over(draw: Draw, car: Vehicle, found: float) -> Form:
    return (
        f"Cleaned and fitted again with new bolts, the flywheel of {car.name} still runs out {found:.2f} mm, "
        f"limit {car.flywheel.face_runout_limit_mm:g} mm. The crankshaft flange itself is over its limit too. And now?",
        "Stop and ask: the crankshaft is not decided by a fitter alone",
        (
            Mistake(
                "Put thin shims under the low side",
                "packs a flywheel with shims",
                "Shims settle, and the bolts lose their preload. The flywheel can come loose.",
                True,
            ),
            Mistake(
                "Send the flywheel back as faulty",
                "blames the new part",
                "The flange carries it askew. The next flywheel will run out just as much.",
            ),
            Mistake(
                "Turn it by one hole and measure again",
                "turns a flywheel on its pattern",
                "Many fit in one position only, for the speed sensor. And the flange stays askew.",
            ),
        ),
        "The cause lies in the flange. That is work on the engine, with a price of its own.",
        "Two parts can be at fault. Which of them did you measure by itself?",
    )


@exercise("measure.radius-rule", lesson="measure", outcome=WORKS_OUT, minutes=2, beyond=True)
def radius_rule(draw: Draw) -> Number:
    radius = draw.integer(90, 125)
    right = run_out_limit_mm(radius)
    form = draw.form(2)
    across = f"a circle of {2 * radius} mm diameter" if form else f"a radius of {radius} mm"
    return Number(
        ask=f"A public manual allows 0.001 mm of face run-out for each millimetre of radius. The gauge stands on "
        f"{across}. How much does that rule allow?",
        answer=right,
        unit="mm",
        within=percent(1),
        decimals=3,
        mistakes=(
            Mistake(
                2 * right if form else right / 2,
                "takes the diameter" if form else "halves the radius",
                "The rule counts from the centre to the stylus. Your limit is out by a factor of two.",
            ),
            Mistake(
                right * 25.4,
                "changes inches into millimetres",
                "Inch for inch is the same number as millimetre for millimetre. Nothing is to be changed.",
            ),
        ),
        why="Run-out grows with the radius. That is why a sheet names the radius with the limit. The sheet wins.",
        step="Find the distance from the centre to the stylus, then multiply by 0.001.",
        solution=f"0.001 × {radius} = {right:.3f} mm.",
        source="tm-9-2815-202-34",
    )
