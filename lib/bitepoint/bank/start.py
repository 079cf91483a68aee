"""Lesson 0, start here: one practice exercise of each kind."""

from bitepoint.bank.registry import exercise
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake


@exercise("start.number", lesson="start", outcome="Answers with a number and its unit", minutes=2)
def number(draw: Draw) -> Number:
    foreign = draw.integer(15, 90)
    right = foreign * 1.3558179483
    return Number(
        ask=f"A foreign sheet asks for {foreign} lbf·ft. One pound-foot is 1.356 newton metres. What is that in N·m?",
        answer=right,
        unit="N·m",
        within=percent(1),
        mistakes=(
            Mistake(foreign / 1.3558179483, "divides instead of multiplying", "A pound-foot is the bigger unit, so the figure in N·m is the bigger one: multiply. Tightened to your figure the bolt stays far too loose."),
            Mistake(foreign * 0.112984829, "takes pound-inches", "That is the factor for pound-inches, twelve times smaller. Read the unit letter by letter."),
        ),
        why=f"{foreign} × 1.356 = {right:.1f} N·m.",
        step=f"Write it as {foreign} × 1.356.",
        solution=f"{foreign} × 1.356 = {right:.1f} N·m.",
        source="nist-sp-811",
    )
