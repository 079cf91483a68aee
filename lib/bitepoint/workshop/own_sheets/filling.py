"""What a college wrote made into the type of a data sheet; where a figure is missing a `Missing` stands in its place."""

from collections.abc import Mapping
from math import isfinite
from types import UnionType
from typing import Any, Union, get_args, get_origin, get_type_hints

import msgspec
from msgspec import NODEFAULT, Struct

from bitepoint.errors import BadInput, NotUnderstood
from bitepoint.missing import LOOK_UP, Missing
from bitepoint.units import convert, quantity
from bitepoint.workshop.sheets import Vehicle

UNITS = {
    **{"nm": "N·m", "mm": "mm", "deg": "°", "n": "N", "kg": "kg", "litre": "l", "ml": "ml", "rpm": "rpm", "h": "h"},
    **{"in": "in", "pct": "%"},
}
"""The unit that the end of a key names; "84 N·m" or "62 lbf·ft" in quotes is read as well as a bare number."""
NOT_WRITTEN = {"entered_by", "missing", "figures"}
_LINE = 300
_WORDS = "look it up in the vehicle's repair data"
_NEVER_MISSING = {
    *("id", "edition", "drive", "flywheel.factory_type", "flywheel.fitted_now", "clutch.cover.kind", "release.kind"),
}


def fill(raw: Mapping[str, Any]) -> tuple[Vehicle, tuple[str, ...]]:
    """Return the vehicle of a sheet and the keys of the figures that it does not have.

    Raises
    ------
    BadInput
        A key is not one of a sheet, is needed and missing, or holds what cannot be read: names the key and what to do.
    """
    letter = raw.get("id")
    filler = _Filler(letter if isinstance(letter, str) else "?")
    made = filler.struct(Vehicle, _with_what_follows(raw), "")
    missing = tuple(filler.missing)
    return msgspec.structs.replace(made, missing=missing), missing


def _with_what_follows(raw: Mapping[str, Any]) -> dict[str, Any]:
    """Return what was written with what follows from it: a hydraulic release has a bore, even where nobody wrote it."""
    made: dict[str, Any] = {key: dict(v) if isinstance(v, Mapping) else v for key, v in raw.items()}
    release, flywheel, wheels = (_table(made, key) for key in ("release", "flywheel", "wheels"))
    for key in _OF_RELEASE.get(str(release.get("kind")), ()):
        release.setdefault(key, LOOK_UP)
    tightening = _table(flywheel, "tightening")
    by_angle = tightening.get("angle_deg") is not None
    if by_angle and tightening.get("second_round_limit_deg") == LOOK_UP:
        # The form has the line of a second torque; an angle written in below it says that there is none.
        del tightening["second_round_limit_deg"]
    tightening.setdefault("second_round", "paint marks" if by_angle else "torque")
    tightening.setdefault("joint_stiffness_kn_per_mm" if by_angle else "second_round_limit_deg", LOOK_UP)
    if flywheel.get("fitted_now") == "dual-mass":
        _table(flywheel, "dmf_limits")
        _table(made, "masses").setdefault("dmf_kg", LOOK_UP)
    if made.get("drive") == "front":
        wheels.setdefault("hub_nut", LOOK_UP)
    return made


_HYDRAULIC = ("master_bore_mm", "fluid_grade", "bleed_volume_ml")
_OF_RELEASE = {
    "mechanical": ("outer_lever_ratio",),
    "hydraulic concentric slave": (*_HYDRAULIC, "slave_outer_mm", "slave_inner_mm"),
    "hydraulic external slave and fork": (*_HYDRAULIC, "slave_bore_mm", "fork_ratio"),
}


def _table(of: dict[str, Any], key: str) -> dict[str, Any]:
    """Return a table of what was written, made where there is none."""
    if not isinstance(of.get(key), Mapping):
        if key in of:
            raise BadInput(f"{key} must be a table of its own, begun with [{key}].")
        of[key] = {}
    of[key] = dict(of[key])
    return of[key]  # type: ignore[no-any-return]


