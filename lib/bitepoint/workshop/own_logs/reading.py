"""Reading a log of one's own by its column map; what was left out is counted and said."""

from array import array
from collections.abc import Iterator, Sequence
from hashlib import sha256
from os import PathLike
from statistics import median

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.workshop.own_logs.cells import Reader, gear_reader, number_reader, read_clock
from bitepoint.workshop.own_logs.left_out import LeftOut, Tally, check_left_out
from bitepoint.workshop.own_logs.log_map import CLOCK, NAMES, SEPARATORS, UNITS, LogMap, MappedColumn, check_map
from bitepoint.workshop.own_logs.table import MOST_ROWS, content_of, rows

RANGES = {
    "time": (-1e9, 1e12), "engine": (0, 12_000), "speed": (-5, 350), "throttle": (-5, 105), "gear": (-1, 12), "vibration": (-50, 50),
}  # fmt: skip
"""What a car can show, in the first unit of each channel; a row beyond is left out."""
Column = tuple[str, int, Reader, float, float, float]
"""Channel, place, reader, factor to the first unit, and range."""
_DAY_S = 86_400


class OwnLog(Struct, frozen=True):
    """A log in seconds, rpm, km/h, % and g. A channel without a column is empty.

    `gaps` are (begin [s], length [s]); `said` is what a person must know of how it was read, a line each.
    """

    name: str
    digest: str
    map: LogMap
    rows: int
    t_s: "array[float]"
    engine_rpm: "array[float]"
    speed_km_h: "array[float]"
    throttle_pct: "array[float]"
    gear: "array[float]"
    vibration_g: "array[float]"
    interval_s: float
    uneven: bool
    gaps: tuple[tuple[float, float], ...]
    left_out: tuple[LeftOut, ...]
    said: tuple[str, ...]

    def __len__(self) -> int:
        return len(self.t_s)


def read_log(source: str | PathLike[str] | bytes, log_map: LogMap, *, name: str = "") -> OwnLog:
    """Read a log by its column map.

    Raises
    ------
    BadInput
        One line: what, where (line and column), what to do. Up to a tenth of the rows may be left out; then the log
        says so itself. Beyond that the map or the file is wrong.
    """
    check_map(log_map)
    name, content = content_of(source, name)
    lines = rows(content, name=name, separator=SEPARATORS[log_map.separator], encoding=log_map.encoding)
    places, width = _places(lines, log_map, name)
    tally = Tally()
    columns: dict[str, array[float]] = {channel: array("d") for channel in places}
    read, midnights = _fill(columns, lines, log_map, places, width, tally, name)
    check_left_out(name, read, len(columns["time"]), tally.left_out())
    return _log(name, content, log_map, read, columns, tally.left_out(), midnights)


def _places(lines: Iterator[tuple[int, list[str]]], m: LogMap, name: str) -> tuple[dict[str, int], int]:
    """Find the place of each channel; return with it how many fields a row must have, 0 where no line of names says so."""
    if not m.header:
        return {channel: int(mapped.column) - 1 for channel, mapped in m.channels.items()}, 0
    head = next((fields for line, fields in lines if line >= m.header), [])
    names = [field.strip() for field in head]
    return {channel: _place(mapped, names, channel, m, name) for channel, mapped in m.channels.items()}, _width(names)


def _width(fields: Sequence[str]) -> int:
    """Return how many fields a row has, empty ones at its end left out: some loggers end each line with a separator."""
    return next((i for i in range(len(fields), 0, -1) if fields[i - 1].strip()), 0)


def _place(mapped: MappedColumn, names: Sequence[str], channel: str, m: LogMap, name: str) -> int:
    if isinstance(mapped.column, int):
        if mapped.column > len(names):
            told = f"column {mapped.column} for {NAMES[channel]}, but line {m.header} has {len(names)} fields"
            raise BadInput(f"{name}: {told}. Check separator and column in the map.")
        return mapped.column - 1
    places = [i for i, other in enumerate(names) if other == mapped.column.strip()]
    if not places:
        seen = ", ".join(names)[:120] or "nothing"
        told = f"{name}: line {m.header}: no column {mapped.column[:40]!r} for {NAMES[channel]}; it has {seen}"
        raise BadInput(f"{told}. Correct the map.")
    if len(places) > 1:
        told = f"{name}: line {m.header}: {mapped.column[:40]!r} stands over columns {', '.join(str(p + 1) for p in places)}"
        raise BadInput(f"{told}. Give the number of the column for {NAMES[channel]} in the map.")
    return places[0]


