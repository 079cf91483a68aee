"""Lesson 4, the right kit: the delivered parts against the list and against the old ones."""

from typing import Any

from msgspec import structs

from bitepoint.bank.forms import form_of
from bitepoint.bank.kit.common import CHECKS
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Several
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.kit_list import Kit, kits_for
from bitepoint.workshop.kits import fitting
from bitepoint.workshop.vehicle_kits import kinds_for, variants_found
from bitepoint.workshop.vehicles import DmfBolt, FlywheelBolt, Vehicle


@exercise(
    "kit.contents",
    title="Check what was delivered",
    lesson="kit",
    outcome=CHECKS,
    minutes=3,
    others=(("telling part in the rigid kit",),),
)
def contents(draw: Draw) -> Several:
    form = form_of(draw)
    car, boxes = draw.cars(*form.needs)[0], draw.integer(1, 4)
    mixed = draw.shuffle(range(1, len(form.table)))
    question = form.several(
        draw, vehicle=car.id, car=car.name, kit=kinds_for(car.id)["rigid"], boxes=boxes, **_in_the_list(car)
    )
    return structs.replace(question, table=tuple(question.table[line] for line in (0, *mixed)))


def _in_the_list(car: Vehicle) -> dict[str, Any]:
    """What the list says of a rigid kit's parts, and what lies in the box instead."""
    clutch, wheel, dmf = car.clutch, car.flywheel, car.flywheel.bolt_dmf
    ring = "with target ring" if car.engine.crank_sensor_on == "flywheel" else f"{wheel.ring_gear_teeth} teeth"
    return {
        "ring": ring,
        "ring_mm": f"{wheel.bolt.ring_mm or 0:g}",
        "plate": f"{clutch.plate_od_mm:g} mm, {clutch.splines} splines",
        "other_plate": f"{clutch.plate_od_mm:g} mm, {clutch.splines + 3} splines",
        "bolts": _pieces(wheel.bolt_count, wheel.bolt),
        "long_bolts": _pieces(wheel.bolt_count, dmf) if dmf else "",
        "one_short": wheel.bolt_count - 1,
    }


@exercise(
    "kit.whole-order",
    title="Write the whole order",
    lesson="kit",
    outcome=CHECKS,
    minutes=2.5,
    needs=("kit in the list",),
)
def whole_order(draw: Draw) -> Several:
    car, form = draw.vehicle(), form_of(draw)
    kit = _kit_of(car)
    asked = {"what-else": {"seals", "oil", "fasteners"}, "read-back": {"fasteners"}}[form.key]
    bolts = set() if any("bolts" in part for part in kit.contents) else {"bolts"}
    fluid = {"fluid"} if car.release.kind.startswith("hydraulic") else set()
    return form.several(
        draw,
        right=sorted(asked | bolts | fluid),
        vehicle=car.id,
        car=car.name,
        contents=", ".join(kit.contents),
        bolts=car.flywheel.bolt_count,
        oil=f"{car.gearbox.oil_litre:.1f}",
        fasteners=_SINGLE_USE[car.drive],
    )


_SINGLE_USE = {
    "front": "Hub nuts and single-use subframe bolts",
    "rear": "Single-use bolts of the propeller shaft",
}
"""What comes off to let the gearbox out and is not used twice, by the wheels that are driven (source: common-practice)."""


def _kit_of(car: Vehicle) -> Kit:
    """Return the kit that fits the car of the sheet, or the first one that comes in."""
    number = fitting(variants_found(car.id)[0], kits_for(car.id))[0]
    return next(kit for kit in kits_for(car.id) if kit.kit == number)


def _pieces(count: int, bolt: FlywheelBolt | DmfBolt) -> str:
    return f"{count} pieces {bolt.thread}×{bolt.length_mm:g}"


@exercise("kit.finger-stack", title="Place the finger tips", lesson="kit", outcome=CHECKS, minutes=3, beyond=True)
def finger_stack(draw: Draw) -> Number:
    old_face, old_cover = draw.value(50.5, 54.0, 0.5), draw.value(46.5, 49.5, 0.5)
    thinner = draw.pick(1.5, 2.0, 2.5, 3.0)
    form = draw.form(3)
    new_face, new_cover = old_face - thinner, old_cover + thinner
    asked, given = (new_cover, new_face) if form < 2 else (new_face, new_cover)
    old_same, old_other = (old_cover, old_face) if form < 2 else (old_face, old_cover)
    what = "height of the new cover" if form < 2 else "distance from flange to face of the new flywheel"
    before = "You measured the new flywheel: flange to friction face"
    if form == 2:
        before = "You measured the new cover: height"
    closing = "Which figure puts the finger tips where they were?" if form != 1 else "What must it be?"
    return Number(
        ask=f"Rigid kit instead of dual-mass. Old parts: flange to friction face {old_face:.1f} mm, "
        f"cover height {old_cover:.1f} mm. {before} {given:.1f} mm. "
        f"Now for the {what}. {closing}",
        answer=asked,
        unit="mm",
        within=plus_minus(0.1),
        decimals=1,
        mistakes=(
            Mistake(
                old_same,
                "expects the same figure as before",
                "Single sizes may change with the flywheel type. "
                "Two parts stand on each other. If one changes and the other does not, the fingers sit wrong.",
            ),
            Mistake(
                2 * old_same - asked,
                "changes it the wrong way",
                "You went the wrong way. What one part loses, the other must gain, "
                "or the fingers are out by double, and the clutch drags or slips.",
            ),
            Mistake(
                old_face + old_cover,
                "gives the sum",
                "That is where the finger tips are. Take off the part that you know.",
            ),
        ),
        why=f"{old_face:.1f} + {old_cover:.1f} = {old_face + old_cover:.1f} mm before and after. "
        "So the fingers stand where the bearing meets them.",
        step=f"Add the two old sizes: {old_face:.1f} + {old_cover:.1f} mm. The two new ones must give the same.",
        solution=f"{old_face + old_cover:.1f} − {given:.1f} = {asked:.1f} mm.",
        source="common-practice",
    )
