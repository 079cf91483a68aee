"""Lesson 1, how a clutch carries torque: what frees the plate: travel and lift."""

from bitepoint.bank.carry.common import LIFTS, table_of
from bitepoint.bank.registry import exercise
from bitepoint.mechanics.release import plate_lift_mm
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.figures import bearing_travel_mm


@exercise("carry.lift", lesson="carry", title="Lift of the pressure plate", outcome=LIFTS, minutes=3)
def lift(draw: Draw) -> Number:
    car = draw.vehicle()
    ratio, lost = car.clutch.lever_ratio, draw.value(0.6, 1.2, 0.1)
    air = draw.form(2) == 1
    travel = round(bearing_travel_mm(car), 1) - (draw.pick(1, 1.2, 1.4) if air else 0)
    right = plate_lift_mm(travel, finger_ratio=ratio, lost_mm=lost)
    where = f"The pedal of {car.name} is down"
    told = f"{where}, but travel is missing. The release bearing" if air else f"{where}. The release bearing"
    return Number(
        ask=f"{told} pushes the finger tips by {travel:.1f} mm. The first part of it only bends cover and fingers. How far does the pressure plate lift?",
        table=table_of(
            ("Lever ratio of the fingers", f"{ratio:g}"), ("Lost in bending, at the bearing", f"{lost:.1f} mm")
        ),
        answer=right,
        unit="mm",
        within=percent(2),
        decimals=2,
        mistakes=(
            Mistake(
                travel / ratio,
                "forgets what is lost in bending",
                (
                    "Cover and fingers bend before anything lifts. Who forgets it expects a free "
                    "plate where it still drags."
                ),
            ),
            Mistake(
                (travel - lost) * ratio,
                "multiplies by the lever ratio",
                "The fingers are the long arm: they move much, the plate little. Such a lift would burst the straps.",
            ),
        ),
        why=f"The fingers move {ratio:g} times as far as the plate. The sheet asks for "
        f"{car.clutch.plate_lift_required_mm:g} mm: {_enough(right, car.clutch.plate_lift_required_mm)}.",
        step=f"First take off what is lost: {travel:.1f} − {lost:.1f} mm. Then divide by the long arm.",
        solution=f"({travel:.1f} − {lost:.1f}) ÷ {ratio:g} = {right:.2f} mm.",
        source="invented",
        vehicle=car.id,
    )


def _enough(lift_mm: float, needed_mm: float) -> str:
    return "it frees" if lift_mm >= needed_mm else "it may drag"


@exercise("carry.travel-needed", title="Travel that frees the plate", lesson="carry", outcome=LIFTS, minutes=3)
def travel_needed(draw: Draw) -> Number:
    car = draw.vehicle()
    ratio, lost = car.clutch.lever_ratio, draw.value(0.6, 1.2, 0.1)
    asked = draw.form(2)
    wanted = car.clutch.plate_lift_required_mm if not asked else draw.pick(1.3, 1.4, 1.45, 1.55)
    right = wanted * ratio + lost
    whose = "The sheet asks for" if not asked else "The maker of another plate asks for"
    return Number(
        ask=f"Fingers as on {car.name}. {whose} a lift of {wanted:g} mm. "
        "How far must the release bearing push the finger tips for it?",
        table=table_of(
            ("Lever ratio of the fingers", f"{ratio:g}"), ("Lost in bending, at the bearing", f"{lost:.1f} mm")
        ),
        answer=right,
        unit="mm",
        within=percent(1.5),
        decimals=1,
        mistakes=(
            Mistake(
                wanted * ratio,
                "forgets what is lost in bending",
                "The first part of the travel only bends parts. Set so short, the clutch drags and the gears grate.",
            ),
            Mistake(
                wanted / ratio,
                "divides by the lever ratio",
                "The bearing pushes the long arm, so it needs more travel than the plate. So little frees nothing.",
            ),
            Mistake(
                (wanted + lost) * ratio,
                "multiplies what is lost as well",
                "The loss is measured at the bearing already. Too much travel bends the fingers past their stop.",
            ),
        ),
        why=f"The long arm makes {wanted:g} mm into {wanted * ratio:.2f} mm, and bending comes on top.",
        step=f"Turn the lift into travel at the fingers: {wanted:g} × {ratio:g}. Then think of the bending.",
        solution=f"{wanted:g} × {ratio:g} + {lost:.1f} = {right:.2f} mm.",
        source="invented",
        vehicle=car.id,
    )