def _readers(m: LogMap, places: dict[str, int]) -> list[Column]:
    """Return how each column is read."""
    number, found = number_reader(m.decimal), []
    for channel, mapped in m.channels.items():
        reader = read_clock if mapped.unit == CLOCK else gear_reader(m.decimal) if channel == "gear" else number
        found.append((channel, places[channel], reader, UNITS[channel][mapped.unit], *RANGES[channel]))
    return found


def _fill(
    columns: "dict[str, array[float]]",
    lines: Iterator[tuple[int, list[str]]],
    m: LogMap,
    places: dict[str, int],
    width: int,
    tally: Tally,
    name: str,
) -> tuple[int, int]:
    """Read every row into the columns; return how many rows there were, and how often the clock passed midnight."""
    readers = _readers(m, places)
    wide = max(places.values())
    read = midnights = 0
    clock = m.time.unit == CLOCK
    before = None
    for line, fields in lines:
        if line < m.first or not any(map(str.strip, fields)):
            continue
        read += 1
        if read > MOST_ROWS:
            raise BadInput(f"{name}: has more than {MOST_ROWS:,} rows. Cut the log to the drive itself.")
        if len(fields) <= wide or (width and _width(fields) > width):
            tally.note("fields", line, f"has {len(fields)} fields, but {width or wide + 1} are needed")
            continue
        values = _values(fields, readers, line, tally)
        if values is None:
            continue
        at = values["time"] + _DAY_S * midnights
        if clock and before is not None and at < before - _DAY_S / 2:
            at, midnights = at + _DAY_S, midnights + 1
        if before is not None and at <= before:
            reason = "repeated" if at == before else "back"
            tally.note(reason, line, f"column {places['time'] + 1}: the time is not later than in the row before")
            continue
        before = values["time"] = at
        for channel, value in values.items():
            columns[channel].append(value)
    return read, midnights


def _values(
    fields: Sequence[str],
    readers: Sequence[Column],
    line: int,
    tally: Tally,
) -> dict[str, float] | None:
    found = {}
    for channel, place, reader, factor, low, high in readers:
        try:
            value = reader(fields[place])
        except ValueError:
            tally.note("text", line, f"{_where(place, channel, fields)} is no number as the map writes them")
            return None
        if value is None:
            tally.note("empty", line, f"{_where(place, channel, fields)} is an empty cell")
            return None
        value *= factor
        if not low <= value <= high:
            rule = f"is beyond what a car shows ({low:g} to {high:g}), unit as mapped"
            tally.note("range", line, f"{_where(place, channel, fields)} {rule}")
            return None
        found[channel] = value
    return found


def _where(place: int, channel: str, fields: Sequence[str]) -> str:
    return f"column {place + 1} ({NAMES[channel]}): {fields[place][:30]!r}"


def _log(
    name: str,
    content: bytes,
    m: LogMap,
    read: int,
    columns: "dict[str, array[float]]",
    left_out: tuple[LeftOut, ...],
    midnights: int,
) -> OwnLog:
    start = columns["time"][0]
    t_s = array("d", (at - start for at in columns["time"]))
    steps = [b - a for a, b in zip(t_s, t_s[1:], strict=False)]
    usual = median(steps)
    limit = max(5 * usual, 0.5)
    gaps = tuple((t_s[i], step) for i, step in enumerate(steps) if step > limit)
    even = sum(abs(step - usual) > 0.05 * usual for step in steps) <= 0.01 * len(steps)
    said = [one.told() for one in left_out]
    if gaps:
        longest = max(gaps, key=lambda gap: gap[1])
        said.append(
            f"{len(gaps)} gap{'s' if len(gaps) > 1 else ''}, the longest {longest[1]:.3g} s at {longest[0]:.4g} s"
        )
    if midnights:
        said.append("the clock passed midnight; the time goes on")
    if not even:
        said.append(f"uneven times, one row each {usual:.3g} s as a rule")
    nothing = array("d")
    return OwnLog(
        name, sha256(content).hexdigest(), m, read, t_s, columns["engine"], columns["speed"], columns.get("throttle", nothing),
        columns.get("gear", nothing), columns.get("vibration", nothing), usual, not even, gaps, left_out, tuple(said),
    )  # fmt: skip
