"""Lesson 6, measuring and deciding: run-out, with end float kept out of it."""

from itertools import combinations
from math import cos, pi

from bitepoint.bank.measure import readings
from bitepoint.bank.measure.common import DECIDES, RUNS_OUT, WORKS_OUT, Form, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.metrology import run_out_limit_mm, run_out_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.questions.sweep import Sweep
from bitepoint.workshop.vehicles import Vehicle


def turn_readings(draw: Draw, swing: int, rest: int) -> list[int]:
    """Return eight readings of one turn [0.01 mm]: a tilted face of about that swing, none left at nought."""
    start = draw.integer(0, 7)
    return [round(rest + swing / 2 * (1 - cos(2 * pi * (i - start) / 8)) + draw.integer(0, 1)) for i in range(8)]


Rows = tuple[list[int], list[int]]
"""What the gauge shows at each place and at place 1 again [0.01 mm]: the crankshaft held, and not held."""


def _sweep_rows(draw: Draw, above: bool) -> Rows:
    """Return readings of a face, all on one side of nought or on both, and the same with end float let in."""
    turn = turn_readings(draw, draw.integer(6, 13), draw.integer(3, 6) if above else -draw.integer(4, 6))
    held = [*turn, turn[0]]
    crept = [draw.integer(0, 11) for _ in held[:-1]]
    # Place 1 read again must give itself away.
    crept.append((crept[0] + draw.integer(4, 7)) % 12)
    return held, [line + more for line, more in zip(held, crept, strict=True)]


@exercise("measure.run-out", lesson="measure", outcome=RUNS_OUT, minutes=4, title="Run-out, place by place")
def run_out(draw: Draw) -> Sweep:
    car = draw.vehicle()
    within = plus_minus(0.004)
    held, loose = draw.until(_tells_apart, lambda: _sweep_rows(draw, draw.form(2) == 1))
    in_mm, loose_mm = [line / 100 for line in held], [line / 100 for line in loose]
    right, high, low = run_out_mm(in_mm), max(held), min(held)
    return Sweep(
        ask=f"Run-out of the flywheel of {car.name}: the gauge stands square on the face, one line 0.01 mm. "
        "Turn through all eight places and read place 1 again at the end. Keep end float out. "
        "Give the run-out, in mm.",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings.sweep(in_mm, loose_mm=loose_mm), within),
        why=f"Highest {high}, lowest {low}: the hand swings over {high - low} hundredths.",
        step=f"With the shaft pushed in, the highest reading is {high} hundredths and the lowest {low}. "
        "Take one from the other, with its sign.",
        solution=f"{high} − ({low}) = {high - low} hundredths = {right:.2f} mm.",
        picture=Picture("run-out-set", {"readings": in_mm}),
        source="tm-9-2815-202-34",
        vehicle=car.id,
        held=tuple(held),
        loose=tuple(loose),
    )


def _tells_apart(rows: Rows) -> bool:
    """Whether each usual mistake gives a figure of its own."""
    held, loose = rows
    high, low = max(held), min(held)
    swing, trap = high - low, high if low > 0 else abs(high + low)
    figures = (swing, trap, swing / 2, max(loose) - min(loose))
    return high <= 24 and 6 <= swing <= 16 and all(abs(a - b) > 1 for a, b in combinations(figures, 2))


@exercise(
    "measure.jumping-hand", lesson="measure", outcome=RUNS_OUT, minutes=2, beyond=True, title="The hand that jumps"
)
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


@exercise("measure.over-the-limit", lesson="measure", outcome=DECIDES, minutes=2.5, title="Run-out over its limit")
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


@exercise(
    "measure.radius-rule",
    lesson="measure",
    outcome=WORKS_OUT,
    minutes=2,
    beyond=True,
    title="Run-out allowed by the radius",
)
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
