"""Lesson 7, torque and the torque wrench: which wrench, what to set, what the scale shows."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import CHOOSES
from bitepoint.mechanics.calibration import true_torque_limits_nm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import workshop


@exercise("torque.which-wrench", lesson="torque", outcome=CHOOSES, minutes=2, title="Choose the wrench")
def which_wrench(draw: Draw) -> Choice:
    form, wrenches = form_of(draw), workshop().torque_wrenches
    torques = {
        "slave-cylinder": draw.integer(6, 18),
        "wheel-bolts": draw.integer(80, 98),
        "hub-nut": draw.integer(200, 280),
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


@exercise(
    "torque.trusted", lesson="torque", outcome=CHOOSES, minutes=1.5, title="Decide whether a wrench can be trusted"
)
def trusted(draw: Draw) -> Choice:
    metres, months = draw.integer(8, 15) / 10, draw.integer(2, 9)
    return form_of(draw).choice(draw, metres=f"{metres:.1f}", months=months)


@exercise(
    "torque.spread",
    lesson="torque",
    outcome=CHOOSES,
    minutes=2,
    beyond=True,
    title="Work out how far off a good wrench may be",
)
def spread(draw: Draw) -> Number:
    share, torque, upper = draw.pick(3, 4, 5, 6), draw.integer(20, 65), draw.form(2) == 0
    sign, end = (1, "most") if upper else (-1, "least")
    right = true_torque_limits_nm(torque, allowed_pct=share)[upper]
    divisor = 1 - sign * share / 100
    return Number(
        ask=f"The record of a wrench says: deviation at most {share} % either way, counted from what the test device "
        f"reads. You set {torque} N·m. What is the {end} that the bolt may really have got, in N·m?",
        answer=right,
        unit="N·m",
        within=percent(0.5),
        decimals=1,
        mistakes=(
            Mistake(
                float(torque + sign * share),
                "takes per cent for N·m",
                "You took it as N·m. It is a share, so small bolts would seem far too uncertain.",
            ),
            Mistake(
                torque * (1 + sign * share / 10),
                "puts the point in the wrong place",
                "You took ten times the share. A wrench as bad as that would be thrown away.",
            ),
        ),
        why=f"The bolt got {right:.1f} N·m at the {end}. That is normal for a wrench in order, so nothing is added.",
        step=f"The setting is {100 - sign * share} % of the {end} that the test device may read. "
        f"So divide {torque} N·m by {divisor:g}.",
        solution=f"{torque} ÷ {divisor:g} = {right:.1f} N·m.",
        source="iso-6789",
    )
