"""Lesson 11, refit: oil to the level plug, wheel bolts and hub nut."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.refit.outcomes import FILLS
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.travel import fresh
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake

_LEAST_SHARE = 0.85
"""Less than this share drained means that oil was lost before: look for the leak (source: common-practice)."""


@exercise("refit.oil-short", lesson="refit", outcome=FILLS, minutes=2.5, title="Judge the oil that was drained")
def oil_short(draw: Draw) -> Number:
    car = draw.vehicle()
    sheet = car.gearbox.oil_litre
    drained = round(sheet * (62 + 2 * fresh(draw, 17)) / 100, 2)
    missing, share = round(sheet - drained, 2), 100 * drained / sheet
    finding = (
        "That little was missing: normal."
        if share >= 100 * _LEAST_SHARE
        else "So oil was lost: look for the leak first."
    )
    known = f"From the gearbox of {car.name} came {drained:.2f} litres. The sheet says {sheet:g} litres."
    fill = "Fill to the level plug in any case, never by what came out."
    if draw.form(2):
        return Number(
            ask=f"{known} What share of the sheet's figure came out, in %? Below 85 % you look for a leak.",
            answer=share,
            unit="%",
            within=plus_minus(0.6),
            decimals=0,
            mistakes=(
                Mistake(
                    100 - share,
                    "gives the missing share",
                    "That is what was missing. Compared with 85 % every gearbox would seem to leak.",
                ),
                Mistake(
                    10000 / share,
                    "turns the ratio round",
                    "More than the whole cannot come out. Turned round, a box that lost oil looks full.",
                ),
            ),
            why=f"{share:.0f} % came out. {finding} {fill}",
            step=f"Out over sheet: {drained:.2f} ÷ {sheet:g}, times 100.",
            solution=f"100 × {drained:.2f} ÷ {sheet:g} = {share:.0f} %. {finding}",
            source="common-practice",
            vehicle=car.id,
        )
    return Number(
        ask=f"{known} How many litres were missing?",
        answer=missing,
        unit="l",
        within=plus_minus(0.012),
        decimals=2,
        mistakes=(
            Mistake(
                drained,
                "gives what came out",
                "That came out. Asked is what was not there. Filled in by that figure, the box runs short again.",
            ),
            Mistake(
                sheet + drained,
                "adds the two",
                "Both together never fit in. Overfilled, the oil foams and finds its way past the seal.",
            ),
        ),
        why=f"{missing:.2f} litres were missing. {finding} {fill}",
        step="Take what came out from what should have been in. Then ask whether so much may be missing.",
        solution=f"{sheet:g} − {drained:.2f} = {missing:.2f} litres. {finding}",
        source="common-practice",
        vehicle=car.id,
    )


@exercise("refit.wheels", lesson="refit", outcome=FILLS, minutes=2, title="Tighten wheel bolts and hub nut")
def wheels(draw: Draw) -> Choice:
    form = form_of(draw)
    car = draw.cars(*form.needs)[0] if form.needs else draw.vehicle()
    torque = f"{car.wheels.torque_nm:g} N·m"
    return form.choice(draw, vehicle=car.id, car=car.name, km=draw.integer(2, 9), n=car.wheels.n, torque=torque)
