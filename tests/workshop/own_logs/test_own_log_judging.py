"""The verdict on a log of one's own: what it rests on, what it says of its uncertainty, and how a record keeps it."""

from hashlib import sha256
from math import hypot
from typing import Any

import pytest
from drive_files import Row, drive, fast_rows, plain_map, slow_rows, text
from msgspec.structs import replace

from bitepoint.errors import BadInput
from bitepoint.missing import Missing
from bitepoint.workshop.own_log import OwnLog, OwnLogResult, judge_log, read_log, result_from, result_json
from bitepoint.workshop.roadtest_verdict import stretches
from bitepoint.workshop.simulator import Fault
from bitepoint.workshop.vehicles import vehicle

ALL = ("time", "engine", "speed", "gear", "throttle")
FOUR = ("time", "engine", "speed", "vibration")


def log_of(rows: list[Row], channels: tuple[str, ...] = ALL, **keys: Any) -> OwnLog:
    return read_log(text(rows, channels).encode(), plain_map(channels, **keys))


@pytest.mark.parametrize("letter", ["A", "B", "C", "D"])
@pytest.mark.parametrize("fault", ["healthy", "slip"])
def test_it_agrees_with_the_verdict_of_the_training_logs(fault: Fault, letter: str) -> None:
    """The slip of the pull is that which the course finds in the same drive, to a tenth of a per cent."""
    gear = vehicle(letter).gearbox.slip_test_gear
    course = next(s for s in stretches(drive(fault, letter)) if s.full_load and s.gear == gear)
    pull = judge_log(vehicle(letter), log_of(slow_rows(fault, letter))).slip.pull
    assert pull is not None
    assert pull.slip_percent == pytest.approx(course.slip_percent, abs=0.1)
    assert pull.uncertainty_percent >= course.uncertainty_percent - 0.05


def test_the_causes_make_up_the_uncertainty() -> None:
    """What a stretch is worth is the root of the squares of its causes, and the largest one is named."""
    result = judge_log(vehicle("A"), log_of(slow_rows("slip"), engine_u_percent=0.5, speed_u_percent=4.0))
    pull = result.slip.pull
    assert pull is not None
    causes = dict(pull.causes)
    assert hypot(*causes.values()) == pytest.approx(pull.uncertainty_percent)
    assert causes["road speed"] == pytest.approx(4.0 * (100 - pull.slip_percent) / 100)
    assert result.slip.decides.endswith("most of the uncertainty: tyre")


def test_a_stated_instrument_weighs_on_one_stretch_and_not_on_the_rise() -> None:
    """A speedometer that is off is off in both stretches."""
    plain, stated = (
        judge_log(vehicle("A"), log_of(slow_rows("slip"), **keys)) for keys in ({}, {"speed_u_percent": 5.0})
    )
    assert stated.slip.rise_uncertainty_percent == plain.slip.rise_uncertainty_percent
    assert stated.slip.pull is not None
    assert plain.slip.pull is not None
    assert stated.slip.pull.uncertainty_percent > plain.slip.pull.uncertainty_percent
    assert any("not stated" in line for line in plain.words)


@pytest.mark.parametrize("letter", ["A", "B", "C", "D"])
@pytest.mark.parametrize("delay", [None, 0.5])
def test_a_road_speed_that_comes_late_is_not_called_slip(delay: float | None, letter: str) -> None:
    """Half a second late looks like some slip: the map is asked for the delay, or holds it; the words say what a tenth makes."""
    rows = slow_rows("healthy", letter)
    late = [row | {"speed": before["speed"]} for before, row in zip(rows, rows[5:], strict=False)]
    result = judge_log(vehicle(letter), log_of(late, speed_delay_s=delay))
    assert result.slip.outcome == ("no slip seen" if delay else "not told")
    assert ("state speed_delay_s in the map" in result.slip.decides) is (delay is None)
    assert any("Each 0.1 s by which the road speed is read late looks like" in line for line in result.words)


def test_another_gear_is_not_taken_for_slip() -> None:
    """Judged in the gear above, a sound clutch shows no slip: the log holds no such pull, or lies too far off."""
    sound = log_of(slow_rows(), ("time", "engine", "speed"))
    assert judge_log(vehicle("A"), sound, gear=4).slip.outcome == "not told"
    fixed = log_of(slow_rows(), ("time", "engine", "speed"), fixed_gear=4)
    assert judge_log(vehicle("A"), fixed).slip.outcome == "not told"


def test_without_a_light_foot_slip_is_not_told() -> None:
    """Full throttle alone: a wrong tyre would look the same."""
    rows = [row for row in slow_rows("slip") if row["throttle"] > 90 or row["throttle"] == 0]
    result = judge_log(vehicle("A"), log_of(rows))
    assert result.slip.outcome == "not told"
    assert "no stretch with a light foot" in result.slip.decides


def test_a_part_of_the_log_can_be_named() -> None:
    """Between two times without a pull nothing is told."""
    log = log_of(slow_rows("slip"))
    assert judge_log(vehicle("A"), log, part=(0, 20)).slip.outcome == "not told"
    assert judge_log(vehicle("A"), log, part=(20, 60)).slip.outcome == "slips"


@pytest.mark.parametrize(
    "keys", [{"gear": 6}, {"gear": -1}, {"gear": 2.5}, {"gear": True}, {"part": (9, 3)}, {"part": (900, 999)}]
)
def test_what_cannot_be_is_refused_in_one_line(keys: dict[str, Any]) -> None:
    """A gear the car has not, a part outside the log."""
    with pytest.raises(BadInput, match=r"gear must be one|part must be two"):
        judge_log(vehicle("A"), log_of(slow_rows()), **keys)


def test_a_figure_that_the_sheet_lacks_is_named() -> None:
    """An own sheet without a final drive ratio: look it up."""
    v = vehicle("A")
    lacks = replace(v, gearbox=replace(v.gearbox, final=Missing("K7V", "gearbox.final")))
    with pytest.raises(BadInput, match=r"log: The sheet of K7V has no gearbox\.final\. Look it up"):
        judge_log(lacks, log_of(slow_rows()))


@pytest.mark.parametrize("rows", [slow_rows("slip"), fast_rows("judder from geometry")], ids=["slip", "shake"])
def test_a_record_keeps_the_whole_result(rows: list[Row]) -> None:
    """Written as JSON and read again it is the same, with the map that was used and the digest of the file."""
    channels = FOUR if "vibration" in rows[0] else ALL
    content = text(rows, channels).encode()
    result = judge_log(vehicle("A"), read_log(content, plain_map(channels)))
    kept = result_from(result_json(result))
    assert kept == result
    assert isinstance(kept, OwnLogResult)
    assert kept.digest == sha256(content).hexdigest()
    assert kept.map == plain_map(channels)
    assert len(result_json(result)) < 16_000
    with pytest.raises(BadInput, match="Judge the log again"):
        result_from("{}")


def test_the_words_never_call_anybody_competent_and_end_with_the_caution() -> None:
    """What is printed leaves the decision to whoever answers for the work."""
    words = judge_log(vehicle("A"), log_of(slow_rows())).words
    assert "repair data and local rules come first" in words[-1]
    assert "competent" not in " ".join(words)
