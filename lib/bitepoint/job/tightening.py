"""A joint tightened: what the sheet's torque asks of this wrench with this adaptor, and what does not fit."""

from datetime import date, timedelta
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.job.events import Tightened
from bitepoint.job.reading import read_job
from bitepoint.job.recording import needs_reason, record, said
from bitepoint.job.state import JobEntry
from bitepoint.mechanics.wrench import date_check, range_check, wrench_setting_nm
from bitepoint.missing import LOOK_UP
from bitepoint.workshop.joints import TightenedJoint, tightened_joints
from bitepoint.workshop.sheets import Vehicle

_NEAR, _LEAST_NEAR_NM = 0.01, 0.5
"""How far a setting may lie from the one worked out: a part of it, at least so much [N·m] (common practice, no source: half a mark)."""
_YEAR = timedelta(days=365)
"""Where the label names no due day (source: iso-6789, 12 months)."""


class Wrench(Struct, frozen=True, kw_only=True):
    """The wrench in hand: its name, calibration, and where it matters scale, lever and adaptor [N·m, mm]."""

    name: str
    calibrated: date
    due: date | None = None
    lowest_nm: float | None = None
    highest_nm: float | None = None
    adaptor: str = ""
    lever_mm: float | None = None
    offset_mm: float | None = None


def joint_named(v: Vehicle, key: str) -> TightenedJoint:
    """Return a joint of this car.

    Raises
    ------
    BadInput
        There is none of that key.
    """
    found = {joint.key: joint for joint in tightened_joints(v)}
    if key not in found:
        raise BadInput(f"There is no joint {key[:40]!r} on this car. Choose one of {', '.join(found)}.")
    return found[key]


def tighten(
    folder: Path,
    joint: str,
    wrench: Wrench,
    *,
    setting_nm: float,
    second_round: str = "",
    reason: str = "",
    on: date | None = None,
    by: str = "",
) -> JobEntry:
    """Record a joint as tightened.

    Raises
    ------
    ReasonNeeded
        The wrench is out of date or range, the setting is not the one that the sheet asks for, or the sheet has no torque; and no
        reason is given.
    BadInput
        There is no such joint, or a figure is out of range.
    """
    target = joint_named(read_job(folder).vehicle, joint)
    expected = _expected(target, wrench)
    warned = (
        *_wrench_warnings(wrench, setting_nm, on or date.today()),
        *_setting_warnings(target, expected, setting_nm),
    )
    needs_reason(warned, reason)
    event = Tightened(
        joint=target.key,
        title=target.title,
        wrench=said("wrench", wrench.name),
        setting_nm=setting_nm,
        calibrated=wrench.calibrated,
        due=wrench.due,
        lowest_nm=wrench.lowest_nm,
        highest_nm=wrench.highest_nm,
        adaptor=wrench.adaptor.strip(),
        lever_mm=wrench.lever_mm,
        offset_mm=wrench.offset_mm,
        stages_nm=target.stages_nm,
        target_nm=target.stages_nm[-1] if target.stages_nm else None,
        angle_deg=target.angle_deg,
        expected_nm=expected,
        second_round=second_round.strip(),
        warned=warned,
        reason=reason.strip(),
        by=by,
    )
    return record(folder, event)


def _expected(joint: TightenedJoint, wrench: Wrench) -> float | None:
    if not joint.stages_nm:
        return None
    if wrench.offset_mm is None:
        if wrench.adaptor.strip() and "extension" not in wrench.adaptor.casefold():
            raise BadInput(
                "An adaptor that moves the drive sideways needs lever and offset in mm. A straight extension bar changes nothing: call it that."
            )
        return joint.stages_nm[-1]
    if wrench.lever_mm is None:
        raise BadInput(
            "offset needs the lever of the wrench too, from the middle of the square drive to the grip mark, in mm."
        )
    return round(wrench_setting_nm(joint.stages_nm[-1], lever_mm=wrench.lever_mm, offset_mm=wrench.offset_mm), 2)


def _wrench_warnings(wrench: Wrench, setting_nm: float, on: date) -> tuple[str, ...]:
    checks = [date_check(wrench.calibrated, due=wrench.due or wrench.calibrated + _YEAR, on=on)]
    if wrench.lowest_nm is not None and wrench.highest_nm is not None:
        checks.append(range_check(setting_nm, lowest_mark_nm=wrench.lowest_nm, highest_nm=wrench.highest_nm))
    return tuple(f"{wrench.name}: {check.reason}" for check in checks if not check.ok)


def _setting_warnings(joint: TightenedJoint, expected: float | None, setting_nm: float) -> tuple[str, ...]:
    if not 0.1 <= setting_nm <= 5000:
        raise BadInput(f"setting must be 0.1 to 5000 N·m, but you gave {setting_nm:g}. Read the wrench's scale.")
    if expected is None:
        return (
            f"{joint.title}: the sheet has no torque ({LOOK_UP}). Say in the reason where in the repair data it stands.",
        )
    if abs(setting_nm - expected) > max(_NEAR * expected, _LEAST_NEAR_NM):
        return (
            f"{joint.title}: the sheet asks for {joint.stages_nm[-1]:g} N·m, with this wrench and adaptor a setting of {expected:g} N·m, not {setting_nm:g}.",
        )
    return ()
