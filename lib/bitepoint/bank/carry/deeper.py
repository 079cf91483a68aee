"""Lesson 1, how a clutch carries torque, outside the pass rule: resonance of three layouts, heat of a take-up."""

from bitepoint.bank.carry.common import CARRIES, DAMPS, count_word, table_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.heat import steady_slip_power_kw
from bitepoint.mechanics.vibration import (
    firing_order,
    resonance_speed_rpm,
    stiffness_nm_per_rad,
    two_inertia_frequency_hz,
)
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake

_MASSES = ("inertia figures",)


@exercise(
    "carry.resonance",
    title="Where the flywheel shakes",
    lesson="carry",
    outcome=DAMPS,
    minutes=8,
    beyond=True,
    others=(_MASSES,),
)
def resonance(draw: Draw) -> Number:
    car = draw.cars(*_MASSES)[0]
    model, cylinders = car.flywheel.inertia_model, count_word(car.engine.cylinders)
    assert model is not None
    long_travel = car.clutch.damper.stiffness_nm_per_deg
    rigid = (model.engine_rigid_kgm2, model.input_rigid_kgm2)
    name, sheet_rate, (engine_side, gearbox_side) = (
        ("dual-mass flywheel", model.dmf_nm_per_deg, (model.primary_dmf_kgm2, model.secondary_dmf_kgm2)),
        ("rigid flywheel and a long-travel plate", long_travel, rigid),
        ("rigid flywheel and a short damper", model.short_damper_nm_per_deg, rigid),
    )[draw.form(3)]
    rate = round(sheet_rate * draw.value(0.9, 1.1, 0.02), 2)

    def hertz(stiffness: float) -> float:
        return two_inertia_frequency_hz(stiffness, engine_side_kg_m2=engine_side, gearbox_side_kg_m2=gearbox_side)

    found = hertz(stiffness_nm_per_rad(rate))
    right = resonance_speed_rpm(found, cylinders=car.engine.cylinders)
    in_degrees = resonance_speed_rpm(hertz(rate), cylinders=car.engine.cylinders)
    strokes = firing_order(car.engine.cylinders)
    often = "twice" if strokes == 2 else f"{strokes:g} times"
    where = "below" if right < car.engine.idle_rpm else "above"
    return Number(
        ask=f"A {cylinders}-cylinder engine with a {name}, as on {car.name}: two masses on one spring. "
        "At which engine speed do the firing strokes meet its natural frequency f = √(k (1/J₁ + 1/J₂)) ÷ 2π?",
        table=table_of(
            ("Spring, k", f"{rate:g} N·m for each degree"),
            ("Engine side, J₁", f"{engine_side:g} kg·m²"),
            ("Gearbox side, J₂", f"{gearbox_side:g} kg·m²"),
        ),
        answer=right,
        unit="rpm",
        within=percent(2),
        decimals=0,
        mistakes=(
            Mistake(
                right * strokes,
                "takes one stroke a turn",
                f"{cylinders.capitalize()} cylinders fire {often} a turn. "
                "Counted with one, the shake seems to lie where nobody drives.",
            ),
            Mistake(
                in_degrees,
                "leaves the stiffness in degrees",
                "The formula wants the stiffness for one radian. In degrees every layout seems silent.",
            ),
        ),
        why=(
            f"{found:.1f} beats a second, met at {right:.0f} rpm: {where} the idle speed of "
            f"{car.engine.idle_rpm:g} rpm."
        ),
        step=f"First the stiffness for one radian: {rate:g} × 57.3 = {stiffness_nm_per_rad(rate):.0f} N·m.",
        solution=f"f = {found:.2f} a second; {count_word(strokes)} strokes a turn: 60 × {found:.2f} ÷ {strokes:g} = {right:.0f} rpm.",
        source="two-inertia-model",
        vehicle=car.id,
    )


@exercise("carry.take-up-heat", lesson="carry", title="Heat of a take-up", outcome=CARRIES, minutes=5, beyond=True)
def take_up_heat(draw: Draw) -> Number:
    car = draw.vehicle()
    torque = round(car.engine.max_torque_nm * draw.value(0.3, 0.6, 0.05))
    seconds, difference = draw.value(1, 3, 0.5), draw.pick(*range(1200, 2501, 100))
    power = steady_slip_power_kw(torque, speed_difference_rpm=difference)
    right = power * seconds / 2
    told = ("The car starts on the level", "The car starts on a hill")[draw.form(2)]
    return Number(
        ask=(
            f"{told}. For {seconds:g} s the clutch of {car.name} slips at {torque} N·m, and the "
            "speed difference "
            f"falls evenly from {difference} rpm to nothing. How much heat does it make?"
        ),
        answer=right,
        unit="kJ",
        within=percent(2),
        decimals=1,
        mistakes=(
            Mistake(
                power * seconds,
                "forgets the half",
                "The difference falls to nothing, so on average it is half. Twice the heat condemns every start.",
            ),
            Mistake(
                right * 60 / 6.283185307,
                "takes turns a minute for radians a second",
                "The formula wants radians a second. With turns a minute the plate would glow at every start.",
            ),
        ),
        why=(
            f"Torque times speed difference is power, {power:.1f} kW at the start. Half of it on "
            f"average, for {seconds:g} s."
        ),
        step=f"First the difference in radians a second: {difference} × 2π ÷ 60 = {difference * 0.1047198:.0f}.",
        solution=f"{torque} N·m × {difference * 0.1047198:.1f} × {seconds:g} s ÷ 2 = {right:.1f} kJ.",
        source="mech-eng-design-5",
        vehicle=car.id,
    )
