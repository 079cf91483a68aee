"""Lesson 7, torque and the torque wrench: straight bar, crow-foot in line, at an angle and square."""

from math import cos, radians

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import SETS, joint_of
from bitepoint.mechanics.wrench import straight_bar_setting_nm, torque_at_bolt_nm, wrench_setting_nm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import torque_wrench


@exercise("torque.straight-bar", lesson="torque", outcome=SETS, minutes=2, title="Set the wrench with a straight bar")
def straight_bar(draw: Draw) -> Choice:
    car, form = draw.vehicle(), form_of(draw)
    lever = torque_wrench("TW2").lever_mm
    bar = draw.pick(75, 100, 125, 150)
    target = straight_bar_setting_nm(joint_of(car, 0).torque_nm, bar_mm=bar)
    low = wrench_setting_nm(target, lever_mm=lever, offset_mm=bar)
    return form.choice(
        draw,
        vehicle="" if form.key == "which-needs-it" else car.id,
        car=car.name,
        bar=bar,
        lever=f"{lever:g}",
        target=f"{target:g}",
        low=f"{low:.1f}",
        high=f"{torque_at_bolt_nm(target, lever_mm=lever, offset_mm=bar):.1f}",
        loose_pct=f"{100 - 100 * low / target:.0f}",
    )


@exercise("torque.crow-foot", lesson="torque", outcome=SETS, minutes=3, title="Set the wrench with a crow-foot")
def crow_foot(draw: Draw) -> Number:
    form, car = draw.form(3), draw.vehicle()
    joint = joint_of(car, (0, 2, 0)[form])
    lever, out = torque_wrench("TW2").lever_mm, draw.pick(45, 60, 75, 90, 110)
    target = joint.torque_nm
    fitted = f"A crow-foot stands straight out, in line with the handle. It moves the drive {out} mm. The lever is {lever:g} mm."
    if form == 2:
        return _what_the_bolt_gets(car.name, car.id, target, lever, out, fitted)
    right = wrench_setting_nm(target, lever_mm=lever, offset_mm=out)
    return Number(
        ask=f"You cannot reach a {joint.name} bolt of {car.name} with a socket. {fitted} "
        f"The bolt needs {target:g} N·m. What do you set, in N·m?",
        answer=right,
        unit="N·m",
        within=percent(1),
        decimals=1,
        mistakes=(
            Mistake(
                target,
                "sets as if nothing were fitted",
                "You set the sheet's torque. The crow-foot makes the arm longer, so the bolt gets more than it may.",
            ),
            Mistake(
                torque_at_bolt_nm(target, lever_mm=lever, offset_mm=out),
                "turns the fraction round",
                "Your fraction is upside down. A longer arm needs a lower setting. The bolt would be stretched.",
            ),
        ),
        why=f"With {right:.1f} N·m at the wrench the bolt gets {target:g} N·m. The arm to your hand has grown.",
        step=f"The whole arm is {lever:g} + {out} = {lever + out:g} mm. The wrench feels only {lever:g} mm of it.",
        solution=f"{target:g} × {lever:g} / ({lever:g} + {out}) = {right:.1f} N·m.",
        source="navedtra-14315-fig-3-44",
        vehicle=car.id,
    )


def _what_the_bolt_gets(name: str, letter: str, target: float, lever: float, out: float, fitted: str) -> Number:
    right = torque_at_bolt_nm(target, lever_mm=lever, offset_mm=out)
    return Number(
        ask=f"Somebody tightened a flywheel bolt of {name}. The wrench was set to {target:g} N·m. {fitted} "
        "Nobody thought of it. What did the bolt really get, in N·m?",
        answer=right,
        unit="N·m",
        within=percent(1),
        decimals=1,
        mistakes=(
            Mistake(
                target,
                "thinks that the bolt gets what is set",
                "The wrench clicks at its own square drive. The bolt sits further out, so it gets another torque. "
                "Taken as right, a bad bolt stays in.",
            ),
            Mistake(
                wrench_setting_nm(target, lever_mm=lever, offset_mm=out),
                "turns the fraction round",
                "Your fraction is upside down. The longer arm gives the bolt more, so a stretched bolt would pass as loose.",
            ),
        ),
        why=f"The bolt got {right:.1f} N·m instead of {target:g} N·m. It is not used again: new bolts, and a note.",
        step=f"The whole arm is {lever:g} + {out:g} = {lever + out:g} mm, and the wrench knows only {lever:g} mm.",
        solution=f"{target:g} × ({lever:g} + {out:g}) / {lever:g} = {right:.1f} N·m.",
        source="tm-9-254",
        vehicle=letter,
    )


@exercise(
    "torque.crow-foot-angle",
    lesson="torque",
    outcome=SETS,
    minutes=2,
    beyond=True,
    title="Set the wrench with a crow-foot at an angle",
)
def crow_foot_angle(draw: Draw) -> Number:
    square = draw.form(2) == 0
    angle = 90 if square else draw.pick(45, 60)
    lever, out, target = torque_wrench("TW2").lever_mm, draw.pick(75, 90, 110), draw.integer(40, 85)
    right = wrench_setting_nm(target, lever_mm=lever, offset_mm=out, angle_deg=angle)
    way = "at right angles to" if square else f"at {angle}° to"
    cosine = cos(radians(angle))
    mistakes = [
        Mistake(
            wrench_setting_nm(target, lever_mm=lever, offset_mm=out),
            "corrects as if it stood straight out",
            "You corrected for the whole crow-foot. Only its part in line with the handle counts. "
            "The bolts would stay too loose.",
        ),
        Mistake(
            torque_at_bolt_nm(target, lever_mm=lever, offset_mm=out),
            "turns the fraction round",
            "Your fraction is upside down. No longer arm needs a higher setting. The bolts would be stretched.",
        ),
    ]
    if not square:
        mistakes.append(
            Mistake(
                float(target),
                "leaves out the correction",
                "You corrected nothing. Part of the crow-foot still points outward, so the bolt gets too much.",
            )
        )
    rule = (
        "Nothing of it points outward."
        if square
        else f"Of {out} mm the part that counts is {out} × {cosine:.3g} = {out * cosine:.0f} mm."
    )
    return Number(
        ask=f"A crow-foot of {out} mm is turned until it stands {way} the handle. The lever is {lever:g} mm. "
        f"The bolt needs {target} N·m. What do you set, in N·m?",
        answer=right,
        unit="N·m",
        within=percent(1),
        decimals=1,
        mistakes=tuple(mistakes),
        why=f"You set {right:.1f} N·m. {rule} That is why fitters turn it square where there is room.",
        step="Draw it from above. Which part of the crow-foot makes the arm to your hand longer?"
        + ("" if square else f" The cosine of {angle}° is {cosine:.3g}."),
        solution=f"{target} × {lever:g} / ({lever:g} + {out * cosine:.0f}) = {right:.1f} N·m.",
        source="navedtra-14008",
    )
