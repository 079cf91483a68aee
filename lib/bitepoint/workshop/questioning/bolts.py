"""Bolts of an own sheet: thread, length and torque against what thread, class and friction give."""

from collections.abc import Iterator

from bitepoint.mechanics.bolts import preload_from_torque_n, share_of_proof_pct, torque_for_preload_nm
from bitepoint.mechanics.bolts import proof_load_n as proof_load
from bitepoint.missing import is_missing
from bitepoint.workshop.joints import SheetJoint, joints
from bitepoint.workshop.sheets import Vehicle

PITCHES_MM = {
    6: (1, 0.75),
    7: (1, 0.75),
    8: (1.25, 1),
    9: (1.25, 1),
    10: (1.5, 1.25, 1),
    11: (1.5, 1.25),
    12: (1.75, 1.5, 1.25),
    14: (2, 1.5, 1.25),
    16: (2, 1.5),
}
"""Pitches of ISO metric threads by nominal diameter [mm] (ISO 261, general plan; sizes used here, from memory)."""
LEAST_PCT, MOST_PCT = 45, 97
"""Share of the proof load that a torque without an angle usually gives [%] (common practice, no source)."""
_LEAST_OF = {"wheels": 33, "flywheel.bolt": 50}
_MOST_OF = {"wheels": 85}
"""Wheel bolts are strong for their torque, flywheel bolts are used well."""
_WHEELS_NM = {12: (85, 140), 14: (105, 210)}
"""Torques of wheel bolts by thread (common practice, no source)."""
_FINE: dict[str, dict[int, tuple[float, ...]]] = {
    "flywheel.bolt": {10: (1.25, 1), 12: (1.5, 1.25, 1)},
    "clutch.cover": {8: (1.25,), 6: (1,)},
    "wheels": {12: (1.5, 1.25), 14: (1.5,)},
}
"""Pitches usual for one joint where the thread alone would allow more (common practice, no source)."""
_FRICTION = (0.11, 0.22)
_ROUND_FROM_NM = 30


def of_bolts(v: Vehicle) -> Iterator[tuple[str, str]]:
    """Yield key and reason of what is questioned in bolts."""
    for joint in joints(v):
        usual = _FINE.get(joint.key, {}).get(round(joint.d_mm)) or PITCHES_MM.get(round(joint.d_mm), ())
        if joint.pitch_mm not in usual:
            told = ", ".join(f"{p:g}" for p in usual) or "none that is known here"
            yield (
                f"{joint.key}.pitch_mm",
                f"a pitch of {joint.pitch_mm:g} mm is unusual for this M{joint.d_mm:g}: usual is {told}.",
            )
        if joint.key == "flywheel.bolt" and joint.prop_class == "8.8":
            yield (
                "flywheel.bolt.prop_class",
                "flywheel bolts are usually of class 10.9 or 12.9: is it another joint's class?",
            )
        if joint.nut_factor is not None and not 0.08 <= joint.nut_factor <= 0.3:
            yield (
                f"{joint.torque_key.rpartition('.')[0]}.nut_factor",
                f"a nut factor of {joint.nut_factor:g} is unusual: 0.1 to 0.25.",
            )
            continue
        yield from _wheels(joint) or _torque(joint)
    yield from _flywheel_bolt(v)
    yield from _stages(v)


def _wheels(joint: SheetJoint) -> list[tuple[str, str]]:
    """Question a wheel torque that no car with this thread has."""
    low, high = _WHEELS_NM.get(round(joint.d_mm), (0, 1000)) if joint.key == "wheels" else (0, 1000)
    if low <= joint.torque_nm <= high:
        return []
    told = f"{joint.torque_nm:g} N·m is unusual for wheel bolts M{joint.d_mm:g}: {low:g} to {high:g} N·m."
    return [(joint.torque_key, f"{told}{_unit(joint)}")]


def _torque(joint: SheetJoint) -> Iterator[tuple[str, str]]:
    """Question a torque that thread, class and friction do not give, and say what a slip of unit would make of it."""
    lowest = _LEAST_OF.get(joint.key, LEAST_PCT)
    greatest = _MOST_OF.get(joint.key, MOST_PCT)
    low, high = (joint.nut_factor, joint.nut_factor) if joint.nut_factor is not None else _FRICTION
    most = share_of_proof_pct(
        _preload(joint, low), d_mm=joint.d_mm, pitch_mm=joint.pitch_mm, prop_class=joint.prop_class
    )
    least = share_of_proof_pct(
        _preload(joint, high), d_mm=joint.d_mm, pitch_mm=joint.pitch_mm, prop_class=joint.prop_class
    )
    if joint.angle_deg is not None:
        yield from _with_angle(joint, least, most)
    elif most < lowest or least > greatest:
        share = most if most < lowest else least
        usual = "" if joint.nut_factor is None else f" Usual here: {_usual(joint)}."
        yield (
            joint.torque_key,
            f"{joint.torque_nm:g} N·m loads {_bolt(joint)} to {share:.0f} % of its proof load.{usual}{_unit(joint)}",
        )
    elif (
        joint.torque_nm > _ROUND_FROM_NM
        and joint.torque_nm % 1 == 0
        and joint.torque_nm % 5
        and _round_in_nm(joint.torque_nm)
    ):
        yield joint.torque_key, f"{joint.torque_nm:g} N·m is an odd figure.{_unit(joint)}"


