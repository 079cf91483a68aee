"""The vehicles of a class: the training vehicles, one TOML file each in assets/vehicles, and a college's own sheets.

Every figure of a training vehicle is invented, and it is named by its letter only.
"""

from pathlib import Path, PurePosixPath

from bitepoint.errors import BadData
from bitepoint.workshop.datafiles import DataFiles, data_files, once_a_set, using
from bitepoint.workshop.own_sheets.own_sheet import is_own_sheet, read_own_sheet
from bitepoint.workshop.reading import broken, read_toml
from bitepoint.workshop.sheet_flywheel import DmfLimits, Flywheel, FlywheelTightening, InertiaModel
from bitepoint.workshop.sheet_parts import Bolt, Bolts, Build, DmfBolt, Engine, FlywheelBolt, Masses
from bitepoint.workshop.sheet_rules import broken_rules
from bitepoint.workshop.sheets import FRAME, Clutch, Cover, Damper, Gearbox, Release, Variant, Vehicle, Wheels

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
    "built_like",
    "frame_of",
    "read_vehicle",
    "sheets_edition",
    "sheets_edition_of",
    "vehicle",
    "vehicles",
]

SHEETS = "vehicles"
"""Under this name an edition of the set of sheets is pinned."""


def read_vehicle(path: Path) -> Vehicle:
    """Read one data sheet.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    if is_own_sheet(path):
        return read_own_sheet(path).vehicle
    sheet = read_toml(path, Vehicle, what="data sheet")
    for rule in broken_rules(sheet):
        raise broken(path, rule.key, rule.says, what="data sheet")
    return sheet


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


def sheets_edition_of(files: DataFiles) -> int:
    """Return the edition of the set of sheets in these files, in use or not."""
    if files is data_files():
        return sheets_edition()
    with using(files):
        return sheets_edition()


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


def frame_of(letter: str) -> str:
    """Return what stands in the frame of whatever shows a vehicle's figures; "" where it shows none."""
    return vehicle(letter).frame if letter else ""


def built_like(letter: str) -> str:
    """Return the letter of the training vehicle that is built most like a vehicle: release first, then drive and flywheel."""

    def alike(v: Vehicle) -> tuple[bool, bool, bool]:
        same = v.release.kind == own.release.kind
        return same, v.drive == own.drive, v.flywheel.fitted_now == own.flywheel.fitted_now

    own = vehicle(letter)
    return max((v for v in vehicles().values() if not v.entered_by), key=alike).id
