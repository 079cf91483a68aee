"""Lesson 10, the release system: travel and effort through the chain from pedal to release bearing."""

from bitepoint.bank.measure.readings import told_apart
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.outcomes import FOLLOWS
from bitepoint.mechanics import hydraulics
from bitepoint.mechanics import release as chain
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake, Picture
from bitepoint.workshop.figures import release_ratio, slave_area_mm2
from bitepoint.workshop.vehicles import Vehicle

Rows = tuple[tuple[str, str], ...]


def fresh(draw: Draw, count: int) -> int:
    """Return a number from 0 to count - 1 that is another one at each next turn, up to three turns in a row."""
    number: int = draw.pick(*range(draw.form(3), count, 3))
    return number


def picture_of(car: Vehicle) -> Picture:
    """Return the picture of a vehicle's release system, pedal up."""
    if not car.release.master_bore_mm:
        return Picture("release-cable-fork", {"vehicle": car.id})
    kind = "concentric" if car.release.slave_outer_mm else "external"
    return Picture(f"release-{kind}-slave", {"vehicle": car.id})


def _levers(car: Vehicle) -> tuple[Rows, float, float]:
    """Return the rows of the sheet after the pedal, the ratio of the cylinders and that of the last lever."""
    sheet = car.release
    if not sheet.master_bore_mm:
        lever = sheet.outer_lever_ratio or 1.0
        return (("Release lever and fork together", f"{lever:g} : 1"),), 1.0, lever
    master, slave = round(hydraulics.bore_area_mm2(sheet.master_bore_mm), 1), round(slave_area_mm2(car), 1)
    rows: Rows = (("Master piston", f"{master:g} mm²"), ("Slave piston", f"{slave:g} mm²"))
    fork = sheet.fork_ratio or 1.0
    if fork != 1:
        rows = (*rows, ("Fork", f"{fork:g} : 1"))
    return rows, slave / master, fork


@exercise(
    "release.bearing-travel", lesson="release", outcome=FOLLOWS, minutes=3.5, title="Work out the travel at the bearing"
)
def bearing_travel(draw: Draw) -> Number:
    car = draw.vehicle()
    sheet = car.release
    low, high = sheet.free_play_mm
    play = int(low) + fresh(draw, int(high) - int(low) + 1)
    rows, cylinders, lever = _levers(car)
    ratio = chain.overall_ratio(
        sheet.pedal_ratio, slave_area_mm2=cylinders * 100, master_area_mm2=100, fork_ratio=lever
    )
    right = chain.bearing_travel_mm(
        sheet.pedal_travel_mm, free_play_mm=play, ratio=ratio, efficiency=sheet.efficiency_travel
    )
    wrong = [
        Mistake(
            right * sheet.pedal_travel_mm / (sheet.pedal_travel_mm - play),
            "forgets the free play",
            "You let all of the pedal's travel count. The first millimetres move nothing. "
            "On a car you would expect travel that never arrives, and look in the wrong place.",
        )
    ]
    if lever != 1:
        wrong.append(
            Mistake(
                right * lever,
                "leaves out the last lever",
                "You stopped before the last lever. The fork shortens the travel once more. "
                "A bearing that really went so far would break the fingers.",
            )
        )
    if cylinders != 1:
        wrong.append(
            Mistake(
                right * cylinders,
                "leaves out the cylinders",
                "You left out the two pistons. The slave is larger, so it moves less than the master. "
                "Then a wrong cylinder would never be found.",
            )
        )
    wrong.append(
        Mistake(
            right / sheet.efficiency_travel,
            "lets all travel arrive",
            "You left out the share that bends away. On a car you would count on travel that never reaches the bearing.",
        )
    )
    needed, within = sheet.bearing_travel_required_mm, percent(0.8)
    return Number(
        ask=f"The pedal of {car.name} is pressed to its stop. How far does the release bearing travel, in mm?",
        table=(
            ("From the sheet", "Figure"),
            ("Travel of the pedal", f"{sheet.pedal_travel_mm:g} mm"),
            ("Free play, measured", f"{play} mm"),
            ("Pedal", f"{sheet.pedal_ratio:g} : 1"),
            *rows,
            ("Share of the travel that arrives", f"{100 * sheet.efficiency_travel:.0f} %"),
        ),
        answer=right,
        unit="mm",
        within=within,
        decimals=2,
        mistakes=told_apart(right, wrong, within),
        why=f"{right:.2f} mm arrive and {needed:g} mm are needed. The reserve is small, so play and air matter.",
        step=f"Take off the play first: {sheet.pedal_travel_mm:g} − {play} = {sheet.pedal_travel_mm - play:g} mm. "
        f"The whole ratio is {ratio:.2f} : 1.",
        solution=f"({sheet.pedal_travel_mm:g} − {play}) ÷ {ratio:.2f} × {sheet.efficiency_travel:g} = {right:.2f} mm.",
        source="derived",
        vehicle=car.id,
        picture=picture_of(car),
    )


@exercise("release.foot-force", lesson="release", outcome=FOLLOWS, minutes=2.5, title="Work out the force of the foot")
def foot_force(draw: Draw) -> Number:
    car = draw.vehicle()
    share = car.release.efficiency_force
    load = round(car.clutch.release_load_max_n * (86 + fresh(draw, 15)) / 1000) * 10
    ratio = round(release_ratio(car), 2)
    right = chain.pedal_effort_n(load, ratio=ratio, efficiency=share)
    return Number(
        ask=f"The fingers of {car.name} are pressed with {load} N. Pedal, levers and cylinders together make "
        f"{ratio:g} : 1. Friction leaves {100 * share:.0f} % of the force. What must the foot press with, in N?",
        answer=right,
        unit="N",
        within=percent(2),
        decimals=0,
        mistakes=(
            Mistake(
                load / ratio,
                "forgets friction",
                "You left friction out. The foot has to overcome it as well. "
                "Without it a pedal in good order would look too heavy.",
            ),
            Mistake(
                load / ratio * share,
                "lets friction help",
                "You multiplied by the share. Then friction would help the foot. "
                "Worked out so, a cable that sticks is never found.",
            ),
        ),
        why=f"{right:.0f} N at the pad hold {load} N at the fingers. Much more on a car means friction somewhere.",
        step=f"Without friction it were {load} ÷ {ratio:g} = {load / ratio:.0f} N. Only a part of the foot's force arrives.",
        solution=f"{load} ÷ ({ratio:g} × {share:g}) = {right:.0f} N.",
        source="derived",
        vehicle=car.id,
    )