def _with_angle(joint: SheetJoint, least: float, most: float) -> Iterator[tuple[str, str]]:
    angle = joint.angle_deg or 0
    if least > 75:
        yield (
            joint.torque_key,
            f"{joint.torque_nm:g} N·m alone loads {_bolt(joint)} to {least:.0f} % of its proof load, and {angle:g}° come after it.{_unit(joint)}",
        )
    elif most < 6:
        yield (
            joint.torque_key,
            f"{joint.torque_nm:g} N·m is little for the torque before an angle on {_bolt(joint)}.{_unit(joint)}",
        )
    if not 20 <= angle <= 200 or angle % 5 or angle == joint.torque_nm:
        key = f"{joint.torque_key.rpartition('.')[0]}.angle_deg"
        yield key, f"an angle of {angle:g}° is unusual: is it a torque, or in turns?"


def _preload(joint: SheetJoint, factor: float) -> float:
    return preload_from_torque_n(joint.torque_nm, d_mm=joint.d_mm, nut_factor=factor)


def _usual(joint: SheetJoint) -> str:
    proof = proof_load(joint.d_mm, pitch_mm=joint.pitch_mm, prop_class=joint.prop_class)
    ends = [
        torque_for_preload_nm(proof * share / 100, d_mm=joint.d_mm, nut_factor=joint.nut_factor or 0.17)
        for share in (LEAST_PCT, 90)
    ]
    return f"{ends[0]:.0f} to {ends[1]:.0f} N·m"


def _bolt(joint: SheetJoint) -> str:
    return f"an M{joint.d_mm:g}×{joint.pitch_mm:g} of class {joint.prop_class}"


def _unit(joint: SheetJoint) -> str:
    """Say what the figure would be if it was copied in another unit."""
    as_feet, as_metres = joint.torque_nm * 1.3558, joint.torque_nm * 9.80665
    said = [f"lbf·ft (then {as_feet:.0f} N·m)"]
    if joint.torque_nm < 40:
        said.append(f"kgf·m (then {as_metres:.0f} N·m)")
    return f" Is it {' or '.join(said)}? Is thread or class another one?"


def _round_in_nm(torque: float) -> bool:
    """Whether the figure, taken as lbf·ft, is a torque as a book writes it: within half a N·m of a multiple of five."""
    as_feet = torque * 1.3558
    return abs(as_feet - 5 * round(as_feet / 5)) < 1.2


def _flywheel_bolt(v: Vehicle) -> Iterator[tuple[str, str]]:
    """Question a bolt that does not fit its hole."""
    one, other, depth = v.flywheel.bolt, v.flywheel.bolt_dmf, v.flywheel.bolt.crank_thread_depth_mm
    sizes = [("flywheel.bolt", one.d_mm, one.length_mm, one.hub_clamped_mm)]
    if other:
        sizes.append(("flywheel.bolt_dmf", other.d_mm, other.length_mm, other.hub_clamped_mm))
    for key, d, length, clamped in sizes:
        if any(map(is_missing, (d, length, clamped))):
            continue
        into = length - clamped
        if not is_missing(depth) and into > depth - 0.5:
            yield f"{key}.length_mm", f"it goes {into:g} mm into a thread of {depth:g} mm: it bottoms before it clamps."
        elif not 0.9 * d <= into <= 2.1 * d:
            yield (
                f"{key}.length_mm",
                f"{into:g} mm of thread engaged is {into / d:.1f} times the diameter: usual is 1 to 2.",
            )
    if (
        not is_missing(depth)
        and not is_missing(v.flywheel.bolt.d_mm)
        and not 1.1 <= depth / v.flywheel.bolt.d_mm <= 3.2
    ):
        yield (
            "flywheel.bolt.crank_thread_depth_mm",
            f"a thread {depth:g} mm deep is unusual for M{v.flywheel.bolt.d_mm:g}.",
        )
    face, d = v.flywheel.bolt.head_washer_face_mm, v.flywheel.bolt.d_mm
    if not is_missing(face) and not is_missing(d) and not 1.25 <= face / d <= 2.3:
        yield (
            "flywheel.bolt.head_washer_face_mm",
            f"a washer face of {face:g} mm is unusual under the head of an M{d:g}.",
        )


def _stages(v: Vehicle) -> Iterator[tuple[str, str]]:
    stages = v.flywheel.tightening.stages_nm
    if is_missing(stages):
        return
    if len(stages) > 1 and stages[-1] < 1.15 * stages[-2]:
        yield (
            "flywheel.tightening.stages_nm",
            f"the last stage, {stages[-1]:g} N·m, is hardly more than the one before.",
        )
    elif len(stages) > 1 and stages[0] > 0.8 * stages[-1]:
        yield "flywheel.tightening.stages_nm", "the first stage is nearly the last torque."
