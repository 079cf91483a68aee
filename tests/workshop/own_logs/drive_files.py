"""Little log files of simulated drives, so that what is wrong with the car is known."""

from collections.abc import Callable, Sequence
from functools import cache

from bitepoint.mechanics.driveline import kmh_per_rpm
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.own_log import LogMap, MappedColumn
from bitepoint.workshop.simulator import Fault, Log, simulate
from bitepoint.workshop.vehicles import vehicle

Row = dict[str, float]
Write = Callable[[float], str]
HEADS = {
    "time": "Time",
    "engine": "Engine",
    "speed": "Road",
    "gear": "Gear",
    "throttle": "Throttle",
    "vibration": "Seat",
}
UNITS = {"time": "s", "engine": "rpm", "speed": "km/h", "gear": "", "throttle": "%", "vibration": "g"}


@cache
def drive(fault: Fault = "healthy", letter: str = "A", seed: int = 1) -> Log:
    return simulate(vehicle(letter), fault, seed=seed)


def slow_rows(fault: Fault = "healthy", letter: str = "A", seed: int = 1) -> list[Row]:
    """Return the ten rows a second of a drive: driven wheels, no shake."""
    return [
        {
            "time": s.t_s,
            "engine": s.engine_rpm,
            "speed": s.driven_wheel_km_h,
            "gear": s.gear,
            "throttle": s.throttle_pct,
        }
        for s in drive(fault, letter, seed).samples
    ]


def fast_rows(fault: Fault = "healthy", letter: str = "A", seed: int = 1) -> list[Row]:
    """Return the move-off of a drive at 200 rows a second; the road speed is that of the gearbox input in first gear."""
    v = vehicle(letter)
    per_rpm = kmh_per_rpm(v.gearbox.ratios[0], v.gearbox.final, rolling_circumference_mm(v))
    return [
        {"time": s.t_s, "engine": s.engine_rpm, "speed": s.input_rpm * per_rpm, "vibration": s.vibration_g}
        for s in drive(fault, letter, seed).shake
    ]


def text(
    rows: Sequence[Row],
    channels: Sequence[str] = ("time", "engine", "speed"),
    *,
    separator: str = ",",
    decimal: str = ".",
    head: bool = True,
    before: Sequence[str] = (),
    end: str = "\n",
    write: dict[str, Write] | None = None,
    heads: dict[str, str] | None = None,
) -> str:
    """Write rows as a table; `write` says how a channel's figures are written, six decimals where it does not."""
    writers: dict[str, Write] = {channel: lambda x: f"{x:.6f}" for channel in channels}
    writers |= {"gear": lambda x: f"{x:.0f}"} | (write or {})
    lines = list(before)
    if head:
        lines.append(separator.join((HEADS | (heads or {}))[channel] for channel in channels))
    for row in rows:
        lines.append(separator.join(writers[channel](row[channel]).replace(".", decimal) for channel in channels))
    return end.join([*lines, ""])


def plain_map(channels: Sequence[str] = ("time", "engine", "speed"), **keys: object) -> LogMap:
    """Return the map of a file written by `text` without more ado."""
    return LogMap(**{c: MappedColumn(HEADS[c], UNITS[c]) for c in channels} | keys)  # type: ignore[arg-type]
