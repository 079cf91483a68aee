"""Lesson 6, measuring and deciding: reading the instruments, each from its drawing."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.measure import readings, readings_dial
from bitepoint.bank.measure.outcomes import READS, RUNS_OUT
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.scales import (
    dial_gauge_hands,
    inner_scale_lines,
    micrometer_reading_mm,
    vernier_reading_mm,
)
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Picture

PRELOAD = 1.0
"""Where the dial gauges of this lesson are set [mm]."""


@exercise("measure.vernier", lesson="measure", outcome=READS, minutes=2, title="Read a vernier caliper")
def vernier(draw: Draw) -> Number:
    least = (0.02, 0.05)[draw.form(2)]
    lines = round(1 / least)
    main, line = draw.integer(19, 44), draw.integer(3, lines - 2)
    right, within = vernier_reading_mm(main, line=line, least_count_mm=least), plus_minus(0.4 * least)
    what = draw.pick("the splined shaft across", "a bolt under its head", "the depth of a bore")
    return Number(
        ask=f"You measure {what} with this caliper. One line of the slider counts {least} mm. "
        "Below, the place is enlarged where a line meets a line. Read the caliper, in mm.",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings.vernier(right, resolution=least), within),
        why=f"{main} mm before the zero, and {line} lines of {least} mm: {right:.2f} mm.",
        step=f"Before the zero of the slider stand {main} mm. The line that meets is line {line}, counted from that zero. "
        f"Each line counts {least} mm.",
        solution=f"{main} + {line} × {least} = {right:.2f} mm.",
        picture=Picture("vernier", {"value_mm": right, "resolution": least}),
        source="common-practice",
    )


@exercise("measure.micrometer", lesson="measure", outcome=READS, minutes=2, title="Read a micrometer")
def micrometer(draw: Draw) -> Number:
    half = draw.form(3) != 2
    sleeve, thimble = draw.integer(6, 9), draw.integer(3, 46)
    right, within = micrometer_reading_mm(sleeve, half_line=half, thimble=thimble), plus_minus(0.004)
    return Number(
        ask="A driven plate, pressed flat, between the faces of this micrometer. The thimble has 50 marks, "
        "one turn is half a millimetre. Read the thickness, in mm.",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings.micrometer(right), within),
        why="Whole millimetres, the half line if it shows, then one hundredth for each mark.",
        step=f"On the sleeve stand {sleeve + 0.5 * half:g} mm. Each mark of the thimble adds 0.01 mm.",
        solution=f"{sleeve + 0.5 * half:g} + {thimble} × 0.01 = {right:.2f} mm.",
        picture=Picture("micrometer", {"value_mm": right}),
        source="common-practice",
    )


@exercise("measure.set-up", lesson="measure", outcome=READS, minutes=1.5, title="Set an instrument up")
def set_up(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    least, zero = car.clutch.plate_thickness_min_mm, draw.integer(2, 4) / 100
    true = least - (draw.integer(1, round(100 * zero) - 1) / 100)
    figures = {"zero": zero, "least": least, "true": true, "shown": true + zero, "added": true + 2 * zero}
    return form.choice(draw, vehicle=car.id, car=car.name, **{name: f"{mm:.2f}" for name, mm in figures.items()})


@exercise("measure.dial-gauge", lesson="measure", outcome=READS, minutes=2.5, title="Read a dial gauge")
def dial_gauge(draw: Draw) -> Number:
    form = draw.form(3)
    lines = draw.until(lambda n: n not in (10, 11, 50), lambda: draw.integer(6, 88))
    right = (lines / 100, -lines / 100, 1 + lines / 100)[form]
    turns, hand = dial_gauge_hands(right, preload_mm=PRELOAD)
    within = plus_minus(0.004)
    told = (
        f"Small hand {turns}, large hand {hand:g}: {turns + hand / 100:.2f} mm. It was set at {PRELOAD:.2f} mm."
        if form != 1
        else f"The hand ran back past 0: on the inner scale that is {inner_scale_lines(hand):g} lines out."
    )
    return Number(
        ask="The dial was turned to 0 with 1 mm of preload; blue marks show where both hands stood. "
        "One line is 0.01 mm. How far has the plunger moved since, in mm? In is plus, out is minus.",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings_dial.dial_gauge(right, preload_mm=PRELOAD), within),
        why=f"Small hand first, then the large one, then the preload off. {told}",
        step=f"The gauge now shows {turns} whole turns and {hand:g} lines of the outer scale. It was set at one turn.",
        solution=f"{turns} + {hand:g}/100 − {PRELOAD:g} = {right:.2f} mm.",
        picture=Picture("dial-gauge", {"reading_mm": right, "preload_mm": PRELOAD}),
        source="common-practice",
    )


@exercise(
    "measure.end-float", lesson="measure", outcome=RUNS_OUT, minutes=2.5, title="Read end float, from stop to stop"
)
def end_float(draw: Draw) -> Number:
    car = draw.vehicle()
    form, limit = draw.form(2), car.engine.crank_end_float_limit_mm
    # Never exactly the limit, which stands in the words: a reading is not to be found there.
    right = draw.until(lambda mm: abs(mm - limit) > 0.005, lambda: draw.integer(12, 44) / 100)
    within = plus_minus(0.004)
    # Past nought the hand ends on a small figure; the other way it stays on one side.
    first = draw.integer(100 - round(100 * right) + 4, 96) if form else draw.integer(4, 48)
    second = round(first + 100 * right) % 100
    return Number(
        ask=f"End float of {car.name}: the crankshaft is levered to one stop, then to the other. Nobody turned the dial "
        "to 0. Blue marks show both hands at the first stop; the red hands stand at the second. One line is 0.01 mm. "
        f"The sheet allows {limit:.2f} mm. Give the end float, in mm.",
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=readings.told_apart(right, readings_dial.between_stops(first, second), within),
        why=f"From line {first} to line {second}{' past 0' if form else ''} are {100 * right:.0f} lines: one stop less the other.",
        step=f"At the first stop the large hand stood on {first}, now it stands on {second}. "
        "Count the lines from one to the other, the short way.",
        solution=f"{second + (100 if form else 0)} − {first} = {100 * right:.0f} lines = {right:.2f} mm. "
        + (f"More than {limit:.2f} mm: stop and ask." if right > limit else f"Not more than {limit:.2f} mm: good."),
        picture=Picture("dial-gauge", {"reading_mm": right, "preload_mm": 2.0, "zero_lines": float(first)}),
        source="common-practice",
        vehicle=car.id,
    )
