"""Lesson 7, torque and the torque wrench: straight bar, crow-foot in line, at an angle and square."""

from math import cos, radians

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import SETS, joint_of
from bitepoint.mechanics.wrench import straight_bar_setting_nm, torque_at_bolt_nm, wrench_setting_nm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import torque_wrench


@exercise("torque.straight-bar", lesson="torque", outcome=SETS, minutes=2, title="Straight bar")
def straight_bar(draw: Draw) -> Choice:
    car, form = draw.vehicle(), draw.form(3)
    joint = joint_of(car, 0)
    wrench = torque_wrench("TW2")
    bar = draw.pick(75, 100, 125, 150)
    target = straight_bar_setting_nm(joint.torque_nm, bar_mm=bar)
    low = wrench_setting_nm(target, lever_mm=wrench.lever_mm, offset_mm=bar)
    high = torque_at_bolt_nm(target, lever_mm=wrench.lever_mm, offset_mm=bar)
    if form == 2:
        return choice_from(draw, _what_needs_it(bar), source="wrench-manual-straight-bar")
    told = (
        f"The socket does not reach the flywheel bolts of {car.name}. You put a straight bar of {bar} mm "
        f"between wrench and socket. It stands square to the handle. The lever is {wrench.lever_mm:g} mm. "
        f"The sheet says {target:g} N·m. What do you set?",
        f"A colleague works on the flywheel of {car.name} with a straight bar of {bar} mm, square to the handle. "
        f"The sheet says {target:g} N·m, the lever is {wrench.lever_mm:g} mm. "
        "The colleague says: “The bar makes the wrench longer.” What do you set?",
    )[form]
    return choice_from(
        draw,
        Case(
            ask=told,
            right=f"{target:g} N·m, as the sheet says",
            wrong=(
                Mistake(
                    f"{low:.1f} N·m, because the bar is a lever",
                    "corrects for a straight bar",
                    "The bar stands in line with the bolt and is no lever. "
                    f"Set so low, all bolts stay {100 - 100 * low / target:.0f} % too loose, and the flywheel comes off.",
                    True,
                ),
                Mistake(
                    f"{high:.1f} N·m, because the bar takes some away",
                    "adds for a straight bar",
                    "A stiff bar passes on every bit of torque. Set so high, bolts are stretched and can break.",
                    True,
                ),
                Mistake(
                    "Nothing: a bar may never be used",
                    "thinks that every bar is forbidden",
                    "A sound bar held square is allowed. Without it the socket sits askew and slips off.",
                ),
            ),
            why="The lever runs from the bolt's axis to your hand. A bar along that axis does not change it.",
            step="Look from above: how far is it from the middle of the bolt to your hand, with and without the bar?",
        ),
        source="wrench-manual-straight-bar",
        vehicle=car.id,
    )


def _what_needs_it(bar: float) -> Case:
    return Case(
        ask=f"Beside the wrench lie four things. Only one of them changes the setting. Which one? The bar is {bar} mm long.",
        right="A crow-foot that stands straight out",
        wrong=(
            Mistake(
                "A straight bar between wrench and socket",
                "corrects for a straight bar",
                "The bar stands in line with the bolt. Whoever corrects for it leaves every bolt too loose.",
                True,
            ),
            Mistake(
                "A deep socket",
                "corrects for a deep socket",
                "A deep socket is higher, not further out. The lever stays, so a corrected bolt is wrong.",
                True,
            ),
            Mistake(
                "An adaptor to another square size",
                "corrects for a square adaptor",
                "The adaptor sits on the same axis. Nothing moves sideways, so a correction makes the bolt wrong.",
                True,
            ),
        ),
        why="It moves the bolt away from the drive, so the lever to your hand grows. The others stay on the axis.",
        step="Ask of each thing: does it move the bolt sideways, away from the square drive?",
    )


@exercise("torque.crow-foot", lesson="torque", outcome=SETS, minutes=3, title="Crow-foot straight out")
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
        step=f"The whole arm is {lever:g} + {out:g} = {lever + out:g} mm, and the wrench reckons with {lever:g} mm.",
        solution=f"{target:g} × ({lever:g} + {out:g}) / {lever:g} = {right:.1f} N·m.",
        source="tm-9-254",
        vehicle=letter,
    )


@exercise(
    "torque.crow-foot-angle", lesson="torque", outcome=SETS, minutes=2, beyond=True, title="Crow-foot at an angle"
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
