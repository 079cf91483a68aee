"""A column map is proposed from the head of a file, each guess with its reason; where two fit, none is taken."""

from collections.abc import Sequence

import pytest
from drive_files import slow_rows, text

from bitepoint.errors import BadInput
from bitepoint.workshop.own_log import judge_log, map_from, propose_map, read_log
from bitepoint.workshop.vehicles import vehicle

ALL = ("time", "engine", "speed", "gear", "throttle")
HEADS: dict[str, tuple[dict[str, str], Sequence[str]]] = {
    "units in brackets": (
        {"time": "Time (s)", "engine": "Engine speed (rpm)", "speed": "Vehicle speed (km/h)", "gear": "Gear", "throttle": "Throttle (%)"}, (),
    ),
    "square brackets": (
        {"time": "t [s]", "engine": "n [1/min]", "speed": "v [km/h]", "gear": "gear", "throttle": "pedal position [%]"}, (),
    ),
    "German": (
        {"time": "Zeit [s]", "engine": "Motordrehzahl [U/min]", "speed": "Geschwindigkeit [km/h]", "gear": "Gang", "throttle": "Gaspedal [%]"},
        (),
    ),
    "after a low line": ({"time": "time_s", "engine": "engine_rpm", "speed": "road_speed_kmh", "gear": "gear", "throttle": "throttle_%"}, ()),
    "words": (
        {"time": "Elapsed in seconds", "engine": "RPM", "speed": "Wheel speed in km/h", "gear": "GEAR", "throttle": "Throttle in percent"}, (),
    ),
}  # fmt: skip


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("case", HEADS)
def test_a_clear_head_gives_the_whole_map(case: str, separator: str) -> None:
    """Every channel is guessed, nothing is asked, and the map, once confirmed, reads the file; before, it is refused."""
    heads, before = HEADS[case]
    decimal = "." if separator == "," else ","
    content = text(slow_rows("slip"), ALL, heads=heads, before=before, separator=separator, decimal=decimal).encode()
    proposal = propose_map(content)
    assert proposal.questions == ()
    assert {g.channel for g in proposal.guesses} == set(ALL)
    with pytest.raises(BadInput, match="confirmed is false"):
        read_log(content, map_from(proposal.text.encode()))
    confirmed = map_from(proposal.text.replace("confirmed = false", "confirmed = true").encode())
    assert judge_log(vehicle("A"), read_log(content, confirmed)).slip.outcome == "slips"


def test_units_in_a_line_of_their_own_are_read() -> None:
    """Below the names a line of units; above them words of the logger."""
    lines = text(slow_rows(), separator=";", before=["Logger 3; test", ""], heads={"speed": "Speed"}).split("\n")
    lines.insert(3, "ms;rad/s;mph")
    proposal = propose_map("\n".join(lines).encode())
    assert [(g.column, g.unit) for g in proposal.guesses] == [("Time", "ms"), ("Engine", "rad/s"), ("Speed", "mph")]
    assert "header = 3 " in proposal.text
    assert "first = 5 " in proposal.text


def test_where_two_fit_none_is_taken() -> None:
    """Two speeds: the question names both, the map is left empty there, and reads nothing until somebody decides."""
    heads = {
        "time": "Time (s)",
        "engine": "Engine speed (rpm)",
        "speed": "GPS speed (mph)",
        "throttle": "Wheel speed (km/h)",
    }
    content = text(slow_rows(), ("time", "engine", "speed", "throttle"), heads=heads).encode()
    proposal = propose_map(content)
    assert (
        "Which column is road speed: 'GPS speed (mph)' or 'Wheel speed (km/h)'? Nothing was taken."
        in proposal.questions
    )
    assert {g.channel for g in proposal.guesses} == {"time", "engine"}
    assert "# ? Which column is road speed" in proposal.text
    with pytest.raises(BadInput, match=r"speed\.unit must be"):
        map_from(proposal.text.encode())


def test_a_unit_that_is_not_said_is_asked() -> None:
    """A name without a unit leaves the unit empty and asks."""
    proposal = propose_map(text(slow_rows(), heads={"time": "time", "engine": "RPM", "speed": "Speed"}).encode())
    assert proposal.questions == (
        "In which unit is time (column 'time')?", "In which unit is road speed (column 'Speed')?",
    )  # fmt: skip


def test_what_is_guessed_is_told_with_its_reason() -> None:
    """A person reads what each column was taken for, and why."""
    told = propose_map(text(slow_rows(), heads=HEADS["units in brackets"][0]).encode()).told()
    assert told[0] == "time: column 'Time (s)' in s, by the name over it and the unit s"


@pytest.mark.parametrize("heads", [{"engine": "Coolant"}, {"engine": "Engine load"}, {"speed": "Input speed"}])
def test_another_heading_is_taken_for_nothing(heads: dict[str, str]) -> None:
    """What only sounds alike is left to the person."""
    taken = [
        g
        for g in propose_map(text(slow_rows(), heads={"time": "time"} | heads).encode()).guesses
        if g.column in heads.values()
    ]
    assert taken == []


def test_a_file_without_names_asks_for_the_numbers() -> None:
    """No line of names: nothing is guessed."""
    proposal = propose_map(text(slow_rows(), head=False).encode())
    assert proposal.guesses == ()
    assert proposal.questions == ("No line of names was found: give the number of each column.",)
    assert "header = 0 " in proposal.text


def test_latin_1_is_a_question() -> None:
    """Letters that are no UTF-8 are shown as Latin-1, and asked about."""
    proposal = propose_map(text(slow_rows(), heads={"time": "Prüfzeit"}).encode("latin-1"))
    assert 'encoding = "latin-1" ' in proposal.text
    assert proposal.questions[0].startswith("The file is no UTF-8.")


def test_points_and_commas_together_are_a_question() -> None:
    """Thousands with a point and a decimal comma are not sorted out by the program."""
    told = text(slow_rows(), separator=";", write={"engine": lambda x: f"{x:.1f}".replace(".", ",")})
    assert any("which one is the decimal sign?" in q for q in propose_map(told.encode()).questions)


@pytest.mark.parametrize("content", [b"", b"\n\n", b"a letter to a friend\nand another line\n" * 9, b"a,b\nc,d\ne,f\n"])
def test_no_table_is_refused_in_one_line(content: bytes) -> None:
    """What holds no columns of figures gets one line."""
    with pytest.raises(BadInput, match=r"Save it as CSV|by hand"):
        propose_map(content)
