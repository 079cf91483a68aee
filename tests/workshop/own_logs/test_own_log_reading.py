"""What a log's reader leaves out is said; what it cannot read is refused in one line."""

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from time import process_time
from typing import Any

import pytest
from drive_files import plain_map, slow_rows, text
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import BadInput, BitepointError
from bitepoint.workshop.own_log import MappedColumn, judge_log, map_from, map_template, propose_map, read_log, read_map
from bitepoint.workshop.own_logs import reading, table
from bitepoint.workshop.vehicles import vehicle

PLAIN = text(slow_rows())


def changed(line: int, to: str, *, count: int = 1) -> bytes:
    """Return the plain file with lines replaced, counted from 1."""
    lines = PLAIN.split("\n")
    lines[line - 1 : line - 1 + count] = [to] * count
    return "\n".join(lines).encode()


def refused(act: Callable[[], object]) -> str:
    with pytest.raises(BadInput) as caught:
        act()
    told = str(caught.value)
    assert "\n" not in told
    return told


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("50.0,,30", "1 row left out with an empty cell (line 100)"),
        ("50.0,NaN,30", "1 row left out with an empty cell (line 100)"),
        ("50.0,much,30", "1 row left out with text where a number belongs (line 100)"),
        ("50.0,1.200.5,30", "1 row left out with text where a number belongs (line 100)"),
        ("50.0,99999,30", "1 row left out with a figure no car shows (line 100)"),
        ("50.0,900", "1 row left out with another number of fields (line 100)"),
        ("50.0,900,30,7", "1 row left out with another number of fields (line 100)"),
        ("0.5,900,30", "1 row left out whose time goes back (line 100)"),
        (PLAIN.split("\n")[98], "1 row left out whose time stands in the row before (line 100)"),
    ],
)
def test_a_row_that_is_left_out_is_said(line: str, said: str) -> None:
    """One row that cannot be used is left out, with its reason and its line in the file."""
    log = read_log(changed(100, line), plain_map())
    if line.startswith("50.0"):
        assert said in log.said
    else:
        assert log.said == (said,)
    assert len(log) == log.rows - 1


def test_many_rows_left_out_name_the_first_three() -> None:
    """Of several rows the first three lines stand in the sentence."""
    log = read_log(changed(100, "50,,30", count=9), plain_map())
    assert log.said[0] == "9 rows left out with an empty cell (line 100, 101, 102 and others)"


def test_gaps_are_said_and_no_stretch_goes_over_one() -> None:
    """A gap in the pull is said with its length, and the pull ends or begins at it."""
    rows = [row for row in slow_rows("slip") if not 36 < row["time"] < 37]
    log = read_log(text(rows).encode(), plain_map())
    assert log.said[0] == "1 gap, the longest 1 s at 36 s"
    pull = judge_log(vehicle("A"), log).slip.pull
    assert pull is None or pull.end_s <= 36 or pull.start_s >= 37


