"""The bolted joints of a vehicle in one list: thread, class, how many, torques, any angle, as its sheet has them."""

from collections.abc import Iterator
from typing import NamedTuple

from bitepoint.missing import is_missing
from bitepoint.workshop.sheet_parts import Bolt, Bolts
from bitepoint.workshop.sheets import Vehicle


class SheetJoint(NamedTuple):
    """One kind of bolt: its key, thread, class, the last torque, the nut factor (None: not on the sheet), any angle after it."""

    key: str
    torque_key: str
    d_mm: float
    pitch_mm: float
    prop_class: str
    torque_nm: float
    nut_factor: float | None
    angle_deg: float | None = None


def joints(v: Vehicle) -> Iterator[SheetJoint]:
    """Yield every kind of bolt of which the sheet has thread, class and torque."""
    wheel = v.flywheel
    how = wheel.tightening
    if not is_missing(how.stages_nm):
        yield from _joint(
            "flywheel.bolt",
            "flywheel.tightening.stages_nm",
            wheel.bolt,
            how.stages_nm[-1],
            how.nut_factor,
            how.angle_deg,
        )
    if (dmf := wheel.bolt_dmf) and not is_missing(dmf.stages_nm):
        yield from _joint(
            "flywheel.bolt_dmf",
            "flywheel.bolt_dmf.stages_nm",
            dmf,
            dmf.stages_nm[-1],
            dmf.nut_factor,
            dmf.angle_deg,
        )
    sets: list[tuple[str, Bolts]] = [("clutch.cover", v.clutch.cover), ("wheels", v.wheels)]
    if v.release.slave_bolts:
        sets.append(("release.slave_bolts", v.release.slave_bolts))
    if not is_missing(v.gearbox.bell_bolts):
        sets += [(f"gearbox.bell_bolts.{n}", bolts) for n, bolts in enumerate(v.gearbox.bell_bolts, start=1)]
    for key, bolts in sets:
        yield from _joint(key, f"{key}.torque_nm", bolts, bolts.torque_nm, bolts.nut_factor, None)


def _joint(
    key: str, torque_key: str, bolt: Bolt, torque: float, factor: float, angle: float | None
) -> Iterator[SheetJoint]:
    if any(map(is_missing, (bolt.d_mm, bolt.pitch_mm, bolt.prop_class, torque))):
        return
    yield SheetJoint(
        key,
        torque_key,
        bolt.d_mm,
        bolt.pitch_mm,
        bolt.prop_class,
        torque,
        None if is_missing(factor) else factor,
        None if is_missing(angle) else angle,
    )


class TightenedJoint(NamedTuple):
    """A joint that is tightened in a clutch job: key, title, its torque stages (none: look it up), the angle after them."""

    key: str
    title: str
    stages_nm: tuple[float, ...] = ()
    angle_deg: float | None = None


_TITLES = {
    "flywheel.bolt": "Flywheel",
    "flywheel.bolt_dmf": "Dual-mass flywheel",
    "clutch.cover": "Clutch cover",
    "release.slave_bolts": "Slave cylinder",
    "wheels": "Wheels, on the ground",
}


def tightened_joints(v: Vehicle) -> tuple[TightenedJoint, ...]:
    """Return every joint that is tightened in this car's job, in its order, also those of which the sheet has no torque."""
    known, housing = {joint.key: joint for joint in joints(v)}, v.gearbox.bell_bolts
    kinds = 1 if is_missing(housing) else len(housing)
    wanted = ["flywheel.bolt", *(["flywheel.bolt_dmf"] if v.flywheel.bolt_dmf else []), "clutch.cover"]
    wanted += [f"gearbox.bell_bolts.{n}" for n in range(1, kinds + 1)]
    wanted += [*(["release.slave_bolts"] if v.release.slave_bolts else []), "wheels"]
    return tuple(
        TightenedJoint(
            key=key,
            title=_TITLES.get(key) or f"Housing bolts{f', kind {key[-1]}' if kinds > 1 else ''}",
            stages_nm=_stages(v, key) or ((known[key].torque_nm,) if key in known else ()),
            angle_deg=known[key].angle_deg if key in known else None,
        )
        for key in wanted
    )


def _stages(v: Vehicle, key: str) -> tuple[float, ...]:
    stages = {
        "flywheel.bolt": v.flywheel.tightening.stages_nm,
        "flywheel.bolt_dmf": v.flywheel.bolt_dmf.stages_nm if v.flywheel.bolt_dmf else (),
    }.get(key, ())
    return () if is_missing(stages) else tuple(stages)
