"""A figure of a data sheet by its path, such as `flywheel.tightening.final_nm` or `gearbox.ratios.3`.

The walk goes over the fields of the sheet's own parts, never over attributes as such: a path from a file can reach a
figure, nothing else. Of what a part works out itself only the names below are open.
"""

import re
from collections.abc import Iterable
from difflib import get_close_matches
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin

import msgspec

from bitepoint.errors import BadData
from bitepoint.missing import MissingFigure, look_up
from bitepoint.workshop.sheet_flywheel import Flywheel, FlywheelTightening
from bitepoint.workshop.vehicles import Vehicle

_WORKED_OUT: dict[type, tuple[str, ...]] = {FlywheelTightening: ("final_nm",), Flywheel: ("bolt_count",)}
_ENDS = {"first": 0, "last": -1}
_MOST_PARTS, _MOST_SAID = 6, 6
_PLACE = re.compile(r"[1-9][0-9]?", re.ASCII)
_NO_FIGURES = ("edition", "variants")


def check_sheet_path(path: str) -> None:
    """Refuse a path that leads to no figure of a data sheet.

    Raises
    ------
    BadData
        Says which part of it is wrong and what could stand there.
    """
    here: Any = Vehicle
    parts = path.split(".")
    if len(parts) > _MOST_PARTS:
        raise BadData(f"{path[:60]!r} is no figure of a data sheet: it has more than {_MOST_PARTS} parts")
    for part in parts:
        here = _below(here, part, path)
    if here not in (int, float):
        raise BadData(f"{path[:60]!r} is no figure of a data sheet{_nearest('', here)}")


def sheet_figure(sheet: Vehicle, path: str) -> float | None:
    """Return the figure at a checked path; None where this car has none, or its sheet says to look it up."""
    try:
        return _found(sheet, path)
    except MissingFigure:
        return None


def _found(sheet: Vehicle, path: str) -> float | None:
    here: Any = sheet
    for part in path.split("."):
        look_up(here)
        if here is None:
            return None
        if isinstance(here, tuple):
            at = _ENDS.get(part, int(part) - 1 if part not in _ENDS else 0)
            here = here[at] if at < len(here) else None
        else:
            here = getattr(here, part)
    return None if here is None else float(here)


def has_figures(sheet: Vehicle, paths: Iterable[str]) -> bool:
    """Whether a car's sheet has a figure at each of these checked paths."""
    return all(sheet_figure(sheet, path) is not None for path in paths)


def _below(kind: Any, part: str, path: str) -> Any:
    """Return the plain type behind one part of a path."""
    shown = path[:60]
    if get_origin(kind) is tuple:
        if part not in _ENDS and not _PLACE.fullmatch(part):
            raise BadData(f"{shown!r}: {part[:30]!r} must be first, last or a number from 1")
        return _plain(get_args(kind)[0])
    fields = _fields(kind)
    if part in _WORKED_OUT.get(kind, ()):
        return float
    if part not in fields:
        raise BadData(f"{shown!r} is no figure of a data sheet: {part[:30]!r} is not known{_nearest(part, kind)}")
    return _plain(fields[part])


def _is_part(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, msgspec.Struct)


def _fields(kind: Any) -> dict[str, Any]:
    return {f.name: f.type for f in msgspec.structs.fields(kind) if f.name not in _NO_FIGURES} if _is_part(kind) else {}


def _nearest(part: str, kind: Any) -> str:
    """Name the parts that could stand there, those first that are spelt like this one."""
    offered = _offered(kind)
    near = get_close_matches(part, offered, n=_MOST_SAID, cutoff=0.4) or offered[:_MOST_SAID]
    return f"; there could stand {', '.join(near)}" if near else ""


def _offered(kind: Any) -> list[str]:
    """Return the parts of a path that lead on to figures from here."""
    if get_origin(kind) is tuple:
        return ["first", "last", "1", "2"] if _plain(get_args(kind)[0]) in (int, float) else []
    if not _is_part(kind):
        return []
    found = [name for name, of in _fields(kind).items() if _leads_on(_plain(of))]
    return [*found, *_WORKED_OUT.get(kind, ())]


def _leads_on(kind: Any) -> bool:
    return kind in (int, float) or bool(_offered(kind))


def _plain(kind: Any) -> Any:
    """Return a type without what is said about it and without None."""
    while get_origin(kind) is Annotated:
        kind = get_args(kind)[0]
    if get_origin(kind) in (Union, UnionType):
        rest = [_plain(each) for each in get_args(kind) if each is not NoneType]
        return rest[0] if len(rest) == 1 else object
    return object if get_origin(kind) is Literal else kind
