"""Lesson 3, finding the fault: engine speed against road speed, and how sure a figure is."""

from bitepoint.bank.carry.common import table_of
from bitepoint.bank.fault.outcomes import LOGS, gear_word
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.driveline import input_speed_rpm, slip_uncertainty_percent
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import rolling_circumference_mm


@exercise("fault.engine-speed", lesson="fault", outcome=LOGS, minutes=3, beyond=True)
def engine_speed(draw: Draw) -> Number:
    car = draw.vehicle()
    gear, kmh = draw.pick(3, 4), draw.value(45, 85, 5)
    ratio, final = car.gearbox.ratios[gear - 1], car.gearbox.final
    metres = round(rolling_circumference_mm(car) / 1000, 3)
    rpm = input_speed_rpm(kmh, gear_ratio=ratio, final_ratio=final, rolling_circumference_mm=metres * 1000)
    back = draw.form(2) == 1
    if back:
        rpm = round(rpm / 50) * 50
        kmh = rpm * metres * 0.06 / (ratio * final)
    shift = ratio / car.gearbox.ratios[gear]
    given = (
        f"the engine turns at {rpm} rpm. Which road speed belongs to it"
        if back
        else f"it drives {kmh:g} km/h. Which engine speed belongs to it"
    )
    return Number(
        ask=f"In {gear_word(gear)} of {car.name} {given}, if nothing slips?",
        table=table_of(
            (f"Ratio of {gear_word(gear)}", f"{ratio:g}"),
            ("Final drive", f"{final:g}"),
            ("Way of one turn of the wheel", f"{metres:g} m"),
        ),
        answer=kmh if back else rpm,
        unit="km/h" if back else "rpm",
        within=percent(2),
        decimals=1 if back else 0,
        mistakes=(
            Mistake(
                kmh * final if back else rpm / final,
                "forgets the final drive",
                "There are two steps: gearbox and final drive. With one left out, every log seems to show a fault.",
            ),
            Mistake(
                kmh / 3.6 if back else rpm * 3.6,
                "mixes up km/h and m/s",
                "Kilometres an hour and metres a second differ by a factor. Unchanged, no figure of the log fits.",
            ),
            Mistake(
                kmh * shift if back else rpm / shift,
                "takes the next gear",
                "That is the gear above. A log judged with the wrong gear shows slip where there is none.",
            ),
        ),
        why=(
            f"{rpm:.0f} rpm and {kmh:.1f} km/h belong together in {gear_word(gear)}. Anything "
            "above is slip, or a wrong figure."
        ),
        step=f"The wheel turns 1 ÷ ({ratio:g} × {final:g}) as fast as the engine. One turn is {metres:g} m.",
        solution=f"{rpm:.0f} ÷ 60 ÷ ({ratio:g} × {final:g}) × {metres:g} m × 3.6 = {kmh:.1f} km/h."
        if back
        else f"{kmh:g} ÷ 3.6 ÷ {metres:g} × 60 × {ratio:g} × {final:g} = {rpm:.0f} rpm.",
        source="derived",
        vehicle=car.id,
    )


@exercise("fault.how-sure", lesson="fault", title="How sure is it?", outcome=LOGS, minutes=2)
def how_sure(draw: Draw) -> Choice:
    form = form_of(draw)
    slips = {
        "reaches-nought": draw.value(0.8, 2, 0.1),
        "above-nought": draw.value(8, 15, 0.5),
        "below-nought": -draw.value(6, 9, 0.5),
    }
    found, shares = slips[form.key], (0.5, draw.pick(0.8, 1.0), draw.pick(0.8, 1.0))
    n, v, c = (s / 100 for s in shares)
    wide = 2 * slip_uncertainty_percent(found, engine_speed_u=n, road_speed_u=v, circumference_u=c)
    return form.choice(
        draw,
        table=table_of(
            ("Engine speed known to", f"{shares[0]:g} %"),
            ("Road speed known to", f"{shares[1]:g} %"),
            ("Way of one turn of the wheel known to", f"{shares[2]:g} %"),
        ),
        found=_signed(found),
        wide=f"{wide:.1f}",
        low=_signed(found - wide),
        high=_signed(found + wide),
    )


def _signed(value: float) -> str:
    return f"{value:.1f}".replace("-", "−")
