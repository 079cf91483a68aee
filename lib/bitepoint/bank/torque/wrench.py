"""Lesson 7, torque and the torque wrench: which wrench, what to set, what the scale shows."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import CHOOSES
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import workshop


@exercise("torque.which-wrench", lesson="torque", outcome=CHOOSES, minutes=2, title="Which wrench")
def which_wrench(draw: Draw) -> Choice:
    form, wrenches = form_of(draw), workshop().torque_wrenches
    torques = {
        "slave-cylinder": draw.integer(6, 18),
        "wheel-bolts": draw.integer(62, 98),
        "hub-nut": draw.integer(110, 180),
    }
    rows = ((w.id, f"{w.lowest_nm:g} to {w.highest_nm:g} N·m", f"{w.due:%d.%m.%Y}") for w in wrenches)
    small, middle, large = (w.id for w in wrenches)
    return form.choice(
        draw,
        table=(("Wrench", "Scale", "Record holds until"), *rows),
        torque=torques[form.key],
        small=small,
        middle=middle,
        large=large,
    )


@exercise("torque.trusted", lesson="torque", outcome=CHOOSES, minutes=1.5, title="A wrench to trust")
def trusted(draw: Draw) -> Choice:
    metres, months = draw.integer(8, 15) / 10, draw.integer(2, 9)
    return form_of(draw).choice(draw, metres=f"{metres:.1f}", months=months)


@exercise(
    "torque.spread", lesson="torque", outcome=CHOOSES, minutes=2, beyond=True, title="How far off a wrench may be"
)
def spread(draw: Draw) -> Number:
    share, torque, upper = draw.pick(3, 4, 5, 6), draw.integer(20, 65), draw.form(2) == 0
    sign = 1 if upper else -1
    right = torque * (1 + sign * share / 100)
    end = "most" if upper else "least"
    return Number(
        ask=f"A wrench may be off by {share} % either way. You set {torque} N·m. "
        f"What is the {end} that the bolt may really have got, in N·m?",
        answer=right,
        unit="N·m",
        within=percent(0.5),
        decimals=1,
        mistakes=(
            Mistake(
                float(torque + sign * share),
                "takes per cent for N·m",
                "You took it as N·m. It is a share of the setting, so small bolts would seem far too uncertain.",
            ),
            Mistake(
                torque * (1 + sign * share / 10),
                "puts the point in the wrong place",
                "You reckoned with ten times the share. A wrench as bad as that would be thrown away.",
            ),
        ),
        why=f"The bolt got {right:.1f} N·m at the {end}. That is normal for a wrench in order, so nothing is added.",
        step=f"{share} % of {torque} N·m is {share / 100:g} × {torque} = {torque * share / 100:.2f} N·m.",
        solution=f"{torque} × (1 {'+' if upper else '−'} {share / 100:g}) = {right:.1f} N·m.",
        source="iso-6789",
    )
