"""Lesson 7, torque and the torque wrench: which wrench, what to set, what the scale shows."""

from math import cos, radians

from bitepoint.bank.registry import exercise
from bitepoint.bank.torque_common import CHOOSES, SETS, Case, choice_from, joint_of
from bitepoint.mechanics.wrench import straight_bar_setting_nm, torque_at_bolt_nm, wrench_setting_nm
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.units import convert
from bitepoint.workshop.tools import torque_wrench, workshop

IN_DOUBT = "None of them: stop and ask"
_OUT_OF_DATE = "The record of that wrench has run out. Nobody knows what it does, so a bolt can stay loose."


@exercise("torque.which-wrench", lesson="torque", outcome=CHOOSES, minutes=2)
def which_wrench(draw: Draw) -> Choice:
    form = draw.form(3)
    torque = (draw.integer(6, 18), draw.integer(62, 98), draw.integer(110, 180))[form]
    where = ("The bolts of a slave cylinder get", "The wheel bolts get", "The hub nut gets")[form]
    rows = (
        (w.id, f"{w.lowest_nm:g} to {w.highest_nm:g} N·m", f"{w.due:%d.%m.%Y}") for w in workshop().torque_wrenches
    )
    small, middle, large = (w.id for w in workshop().torque_wrenches)
    ask_first = Mistake(
        IN_DOUBT,
        "asks although one wrench fits",
        "Asking is never wrong, but here the table is enough. Compare range and date once more, then go on.",
    )
    below = Mistake(
        middle,
        "thinks that a bigger wrench does all",
        "The torque lies below the start of its scale. It clicks late or not at all, and the small bolt is torn off.",
    )
    too_small = Mistake(
        small,
        "goes beyond the end of the scale",
        "The torque lies beyond the end of its scale. The wrench is bent, and the bolt stays too loose.",
    )
    overdue = Mistake(large, "takes a wrench whose record has run out", _OUT_OF_DATE, True)
    beyond = Mistake(
        middle,
        "stretches a scale that ends too early",
        "Its scale ends well below that torque. What you cannot set, you guess, and a guessed nut comes loose.",
        True,
    )
    right, others, why = (
        (small, (below, overdue, ask_first), "Its range holds the torque and its record holds on the day."),
        (middle, (too_small, overdue, ask_first), "The largest wrench reaches that far too, but its record has run out."),
        (
            IN_DOUBT,
            (too_small, beyond, overdue),
            "Two scales end too early, and the third record has run out. Someone gets you a wrench that may be used.",
        ),
    )[form]
    return choice_from(
        draw,
        Case(
            ask=f"It is 14 April 2026. {where} {torque} N·m. Which wrench may you use?",
            right=right,
            wrong=others,
            why=why,
            step=f"First strike out every wrench whose record ended before the day. Which scale holds {torque} N·m?",
        ),
        table=(("Wrench", "Scale", "Record holds until"), *rows),
        source="iso-6789",
    )


@exercise("torque.trusted", lesson="torque", outcome=CHOOSES, minutes=1.5)
def trusted(draw: Draw) -> Choice:
    metres, months = draw.integer(8, 15) / 10, draw.integer(2, 9)
    use = Mistake(
        "Use it: it still clicks",
        "trusts the click",
        "The click comes, but nobody knows at which torque. A flywheel tightened with it can come off.",
        True,
    )
    margin = Mistake(
        "Set it a little higher to be on the safe side",
        "adds a margin by guess",
        "Nobody knows in which direction it is off. Too high stretches the bolts until they break.",
        True,
    )
    third = (
        Mistake(
            "Compare it with another wrench by feel",
            "checks by feel",
            "A hand cannot feel a few per cent. The fault stays, and bolt after bolt is wrong.",
        ),
        Mistake(
            "Work it up and down ten times, then use it",
            "thinks that use mends a tired spring",
            "Moving it frees the grease but mends no spring. The scale still shows what the spring no longer gives.",
        ),
        Mistake(
            "Use it for loosening only from now on",
            "uses a torque wrench as a lever",
            "Loosening ruins it further, and the next person takes it for a good one. A bolt stays loose.",
        ),
    )
    asks = (
        f"A click wrench fell about {metres:.1f} m onto concrete. Its record holds for {months} more months. What now?",
        f"A click wrench has lain {months} months wound up to its highest mark. Its record still holds. What now?",
        f"Someone broke a seized bolt loose with a click wrench, with a tube {metres:.1f} m long on its grip. What now?",
    )
    right = "Label it and hand it in to be checked"
    why = (
        "A fall can shift the spring or the ratchet.",
        "A spring left wound up tires and reads wrong.",
        "A torque wrench is no lever: overloaded, it may be bent.",
    )[draw.form(3)]
    return choice_from(
        draw,
        Case(
            ask=asks[draw.form(3)],
            right=right,
            wrong=(use, margin, third[draw.form(3)]),
            why=f"{why} The date alone does not make it right. The label keeps others from using it.",
            step="Ask what you really know about its torque today. The record was written before this happened.",
        ),
        source="faa-ac-43-13-1b",
    )


@exercise("torque.spread", lesson="torque", outcome=CHOOSES, minutes=2)
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


@exercise("torque.foot-pounds", lesson="torque", outcome=SETS, minutes=2)
def foot_pounds(draw: Draw) -> Number:
    form = draw.form(3)
    given = (draw.integer(15, 90), draw.integer(25, 120), draw.integer(80, 180))[form]
    factor = convert(1, "lbf·ft", "N·m")
    inch = convert(1, "lbf·in", "N·m")
    ask = (
        f"A foreign sheet says {given} lbf·ft. How many N·m is that?",
        f"Your sheet says {given} N·m, but the only scale on the wrench is in lbf·ft. Which mark do you set?",
        f"A foreign sheet says {given} lbf·in for a small bolt. How many N·m is that?",
    )[form]
    right = given * (factor, 1 / factor, inch)[form]
    divided = Mistake(
        given * (1 / factor, factor, 1 / inch)[form],
        "goes the wrong way",
        "You went the wrong way. A foot-pound is more than a newton-metre. The bolt would be far off its torque.",
    )
    other = Mistake(
        given * (inch, 1 / inch, factor)[form],
        "mixes up foot and inch",
        "You took the other pound unit. Foot and inch differ twelve times: a bolt is torn off or hardly held.",
    )
    rate = f"1 lbf·{'in' if form == 2 else 'ft'} = {inch if form == 2 else factor:.{4 if form == 2 else 3}f} N·m"
    sign = "/" if form == 1 else "×"
    return Number(
        ask=f"{ask} {rate}. Answer with the number alone.",
        answer=right,
        unit="",
        within=percent(1),
        decimals=1,
        mistakes=(divided, other),
        why=f"It is {right:.1f}. Read the unit beside the window each time before you set.",
        step=f"Every {'lbf·in' if form == 2 else 'lbf·ft'} counts {inch if form == 2 else factor:.3f} N·m. "
        f"Does your number get larger or smaller?",
        solution=f"{given} {sign} {inch if form == 2 else factor:.3f} = {right:.1f}.",
        source="nist-sp-811",
    )


@exercise("torque.straight-bar", lesson="torque", outcome=SETS, minutes=2)
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


@exercise("torque.crow-foot", lesson="torque", outcome=SETS, minutes=3)
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


@exercise("torque.crow-foot-angle", lesson="torque", outcome=SETS, minutes=2)
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
