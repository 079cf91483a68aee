"""The wrench for each joint of a job: which one is fit for use that day, and what it is set to, bare and with each adaptor."""

from datetime import date

from msgspec import Struct

from bitepoint.classroom.job_cards.tools_at_hand import Adaptor, ToolsAtHand
from bitepoint.mechanics.wrench import wrench_setting_nm
from bitepoint.missing import LOOK_UP
from bitepoint.workshop.joints import tightened_joints
from bitepoint.workshop.sheets import Vehicle
from bitepoint.workshop.tools import TorqueWrench


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
    for joint in tightened_joints(v):
        for torque in joint.stages_nm or (None,):
            last = torque is not None and torque == joint.stages_nm[-1]
            rows.append(_row(joint.title, torque, tools, on, joint.angle_deg if last else None))
    return tuple(rows)


def _row(name: str, torque: float | None, tools: ToolsAtHand, on: date, angle_deg: float | None) -> JointSetting:
    if torque is None:
        return JointSetting(joint=name, torque=LOOK_UP, wrench="no torque on the sheet, no setting", setting="")
    figure = f"{torque:g} N·m"
    asked = figure if angle_deg is None else f"{figure}, then {angle_deg:g}°"
    checked = [(wrench, wrench.check(torque, on=on)) for wrench in tools.torque_wrenches]
    fit = next((wrench for wrench, check in checked if check.ok), None)
    if fit is None:
        why = "; ".join(f"{wrench.id}: {check.reason.rstrip('.')}" for wrench, check in checked)
        return JointSetting(joint=name, torque=asked, wrench=why or "no wrench listed: write it in", setting="")
    return JointSetting(
        joint=name,
        torque=asked,
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
