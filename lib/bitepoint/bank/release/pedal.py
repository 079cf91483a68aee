"""Lesson 10, the release system: free play at pad and bearing, and the pedal read on a rule."""

from bitepoint.bank.measure.readings import told_apart
from bitepoint.bank.measure.readings_wrench import pedal
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.outcomes import FOLLOWS
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake, Picture


@exercise(
    "release.free-play",
    lesson="release",
    outcome=FOLLOWS,
    minutes=2.5,
    title="Follow the play from pad to bearing",
    needs=("cable release",),
)
def free_play(draw: Draw) -> Number:
    car = draw.vehicle()
    pedal, lever = car.release.pedal_ratio, car.release.outer_lever_ratio or 1.0
    ratio = pedal * lever
    stops = (
        "You stopped at the cable. Release lever and fork shorten the way once more. The bearing would drag or rattle."
    )
    turned = "You turned it round: large at the foot, small at the bearing. So set, the bearing would never come free."
    if draw.form(2):
        gap = draw.value(1.15, 1.85, 0.05)
        given, right, asked = f"{gap:g} mm of clearance at the fingers", gap * ratio, "play at the pad"
        first, second, sign = gap * pedal, gap / ratio, "×"
        figure, decimals = gap, 1
    else:
        play = draw.integer(*(round(mm) for mm in car.release.free_play_mm))
        given, right, asked = f"{play} mm of free play at the pad", play / ratio, "clearance at the fingers"
        first, second, sign = play / pedal, play * ratio, "÷"
        figure, decimals = float(play), 2
    return Number(
        ask=f"The cable of {car.name} is set to {given}. The pedal makes {pedal:g} : 1, release lever and fork together "
        f"{lever:g} : 1. How much {asked} is that, in mm?",
        answer=right,
        unit="mm",
        within=percent(2),
        decimals=decimals,
        mistakes=(Mistake(first, "stops at the cable", stops), Mistake(second, "turns the ratio round", turned)),
        why=f"{given} is {right:.{decimals}f} mm of {asked}. Little at the bearing, much at the foot: so you measure at the pad.",
        step=f"Both ratios count: {pedal:g} × {lever:g} = {ratio:.2f}. Which of the two ends moves more?",
        solution=f"{figure:g} {sign} {ratio:.2f} = {right:.{decimals}f} mm.",
        source="derived",
        vehicle=car.id,
    )


@exercise("release.pedal-rule", lesson="release", outcome=FOLLOWS, minutes=2, title="Read the pedal on a rule")
def pedal_rule(draw: Draw) -> Number:
    car, form, within = draw.vehicle(), draw.form(3), plus_minus(0.4)
    rest, play = draw.integer(4, 36), draw.until(lambda mm: abs(mm - 10) > 1, lambda: draw.integer(6, 28))
    travel = round(car.release.pedal_travel_mm) - draw.integer(0, 12)
    asked = (
        "Give the free play",
        "Give the whole travel",
        "Give the travel that works the clutch, after the free play",
    )
    right, start = ((play, rest), (travel, rest), (travel - play, rest + play))[form]
    found = pedal(right, rest_mm=start)
    if form == 2:
        says = (
            "You counted the free play in. It moves nothing. A clutch that drags would look as if it had travel enough."
        )
        found.insert(0, Mistake(travel, "counts the free play in", says))
    return Number(
        ask=f"A rule stands beside the pedal of {car.name}: at rest, where resistance begins, and fully down. "
        f"{asked[form]}, in mm.",
        answer=float(right),
        unit="mm",
        within=within,
        decimals=0,
        mistakes=told_apart(right, found, within),
        why=f"From {start} mm to {start + right} mm on the rule are {right} mm. Both ends are read, one comes off.",
        step=f"At rest the pad stands on {rest} mm, resistance begins on {rest + play} mm. "
        "Ask between which two places the answer lies.",
        solution=f"{start + right} − {start} = {right} mm.",
        source="common-practice",
        vehicle=car.id,
        picture=Picture("pedal-rule", {"rest_mm": rest, "play_mm": play, "travel_mm": travel}),
    )
