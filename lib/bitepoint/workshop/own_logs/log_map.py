"""Which column of a log is what, in which unit, and how its figures are written."""

from math import pi
from typing import Annotated, Literal

from msgspec import Meta

from bitepoint.errors import BadInput
from bitepoint.units import MILE_M, STANDARD_GRAVITY
from bitepoint.workshop.reading import StrictStruct

CLOCK = "hh:mm:ss"
UNITS: dict[str, dict[str, float]] = {
    "time": {"s": 1.0, "ms": 0.001, "min": 60.0, CLOCK: 1.0},
    "engine": {"rpm": 1.0, "rad/s": 30 / pi, "1/s": 60.0, "Hz": 60.0},
    "speed": {"km/h": 1.0, "mph": MILE_M / 1000, "m/s": 3.6},
    "throttle": {"%": 1.0},
    "gear": {"": 1.0},
    "vibration": {"g": 1.0, "m/s²": 1 / STANDARD_GRAVITY, "m/s2": 1 / STANDARD_GRAVITY},
}
"""Units of each channel, with their size in the first one (source of the mile and of g: nist-sp-811)."""
NAMES = {
    "time": "time",
    "engine": "engine speed",
    "speed": "road speed",
    "throttle": "throttle",
    "gear": "gear",
    "vibration": "acceleration of the shake",
}
CHANNELS, NEEDED = tuple(UNITS), ("time", "engine", "speed")
SEPARATORS = {";": ";", ",": ",", "tab": "\t"}
MOST_HEAD = 100
Share = Annotated[float, Meta(ge=0, le=20)]
LineNumber = Annotated[int, Meta(ge=0, le=MOST_HEAD)]


class MappedColumn(StrictStruct, frozen=True):
    """A column by the name over it, or by its number from 1; and the unit of its figures."""

    column: Annotated[str, Meta(max_length=200)] | Annotated[int, Meta(ge=1, le=1000)]
    unit: str = ""


class LogMap(StrictStruct, frozen=True, kw_only=True):
    """The map of a log.

    `header` is the number of the line with the names, 0 without one; `first` that of the first line of figures.
    `engine_u_percent` and `speed_u_percent` are the expanded uncertainties of the instruments, where somebody stated them.
    `speed_delay_s` is how late the road speed may be read; one row where nobody stated it. A map that was guessed is not `confirmed` until a person has compared it with the file.
    """

    time: MappedColumn
    engine: MappedColumn
    speed: MappedColumn
    gear: MappedColumn | None = None
    throttle: MappedColumn | None = None
    vibration: MappedColumn | None = None
    fixed_gear: Annotated[int, Meta(ge=1, le=12)] | None = None
    separator: Literal[";", ",", "tab"] = ","
    decimal: Literal[".", ","] = "."
    header: LineNumber = 1
    first: Annotated[int, Meta(ge=1, le=MOST_HEAD)] = 2
    encoding: Literal["utf-8", "latin-1"] = "utf-8"
    engine_u_percent: Share | None = None
    speed_u_percent: Share | None = None
    speed_delay_s: Annotated[float, Meta(ge=0, le=5)] | None = None
    confirmed: bool = True

    @property
    def channels(self) -> dict[str, MappedColumn]:
        """The columns that are mapped, by channel."""
        return {channel: getattr(self, channel) for channel in CHANNELS if getattr(self, channel) is not None}

    def told(self) -> str:
        """Return the map in one line, as a record prints it."""
        columns = (
            f"{NAMES[channel]}: {_named(m.column)}{f' in {m.unit}' if m.unit else ''}"
            for channel, m in self.channels.items()
        )
        fixed = f"; gear {self.fixed_gear} throughout" if self.fixed_gear else ""
        return f"{'; '.join(columns)}{fixed}; separator {self.separator}, decimal sign {self.decimal}, {self.encoding}"


def check_map(log_map: LogMap) -> None:
    """Raise `BadInput` for the first rule that a map breaks."""
    m = log_map
    if not m.confirmed:
        raise _wrong("confirmed", "is false: the map was guessed", "Compare each line with the file, then write true")
    for channel, mapped in m.channels.items():
        if mapped.unit not in UNITS[channel]:
            units = ", ".join(UNITS[channel]) if channel != "gear" else "left out"
            raise _wrong(
                f"{channel}.unit", f"must be {units}, but is {mapped.unit[:20]!r}", "Look at the logger's own list"
            )
        if not m.header and isinstance(mapped.column, str):
            rule = f"is {mapped.column[:30]!r}, but header = 0 says that no line holds names"
            raise _wrong(f"{channel}.column", rule, "Give the column's number, from 1")
    if len({mapped.column for mapped in m.channels.values()}) < len(m.channels):
        raise _wrong("column", "stands twice", "Give each channel a column of its own")
    if m.gear and m.fixed_gear:
        raise _wrong("fixed_gear", "stands beside a column of gears", "Leave one of them out")
    if m.separator == m.decimal:
        raise _wrong("decimal", "is the sign that separates the fields", "Save the log with semicolons")
    if m.first <= m.header:
        raise _wrong("first", f"must be greater than header ({m.header})", "Count the lines from 1")


def _named(column: str | int) -> str:
    return repr(column) if isinstance(column, str) else f"column {column}"


def _wrong(key: str, rule: str, advice: str) -> BadInput:
    return BadInput(f"Column map: {key} {rule}. {advice}.")
