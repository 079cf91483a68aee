"""Logs with other names, units and ways of writing: the verdict is that of the plain file."""

from collections.abc import Sequence
from math import pi
from typing import Any

import pytest
from drive_files import Row, fast_rows, plain_map, slow_rows, text

from bitepoint.units import MILE_M, STANDARD_GRAVITY
from bitepoint.workshop.own_log import MappedColumn, OwnLogResult, judge_log, read_log
from bitepoint.workshop.simulator import FAULTS, Fault
from bitepoint.workshop.vehicles import vehicle

THREE = ("time", "engine", "speed")
FOUR = (*THREE, "vibration")
ALL = (*THREE, "gear", "throttle")


def clock(start_s: float, digits: int = 2) -> Any:
    def write(t_s: float) -> str:
        at = round((start_s + t_s) % 86_400, digits)
        return f"{int(at // 3600):02d}:{int(at % 3600 // 60):02d}:{at % 60:0{3 + digits}.{digits}f}"

    return write


def holes(rows: Sequence[Row], every: int) -> list[Row]:
    return [row for i, row in enumerate(rows) if i % every]


def twice(rows: Sequence[Row], every: int) -> list[Row]:
    return [again for i, row in enumerate(rows) for again in ([row, row] if i % every == 0 else [row])]


def shaken(rows: Sequence[Row]) -> list[Row]:
    """Return the rows with times that come a little early and late in turn, read at those times."""
    found = []
    for i, (row, after) in enumerate(zip(rows, rows[1:], strict=False)):
        share = (i % 3) / 5
        found.append({key: row[key] + share * (after[key] - row[key]) for key in row})
    return found


def column(name: str | int, unit: str = "") -> MappedColumn:
    return MappedColumn(name, unit)


