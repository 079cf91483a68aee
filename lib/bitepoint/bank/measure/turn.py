"""Lesson 6, measuring and deciding: run-out, with end float kept out of it."""

from itertools import combinations
from math import cos, pi

from bitepoint.bank.forms import form_of
from bitepoint.bank.measure import readings, readings_dial
from bitepoint.bank.measure.outcomes import DECIDES, RUNS_OUT
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.metrology import run_out_mm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import plus_minus
from bitepoint.questions.question import Picture
from bitepoint.questions.sweep import Sweep


def turn_readings(draw: Draw, swing: int, rest: int) -> list[int]:
    """Return eight readings of one turn [0.01 mm]: a tilted face of about that swing, none left at nought."""
    start = draw.integer(0, 7)
    more = draw.integers(8, 0, 1)
    return [round(rest + swing / 2 * (1 - cos(2 * pi * (i - start) / 8)) + more[i]) for i in range(8)]


Rows = tuple[list[int], list[int]]
"""What the gauge shows at each place and at place 1 again [0.01 mm]: the crankshaft held, and not held."""


def _sweep_rows(draw: Draw, above: bool) -> Rows:
    """Return readings of a face, all on one side of nought or on both, and the same with end float let in."""
    turn = turn_readings(draw, draw.integer(6, 13), draw.integer(3, 6) if above else -draw.integer(4, 6))
    held = [*turn, turn[0]]
    crept = draw.integers(len(turn), 0, 11)
    # Place 1 read again must give itself away.
    crept.append((crept[0] + draw.integer(4, 7)) % 12)
    return held, [line + more for line, more in zip(held, crept, strict=True)]


@exercise("measure.run-out", lesson="measure", outcome=RUNS_OUT, minutes=4, title="Measure run-out, place by place")
def run_out(draw: Draw) -> Sweep:
    car = draw.vehicle()
    limit, within = car.flywheel.face_runout_limit_mm, plus_minus(0.004)
    above, at_limit = draw.form(2) == 1, round(100 * limit)
    # Never exactly the limit, which stands in the words: a reading is not to be found there.
    held, loose = draw.until(
        lambda rows: _tells_apart(rows) and max(rows[0]) - min(rows[0]) != at_limit,
        lambda: _sweep_rows(draw, above),
    )
    in_mm, loose_mm = [line / 100 for line in held], [line / 100 for line in loose]
    right, high, low = run_out_mm(in_mm), max(held), min(held)
    return Sweep(
        ask=f"Run-out of the flywheel of {car.name}, limit {limit:.2f} mm: the gauge stands square on the face, one line 0.01 mm. "
        "Turn through all eight places and read place 1 again at the end. Keep end float out. "
        "Give the run-out, in mm.",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings_dial.sweep(in_mm, loose_mm=loose_mm), within),
        why=f"Highest {high}, lowest {low}: the hand swings over {high - low} hundredths.",
        step=f"With the shaft pushed in, the highest reading is {high} hundredths and the lowest {low}. "
        "Take one from the other, with its sign.",
        solution=f"{high} − ({low}) = {high - low} hundredths = {right:.2f} mm, limit {limit:.2f} mm. "
        + (
            "Over: off, clean both faces, refit with new bolts."
            if right > limit + 1e-9
            else "Within: write it down and go on."
        ),
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
    "measure.jumping-hand",
    lesson="measure",
    outcome=RUNS_OUT,
    minutes=2,
    beyond=True,
    title="Explain a hand that jumps",
)
def jumping_hand(draw: Draw) -> Choice:
    form = form_of(draw)
    if form.key == "does-not-close":
        return form.choice(draw, off=draw.integer(5, 12))
    return form.choice(draw, jump=draw.integer(11, 18), swing=draw.integer(4, 7))


@exercise(
    "measure.over-the-limit", lesson="measure", outcome=DECIDES, minutes=2.5, title="Go on after too much run-out"
)
def over_the_limit(draw: Draw) -> Choice:
    car = draw.vehicle()
    limit = car.flywheel.face_runout_limit_mm
    found = limit + draw.integer(3, 8) / 100
    return form_of(draw).choice(draw, vehicle=car.id, car=car.name, limit=f"{limit:g}", found=f"{found:.2f}")
