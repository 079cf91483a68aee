"""Lesson 6, measuring and deciding: reading the instruments."""

from bitepoint.bank.measure_common import READS
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.scales import (
    dial_gauge_hands,
    inner_scale_lines,
    micrometer_reading_mm,
    vernier_reading_mm,
)
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake


@exercise("measure.vernier", lesson="measure", outcome=READS, minutes=2)
def vernier(draw: Draw) -> Number:
    form = draw.form(2)
    least = (0.02, 0.05)[form]
    main = draw.integer(19, 44)
    line = draw.integer(6, 44) if form == 0 else draw.integer(3, 18)
    right = vernier_reading_mm(main, line=line, least_count_mm=least)
    what = draw.pick("the splined shaft across", "a bolt under its head", "the depth of a bore")
    mistakes = [
        Mistake(
            float(main),
            "reads the main scale only",
            "You read the main scale alone. The vernier line gives the part of a millimetre. "
            "Without it two different shafts look alike.",
        )
    ]
    if line != 10:
        mistakes.append(
            Mistake(
                main + line / 100,
                "takes a line for a hundredth",
                "One vernier line is not a hundredth here. Read the least count on the slider, or each size is too small.",
            )
        )
    return Number(
        ask=f"You measure {what} with a caliper, least count {least} mm. The zero of the vernier stands "
        f"just past {main} mm. Vernier line {line}, counted from its zero, meets a line above. Read the caliper.",
        answer=right,
        unit="mm",
        within=plus_minus(0.004),
        decimals=2,
        mistakes=tuple(mistakes)
        if len(mistakes) > 1
        else (*mistakes, Mistake(main + 1.0, "rounds up", "You rounded up. The vernier line gives the part exactly.")),
        why=f"{main} mm before the zero, and {line} lines of {least} mm: {right:.2f} mm.",
        step=f"Whole millimetres first: {main}. Then multiply the line number, {line}, by the least count.",
        solution=f"{main} + {line} × {least} = {right:.2f} mm.",
        source="common-practice",
    )


@exercise("measure.micrometer", lesson="measure", outcome=READS, minutes=2)
def micrometer(draw: Draw) -> Number:
    half = draw.form(3) != 2
    sleeve, thimble = draw.integer(6, 9), draw.integer(3, 46)
    right = micrometer_reading_mm(sleeve, half_line=half, thimble=thimble)
    seen = "and one half-millimetre line after it stand" if half else "stand, and no half line after it,"
    other = right - 0.5 if half else right + 0.5
    says = (
        "A half-millimetre line is uncovered. Leave it out, and a good plate looks worn."
        if half
        else "No half line is uncovered. Add one, and a worn plate looks good."
    )
    return Number(
        ask=f"Micrometer on a driven plate pressed flat. On the sleeve {sleeve} mm {seen} uncovered. "
        f"The thimble has 50 marks, one turn is half a millimetre. Mark {thimble} stands at the line. Read it.",
        answer=right,
        unit="mm",
        within=plus_minus(0.004),
        decimals=2,
        mistakes=(
            Mistake(other, "misses the half line" if half else "adds a half line", says),
            Mistake(
                sleeve + 0.5 * half + thimble / 50,
                "takes one turn for a millimetre",
                "One turn is half a millimetre, so one mark is a hundredth. You counted each mark double.",
            ),
        ),
        why="Whole millimetres, the half line if it shows, then one hundredth for each mark.",
        step=f"On the sleeve stand {sleeve + 0.5 * half:g} mm. Each mark of the thimble adds 0.01 mm.",
        solution=f"{sleeve + 0.5 * half:g} + {thimble} × 0.01 = {right:.2f} mm.",
        source="common-practice",
    )


@exercise("measure.dial-gauge", lesson="measure", outcome=READS, minutes=2.5)
def dial_gauge(draw: Draw) -> Number:
    # At 0.11 mm two of the usual mistakes give nearly the same figure.
    moved = draw.until(lambda m: abs(m - 0.11) > 0.005, lambda: draw.integer(6, 44) / 100)
    form = draw.form(3)
    if form == 1:
        return _came_out(moved)
    preload = 1.0
    if form == 2:
        moved += 1
    turns, hand = dial_gauge_hands(moved, preload_mm=preload)
    return Number(
        ask="A dial gauge, one line 0.01 mm, was set to zero with 1 mm of preload: small hand on 1, large hand on 0. "
        f"You push the shaft, the plunger goes in. Now the small hand has passed {turns}, the large hand stands "
        f"at {hand:g} on the outer scale. How far did the plunger move?",
        answer=moved,
        unit="mm",
        within=plus_minus(0.005),
        decimals=2,
        mistakes=(
            Mistake(
                turns + hand / 100,
                "forgets the preload",
                "The small hand stood on 1 before you began. That turn is preload, not movement. "
                "So a sound bearing looks worn out.",
            ),
            Mistake(
                moved * 10 if form == 0 else hand / 100,
                "takes a line for a tenth" if form == 0 else "overlooks the small hand",
                "The dial says 0.01 mm. Ten times as much would send a good part to scrap."
                if form == 0
                else "The small hand has moved on by a whole turn. Read it first, or a whole millimetre is lost.",
            ),
        ),
        why="Small hand first, then the large one, then the preload off.",
        step=f"The gauge now shows {turns} turns and {hand:g} lines. Take off what it showed at the start.",
        solution=f"{turns} + {hand:g}/100 − {preload:g} = {moved:.2f} mm.",
        source="common-practice",
    )


def _came_out(moved: float) -> Number:
    turns, hand = dial_gauge_hands(-moved)
    lines = inner_scale_lines(hand)
    return Number(
        ask="A dial gauge, one line 0.01 mm, was set to zero with 1 mm of preload: small hand on 1, large hand on 0. "
        f"The plunger comes out. Now the small hand is below {turns + 1}, the large hand stands at {hand:g} "
        "on the outer scale. By how much did the plunger come out?",
        answer=moved,
        unit="mm",
        within=plus_minus(0.005),
        decimals=2,
        mistakes=(
            Mistake(
                hand / 100,
                "reads the outer scale the wrong way",
                "The outer scale counts inwards. The plunger came out, so the hand ran back from 0. "
                "Read so, a small movement looks huge.",
            ),
            Mistake(
                1 + moved,
                "adds the preload",
                "The preload was there before. Added, it makes every reading a whole millimetre wrong.",
            ),
        ),
        why=f"The hand ran back from 100 to {hand:g}. On the inner scale that is {lines:g} lines out.",
        step="Count the lines from 0 backwards, or read the inner scale: it runs the other way.",
        solution=f"100 − {hand:g} = {lines:g} lines, {moved:.2f} mm out.",
        source="common-practice",
    )
