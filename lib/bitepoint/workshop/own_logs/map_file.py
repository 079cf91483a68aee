"""The column map as a TOML file: read, and written with a comment on every line."""

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import msgspec

from bitepoint.errors import BadInput
from bitepoint.printable import printable
from bitepoint.workshop.own_logs.log_map import CHANNELS, NAMES, NEEDED, UNITS, LogMap, check_map

_LONGEST = 20_000
_NOTES = {
    "time": "hh:mm:ss may have fractions of a second",
    "engine": "",
    "speed": "say in the record whether it is from driven wheels, other wheels or a satellite receiver",
    "gear": "whole numbers, 0 or N for neutral; leave out without such a column",
    "throttle": "pedal or throttle, 0 to 100; leave out without such a column",
    "vibration": "acceleration of the seat rail, 50 lines a second or more; leave out without such a column",
}


def read_map(path: Path) -> LogMap:
    """Read a column map.

    Raises
    ------
    BadInput
        Names the file, the key and what to do.
    """
    try:
        with path.open("rb") as file:
            content = file.read(_LONGEST + 1)
    except OSError as error:
        raise BadInput(f"{path.name}: cannot be read ({error.strerror}). Check where the column map lies.") from None
    return map_from(content, name=path.name)


def map_from(content: bytes, *, name: str = "column map") -> LogMap:
    """Return the column map in a text.

    Raises
    ------
    BadInput
        Names the key and what to do.
    """
    if len(content) > _LONGEST:
        raise BadInput(f"{name}: holds more than {_LONGEST // 1000} kB, too much for a column map. Take the template.")
    try:
        found = msgspec.toml.decode(content.removeprefix(b"\xef\xbb\xbf"), type=LogMap)
    except msgspec.ValidationError as error:
        raise BadInput(f"{name}: {error}. Correct that key, as in the template.") from None
    except (msgspec.MsgspecError, ValueError, RecursionError, OverflowError) as error:
        raise BadInput(f"{name}: is no valid TOML ({str(error)[:120]}). Correct that line.") from None
    check_map(msgspec.structs.replace(found, confirmed=True))
    return found


def map_template() -> str:
    """Return an empty column map with comments, to fill in by hand."""
    return written({}, {}, questions=())


def written(
    columns: Mapping[str, tuple[str | int, str]], keys: Mapping[str, Any], *, questions: tuple[str, ...]
) -> str:
    """Return a column map as text: columns and units by channel, other keys, and what a person must decide."""
    lines = [
        "# Column map of a road-test log. Compare each line with the file.",
        *(f"# ? {printable(q)}" for q in questions),
    ]
    general: dict[str, tuple[Any, str]] = {
        "confirmed": (False, "true when a person has compared this map with the file"),
        "separator": (";", '";", "," or "tab"'),
        "decimal": (".", '"." or ","'),
        "header": (1, "number of the line with the names; 0 without one"),
        "first": (2, "number of the first line of figures"),
        "encoding": ("utf-8", '"utf-8" or "latin-1"'),
    }
    lines += [f"{key} = {_value(keys.get(key, usual))}  # {note}" for key, (usual, note) in general.items()]
    lines += [
        "# fixed_gear = 3  # where the whole log is in one gear and no column says so",
        "# engine_u_percent = 0.5  # expanded uncertainty of the engine speed, where its maker states one",
        "# speed_u_percent = 1.0  # the same of the road speed",
        "# speed_delay_s = 0.5  # how late the road speed may be, as that of a satellite receiver; else one row",
    ]
    for channel in CHANNELS:
        lines += _table(channel, columns.get(channel))
    return "\n".join([*lines, ""])


def _table(channel: str, found: tuple[str | int, str] | None) -> list[str]:
    note = "; ".join(filter(None, (NAMES[channel], _NOTES[channel])))
    off = "" if found or channel in NEEDED else "# "
    column, unit = found or ("", "")
    lines = ["", f"{off}[{channel}]  # {note}", f"{off}column = {_value(column)}  # name over it, or its number from 1"]
    units = ", ".join(UNITS[channel])
    return lines if channel == "gear" else [*lines, f"{off}unit = {_value(unit)}  # {units}"]


def _value(value: Any) -> str:
    """Write a value of TOML; its texts are those of JSON but for one control sign."""
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
