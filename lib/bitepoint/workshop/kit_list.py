"""The list of clutch kits, and for each vehicle the list in which its kit is looked up. All kit numbers are invented."""

from collections.abc import Iterator
from pathlib import Path
from typing import Annotated, Any, Literal

import msgspec
from msgspec import Meta

from bitepoint.missing import is_missing
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.reading import StrictStruct, broken, check_unique, csv_rows
from bitepoint.workshop.vehicles import Vehicle, vehicles

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

    The latter is `vehicles/LETTER.kits.csv` beside its sheet, and the list of the folder that brought the sheet. So a vehicle
    that comes with a kit list of its own changes no question about the others.
    An own sheet that comes without a list gets an invented one.
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
    found = tuple(kit for path in near for kit in _lists()[path])
    v = vehicles().get(letter)
    return found if v is None or not v.entered_by else (*found, *_invented(v, found))


_SHAPES: tuple[dict[str, Any], ...] = ({}, {"older": True}, {"splines": 2}, {"plate_od_mm": 10}, {"gearbox": "-2"})
"""How the invented kits of an own sheet differ from the one that fits: by one column each."""


def _invented(v: Vehicle, known: tuple[Kit, ...]) -> Iterator[Kit]:
    """Yield an invented list for an own sheet that came without one: one kit fits, each other fails by one column.

    Where the sheet does not have what a column needs there is no list.
    """
    clutch = v.clutch
    gaps = ("engine.code", "build.build_date", "gearbox.code", "clutch.plate_od_mm", "clutch.splines", "clutch.cover.n")
    if (
        is_missing(v.engine.crank_sensor_on)
        or any(kit.engine_code == v.engine.code for kit in known)
        or set(gaps) & set(v.missing)
    ):
        return
    concentric = v.release.kind == "hydraulic concentric slave"
    rigid = v.flywheel.fitted_now == "rigid"
    parts = ("driven plate", "cover", "concentric slave" if concentric else "release bearing")
    for number, shape in enumerate(_SHAPES, start=1):
        yield Kit(
            kit=f"TK-{v.id}-{number}",
            engine_code=v.engine.code,
            build_from="",
            build_to="1990-12" if "older" in shape else "",
            gearbox_code=f"{v.gearbox.code}{shape.get('gearbox', '')}",
            option="",
            plate_od_mm=clutch.plate_od_mm + shape.get("plate_od_mm", 0),
            splines=clutch.splines + shape.get("splines", 0),
            flywheel=v.flywheel.fitted_now,
            flywheel_in_kit=not rigid,
            target_ring=not rigid and v.engine.crank_sensor_on == "flywheel",
            damper="none (rigid hub)" if not rigid else "conventional",
            cover=clutch.cover.kind,
            cover_bolts=clutch.cover.n,
            release="concentric slave" if concentric else "bearing for fork",
            contents=parts if rigid else ("dual-mass flywheel", *parts),
        )
