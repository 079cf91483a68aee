"""The list of clutch kits, and for each vehicle the list in which its kit is looked up. All kit numbers are invented."""

from pathlib import Path
from typing import Annotated, Literal

import msgspec
from msgspec import Meta

from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.reading import StrictStruct, broken, check_unique, csv_rows

Month = Annotated[str, Meta(pattern=r"^(\d{4}-(0[1-9]|1[0-2]))?$")]
Kind = Literal["rigid", "dual-mass"]
ReleaseKind = Literal["bearing for fork", "concentric slave"]
_NAME, _WHAT = "kits.csv", "kit list"


class Kit(StrictStruct, frozen=True, kw_only=True):
    """A row of the kit list; an empty text means that the column does not matter for this kit."""

    kit: str
    engine_code: str
    build_from: Month
    build_to: Month
    gearbox_code: str
    option: str
    plate_od_mm: Annotated[float, Meta(gt=0)]
    splines: Annotated[int, Meta(ge=1)]
    flywheel: Kind
    flywheel_in_kit: bool
    target_ring: bool
    damper: str
    cover: Literal["conventional", "self-adjusting"]
    cover_bolts: Annotated[int, Meta(ge=1)]
    release: ReleaseKind
    contents: tuple[str, ...]


def read_kits(path: Path) -> tuple[Kit, ...]:
    """Read a kit list.

    Raises
    ------
    BadData
        Names the file, the line, the column and the rule.
    """
    kits = tuple(_kit(path, line, row) for line, row in csv_rows(path, what=_WHAT))
    check_unique(path, "kit", [kit.kit for kit in kits])
    return kits


def _kit(path: Path, line: int, row: dict[str, str]) -> Kit:
    flags = {"yes": True, "no": False}
    read: dict[str, object] = {**row, "contents": row.get("contents", "").split(";")}
    for column in ("flywheel_in_kit", "target_ring"):
        read[column] = flags.get(row.get(column, ""), row.get(column))
    try:
        kit = msgspec.convert(read, type=Kit, strict=False)
    except msgspec.ValidationError as error:
        raise broken(path, f"line {line}", str(error), what=_WHAT) from None
    if kit.build_from and kit.build_to and kit.build_from > kit.build_to:
        raise broken(path, f"line {line} build_from", "must not be after build_to", what=_WHAT)
    return kit


@once_a_set
def _lists() -> dict[Path, tuple[Kit, ...]]:
    """Return the kits of every list, the shipped list first; no number stands in two of them."""
    found: dict[Path, tuple[Kit, ...]] = {}
    files = data_files()
    for path in (*files.paths(_NAME), *map(files.path, files.names(f"vehicles/*.{_NAME}"))):
        found[path] = read_kits(path)
        check_unique(path, "kit", [kit.kit for kits in found.values() for kit in kits])
    return found


def all_kits() -> tuple[Kit, ...]:
    """Return every kit of every list, in order."""
    return tuple(kit for kits in _lists().values() for kit in kits)


@once_a_set
def kits_for(letter: str) -> tuple[Kit, ...]:
    """Return the list in which the kit of a vehicle is looked up: the shipped list, then what is the vehicle's own.

    That is `vehicles/LETTER.kits.csv` beside its sheet, and the list of the folder that brought the sheet. So a vehicle
    that comes with a kit list of its own changes no question about the others.
    """
    folders = data_files().folders
    sheet = Path("vehicles", f"{letter.casefold()}.toml")
    home = next((folder for folder in folders if (folder / sheet).exists()), folders[0])
    own = f"{letter.casefold()}.{_NAME}"

    def is_near(path: Path) -> bool:
        if path.parent.name == "vehicles":
            return path.name == own
        return path.is_relative_to(folders[0]) or path.is_relative_to(home)

    near = [path for path in _lists() if is_near(path)]
    return tuple(kit for path in near for kit in _lists()[path])
