"""The wrench for each joint of a job: which one is fit for use that day, and what it is set to, bare and with each adaptor."""

from datetime import date

from msgspec import Struct

from bitepoint.classroom.job_cards.tools_at_hand import Adaptor, ToolsAtHand
from bitepoint.mechanics.wrench import wrench_setting_nm
from bitepoint.missing import LOOK_UP, is_missing
from bitepoint.workshop.joints import joints
from bitepoint.workshop.sheets import Vehicle
from bitepoint.workshop.tools import TorqueWrench

NAMES = {
    "flywheel.bolt": "Flywheel",
    "flywheel.bolt_dmf": "Dual-mass flywheel",
    "clutch.cover": "Clutch cover",
    "release.slave_bolts": "Slave cylinder",
    "wheels": "Wheels, on the ground",
}


class JointSetting(Struct, frozen=True, kw_only=True):
    """One torque of one joint: the figure, which wrench, its setting bare and with each adaptor, or why there is none."""

    joint: str
    torque: str
    wrench: str
    setting: str
    with_adaptors: tuple[str, ...] = ()


def joint_settings(v: Vehicle, tools: ToolsAtHand, on: date) -> tuple[JointSetting, ...]:
    """Return every torque of the sheet with the wrench for it; a joint without a torque says so and has no setting."""
    rows: list[JointSetting] = []
    for name, torques in _torques(v):
        for torque in torques or (None,):
            rows.append(_row(name, torque, tools, on))
    return tuple(rows)


def _torques(v: Vehicle) -> list[tuple[str, tuple[float, ...]]]:
    """Return each joint's name and its torques, none where the sheet has none."""
    stages = v.flywheel.tightening.stages_nm
    found: dict[str, tuple[float, ...]] = {joint.key: (joint.torque_nm,) for joint in joints(v)}
    found["flywheel.bolt"] = () if is_missing(stages) else tuple(stages)
    if dmf := v.flywheel.bolt_dmf:
        found["flywheel.bolt_dmf"] = () if is_missing(dmf.stages_nm) else tuple(dmf.stages_nm)
    housing = v.gearbox.bell_bolts
    wanted = ["flywheel.bolt", *(["flywheel.bolt_dmf"] if v.flywheel.bolt_dmf else []), "clutch.cover"]
    wanted += (
        ["gearbox.bell_bolts"] if is_missing(housing) else [f"gearbox.bell_bolts.{n + 1}" for n in range(len(housing))]
    )
    wanted += [*(["release.slave_bolts"] if v.release.slave_bolts else []), "wheels"]
    kinds = 1 if is_missing(housing) else len(housing)
    return [(_name(key, kinds), found.get(key, ())) for key in wanted]


def _name(key: str, kinds: int) -> str:
    number = f", kind {key[-1]}" if kinds > 1 else ""
    return NAMES.get(key) or f"Housing bolts{number}"


def _row(name: str, torque: float | None, tools: ToolsAtHand, on: date) -> JointSetting:
    if torque is None:
        return JointSetting(joint=name, torque=LOOK_UP, wrench="no torque on the sheet, no setting", setting="")
    figure = f"{torque:g} N·m"
    checked = [(wrench, wrench.check(torque, on=on)) for wrench in tools.torque_wrenches]
    fit = next((wrench for wrench, check in checked if check.ok), None)
    if fit is None:
        why = "; ".join(f"{wrench.id}: {check.reason.rstrip('.')}" for wrench, check in checked)
        return JointSetting(joint=name, torque=figure, wrench=why or "no wrench listed: write it in", setting="")
    return JointSetting(
        joint=name,
        torque=figure,
        wrench=f"{fit.id}, in date to {fit.due.isoformat()}",
        setting=figure,
        with_adaptors=tuple(_with(adaptor, fit, torque) for adaptor in tools.adaptors),
    )


def _with(adaptor: Adaptor, wrench: TorqueWrench, torque: float) -> str:
    setting = wrench_setting_nm(
        torque, lever_mm=wrench.lever_mm, offset_mm=adaptor.offset_mm, angle_deg=adaptor.angle_deg
    )
    fits = wrench.lowest_nm <= setting <= wrench.highest_nm
    return f"{adaptor.id}: {setting:.1f} N·m" if fits else f"{adaptor.id}: not with this wrench"
