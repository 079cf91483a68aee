"""Lesson 10, the release system: pressure in the line, and what a bubble of air in it costs."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.release.outcomes import AIR, FOLLOWS
from bitepoint.bank.release.travel import fresh
from bitepoint.mechanics import hydraulics
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import bearing_travel_mm, slave_area_mm2


@exercise(
    "release.line-pressure",
    lesson="release",
    outcome=FOLLOWS,
    minutes=2.5,
    title="Work out the pressure in the line",
    needs=("hydraulic release",),
)
def line_pressure(draw: Draw) -> Number:
    car = draw.vehicle()
    load = round(car.clutch.release_load_max_n * (86 + fresh(draw, 15)) / 1000) * 10
    fork = car.release.fork_ratio or 1.0
    master, slave = round(hydraulics.bore_area_mm2(car.release.master_bore_mm or 0), 1), round(slave_area_mm2(car), 1)
    right = hydraulics.line_pressure_bar(load, slave_area_mm2=slave, fork_ratio=fork)
    where = "straight on the release bearing" if fork == 1 else f"through the fork, {fork:g} : 1"
    return Number(
        ask=f"On {car.name} the fingers are held down with {load} N. The slave acts {where}. "
        "What is the pressure in the line, in bar? 1 N/mm² is 10 bar.",
        table=(("Piston", "Area"), ("Master", f"{master:g} mm²"), ("Slave", f"{slave:g} mm²")),
        answer=right,
        unit="bar",
        within=percent(2),
        decimals=1,
        mistakes=(
            Mistake(
                load / fork / master * 10,
                "divides by the master's area",
                "You took the master. The load stands on the slave, so its area counts. "
                "The pressure would look far too high, and a good part is thrown away.",
            ),
            Mistake(
                right / 10,
                "takes N/mm² for bar",
                "That is in N/mm². Who reads it as bar believes that a hose with no strength would do, and it bursts.",
            ),
        ),
        why=f"{right:.1f} bar squirt far from a loose joint. So the joint is clipped home before anybody presses.",
        step=f"Force at the slave first: {load} ÷ {fork:g} = {load / fork:.0f} N. Then share it over the slave's area.",
        solution=f"{load / fork:.0f} ÷ {slave:g} × 10 = {right:.1f} bar.",
        source="derived",
        vehicle=car.id,
    )


def _without_fork(value: float, fork: float) -> tuple[Mistake, ...]:
    """Return the figure of whoever stops at the slave, where a fork comes after it."""
    says = (
        "You stopped at the slave. The fork shortens the lost travel as it shortens all travel. "
        "You would blame the bubble for more than it takes."
    )
    return (Mistake(value, "leaves out the fork", says),) if fork != 1 else ()


@exercise(
    "release.air-lost",
    lesson="release",
    outcome=AIR,
    minutes=3,
    title="Work out what a bubble costs",
    needs=("hydraulic release",),
)
def air_lost(draw: Draw) -> Number:
    car = draw.vehicle()
    fork = car.release.fork_ratio or 1.0
    master, slave = round(hydraulics.bore_area_mm2(car.release.master_bore_mm or 0), 1), round(slave_area_mm2(car), 1)
    air = round(0.2 + fresh(draw, 14) / 10, 1)
    right = hydraulics.bearing_travel_lost_to_air_mm(air, slave_area_mm2=slave, fork_ratio=fork)
    how = "There is no fork" if fork == 1 else f"The fork makes {fork:g} : 1"
    return Number(
        ask=f"A bubble of {air:g} ml is left in the line of {car.name}. Under pressure nearly all of it is squeezed away. "
        f"{how}. How much travel is lost at the release bearing, in mm? 1 ml is 1000 mm³.",
        table=(("Piston", "Area"), ("Master", f"{master:g} mm²"), ("Slave", f"{slave:g} mm²")),
        answer=right,
        unit="mm",
        within=percent(2),
        decimals=2,
        mistakes=(
            Mistake(
                air * 1000 / (master * fork),
                "divides by the master's area",
                "You took the master. What is missing is missing at the slave. "
                "You would blame the bubble for travel that something else takes.",
            ),
            Mistake(
                air,
                "takes ml for mm",
                "A volume is no length. Divide it by the area that it would have pushed. "
                "Otherwise a bubble that makes the clutch drag looks harmless.",
            ),
            *_without_fork(right * fork, fork),
        ),
        why=f"{right:.2f} mm are gone for {air:g} ml. A bubble smaller than a pea can make the clutch drag.",
        step=f"{air:g} ml is {1000 * air:.0f} mm³. Divide by the slave's area, then by the ratio of the fork if there is one.",
        solution=f"{1000 * air:.0f} ÷ ({slave:g} × {fork:g}) = {right:.2f} mm.",
        source="derived",
        vehicle=car.id,
    )


@exercise(
    "release.air-left",
    lesson="release",
    outcome=AIR,
    minutes=3,
    beyond=True,
    title="Work out the travel left with air",
    needs=("hydraulic release",),
)
def air_left(draw: Draw) -> Number:
    car = draw.vehicle()
    fork, needed = car.release.fork_ratio or 1.0, car.release.bearing_travel_required_mm
    slave, whole = round(slave_area_mm2(car), 1), round(bearing_travel_mm(car), 2)
    air = round(0.2 + fresh(draw, 14) / 10, 1)
    lost = hydraulics.bearing_travel_lost_to_air_mm(air, slave_area_mm2=slave, fork_ratio=fork)
    left = whole - lost
    how = "There is no fork." if fork == 1 else f"The fork makes {fork:g} : 1."
    verdict = "The clutch still releases, barely." if left >= needed else "So it drags, however hard the foot."
    return Number(
        ask=f"Without air the release bearing of {car.name} travels {whole:g} mm; it needs {needed:g} mm. "
        f"Now {air:g} ml of air are squeezed away. The slave has {slave:g} mm². {how} "
        "What travel is left at the bearing, in mm?",
        answer=left,
        unit="mm",
        within=percent(0.5),
        decimals=2,
        mistakes=(
            Mistake(
                whole, "forgets the bubble", "You took off nothing. The clutch would look good, and its gears grate."
            ),
            Mistake(
                whole + lost,
                "adds the bubble",
                "You added it. Air takes travel away. You would hand over a clutch that drags.",
            ),
            *_without_fork(whole - lost * fork, fork),
        ),
        why=f"{left:.2f} mm are left and {needed:g} mm are needed. {verdict}",
        step=f"The bubble takes {air * 1000:.0f} ÷ ({slave:g} × {fork:g}) = {lost:.2f} mm.",
        solution=f"{whole:g} − {lost:.2f} = {left:.2f} mm. {verdict}",
        source="derived",
        vehicle=car.id,
    )
