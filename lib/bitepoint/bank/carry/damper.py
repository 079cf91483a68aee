"""Lesson 1, how a clutch carries torque: what damper and flywheel do, and which parts go together."""

from bitepoint.bank.carry.common import DAMPS, count_word, table_of
from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake

_CHANGED = ("change to rigid",)


@exercise("carry.damper-stop", title="The damper and its stop", lesson="carry", outcome=DAMPS, minutes=3)
def damper_stop(draw: Draw) -> Number:
    car = draw.vehicle()
    damper, engine = car.clutch.damper, car.engine.max_torque_nm
    rate = round(damper.stiffness_nm_per_deg * draw.value(0.9, 1.05, 0.05), 1)
    stop = rate * damper.travel_deg
    turned = draw.form(2) == 1
    right = engine / rate if turned else stop / engine
    asked = (
        "How many degrees does the damper turn at the greatest engine torque?"
        if turned
        else "How many times the greatest engine torque does it carry before it meets its stop?"
    )
    return Number(
        ask=f"The damper of a plate for {car.name} is one spring in this exercise. {asked}",
        table=table_of(
            ("Stiffness of the damper", f"{rate:g} N·m for each degree"),
            ("Travel to its stop", f"{damper.travel_deg:g}°"),
            ("Greatest engine torque", f"{engine:g} N·m"),
        ),
        answer=right,
        unit="°" if turned else "",
        within=percent(2),
        decimals=1 if turned else 2,
        mistakes=_turn_mistakes(rate, damper.travel_deg, engine) if turned else _stop_mistakes(rate, stop, engine),
        why=(
            f"The stop comes at {stop:.0f} N·m. Above it the springs are solid and the beats go "
            "straight into the gearbox."
        ),
        step=f"Torque is stiffness times angle: {rate:g} N·m for each degree.",
        solution=f"{engine:g} ÷ {rate:g} = {right:.1f}°."
        if turned
        else f"{rate:g} × {damper.travel_deg:g} = {stop:.0f} N·m; {stop:.0f} ÷ {engine:g} = {right:.2f}.",
        source="invented",
        vehicle=car.id,
    )


def _turn_mistakes(rate: float, travel_deg: float, engine_nm: float) -> tuple[Mistake, ...]:
    return (
        Mistake(
            travel_deg,
            "answers with the whole travel",
            "That is where the stop is. If the engine reached it every time, the damper would hammer and break.",
        ),
        Mistake(
            engine_nm / travel_deg,
            "divides by the travel",
            (
                "You divided by the way to the stop, not by the stiffness. So a damper that hits "
                "its stop seems to have room."
            ),
        ),
    )


def _stop_mistakes(rate: float, stop_nm: float, engine_nm: float) -> tuple[Mistake, ...]:
    return (
        Mistake(
            rate / engine_nm,
            "forgets the travel",
            "Stiffness is the torque for one degree only. Multiply first, or every damper seems far too weak.",
        ),
        Mistake(
            engine_nm / stop_nm,
            "divides upside down",
            "You divided engine by damper. Read so, a good damper looks too weak and the wrong plate is ordered.",
        ),
    )


@exercise("carry.pulses", title="Beats a second", lesson="carry", outcome=DAMPS, minutes=2, beyond=True)
def pulses(draw: Draw) -> Number:
    car = draw.vehicle()
    cylinders = car.engine.cylinders
    rpm = draw.pick(*range(900, 2101, 60))
    hertz = rpm * cylinders / 120
    back = draw.form(2) == 1
    engine = f"The four-stroke engine of {car.name} has {count_word(cylinders)} cylinders. "
    asked = (
        f"The gearbox is shaken {hertz:g} times a second by the firing strokes. At which engine speed?"
        if back
        else f"It runs at {rpm} rpm. How many firing strokes a second shake the gearbox?"
    )
    once = 60 * hertz if back else rpm / 60
    every = once / cylinders if back else once * cylinders
    return Number(
        ask=engine + asked,
        answer=rpm if back else hertz,
        unit="rpm" if back else "Hz",
        within=percent(2),
        decimals=0 if back else 1,
        mistakes=(
            Mistake(
                once,
                "counts one stroke a turn",
                "One beat a turn is what a bent part gives. Mixed up, you hunt for a bent part that is not there.",
            ),
            Mistake(
                every,
                "counts every cylinder in every turn",
                "In a four-stroke each cylinder fires only every second turn. The beat comes out at the wrong speed.",
            ),
        ),
        why=f"{count_word(cylinders).capitalize()} cylinders fire {cylinders / 2:g} times a turn: "
        f"{hertz:g} times a second at {rpm} rpm.",
        step=f"In one turn of the crankshaft {cylinders / 2:g} cylinders fire. Then change minutes into seconds.",
        solution=f"{hertz:g} × 60 ÷ {cylinders / 2:g} = {rpm} rpm."
        if back
        else f"{rpm} ÷ 60 × {cylinders / 2:g} = {hertz:g} a second.",
        source="engine-orders",
        vehicle=car.id,
    )


@exercise("carry.flywheel-change", title="What another flywheel changes", lesson="carry", outcome=DAMPS, minutes=2)
def flywheel_change(draw: Draw) -> Choice:
    form = form_of(draw)
    car = draw.cars(*form.needs)[0] if form.needs else None
    return form.choice(
        draw,
        vehicle=car.id if car else "",
        car=car.name if car else "",
    )


@exercise("carry.go-together", lesson="carry", title="What goes together", outcome=DAMPS, minutes=3, others=(_CHANGED,))
def go_together(draw: Draw) -> Several:
    car = draw.pick(*draw.cars(*_CHANGED))
    dmf = car.flywheel.bolt_dmf
    assert dmf is not None
    own, other = f"{car.flywheel.bolt.thread}×{car.flywheel.bolt.length_mm:g}", f"{dmf.thread}×{dmf.length_mm:g}"
    return form_of(draw).several(
        draw,
        vehicle=car.id,
        table=table_of(("Bolts of the rigid flywheel", own), ("Bolts of the dual-mass flywheel", other)),
        car=car.name,
        own=own,
        other=other,
    )