# What was done to the file: channels, what is changed in the rows, how it is written, what the map says of it.
Way = tuple[Sequence[str], Any, dict[str, Any], dict[str, Any]]
WAYS: dict[str, Way] = {
    "mph": (THREE, None, {"write": {"speed": lambda x: f"{x * 1000 / MILE_M:.4f}"}}, {"speed": column("Road", "mph")}),
    "m/s": (THREE, None, {"write": {"speed": lambda x: f"{x / 3.6:.5f}"}}, {"speed": column("Road", "m/s")}),
    "rad/s": (THREE, None, {"write": {"engine": lambda x: f"{x * pi / 30:.4f}"}}, {"engine": column("Engine", "rad/s")}),
    "turns a second": (THREE, None, {"write": {"engine": lambda x: f"{x / 60:.5f}"}}, {"engine": column("Engine", "1/s")}),
    "Hz": (THREE, None, {"write": {"engine": lambda x: f"{x / 60:.5f}"}}, {"engine": column("Engine", "Hz")}),
    "ms": (THREE, None, {"write": {"time": lambda x: f"{1000 * x:.0f}"}}, {"time": column("Time", "ms")}),
    "min": (THREE, None, {"write": {"time": lambda x: f"{x / 60:.8f}"}}, {"time": column("Time", "min")}),
    "time of day": (THREE, None, {"write": {"time": clock(50_000)}}, {"time": column("Time", "hh:mm:ss")}),
    "date and time of day": (THREE, None, {"write": {"time": lambda t: f"29.11.2026 {clock(50_000)(t)}"}}, {"time": column("Time", "hh:mm:ss")}),
    "past midnight": (THREE, None, {"write": {"time": clock(86_370, 3)}}, {"time": column("Time", "hh:mm:ss")}),
    "decimal comma": (THREE, None, {"separator": ";", "decimal": ","}, {"separator": ";", "decimal": ","}),
    "clock with comma": (THREE, None, {"separator": ";", "decimal": ",", "write": {"time": clock(9)}},
                         {"separator": ";", "decimal": ",", "time": column("Time", "hh:mm:ss")}),
    "semicolons": (THREE, None, {"separator": ";"}, {"separator": ";"}),
    "tabs": (THREE, None, {"separator": "\t"}, {"separator": "tab"}),
    "tabs and commas": (THREE, None, {"separator": "\t", "decimal": ","}, {"separator": "tab", "decimal": ","}),
    "no names": (THREE, None, {"head": False},
                 {"header": 0, "first": 1, "time": column(1, "s"), "engine": column(2, "rpm"), "speed": column(3, "km/h")}),
    "words before": (THREE, None, {"before": ["A logger's own words", "", "and a date; a place"]}, {"header": 4, "first": 5}),
    "other order": (("speed", "time", "engine"), None, {}, {}),
    "old line ends": (THREE, None, {"end": "\r\n"}, {}),
    "oldest line ends": (THREE, None, {"end": "\r"}, {}),
    "a separator at each end": (THREE, None, {"separator": ";", "write": {"speed": lambda x: f"{x:.6f};"}}, {"separator": ";"}),
    "exponents": (THREE, None, {"write": {"engine": lambda x: f"{x:.7e}"}}, {}),
    "one row in thirty missing": (THREE, lambda rows: holes(rows, 30), {}, {}),
    "every third row twice": (THREE, lambda rows: twice(rows, 3), {}, {}),
    "each row twice": (THREE, lambda rows: twice(rows, 1), {}, {}),
    "uneven times": (THREE, shaken, {}, {}),
    "empty cells": (THREE, None, {"write": {"engine": lambda x: "" if x % 40 == 7 else f"{x:.0f}"}}, {}),
    "no number": (THREE, None, {"write": {"engine": lambda x: "NaN" if x % 40 == 7 else f"{x:.0f}"}}, {}),
    "a word among the figures": (THREE, None, {"write": {"engine": lambda x: "lost" if x % 40 == 7 else f"{x:.0f}"}}, {}),
    "mixed": (ALL, lambda rows: twice(holes(rows, 40), 5),
              {"separator": ";", "decimal": ",", "before": ["Fahrt"], "end": "\r\n",
               "write": {"time": clock(43_000, 3), "engine": lambda x: f"{x * pi / 30:.3f}", "speed": lambda x: f"{x * 1000 / MILE_M:.3f}"}},
              {"separator": ";", "decimal": ",", "header": 2, "first": 3, "time": column("Time", "hh:mm:ss"),
               "engine": column("Engine", "rad/s"), "speed": column("Road", "mph")}),
}  # fmt: skip


def judged(rows: list[Row], channels: Sequence[str], way: dict[str, Any], keys: dict[str, Any]) -> OwnLogResult:
    log = read_log(text(rows, channels, **way).encode(), plain_map(channels, **keys))
    return judge_log(vehicle("A"), log)


@pytest.mark.parametrize("fault", ["healthy", "slip"])
@pytest.mark.parametrize("way", WAYS)
def test_the_verdict_is_that_of_the_plain_file(way: str, fault: Fault) -> None:
    """Whatever the file's units and ways, slip and verdict are the plain file's; rows that are missing move it a little."""
    channels, change, writing, keys = WAYS[way]
    rows = slow_rows(fault)
    plain = judged(rows, channels, {}, {})
    other = judged(change(rows) if change else rows, channels, writing, keys)
    assert other.slip.outcome == plain.slip.outcome == ("slips" if fault == "slip" else "no slip seen")
    assert plain.slip.pull is not None
    assert other.slip.pull is not None
    loose = change is not None or any(word in way for word in ("empty", "number", "word"))
    assert other.slip.pull.slip_percent == pytest.approx(plain.slip.pull.slip_percent, abs=0.5 if loose else 0.01)
    assert other.slip.gear_found == 3


def test_there_are_more_than_twenty_ways() -> None:
    """Enough different files were written."""
    assert len(WAYS) >= 20


