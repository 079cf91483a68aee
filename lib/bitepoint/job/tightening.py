"""A joint tightened: what the sheet's torque asks of this wrench with this adaptor, and what does not fit."""

from datetime import date, timedelta
from pathlib import Path

from msgspec import Struct

from bitepoint.classroom.job_cards.wrench_settings import NAMES
from bitepoint.errors import BadInput
from bitepoint.job.events import Tightened
from bitepoint.job.reading import read_job
from bitepoint.job.recording import needs_reason, record, said
from bitepoint.job.state import JobEntry
from bitepoint.mechanics.wrench import date_check, range_check, wrench_setting_nm
from bitepoint.missing import LOOK_UP, is_missing
from bitepoint.workshop.joints import joints
from bitepoint.workshop.sheets import Vehicle

_NEAR, _LEAST_NEAR_NM = 0.01, 0.5
"""How far a setting may lie from the one worked out: a part of it, at least so much [N·m] (common practice, no source: half a mark)."""
_YEAR = timedelta(days=365)
"""Where the label names no due day (source: iso-6789, 12 months)."""


class JobJoint(Struct, frozen=True, kw_only=True):
    """A joint of this car: key, title, its torque stages (none: look it up), the angle after them."""

    key: str
    title: str
    stages_nm: tuple[float, ...] = ()
    angle_deg: float | None = None


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


def job_joints(v: Vehicle) -> tuple[JobJoint, ...]:
    """Return every joint that is tightened in this car's job, also those of which the sheet has no torque."""
    known = {joint.key: joint for joint in joints(v)}
    housing = v.gearbox.bell_bolts
    wanted = ["flywheel.bolt", *(["flywheel.bolt_dmf"] if v.flywheel.bolt_dmf else []), "clutch.cover"]
    wanted += (
        ["gearbox.bell_bolts.1"]
        if is_missing(housing)
        else [f"gearbox.bell_bolts.{n + 1}" for n in range(len(housing))]
    )
    wanted += [*(["release.slave_bolts"] if v.release.slave_bolts else []), "wheels"]
    return tuple(
        JobJoint(
            key=key,
            title=NAMES.get(key) or f"Housing bolts, kind {key[-1]}",
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
    return () if is_missing(stages) else stages


def joint_named(v: Vehicle, key: str) -> JobJoint:
    """Return a joint of this car.

    Raises
    ------
    BadInput
        There is none of that key.
    """
    found = {joint.key: joint for joint in job_joints(v)}
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


def _expected(joint: JobJoint, wrench: Wrench) -> float | None:
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


def _setting_warnings(joint: JobJoint, expected: float | None, setting_nm: float) -> tuple[str, ...]:
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
