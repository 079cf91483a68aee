"""Lesson 7, torque and the torque wrench: which bolts may be used and how; one pull and one click."""

from bitepoint.bank.forms import form_of
from bitepoint.bank.registry import exercise
from bitepoint.bank.torque.common import BY_ANGLE, BY_TORQUE, DECIDES, USES, joint_of
from bitepoint.mechanics.bolts import preload_from_torque_n, share_of_proof_pct
from bitepoint.mechanics.joints import preload_after_angle_n, preload_after_angle_twice_n
from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Order

OILED_K = 0.12
"""Nut factor of an oiled bolt in these exercises (source: invented)."""


@exercise(
    "torque.oiled-bolts",
    lesson="torque",
    outcome=DECIDES,
    minutes=2,
    others=(BY_TORQUE,),
    title="Decide about oiled bolts",
)
def oiled_bolts(draw: Draw) -> Choice:
    car = draw.pick(*draw.cars(*BY_TORQUE))
    joint = joint_of(car, 0)

    def share(k: float) -> str:
        newtons = preload_from_torque_n(joint.torque_nm, d_mm=joint.d_mm, nut_factor=k)
        pct = share_of_proof_pct(newtons, d_mm=joint.d_mm, pitch_mm=joint.pitch_mm, prop_class=joint.prop_class)
        return f"{pct:.0f}"

    return form_of(draw).choice(
        draw,
        vehicle=car.id,
        car=car.name,
        torque=f"{joint.torque_nm:g}",
        dry_pct=share(joint.nut_factor),
        oiled_pct=share(OILED_K),
    )


@exercise(
    "torque.angle-twice",
    lesson="torque",
    outcome=DECIDES,
    minutes=2,
    others=(BY_ANGLE,),
    title="Judge an angle stage",
)
def angle_twice(draw: Draw) -> Choice:
    car = draw.pick(*draw.cars(*BY_ANGLE))
    sheet, bolt, joint = car.flywheel.tightening, car.flywheel.bolt, joint_of(car, 0)
    snug = preload_from_torque_n(joint.torque_nm, d_mm=joint.d_mm, nut_factor=joint.nut_factor)
    angle, stiff = float(sheet.angle_deg or 0), float(sheet.joint_stiffness_kn_per_mm or 0)
    once, twice = (
        share_of_proof_pct(
            after(snug, angle_deg=angle, pitch_mm=bolt.pitch_mm, stiffness_kn_per_mm=stiff),
            d_mm=bolt.d_mm,
            pitch_mm=bolt.pitch_mm,
            prop_class=bolt.prop_class,
        )
        for after in (preload_after_angle_n, preload_after_angle_twice_n)
    )
    return form_of(draw).choice(
        draw,
        vehicle=car.id,
        car=car.name,
        angle=f"{angle:g}",
        once_pct=f"{once:.0f}",
        twice_pct=f"{twice:.0f}",
    )


@exercise("torque.one-time", lesson="torque", outcome=DECIDES, minutes=2, title="Decide about used bolts")
def one_time(draw: Draw) -> Choice:
    driven = draw.integer(3, 90)
    return form_of(draw).choice(draw, km=driven, minutes=driven)


_LAST_BOLTS = (("a flywheel bolt", 40, 65), ("a cover bolt", 20, 32), ("a bell housing bolt", 40, 60))


@exercise("torque.order-of-use", lesson="torque", outcome=USES, minutes=2.5, title="Use the click wrench")
def order_of_use(draw: Draw) -> Order:
    place, low, high = _LAST_BOLTS[draw.form(len(_LAST_BOLTS))]
    return form_of(draw).order(draw, place=place, torque=draw.integer(low, high))


@exercise("torque.one-click", lesson="torque", outcome=USES, minutes=1.5, title="Pull once and judge the click")
def one_click(draw: Draw) -> Choice:
    torque = draw.integer(22, 65)
    return form_of(draw).choice(draw, torque=torque, more=torque + 10)
