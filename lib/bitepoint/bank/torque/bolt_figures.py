"""Lesson 7, torque and the torque wrench: what a torque and an angle do to a bolt, in figures."""

from math import pi

from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import WORKS_OUT, joint_of
from bitepoint.mechanics.bolts import (
    preload_from_torque_n,
    proof_stress_mpa,
    share_of_proof_pct,
    stress_area_mm2,
)
from bitepoint.mechanics.joints import joint_friction_torque_nm, mark_travel_mm, preload_after_angle_n
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import vehicle


@exercise("torque.preload", lesson="torque", outcome=WORKS_OUT, minutes=3, title="Preload of a bolt")
def preload(draw: Draw) -> Number:
    car, form = draw.vehicle(), draw.form(3)
    joint = joint_of(car, form)
    torque, d, k = joint.torque_nm, joint.d_mm, joint.nut_factor
    right = preload_from_torque_n(torque, d_mm=d, nut_factor=k) / 1000
    stage = " at the last torque stage" if form == 0 else ""
    return Number(
        ask=f"A {joint.name} bolt of {car.name} gets {torque:g} N·m{stage}. The bolt is {joint.thread}. "
        f"The sheet gives K = {k:g}. What preload does the torque make, in kN?",
        answer=right,
        unit="kN",
        within=percent(2),
        decimals=1,
        mistakes=(
            Mistake(
                torque / d,
                "leaves K out",
                "You left K out. K stands for the friction, which eats most of the torque. "
                "Without it the figure says nothing about the clamping.",
            ),
            Mistake(
                torque * k * d,
                "multiplies instead of dividing",
                "You multiplied by K and d. More friction would then clamp harder. "
                "Who believes that leaves rust on threads, and the joint comes loose.",
            ),
        ),
        why=f"{torque:g} N·m makes {right:.1f} kN here. It is this pull that clamps, not the torque.",
        step=f"Solve M = K × F × d for F. K × d is {k:g} × {d:g} mm = {k * d:.2f} mm. N·m over mm gives kN.",
        solution=f"F = {torque:g} / ({k:g} × {d:g}) = {right:.1f} kN.",
        source="mech-eng-design-9",
        vehicle=car.id,
    )


@exercise(
    "torque.proof-share",
    lesson="torque",
    outcome=WORKS_OUT,
    minutes=3,
    title="Share of the proof load",
)
def proof_share(draw: Draw) -> Number:
    car = draw.vehicle()
    joint = joint_of(car, draw.form(3))
    newtons = preload_from_torque_n(joint.torque_nm, d_mm=joint.d_mm, nut_factor=joint.nut_factor)
    area = round(stress_area_mm2(joint.d_mm, pitch_mm=joint.pitch_mm), 1)
    proof = proof_stress_mpa(joint.prop_class, d_mm=joint.d_mm)
    breaking = 100 * int(joint.prop_class.partition(".")[0])
    right = share_of_proof_pct(newtons, d_mm=joint.d_mm, pitch_mm=joint.pitch_mm, prop_class=joint.prop_class)
    load = area * proof / 1000
    return Number(
        ask=f"A {joint.name} bolt of {car.name} is pulled by {newtons / 1000:.1f} kN. "
        "What is that in per cent of its proof load? Proof load = stress area × proof stress.",
        table=(
            ("Bolt", f"{joint.thread}, class {joint.prop_class}"),
            ("Stress area", f"{area:g} mm²"),
            ("Proof stress", f"{proof:g} N/mm²"),
            ("Breaks at", f"{breaking} N/mm²"),
        ),
        answer=right,
        unit="%",
        within=percent(2),
        decimals=0,
        mistakes=(
            Mistake(
                right * proof / breaking,
                "takes the breaking strength",
                "You took the strength at which it breaks. Up to the proof stress a bolt springs back. "
                "Reckon with breaking, and it stays long and slack well before.",
            ),
            Mistake(
                10000 / right,
                "turns the ratio round",
                "You divided the wrong way round. The bolt's pull stands on top, its proof load below. "
                "Turned round, a harder pull would look safer.",
            ),
        ),
        why=f"The bolt uses {right:.0f} % of its proof load. Above 100 % nobody guarantees that it stays straight.",
        step=f"Proof load first: {area:g} mm² × {proof:g} N/mm² = {area * proof:.0f} N, so {load:.1f} kN.",
        solution=f"100 × {newtons / 1000:.1f} / {load:.1f} = {right:.0f} %.",
        source="iso-898-1",
        vehicle=car.id,
    )


@exercise(
    "torque.after-angle",
    lesson="torque",
    outcome=WORKS_OUT,
    minutes=3,
    title="Preload after the angle",
)
def after_angle(draw: Draw) -> Number:
    form = draw.form(4)
    car = vehicle(("B", "C")[form % 2])
    sheet = car.flywheel.tightening
    bolt = car.flywheel.bolt
    tight = sheet if form < 2 else car.flywheel.bolt_dmf
    assert tight is not None
    angle, stiff = float(tight.angle_deg or 0), float(tight.joint_stiffness_kn_per_mm or 0)
    torque = tight.stages_nm[-1]
    snug = round(preload_from_torque_n(torque, d_mm=bolt.d_mm, nut_factor=tight.nut_factor) / 1000, 1)
    right = (
        preload_after_angle_n(snug * 1000, angle_deg=angle, pitch_mm=bolt.pitch_mm, stiffness_kn_per_mm=stiff) / 1000
    )
    part = "rigid" if form < 2 else "dual-mass"
    return Number(
        ask=f"On {car.name} with the {part} flywheel, after {torque:g} N·m a bolt pulls with {snug:g} kN. "
        f"Then it is turned by {angle:g}°. The thread is M{bolt.d_mm:g}×{bolt.pitch_mm:g}. "
        f"One millimetre of travel makes {stiff:g} kN. What is the preload in the end, in kN?",
        answer=right,
        unit="kN",
        within=percent(2),
        decimals=1,
        mistakes=(
            Mistake(
                right - snug,
                "forgets the preload before the angle",
                "That is the angle's share alone. The bolt was already pulling before you turned it. "
                "So the bolt is nearer its limit than you think.",
            ),
            Mistake(
                snug + angle / 360 * bolt.d_mm * stiff,
                "takes the diameter for the pitch",
                "You took the diameter. One turn moves a bolt by its pitch only. "
                "With your figure every bolt would be torn off.",
            ),
        ),
        why=f"The angle adds {right - snug:.1f} kN to {snug:g} kN. It depends on the pitch, hardly on friction.",
        step=f"The turn moves the bolt by {angle:g}/360 × {bolt.pitch_mm:g} mm. Times {stiff:g} kN, then add.",
        solution=f"{snug:g} + {angle:g}/360 × {bolt.pitch_mm:g} × {stiff:g} = {right:.1f} kN.",
        source="derived",
        vehicle=car.id,
    )


@exercise(
    "torque.mark-travel",
    lesson="torque",
    outcome=WORKS_OUT,
    minutes=2,
    beyond=True,
    title="How far the paint mark moves",
)
def mark_travel(draw: Draw) -> Number:
    car = vehicle(draw.pick("B", "C"))
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
    title="The joint at its weakest",
)
def weakest_joint(draw: Draw) -> Number:
    form = draw.form(2)
    scatter = (25, 35)[form]
    car = vehicle(draw.pick("A", "D"))
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
                "A joint reckoned without it can be weaker than it looks.",
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
