"""Lesson 7, torque and the torque wrench: units, the scales of the wrench, the angle gauge."""

from bitepoint.bank.measure.readings import told_apart
from bitepoint.bank.measure.readings_wrench import angle_gauge, torque_wrench
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import BY_ANGLE, SETS
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.units import convert


@exercise("torque.foot-pounds", lesson="torque", outcome=SETS, minutes=2, beyond=True, title="Change the unit")
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
    size = "An inch-pound is less" if form == 2 else "A foot-pound is more"
    divided = Mistake(
        given * (1 / factor, factor, 1 / inch)[form],
        "goes the wrong way",
        f"You went the wrong way. {size} than a newton-metre. The bolt would be far off its torque.",
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
        step=f"Every {'lbf·in' if form == 2 else 'lbf·ft'} counts {inch if form == 2 else factor:.{4 if form == 2 else 3}f} N·m. "
        f"Does your number get larger or smaller?",
        solution=f"{given} {sign} {inch if form == 2 else factor:.{4 if form == 2 else 3}f} = {right:.1f}.",
        source="nist-sp-811",
    )


def _readings_apart(setting_nm: float) -> bool:
    """Whether tens alone and the other scale lie clearly apart from each other and from the reading."""
    tens, feet = setting_nm // 10 * 10, convert(setting_nm, "N·m", "lbf·ft")
    return setting_nm - tens >= 2 and abs(feet - tens) > 1


@exercise("torque.read-scale", lesson="torque", outcome=SETS, minutes=2, title="Read the scale")
def read_scale(draw: Draw) -> Number:
    within = plus_minus(0.2)
    setting = draw.until(_readings_apart, lambda: draw.integer(44, 196) / 2)
    tens, ring = int(setting // 10) * 10, setting % 10
    more = draw.integer(6, 16) / 2 if draw.form(2) else 0.0
    found = torque_wrench(setting)
    if more:
        target = setting + more
        ask = f"You want {target:g} N·m. The picture shows what is set now. How many N·m are missing?"
        right = more
        found = [Mistake(target - m.value, m.name, m.says) for m in found]
        found = [m for m in found if m.value > 0]
        end = f" {target:g} − {setting:g} = {more:g} N·m."
    else:
        ask = "The picture shows shaft and grip of a click wrench. The ring has a line every half newton-metre. "
        ask += "What is it set to, in N·m?"
        right, end = setting, ""
    return Number(
        ask=ask,
        answer=right,
        unit="N·m",
        within=within,
        decimals=1,
        mistakes=told_apart(right, found, within),
        why=f"The last line uncovered is {tens}, the ring adds {ring:g}: {setting:g} N·m"
        + (f", so {more:g} N·m are missing." if more else "."),
        step=f"On the side marked N·m the edge has uncovered {tens}. Which place of the ring stands at the long line?",
        solution=f"{tens} + {ring:g} = {setting:g} N·m.{end}",
        picture=Picture("torque-wrench-scale", {"setting_nm": setting}),
        source="common-practice",
    )


@exercise(
    "torque.angle-gauge", lesson="torque", outcome=SETS, minutes=2, others=(BY_ANGLE,), title="Read the angle gauge"
)
def angle(draw: Draw) -> Number:
    car = draw.pick(*draw.cars(*BY_ANGLE))
    sheet, within = round(car.flywheel.tightening.angle_deg or 0), plus_minus(0.6)
    start, short = draw.integer(7, 70), draw.integer(6, 18)
    turned = sheet if draw.form(2) == 0 else sheet - short
    end = start + turned
    found = angle_gauge(turned, start_deg=start)
    if turned == sheet:
        ask = f"Angle stage on {car.name}. Nobody set the gauge to 0 first. How far was this bolt turned, in degrees?"
        right, more = float(turned), ""
    else:
        ask = (
            f"Angle stage on {car.name}: the sheet says {sheet}°. You had to rest in the middle of the turn. "
            "The picture shows start and place now. How many degrees are missing?"
        )
        right, more = float(short), f" {sheet} − {turned} = {short}°."
        found = [Mistake(abs(sheet - m.value), m.name, m.says) for m in found]
    return Number(
        ask=ask,
        answer=right,
        unit="°",
        within=within,
        decimals=0,
        mistakes=told_apart(right, found, within),
        why=f"From {start}° to {end}° are {turned}°. Where the gauge started comes off.{more}",
        step=f"Before the turn the pointer stood on {start}°, after it on {end}°.",
        solution=f"{end} − {start} = {turned}°.{more}",
        picture=Picture("angle-gauge", {"start_deg": start, "end_deg": end}),
        source="common-practice",
        vehicle=car.id,
    )
