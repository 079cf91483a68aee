"""Lesson 8, star tightening: what a second round and a record tell, a job nobody remembers, the impact tool."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.star.common import JUDGES
from bitepoint.mechanics.bolts import preload_from_torque_n, torque_for_preload_nm
from bitepoint.mechanics.joints import preload_after_angle_n
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.draw import Draw
from bitepoint.workshop.vehicles import Vehicle


@exercise("star.second-round", lesson="star", outcome=JUDGES, minutes=2, title="Judge a second round")
def second_round(draw: Draw) -> Choice:
    form = form_of(draw)
    car = draw.pick(*draw.cars(*form.needs))
    sheet, n = car.flywheel.tightening, car.flywheel.bolt_count
    if form.key == "paint-mark":
        return form.choice(draw, vehicle=car.id, car=car.name, bolt=draw.integer(1, n), angle=f"{sheet.angle_deg:g}")
    limit = round(sheet.second_round_limit_deg or 0)
    turned = [draw.integer(0, 5) for _ in range(n)]
    bolt = draw.integer(1, n)
    if form.key == "one-over":
        turned[bolt - 1] = limit + draw.integer(7, 19)
    return form.choice(
        draw,
        vehicle=car.id,
        table=(("Bolt", *_numbers(n)), ("Turned", *(f"{t}°" for t in turned))),
        car=car.name,
        final=f"{sheet.final_nm:g}",
        limit=limit,
        bolt=bolt,
        turned=turned[bolt - 1],
    )


def _numbers(count: int) -> list[str]:
    return [str(number) for number in range(1, count + 1)]


@exercise("star.after-lunch", lesson="star", outcome=JUDGES, minutes=2, title="Take over a job that nobody remembers")
def after_lunch(draw: Draw) -> Several:
    form = form_of(draw)
    car = draw.pick(*draw.cars(*form.needs))
    angle = car.flywheel.tightening.angle_deg or 0
    return form.several(draw, vehicle=car.id, car=car.name, n=car.flywheel.bolt_count, angle=f"{angle:g}")


_BY_ANGLE = ("angle stage",)


@exercise(
    "star.angle-log", lesson="star", outcome=JUDGES, minutes=3, others=(_BY_ANGLE,), title="Judge a record of angles"
)
def angle_log(draw: Draw) -> Choice:
    form, car = form_of(draw), draw.pick(*draw.cars(*_BY_ANGLE))
    n, sheet = car.flywheel.bolt_count, car.flywheel.tightening
    angle, usual = round(sheet.angle_deg or 0), _end_torque_nm(car)
    bolt = draw.integer(2, n)
    angles = [angle + draw.integer(-1, 1) for _ in range(n)]
    torques = [usual + draw.integer(-4, 4) for _ in range(n)]
    if form.key == "stopped-early":
        angles[bolt - 1], torques[bolt - 1] = draw.integer(8, 14), usual + draw.integer(8, 15)
    if form.key == "turns-without-torque":
        # Little more than the torque that the angle started from.
        torques[bolt - 1] = draw.integer(round(sheet.final_nm) + 4, round(1.2 * sheet.final_nm) + 8)
    return form.choice(
        draw,
        vehicle=car.id,
        table=(
            ("Bolt", *_numbers(n)),
            ("Angle", *(f"{a}°" for a in angles)),
            ("Torque", *(f"{t} N·m" for t in torques)),
        ),
        car=car.name,
        angle=angle,
        usual=usual,
        bolt=bolt,
        turned=angles[bolt - 1],
        torque=torques[bolt - 1],
    )


def _end_torque_nm(car: Vehicle) -> int:
    """Return the torque of a flywheel bolt at the end of its angle stage, as the sheet's figures give it."""
    sheet, bolt = car.flywheel.tightening, car.flywheel.bolt
    preload = preload_after_angle_n(
        preload_from_torque_n(sheet.final_nm, d_mm=bolt.d_mm, nut_factor=sheet.nut_factor),
        angle_deg=sheet.angle_deg or 0,
        pitch_mm=bolt.pitch_mm,
        stiffness_kn_per_mm=sheet.joint_stiffness_kn_per_mm or 0,
    )
    return round(torque_for_preload_nm(preload, d_mm=bolt.d_mm, nut_factor=sheet.nut_factor))


@exercise("star.impact", lesson="star", outcome=JUDGES, minutes=1.5, title="Start the bolts by hand")
def impact(draw: Draw) -> Choice:
    turns, n = draw.integer(2, 4), draw.vehicle().flywheel.bolt_count
    return form_of(draw).choice(draw, turns=turns, n=n)
