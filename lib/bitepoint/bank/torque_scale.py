"""Lesson 7, torque and the torque wrench: units and the scales of the wrench."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.torque_common import SETS
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture
from bitepoint.units import convert


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


def _readings_apart(setting: int) -> bool:
    """Whether tens alone and the lower row lie clearly apart from each other and from the reading."""
    feet = convert(setting, "N·m", "lbf·ft")
    return setting % 10 >= 2 and abs(feet - setting // 10 * 10) > 1.5


@exercise("torque.read-scale", lesson="torque", outcome=SETS, minutes=2, title="Read the scale")
def read_scale(draw: Draw) -> Number:
    setting = draw.until(_readings_apart, lambda: draw.integer(22, 98))
    tens, feet = setting // 10 * 10, convert(setting, "N·m", "lbf·ft")
    more = draw.integer(3, 8) if draw.form(2) else 0
    target = setting + more
    tens_only = "The ring counts too. Without it bolts can be up to 9 N·m off, and small ones are torn off."
    other_row = "You read the row in lbf·ft. Look for the unit first, or every bolt is a quarter too loose or worse."
    if more:
        ask = f"You want {target} N·m. The picture shows what is set now. How many N·m are missing?"
        right, first, second = float(more), float(target - tens), target - feet
    else:
        ask = "The picture shows window and ring of a click wrench. What is it set to, in N·m?"
        right, first, second = float(setting), float(tens), feet
    return Number(
        ask=ask,
        answer=right,
        unit="N·m",
        within=plus_minus(0.5),
        decimals=0,
        mistakes=(
            Mistake(first, "forgets the ring", tens_only),
            Mistake(second, "reads the other row", other_row),
        ),
        why=f"The window shows {tens}, the ring adds {setting - tens}: {setting} N·m"
        + (f", so {more} N·m are missing." if more else "."),
        step=f"In the row marked N·m the line has passed {tens}. Which figure stands at the arrow of the ring?",
        solution=f"{tens} + {setting - tens} = {setting} N·m."
        + (f" {target} − {setting} = {more} N·m." if more else ""),
        picture=Picture("grip-scale", {"setting_nm": setting}),
        source="common-practice",
    )
