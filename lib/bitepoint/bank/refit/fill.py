"""Lesson 11, refit: oil to the level plug, wheel bolts and hub nut."""

from bitepoint.bank.cases import Case, choice_from
from bitepoint.bank.refit.common import FILLS
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.travel import fresh
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle

_LEAST_SHARE = 0.85
"""Less than this share drained means that oil was lost before: look for the leak (source: common-practice)."""


@exercise("refit.oil-short", lesson="refit", outcome=FILLS, minutes=2.5, title="How much oil was missing")
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


@exercise("refit.wheels", lesson="refit", outcome=FILLS, minutes=2, title="Wheel bolts and hub nut")
def wheels(draw: Draw) -> Choice:
    form, own = draw.form(3), draw.vehicle()
    car = (own, vehicle("A"), vehicle("B"))[form]
    km = draw.integer(2, 9)
    torque = f"{car.wheels.torque_nm:g} N·m"
    later = Mistake(
        "By feel now, the torque wrench after the road test",
        "puts the torque off until after the drive",
        "A nut by feel works loose on the road. The wheel wobbles and can come off.",
        True,
    )
    impact = Mistake(
        "Impact wrench until it stops, car still on the lift",
        "lets an impact wrench set the torque",
        "Nobody knows that torque. Threads stretch or stay slack, and the bearing takes blows.",
        True,
    )
    rolls = Mistake(
        "Nut hand-tight, roll the car off the lift, tighten outside",
        "rolls the car with a loose nut",
        "A bearing rolled while loose is ruined, and it may come apart on the road.",
        True,
    )
    long_bar = Mistake(
        "Car high on the lift, long bar, nobody at the brake",
        "hangs on a bar with the car raised",
        "The wheel turns or the car moves on its arms. You fall, and it may follow.",
        True,
    )
    in_turn = Mistake(
        "Round the circle, one after the other, to full torque",
        "tightens round the circle",
        "The wheel is drawn on askew and sits loose as soon as it settles. The bolts come undone on the road.",
        True,
    )
    cases = (
        Case(
            f"The wheels of {car.name} are back on, {car.wheels.n} bolts each, {torque}; "
            f"the test route has {km} km. How are they tightened?",
            "By hand and crosswise while raised, then to torque on the ground",
            (later, impact, in_turn),
            "Crosswise the wheel centres itself. On the ground it cannot turn, and the torque is true.",
            "When does the wheel sit straight, and when can it no longer turn under the wrench?",
        ),
        Case(
            f"The sheet of {car.name} wants the new hub nut tightened on the ground; the test route has {km} km. How?",
            "Wheel on the ground, car chocked and not moved, to the sheet's torque",
            (later, rolls, long_bar),
            "On the ground nothing turns or tips. The car does not roll one step before the nut is tight.",
            "What holds the wheel against so high a torque, and what must the bearing not do before?",
        ),
        Case(
            f"The sheet of {car.name} forbids loading the wheel bearing before its nut is tight; the test route has {km} km. "
            "How is the nut tightened?",
            "Raised just clear, helper on the foot brake, to the sheet's torque",
            (later, rolls, long_bar),
            "The bearing must not carry the car yet. So the wheel hangs just free, and the brake holds it.",
            "The wheel may not stand on the ground. What else can hold it, close to the ground?",
        ),
    )
    return choice_from(draw, cases[form], vehicle=car.id)
