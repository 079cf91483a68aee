"""The training vehicles: one TOML file each in assets/vehicles, read and checked on first use.

Every figure in them is invented. A vehicle is named by its letter only.
"""

from pathlib import Path, PurePosixPath

from bitepoint.errors import BadData
from bitepoint.workshop.datafiles import DataFiles, data_files, once_a_set
from bitepoint.workshop.reading import broken, read_toml
from bitepoint.workshop.sheet_flywheel import DmfLimits, Flywheel, FlywheelTightening, InertiaModel
from bitepoint.workshop.sheet_parts import Bolt, Bolts, Build, DmfBolt, Engine, FlywheelBolt, Masses
from bitepoint.workshop.sheets import Clutch, Cover, Damper, Gearbox, Release, Variant, Vehicle, Wheels

__all__ = [
    "Bolt",
    "Bolts",
    "Build",
    "Clutch",
    "Cover",
    "Damper",
    "DmfBolt",
    "DmfLimits",
    "Engine",
    "FRAME",
    "SHEETS",
    "Flywheel",
    "FlywheelBolt",
    "FlywheelTightening",
    "Gearbox",
    "InertiaModel",
    "Masses",
    "Release",
    "Variant",
    "Vehicle",
    "Wheels",
    "read_vehicle",
    "sheets_edition",
    "vehicle",
    "vehicles",
]

SHEETS = "vehicles"
"""Under this name an edition of the set of sheets is pinned."""
FRAME = "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR"


def read_vehicle(path: Path) -> Vehicle:
    """Read one data sheet.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    sheet = read_toml(path, Vehicle, what="data sheet")
    for key, rule in _broken_rules(sheet):
        raise broken(path, key, rule, what="data sheet")
    return sheet


def _broken_rules(v: Vehicle) -> list[tuple[str, str]]:
    rules = [
        ("clutch.plate_id_mm", v.clutch.plate_id_mm < v.clutch.plate_od_mm, "must be less than clutch.plate_od_mm"),
        (
            "clutch.plate_od_mm",
            v.clutch.plate_od_mm <= v.flywheel.friction_face_od_mm,
            "must not exceed the friction face",
        ),
        (
            "clutch.cover.hole_angles_deg",
            len(v.clutch.cover.hole_angles_deg) == v.clutch.cover.n,
            "must hold one angle a bolt",
        ),
        (
            "clutch.cover.dowel_angles_deg",
            len(v.clutch.cover.dowel_angles_deg) == v.clutch.cover.dowels,
            "must hold one angle a dowel",
        ),
        (
            "masses.vehicle_kg",
            v.masses.front_axle_kg + v.masses.rear_axle_kg == v.masses.vehicle_kg,
            "must be the sum of the axles",
        ),
        (
            "flywheel.tightening.stages_nm",
            list(v.flywheel.tightening.stages_nm) == sorted(set(v.flywheel.tightening.stages_nm)),
            "must rise from stage to stage",
        ),
        (
            "flywheel.tightening.second_round",
            (v.flywheel.tightening.angle_deg is not None) == (v.flywheel.tightening.second_round == "paint marks"),
            "must be paint marks when there is an angle stage, else torque",
        ),
        (
            "flywheel.tightening.second_round_limit_deg",
            (v.flywheel.tightening.second_round_limit_deg is not None) == (v.flywheel.tightening.angle_deg is None),
            "must be given where the second round is a torque, and only there",
        ),
        (
            "flywheel.tightening.joint_stiffness_kn_per_mm",
            v.flywheel.tightening.joint_stiffness_kn_per_mm is not None or v.flywheel.tightening.angle_deg is None,
            "must be given where there is an angle stage",
        ),
        (
            "engine.static_test_max_rpm",
            v.engine.static_test_max_rpm <= v.engine.limiter_rpm,
            "must not exceed engine.limiter_rpm",
        ),
        (
            "wheels.hub_nut",
            (v.wheels.hub_nut is not None) == (v.drive == "front"),
            "must be given where the front wheels are driven, and only there",
        ),
        (
            "flywheel.bolt.ring_mm",
            (v.flywheel.bolt.ring_mm or 0) < v.flywheel.bolt.hub_clamped_mm,
            "must be less than flywheel.bolt.hub_clamped_mm",
        ),
        (
            "release.fluid_grade",
            (v.release.fluid_grade is not None) == (v.release.master_bore_mm is not None),
            "must be given where the release is hydraulic, and only there",
        ),
        (
            "flywheel.rigid_option",
            bool(v.flywheel.rigid_option) == bool(v.flywheel.start_stop_option)
            and (not v.flywheel.rigid_option or "rigid" in v.flywheel.replacement_kinds),
            "must be given together with start_stop_option, and only where a rigid flywheel may replace the other",
        ),
        ("gearbox.slip_test_gear", v.gearbox.slip_test_gear <= len(v.gearbox.ratios), "must be one of the gears"),
    ]
    return [(key, rule) for key, holds, rule in rules if not holds]


@once_a_set
def vehicles() -> dict[str, Vehicle]:
    """Return every training vehicle by its letter, in order, as of the edition of the set of sheets that is in use."""
    files = data_files()
    found = [_as_of(files, name, files.editions.get(SHEETS, 0)) for name in files.names("vehicles/*.toml")]
    return {sheet.id: sheet for sheet in found if sheet}


def _as_of(files: DataFiles, name: str, edition: int) -> Vehicle | None:
    """Return a sheet as it was in an edition of the set (0: the newest); None if there was no such car yet."""
    newest = read_vehicle(files.path(name))
    if PurePosixPath(name).stem != newest.id.casefold():
        raise broken(files.path(name), "id", "must be the name of the file, in capitals", what="data sheet")
    if not edition or newest.edition <= edition:
        return newest
    older = [n for n in range(edition, 0, -1) if files.path_of(name, n).exists()]
    return read_vehicle(files.path_of(name, older[0])) if older else None


@once_a_set
def sheets_edition() -> int:
    """Return the edition of the set of sheets in use: that of the sheet corrected last."""
    return max(sheet.edition for sheet in vehicles().values())


def vehicle(letter: str) -> Vehicle:
    """Return the training vehicle with this letter.

    Raises
    ------
    BadData
        There is no such vehicle.
    """
    known = vehicles()
    if letter not in known:
        raise BadData(f"There is no training vehicle {letter!r}. Choose one of {', '.join(known)}.")
    return known[letter]
