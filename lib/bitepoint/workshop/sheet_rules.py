"""What must hold within a data sheet: each rule with the key that it is about.

A sheet in which one of FORM does not hold cannot be used at all; what breaks one of FIGURES is a slip in a figure.
"""

from collections.abc import Callable, Iterable
from contextlib import suppress
from datetime import date

from msgspec import Struct

from bitepoint.missing import LOOK_UP, MissingFigure
from bitepoint.workshop.sheets import Vehicle


class SheetRule(Struct, frozen=True):
    """One rule: the key it is about, its test, and what it says."""

    key: str
    holds: Callable[[Vehicle], bool]
    says: str


_BOLTS, _CIRCLE, _STAGES = 60, 24, 9
_TOO_MANY = f"must be at most {_BOLTS} bolts"
_NO_CIRCLE = f"must be of 2 to {_CIRCLE} bolts"


def _is_day(text: str) -> bool:
    with suppress(ValueError):
        return date.fromisoformat(text).isoformat() == text
    return False


FORM = (
    SheetRule(
        "clutch.cover.hole_angles_deg",
        lambda v: len(v.clutch.cover.hole_angles_deg) == v.clutch.cover.n,
        "must hold one angle a bolt",
    ),
    SheetRule(
        "clutch.cover.dowel_angles_deg",
        lambda v: len(v.clutch.cover.dowel_angles_deg) == v.clutch.cover.dowels,
        "must hold one angle a dowel",
    ),
    SheetRule(
        "flywheel.tightening.second_round",
        lambda v: (
            (v.flywheel.tightening.angle_deg is not None) == (v.flywheel.tightening.second_round == "paint marks")
        ),
        "must be paint marks when there is an angle stage, else torque",
    ),
    SheetRule(
        "flywheel.tightening.second_round_limit_deg",
        lambda v: (
            (v.flywheel.tightening.second_round_limit_deg is not None) == (v.flywheel.tightening.angle_deg is None)
        ),
        "must be given where the second round is a torque, and only there",
    ),
    SheetRule(
        "flywheel.tightening.joint_stiffness_kn_per_mm",
        lambda v: (
            v.flywheel.tightening.joint_stiffness_kn_per_mm is not None or v.flywheel.tightening.angle_deg is None
        ),
        "must be given where there is an angle stage",
    ),
    SheetRule(
        "wheels.hub_nut",
        lambda v: (v.wheels.hub_nut is not None) == (v.drive == "front"),
        "must be given where the front wheels are driven, and only there",
    ),
    SheetRule(
        "release.fluid_grade",
        lambda v: (v.release.fluid_grade is not None) == (v.release.master_bore_mm is not None),
        "must be given where the release is hydraulic, and only there",
    ),
    SheetRule(
        "flywheel.rigid_option",
        lambda v: (
            bool(v.flywheel.rigid_option) == bool(v.flywheel.start_stop_option)
            and (not v.flywheel.rigid_option or "rigid" in v.flywheel.replacement_kinds)
        ),
        "must be given together with start_stop_option, and only where a rigid flywheel may replace the other",
    ),
    SheetRule(
        "gearbox.slip_test_gear",
        lambda v: v.gearbox.slip_test_gear <= len(v.gearbox.ratios),
        "must be one of the gears",
    ),
    SheetRule("flywheel.hole_angles_deg", lambda v: 2 <= len(v.flywheel.hole_angles_deg) <= _CIRCLE, _NO_CIRCLE),
    SheetRule("clutch.cover.n", lambda v: 2 <= v.clutch.cover.n <= _CIRCLE, _NO_CIRCLE),
    SheetRule("wheels.n", lambda v: v.wheels.n <= _BOLTS, _TOO_MANY),
    SheetRule("gearbox.bell_bolts", lambda v: sum(bolts.n for bolts in v.gearbox.bell_bolts) <= _BOLTS, _TOO_MANY),
    SheetRule(
        "flywheel.tightening.stages_nm",
        lambda v: len(v.flywheel.tightening.stages_nm) <= _STAGES,
        f"must be at most {_STAGES} stages",
    ),
    SheetRule("job_date", lambda v: _is_day(v.job_date), "must be a day such as 2026-04-14"),
    SheetRule(
        "build.build_date",
        lambda v: v.build.build_date.startswith(LOOK_UP) or _is_day(f"{v.build.build_date}-01"),
        "must be year and month such as 2019-05",
    ),
)
FIGURES = (
    SheetRule(
        "clutch.plate_id_mm",
        lambda v: v.clutch.plate_id_mm < v.clutch.plate_od_mm,
        "must be less than clutch.plate_od_mm",
    ),
    SheetRule(
        "clutch.plate_od_mm",
        lambda v: v.clutch.plate_od_mm <= v.flywheel.friction_face_od_mm,
        "must not exceed the friction face",
    ),
    SheetRule(
        "masses.vehicle_kg",
        lambda v: v.masses.front_axle_kg + v.masses.rear_axle_kg == v.masses.vehicle_kg,
        "must be the sum of the axles",
    ),
    SheetRule(
        "flywheel.tightening.stages_nm",
        lambda v: list(v.flywheel.tightening.stages_nm) == sorted(set(v.flywheel.tightening.stages_nm)),
        "must rise from stage to stage",
    ),
    SheetRule(
        "engine.static_test_max_rpm",
        lambda v: v.engine.static_test_max_rpm <= v.engine.limiter_rpm,
        "must not exceed engine.limiter_rpm",
    ),
    SheetRule(
        "flywheel.bolt.ring_mm",
        lambda v: (v.flywheel.bolt.ring_mm or 0) < v.flywheel.bolt.hub_clamped_mm,
        "must be less than flywheel.bolt.hub_clamped_mm",
    ),
)


def broken_rules(v: Vehicle, rules: Iterable[SheetRule] = (*FIGURES, *FORM)) -> list[SheetRule]:
    """Return the rules that do not hold, in order; of one that needs a figure the sheet does not have, nothing can be said."""
    return [rule for rule in rules if not _holds(rule, v)]


def _holds(rule: SheetRule, v: Vehicle) -> bool:
    try:
        return rule.holds(v)
    except MissingFigure:
        return True