@pytest.mark.parametrize("mark", ["utf-8", "utf-8-sig", "latin-1"])
def test_an_encoding_changes_nothing(mark: str) -> None:
    """UTF-8 with and without its mark, and Latin-1 asked for by name, with a letter in the name of a column."""
    told = text(slow_rows("slip"), heads={"time": "Prüfzeit"})
    keys: dict[str, Any] = {"time": column("Prüfzeit", "s"), "encoding": "latin-1" if mark == "latin-1" else "utf-8"}
    result = judge_log(vehicle("A"), read_log(told.encode(mark), plain_map(**keys)))
    assert result.slip.outcome == "slips"


@pytest.mark.parametrize("letter", ["A", "B", "C", "D"])
@pytest.mark.parametrize("fault", FAULTS)
@pytest.mark.parametrize("channels", [THREE, ALL])
def test_slip_is_found_in_every_car_and_nothing_else_is_taken_for_it(
    channels: Sequence[str], fault: Fault, letter: str
) -> None:
    """From time and two speeds alone, or with gear and throttle, the clutch that slips is told from all other faults."""
    log = read_log(text(slow_rows(fault, letter), channels).encode(), plain_map(channels))
    assert judge_log(vehicle(letter), log).slip.outcome == ("slips" if fault == "slip" else "no slip seen")


@pytest.mark.parametrize("factor", [0.93, 1.06])
@pytest.mark.parametrize("fault", ["healthy", "slip"])
def test_a_speedometer_that_is_wrong_changes_no_verdict(fault: Fault, factor: float) -> None:
    """Road speed a few per cent off shifts the pull and the light foot alike."""
    log = read_log(text(slow_rows(fault), ALL, write={"speed": lambda x: f"{x * factor:.3f}"}).encode(), plain_map(ALL))
    result = judge_log(vehicle("A"), log)
    assert result.slip.outcome == ("slips" if fault == "slip" else "no slip seen")
    assert result.slip.gear_found is None


SHAKES: dict[Fault, str] = {
    "healthy": "smooth", "judder from friction": "one frequency", "judder from geometry": "once a turn of slip",
}  # fmt: skip


@pytest.mark.parametrize("fault", SHAKES)
@pytest.mark.parametrize("way", ["g", "m/s²", "uneven", "half the rows"])
def test_a_judder_is_told_by_its_order(way: str, fault: Fault) -> None:
    """In g or m/s², at even times, uneven ones or half as many rows; uneven times are said to be resampled."""
    rows = fast_rows(fault)
    rows = shaken(rows) if way == "uneven" else rows[::2] if way == "half the rows" else rows
    writing = {"write": {"vibration": lambda x: f"{x * STANDARD_GRAVITY:.4f}"}} if way == "m/s²" else {}
    keys: dict[str, Any] = {"vibration": column("Seat", "m/s²")} if way == "m/s²" else {}
    result = judge_log(vehicle("A"), read_log(text(rows, FOUR, **writing).encode(), plain_map(FOUR, **keys)))
    assert result.shake is not None
    assert result.shake.outcome == SHAKES[fault]
    assert result.shake.resampled is (way == "uneven")
    assert any("uneven" in line for line in result.words) is (way == "uneven")


def test_too_few_rows_a_second_give_no_order() -> None:
    """At ten rows a second the line says how many are needed."""
    result = judge_log(vehicle("A"), read_log(text(fast_rows()[::20], FOUR).encode(), plain_map(FOUR)))
    assert result.shake is not None
    assert result.shake.outcome == "not told"
    assert result.shake.decides == "10 rows a second are too few for 20 shakes a second: at least 50 are needed"


def test_a_slow_log_says_that_slip_could_hide() -> None:
    """At one row a second no verdict is given."""
    log = read_log(text(slow_rows("slip")[::10]).encode(), plain_map())
    assert judge_log(vehicle("A"), log).slip.outcome == "not told"