class _Filler:
    """Walks the type of a sheet and what was written, side by side."""

    def __init__(self, letter: str) -> None:
        self.letter, self.missing = letter, [""][:0]

    def struct(self, kind: type[Struct], raw: Any, at: str) -> Any:
        """Return a part of the sheet."""
        if not isinstance(raw, Mapping):
            raise BadInput(f"{at} must be a table of its own, begun with [{at}].")
        hints = get_type_hints(kind, include_extras=True)
        fields = msgspec.structs.fields(kind)
        known = {field.name for field in fields} - NOT_WRITTEN
        for key in raw:
            if key not in known:
                raise BadInput(f"{_under(at, str(key)[:40])} is no key of a sheet. Compare it with the template.")
        for field in fields:
            if field.default is NODEFAULT and raw.get(field.name) == []:
                raise BadInput(f"{_under(at, field.name)} is an empty list. Write its figures, or “{LOOK_UP}”.")
        values = {
            field.name: self.value(hints[field.name], raw[field.name], _under(at, field.name))
            if field.name in raw
            else self.absent(hints[field.name], field, _under(at, field.name))
            for field in fields
        }
        return kind(**values)

    def absent(self, hint: Any, field: msgspec.structs.FieldInfo, key: str) -> Any:
        """Return what stands where nothing was written."""
        if field.default is not NODEFAULT:
            return field.default
        if field.default_factory is not NODEFAULT:
            return field.default_factory()
        inner = _struct_in(hint)
        return self.struct(inner, {}, key) if inner else self.gap(hint, key)

    def gap(self, hint: Any, key: str) -> Any:
        """Return a missing figure; words that nobody wrote say where to look."""
        if key in _NEVER_MISSING:
            raise BadInput(f"{key} is missing. The sheet cannot do without it: write it in, as in the template.")
        self.missing.append(key)
        return _WORDS if hint is str else Missing(self.letter, key)

    def value(self, hint: Any, raw: Any, key: str) -> Any:
        """Return one value as the sheet's type wants it."""
        if raw == LOOK_UP:
            return self.gap(hint, key)
        inner = _struct_in(hint)
        if get_origin(hint) is tuple and isinstance(raw, Mapping):
            raise BadInput(f"{key} may come more than once: its table must be begun with [[{key}]], in two brackets.")
        if inner and isinstance(raw, list):
            return tuple(self.struct(inner, one, f"{key}.{n}") for n, one in enumerate(raw, start=1))
        if inner:
            return self.struct(inner, raw, key)
        try:
            return _line(msgspec.convert(_in_unit(raw, key, hint), hint), key)
        except msgspec.ValidationError as error:
            raise BadInput(f"{key}: {error}. Correct it, or write “{LOOK_UP}”.") from None


def _line(value: Any, key: str) -> Any:
    """Return a value; words are one line that a page can show."""
    if isinstance(value, str) and (not value.strip() or len(value) > _LINE or not value.isprintable()):
        raise BadInput(f"{key} must be one line of 1 to {_LINE} characters, but it is {value[:40]!r}.")
    return value


def _in_unit(raw: Any, key: str, hint: Any) -> Any:
    """Return a figure written with its unit as a number in the unit of the key; a list part by part."""
    if isinstance(raw, list):
        return [_in_unit(one, key, hint) for one in raw]
    if isinstance(raw, float) and not isfinite(raw):
        raise BadInput(f"{key}: {raw} is no figure. Correct it, or write “{LOOK_UP}”.")
    unit = unit_of(key)
    if not isinstance(raw, str) or not unit or hint is str:
        return raw
    try:
        found = quantity(raw)
        return _converted(found.value, found.unit or unit, unit)
    except NotUnderstood as error:
        raise BadInput(f"{key}: {error}") from None


def _converted(value: float, unit: str, wanted: str) -> float:
    """Return a figure in the unit of its key; one that was converted with the digits that somebody can set or read."""
    found = convert(value, unit, wanted)
    if convert(1, unit, wanted) == 1:
        return round(found, 6)
    return float(f"{found:.4g}")


def unit_of(key: str) -> str:
    """Return the unit that the end of a key names, "" where it names none that a figure may be written with."""
    return "" if "_per_" in key else UNITS.get(key.rpartition("_")[2], "")


def _struct_in(hint: Any) -> type[Struct] | None:
    """Return the type of sheet part within a type, if there is one."""
    if isinstance(hint, type) and issubclass(hint, Struct):
        return hint
    if get_origin(hint) in (Union, UnionType, tuple):
        return next(filter(None, map(_struct_in, get_args(hint))), None)
    return None


def _under(at: str, key: str) -> str:
    return f"{at}.{key}" if at else key