REFUSED = {
    "nothing": (b"", {}, "log: line 1: no column 'Time' for time; it has nothing. Correct the map."),
    "only names": (b"Time,Engine,Road\n", {}, "log: has no row of figures. Check header and first in the column map."),
    "too short": (PLAIN[:300].encode(), {}, "log: has 10 rows that can be used, at least 20 are needed. Record longer."),
    "another name": (
        PLAIN.replace("Engine", "Motor", 1).encode(), {},
        "log: line 1: no column 'Engine' for engine speed; it has Time, Motor, Road. Correct the map.",
    ),
    "a name twice": (
        PLAIN.replace("Road", "Engine", 1).encode(), {},
        "log: line 1: 'Engine' stands over columns 2, 3. Give the number of the column for engine speed in the map.",
    ),
    "a column too far": (
        PLAIN.encode(), {"speed": MappedColumn(7, "km/h")},
        "log: column 7 for road speed, but line 1 has 3 fields. Check separator and column in the map.",
    ),
    "commas taken for points": (
        text(slow_rows(), separator=";", decimal=",").encode(), {"separator": ";"},
        "log: line 2: column 1 (time): '0,000000' is no number as the map writes them; the same in 601 of 601 rows. "
        "Check decimal sign, separator and column in the map.",
    ),
    "points taken for commas": (
        text(slow_rows(), separator=";").encode(), {"separator": ";", "decimal": ","},
        "log: line 2: column 1 (time): '0.000000' is no number as the map writes them; the same in 601 of 601 rows. "
        "Check decimal sign, separator and column in the map.",
    ),
    "commas within and between": (
        text(slow_rows(), decimal=",").encode(), {},
        "log: line 2: has 6 fields, but 3 are needed; the same in 601 of 601 rows. Check the separator in the map.",
    ),
    "a wrong unit": (
        PLAIN.encode(), {"engine": MappedColumn("Engine", "1/s")},
        "log: line 2: column 2 (engine speed): '850.000000' is beyond what a car shows (0 to 12000), unit as mapped; the same in "
        "601 of 601 rows. Check the unit in the map.",
    ),
    "whole seconds": (
        text(slow_rows(), write={"time": lambda x: f"{int(x)}"}).encode(), {},
        "log: line 3: column 1: the time is not later than in the row before; the same in 540 of 601 rows. "
        "Export the time with fractions of a second.",
    ),
    "two drives": (
        (PLAIN + PLAIN.split("\n", 1)[1]).encode(), {},
        "log: line 603: column 1: the time is not later than in the row before; the same in 600 of 1202 rows. "
        "Cut the file where a second drive begins.",
    ),
    "backwards": (
        text(slow_rows()[::-1]).encode(), {},
        "log: line 3: column 1: the time is not later than in the row before; the same in 600 of 601 rows. "
        "Cut the file where a second drive begins.",
    ),
    "taken in turns": (
        text(slow_rows(), write={"engine": lambda x: "" if x % 2 else f"{x:.0f}"}).encode(), {},
        "Export all columns on one time base.",
    ),
    "Latin-1": (
        ("Prüfung\n" + PLAIN).encode("latin-1"), {"header": 2, "first": 3},
        'log: after line 1: is no text in UTF-8. Save it as UTF-8, or write encoding = "latin-1" in the column map.',
    ),
    "UTF-16": (PLAIN.encode("utf-16"), {}, "log: is UTF-16, not a plain table. Save it as CSV in UTF-8."),
    "a workbook": (b"PK\x03\x04....", {}, "log: is a workbook or zip file, not a plain table. Save it as CSV in UTF-8."),
    "a quotation mark": (changed(100, '"50,1,' + "x" * 140_000), {}, "Look for a quotation mark without its pair."),
    "a very wide line": (changed(100, "," * 5000), {}, "log: line 100: has 5001 fields. Check the separator."),
    "not confirmed": (
        PLAIN.encode(), {"confirmed": False},
        "Column map: confirmed is false: the map was guessed. Compare each line with the file, then write true.",
    ),
    "a unit of another kind": (
        PLAIN.encode(), {"speed": MappedColumn("Road", "rpm")},
        "Column map: speed.unit must be km/h, mph, m/s, but is 'rpm'. Look at the logger's own list.",
    ),
    "a name without names": (
        PLAIN.encode(), {"header": 0},
        "Column map: time.column is 'Time', but header = 0 says that no line holds names. Give the column's number, from 1.",
    ),
    "one column twice": (
        PLAIN.encode(), {"speed": MappedColumn("Engine", "km/h")},
        "Column map: column stands twice. Give each channel a column of its own.",
    ),
    "comma and comma": (
        PLAIN.encode(), {"decimal": ","}, "Column map: decimal is the sign that separates the fields. Save the log with semicolons.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_what_cannot_be_read_is_refused_in_one_line(case: str) -> None:
    """The line says what, where and what to do."""
    content, keys, said = REFUSED[case]
    told = refused(lambda: read_log(content, plain_map(**keys)))
    assert told == said or (not said.startswith(("log:", "Column")) and told.endswith(said)), told


def test_a_file_is_named_and_one_that_is_none_is_refused(tmp_path: Path) -> None:
    """Errors name the file; a folder, a missing file and a name that cannot be are no log."""
    path = tmp_path / "Übung 1.csv"
    path.write_text(PLAIN, encoding="utf-8")
    assert read_log(path, plain_map()).name == "Übung 1.csv"
    for other in (tmp_path, tmp_path / "no.csv", "a\0b"):
        assert "Check where the log lies." in refused(lambda other=other: read_log(other, plain_map()))  # type: ignore[misc]


def test_a_log_that_is_too_large_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Both ends are limits: bytes and rows."""
    monkeypatch.setattr(reading, "MOST_ROWS", 100)
    assert refused(lambda: read_log(PLAIN.encode(), plain_map())).startswith("log: has more than 100 rows.")
    monkeypatch.setattr(table, "MOST_BYTES", 1000)
    assert "is larger than" in refused(lambda: read_log(PLAIN.encode(), plain_map()))


@pytest.mark.parametrize(("factor", "said"), [(0.1, "never reaches"), (2.9, "is beyond")])
def test_an_engine_speed_in_another_unit_is_refused(factor: float, said: str) -> None:
    """Radians a second read as rpm never reach the idle of the sheet; the other way they pass its limiter."""
    log = read_log(text(slow_rows(), write={"engine": lambda x: f"{x * factor:.2f}"}).encode(), plain_map())
    told = refused(lambda: judge_log(vehicle("A"), log))
    assert said in told
    assert told.endswith("Check the unit of the engine speed in the map.")


def test_gears_are_whole_numbers_or_letters() -> None:
    """N is neutral and R is reverse; half a gear is none."""
    rows = slow_rows()
    channels = ("time", "engine", "speed", "gear")
    told = text(rows, channels, write={"gear": lambda x: "N" if x == 0 else f"{x:.0f}"})
    assert set(read_log(told.encode(), plain_map(channels)).gear) == {0, 1, 2, 3}
    half = text(rows, channels, write={"gear": lambda x: "1.5"})
    assert "'1.5' is no number" in refused(lambda: read_log(half.encode(), plain_map(channels)))


def test_a_map_is_read_from_its_file(tmp_path: Path) -> None:
    """The template, filled in, is a map; as it comes it is refused in one line."""
    template = map_template()
    filled = template.replace("confirmed = false", "confirmed = true").replace('separator = ";"', 'separator = ","')
    for channel, unit in (("Time", "s"), ("Engine", "rpm"), ("Road", "km/h")):
        filled = filled.replace('column = ""', f'column = "{channel}"', 1).replace('unit = ""', f'unit = "{unit}"', 1)
    path = tmp_path / "map.toml"
    path.write_text(filled, encoding="utf-8")
    assert read_map(path) == plain_map()
    assert "time.unit" in refused(lambda: map_from(template.encode()))


BAD_MAPS = {
    "no TOML": (b"confirmed = ", "is no valid TOML"),
    "no text": (b"\xff\xfe", "is no valid TOML"),
    "another key": (b"colour = 1\n" + map_template().encode(), "colour"),
    "a channel missing": (b"confirmed = true\n", "time"),
    "too long": (b"# " * 20_000, "too much for a column map"),
    "a negative number": (map_template().replace('column = ""', "column = -1", 1).encode(), "column"),
    "two gears": (b"fixed_gear = 99\n" + map_template().encode(), "fixed_gear"),
}


@pytest.mark.parametrize("case", BAD_MAPS)
def test_a_map_that_is_wrong_is_refused_in_one_line(case: str) -> None:
    """The line names the key, or says what the file is."""
    content, said = BAD_MAPS[case]
    assert said in refused(lambda: map_from(content))


def worked_or_refused(act: Callable[[], object]) -> None:
    """Nothing but the project's own error, of one line, comes."""
    told = ""
    try:
        act()
    except BadInput as error:
        told = str(error)
    assert "\n" not in told


def whole(content: bytes, keys: dict[str, Any]) -> None:
    worked_or_refused(lambda: judge_log(vehicle("B"), read_log(content, plain_map(**keys))))


@settings(deadline=None, max_examples=150)
@given(st.binary(max_size=400), st.sampled_from([";", ",", "tab"]), st.sampled_from(["utf-8", "latin-1"]))
def test_any_bytes_are_read_or_refused(noise: bytes, separator: str, encoding: str) -> None:
    """Nothing but the project's own error comes, whatever the file is: alone, or in the midst of a good one."""
    numbers = {"time": MappedColumn(1, "s"), "engine": MappedColumn(2, "rpm"), "speed": MappedColumn(3, "km/h")}
    whole(noise, numbers | {"separator": separator, "encoding": encoding, "header": 0, "first": 1})
    middle = len(PLAIN) // 2
    whole(PLAIN[:middle].encode() + noise + PLAIN[middle:].encode(), {"encoding": encoding})
    worked_or_refused(lambda: propose_map(noise))
    worked_or_refused(lambda: propose_map(PLAIN[:2000].encode() + noise))


FIGURES = st.one_of(st.floats(-1e4, 1e4), st.sampled_from([0, 1, 299.9, 300, 12_000, 350, 1e-300]))


@settings(deadline=None, max_examples=80)
@given(st.lists(st.tuples(FIGURES, FIGURES, FIGURES, FIGURES), min_size=20, max_size=120), st.booleans())
def test_any_figures_are_judged_or_refused(rows: list[tuple[float, ...]], sort: bool) -> None:
    """Nothing but the project's own error comes, whatever the figures are."""
    channels = ("time", "engine", "speed", "vibration")
    named = [dict(zip(channels, row, strict=True)) for row in (sorted(rows) if sort else rows)]
    log_text = text(named, channels, write=dict.fromkeys(channels, repr))
    worked_or_refused(lambda: judge_log(vehicle("C"), read_log(log_text.encode(), plain_map(channels))))


@settings(deadline=None, max_examples=100)
@given(st.binary(max_size=300))
def test_any_bytes_are_a_map_or_refused(noise: bytes) -> None:
    """Nothing but the project's own error comes from a map."""
    with pytest.raises(BadInput):
        map_from(noise)


@pytest.mark.parametrize("heading", [" " * 20_000 + "x", "[" * 20_000, "Speed (" + " " * 20_000, "t " * 20_000])
def test_a_heading_of_spaces_or_brackets_is_read_at_once(heading: str) -> None:
    """A cell that a disk or a program filled up is no heading, and a map is proposed without it; it was minutes once."""
    log = PLAIN.replace("\n", f",{heading}\n", 1).encode()
    began = process_time()
    with suppress(BitepointError):
        propose_map(log, name="log")
    assert process_time() - began < 2
