"""Lesson 7, torque and the torque wrench: what a torque and an angle do to a bolt, in figures."""

from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import BY_ANGLE, WORKS_OUT, joint_of
from bitepoint.mechanics.bolts import (
    preload_from_torque_n,
    proof_stress_mpa,
    share_of_proof_pct,
    stress_area_mm2,
)
from bitepoint.mechanics.joints import preload_after_angle_n
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake
from bitepoint.workshop.vehicles import DmfBolt, FlywheelTightening, Vehicle


@exercise("torque.preload", lesson="torque", outcome=WORKS_OUT, minutes=3, title="Work out the preload")
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
                "Whoever believes that leaves rust on threads, and the joint comes loose.",
            ),
        ),
        why=f"{torque:g} N·m makes {right:.1f} kN here. It is this pull that clamps, not the torque.",
        step=f"Solve M = K × F × d for F. K × d is {k:g} × {d:g} mm = {k * d:.2f} mm. N·m over mm gives kN.",
        solution=f"F = {torque:g} / ({k:g} × {d:g}) = {right:.1f} kN.",
        source="mech-eng-design-9",
        vehicle=car.id,
    )


@exercise("torque.proof-share", lesson="torque", outcome=WORKS_OUT, minutes=3, title="Compare it with the proof load")
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
                "Go by the breaking strength, and it stays long and slack well before.",
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
    others=(BY_ANGLE,),
    title="Work out the preload after the angle",
)
def after_angle(draw: Draw) -> Number:
    cars = draw.cars(*BY_ANGLE)
    rigid = [(car, "rigid", car.flywheel.tightening) for car in cars]
    dual_mass = [(car, "dual-mass", car.flywheel.bolt_dmf) for car in cars if car.flywheel.bolt_dmf]
    joints: list[tuple[Vehicle, str, FlywheelTightening | DmfBolt]] = [*rigid, *dual_mass]
    car, part, tight = joints[draw.form(len(joints))]
    bolt = car.flywheel.bolt
    angle, stiff = float(tight.angle_deg or 0), float(tight.joint_stiffness_kn_per_mm or 0)
    torque = tight.stages_nm[-1]
    snug = round(preload_from_torque_n(torque, d_mm=bolt.d_mm, nut_factor=tight.nut_factor) / 1000, 1)
    right = (
        preload_after_angle_n(snug * 1000, angle_deg=angle, pitch_mm=bolt.pitch_mm, stiffness_kn_per_mm=stiff) / 1000
    )
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
