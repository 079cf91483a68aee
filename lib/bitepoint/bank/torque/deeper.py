"""Lesson 7, torque and the torque wrench, for who goes deeper: the paint mark, and the joint at its weakest."""

from math import pi

from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import BY_ANGLE, BY_TORQUE, WORKS_OUT, joint_of
from bitepoint.mechanics.bolts import preload_from_torque_n
from bitepoint.mechanics.joints import joint_friction_torque_nm, mark_travel_mm
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake


@exercise(
    "torque.mark-travel",
    lesson="torque",
    outcome=WORKS_OUT,
    minutes=2,
    beyond=True,
    others=(BY_ANGLE,),
    title="Check an angle by its paint mark",
)
def mark_travel(draw: Draw) -> Number:
    car = draw.pick(*draw.cars(*BY_ANGLE))
    angle, rim = float(car.flywheel.tightening.angle_deg or 0), draw.integer(22, 30)
    travel = mark_travel_mm(angle, diameter_mm=rim)
    if draw.form(2) == 0:
        return Number(
            ask=f"You check the paint marks on {car.name} after the angle stage of {angle:g}°. "
            f"The mark sits on the rim of a socket of {rim} mm diameter. "
            "How far has it moved along the rim, in mm?",
            answer=travel,
            unit="mm",
            within=percent(3),
            decimals=1,
            mistakes=(
                Mistake(
                    travel / 2,
                    "takes the radius for the diameter",
                    "You went round with the radius. The way round is π times the diameter. "
                    "Good bolts would look as if turned too far.",
                ),
                Mistake(
                    rim * angle / 60,
                    "counts flats times diameter",
                    "A flat is 60°, but it is not as long as the diameter. "
                    "Good bolts would look too loose, and you would turn them again.",
                ),
            ),
            why=f"The mark moved {travel:.1f} mm. A mark that moved less shows a bolt that was missed.",
            step=f"All the way round is π × {rim} mm = {pi * rim:.1f} mm. You need {angle:g}/360 of it.",
            solution=f"π × {rim} × {angle:g}/360 = {travel:.1f} mm.",
            source="derived",
            vehicle=car.id,
        )
    moved = round(travel * draw.pick(0.6, 0.8, 1.0, 1.2), 1)
    turned = moved / (pi * rim) * 360
    return Number(
        ask=f"On {car.name} the sheet says {angle:g}° for the angle stage. You check the paint marks afterwards. "
        f"One mark moved {moved:g} mm along the rim of a socket of {rim} mm diameter. "
        "How far was that bolt turned, in degrees?",
        answer=turned,
        unit="°",
        within=percent(3),
        decimals=0,
        mistakes=(
            Mistake(
                turned * 2,
                "takes the radius for the diameter",
                "You divided by π times the radius. The way round is π times the diameter. "
                "A bolt left too loose would pass as turned far enough.",
            ),
            Mistake(
                moved / rim * 360,
                "leaves out π",
                "You left π out. The way round is more than three diameters. "
                "With your figure a bolt seems turned far too far.",
            ),
        ),
        why=f"It was turned by {turned:.0f}°. Compare that with the sheet, but do not turn it again: stop and ask.",
        step=f"All the way round is π × {rim} mm = {pi * rim:.1f} mm. Which part of it is {moved:g} mm?",
        solution=f"{moved:g} / {pi * rim:.1f} × 360° = {turned:.0f}°.",
        source="derived",
        vehicle=car.id,
    )


@exercise(
    "torque.weakest-joint",
    lesson="torque",
    outcome=WORKS_OUT,
    minutes=5,
    beyond=True,
    others=(BY_TORQUE,),
    title="Find out what the joint carries at its weakest",
)
def weakest_joint(draw: Draw) -> Number:
    form = draw.form(2)
    scatter = (25, 35)[form]
    car = draw.pick(*draw.cars(*BY_TORQUE))
    joint, n, pcd, mu = joint_of(car, 0), car.flywheel.bolt_count, car.flywheel.pcd_mm, draw.pick(0.10, 0.12, 0.14)
    mean = round(preload_from_torque_n(joint.torque_nm, d_mm=joint.d_mm, nut_factor=joint.nut_factor) / 1000, 1)
    low = mean * (1 - scatter / 100)
    engine = car.engine.max_torque_nm
    right = joint_friction_torque_nm(low * 1000, bolts=n, mu=mu, pcd_mm=pcd) / engine
    state = ("lubricated", "dry")[form]
    return Number(
        ask=f"Torque tightening scatters: with {state} threads the preload can lie {scatter} % low. "
        f"The flywheel of {car.name} has {n} bolts on a circle of {pcd:g} mm diameter. "
        f"Each should pull with {mean:g} kN. Friction in the joint is {mu:g}. The engine makes {engine:g} N·m. "
        "With all bolts at the low end, how many times the engine's torque does friction alone carry?",
        answer=right,
        unit="",
        within=percent(3),
        decimals=1,
        mistakes=(
            Mistake(
                right / (1 - scatter / 100),
                "ignores the scatter",
                "You took the preload that the sheet hopes for. The low end of the scatter is asked. "
                "A joint worked out without it can be weaker than it looks.",
            ),
            Mistake(
                right * 2,
                "takes the circle's diameter as the lever",
                "The lever is half the bolt circle. With the whole diameter the joint looks twice as strong as it is.",
            ),
        ),
        why=f"Even at the low end friction carries {right:.1f} times the engine's torque. "
        "The rest is needed for jerks and vibration.",
        step=f"At the low end one bolt pulls {mean:g} × {1 - scatter / 100:g} = {low:.1f} kN. "
        f"The lever is {pcd / 2:g} mm.",
        solution=f"{n} × {low:.1f} kN × {mu:g} × {pcd / 2:g} mm = {right * engine:.0f} N·m. "
        f"Over {engine:g} N·m that is {right:.1f}.",
        source="nasa-tm-106943",
        vehicle=car.id,
    )
