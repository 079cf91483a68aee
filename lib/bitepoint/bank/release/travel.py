"""Lesson 10, the release system: travel and effort through the chain from pedal to release bearing."""

from bitepoint.bank.measure.readings import told_apart
from bitepoint.bank.measure.readings_wrench import pedal
from bitepoint.bank.registry import exercise
from bitepoint.bank.release.outcomes import FOLLOWS
from bitepoint.mechanics import hydraulics
from bitepoint.mechanics import release as chain
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent, plus_minus
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
        return (("Bell-crank and fork together", f"{lever:g} : 1"),), 1.0, lever
    master, slave = round(hydraulics.bore_area_mm2(sheet.master_bore_mm), 1), round(slave_area_mm2(car), 1)
    rows: Rows = (("Master piston", f"{master:g} mm²"), ("Slave piston", f"{slave:g} mm²"))
    fork = sheet.fork_ratio or 1.0
    if fork != 1:
        rows = (*rows, ("Fork", f"{fork:g} : 1"))
    return rows, slave / master, fork


@exercise("release.bearing-travel", lesson="release", outcome=FOLLOWS, minutes=3.5, title="Travel at the bearing")
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
    needed = sheet.bearing_travel_required_mm
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
        within=percent(0.8),
        decimals=2,
        mistakes=tuple(wrong),
        why=f"{right:.2f} mm arrive and {needed:g} mm are needed. The reserve is small, so play and air matter.",
        step=f"Take off the play first: {sheet.pedal_travel_mm:g} − {play} = {sheet.pedal_travel_mm - play:g} mm. "
        f"The whole ratio is {ratio:.2f} : 1.",
        solution=f"({sheet.pedal_travel_mm:g} − {play}) ÷ {ratio:.2f} × {sheet.efficiency_travel:g} = {right:.2f} mm.",
        source="derived",
        vehicle=car.id,
        picture=picture_of(car),
    )


@exercise("release.foot-force", lesson="release", outcome=FOLLOWS, minutes=2.5, title="Force of the foot")
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
                "Who reckons so never finds a cable that sticks.",
            ),
        ),
        why=f"{right:.0f} N at the pad hold {load} N at the fingers. Much more on a car means friction somewhere.",
        step=f"Without friction it were {load} ÷ {ratio:g} = {load / ratio:.0f} N. Only a part of the foot's force arrives.",
        solution=f"{load} ÷ ({ratio:g} × {share:g}) = {right:.0f} N.",
        source="derived",
        vehicle=car.id,
    )


@exercise(
    "release.free-play",
    lesson="release",
    outcome=FOLLOWS,
    minutes=2.5,
    title="Play at pad and bearing",
    needs=("cable release",),
)
def free_play(draw: Draw) -> Number:
    car = draw.vehicle()
    pedal, lever = car.release.pedal_ratio, car.release.outer_lever_ratio or 1.0
    ratio = pedal * lever
    stops = "You stopped at the cable. Bell-crank and fork shorten the way once more. The bearing would drag or rattle."
    turned = "You turned it round: large at the foot, small at the bearing. So set, the bearing would never come free."
    if draw.form(2):
        gap = draw.value(1.1, 1.9, 0.05)
        given, right, asked = f"{gap:g} mm of clearance at the fingers", gap * ratio, "play at the pad"
        first, second, sign = gap * pedal, gap / ratio, "×"
        figure = gap
    else:
        play = draw.integer(10, 30)
        given, right, asked = f"{play} mm of free play at the pad", play / ratio, "clearance at the fingers"
        first, second, sign = play / pedal, play * ratio, "÷"
        figure = float(play)
    return Number(
        ask=f"The cable of {car.name} is set to {given}. The pedal makes {pedal:g} : 1, bell-crank and fork together "
        f"{lever:g} : 1. How much {asked} is that, in mm?",
        answer=right,
        unit="mm",
        within=percent(2),
        decimals=2,
        mistakes=(Mistake(first, "stops at the cable", stops), Mistake(second, "turns the ratio round", turned)),
        why=f"{given} is {right:.2f} mm of {asked}. Little at the bearing, much at the foot: so you measure at the pad.",
        step=f"Both ratios count: {pedal:g} × {lever:g} = {ratio:.2f}. Which of the two ends moves more?",
        solution=f"{figure:g} {sign} {ratio:.2f} = {right:.2f} mm.",
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


@exercise(
    "release.line-pressure",
    lesson="release",
    outcome=FOLLOWS,
    minutes=2.5,
    title="Pressure in the line",
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
