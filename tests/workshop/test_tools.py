"""The tools of the training workshop, and what a person reads when the list is wrong."""

from datetime import date
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.errors import BadData
from bitepoint.workshop import tools
from bitepoint.workshop.vehicles import vehicle, vehicles

JOB_DAY = date.fromisoformat(vehicle("A").job_date)


def usable(torque_nm: float) -> list[str]:
    """Return the wrenches that may be used for a torque on the day of the job."""
    return [wrench.id for wrench, checked in tools.wrench_verdicts(torque_nm, on=JOB_DAY) if checked.ok]


def test_wrenches_smallest_first() -> None:
    """There are three torque wrenches, which overlap."""
    assert [wrench.id for wrench in tools.workshop().torque_wrenches] == ["TW1", "TW2", "TW3"]


@pytest.mark.parametrize(("name", "in_date"), [("TW1", True), ("TW2", True), ("TW3", False)])
def test_only_tw3_is_overdue_on_the_job_date(name: str, in_date: bool) -> None:
    """On 14 April 2026 the calibration of TW3 has run out, that of the others holds."""
    wrench = tools.torque_wrench(name)

    assert in_date == wrench.check(wrench.highest_nm, on=JOB_DAY).ok


def test_the_date_is_told_before_the_range() -> None:
    """An overdue wrench is refused for its date even where the torque is outside its scale as well."""
    told = tools.torque_wrench("TW3").check(9, on=JOB_DAY).reason

    assert told == "Calibration ran out on 2025-09-20: do not use it, have it calibrated."


@pytest.mark.parametrize(
    ("torque", "names"),
    [(9, ["TW1"]), (22, ["TW1", "TW2"]), (24, ["TW1", "TW2"]), (65, ["TW2"]), (100, ["TW2"]), (110, []), (4.9, [])],
)
def test_usable_wrenches(torque: float, names: list[str]) -> None:
    """For a torque on the day of the job the right wrenches are offered, and none for more than 100 N·m."""
    assert names == usable(torque)


def test_every_clutch_torque_has_a_wrench() -> None:
    """Every torque of flywheel, cover, slave and bell housing can be set with a wrench that is in date."""
    for v in vehicles().values():
        wanted = [*v.flywheel.tightening.stages_nm, v.clutch.cover.torque_nm]
        wanted += [bolt.torque_nm for bolt in v.gearbox.bell_bolts]
        wanted += [v.release.slave_bolts.torque_nm] if v.release.slave_bolts else []
        for torque in wanted:
            assert usable(torque), (v.id, torque)


def test_wheel_bolts_above_100_need_the_overdue_wrench() -> None:
    """On vehicles B, C and D the wheel bolts cannot be tightened until TW3 is calibrated: a thing to notice."""
    without = [v.id for v in vehicles().values() if not usable(v.wheels.torque_nm)]

    assert without == ["B", "C", "D"]


@pytest.mark.parametrize(("letter", "names"), [("A", ["TW2"]), ("B", ["TW4"]), ("C", ["TW4"]), ("D", ["TW4"])])
def test_every_car_gets_its_wheels_tight_with_a_wrench_in_date(letter: str, names: list[str]) -> None:
    """Where none of the workshop's own may be used, the one lent by the workshop next door reaches the wheel bolts."""
    found = tools.wrenches_for(vehicles()[letter].wheels.torque_nm, on=JOB_DAY)

    assert names == [wrench.id for wrench in found]


def test_lift_is_in_date_and_carries_every_car() -> None:
    """The lift was examined on 2 February 2026, six months hold, and no training vehicle is too heavy."""
    lift = tools.workshop().lift

    assert date(2026, 8, 2) == lift.due
    assert lift.examined <= JOB_DAY <= lift.due
    assert all(v.masses.vehicle_kg <= lift.rated_kg for v in vehicles().values())


def test_end_of_month_falls_early() -> None:
    """Six months after 31 August is taken as 28 February, the safe side."""
    lift = tools.Lift(
        kind="two-post lift", rated_kg=3000, examined=date(2025, 8, 31), interval_months=6, holds=True, use="lift"
    )

    assert date(2026, 2, 28) == lift.due


def test_nothing_may_be_left_on_a_trolley_jack() -> None:
    """A trolley jack holds nothing while somebody works; the gearbox jack and the engine beam are made to hold."""
    holds = {support.id: support.holds for support in tools.workshop().supports}

    assert not holds["trolley jack"]
    assert holds["gearbox jack"]
    assert holds["engine beam"]


def test_dial_gauge_reads_hundredths() -> None:
    """The dial gauge has steps of 0.01 mm."""
    steps = {gauge.id: gauge.step_mm for gauge in tools.workshop().gauges}

    assert steps["dial gauge"] == 0.01


def test_a_tool_that_is_none() -> None:
    """Asking for a wrench that does not exist lists those that do."""
    with pytest.raises(BadData) as caught:
        tools.torque_wrench("TW5")

    assert str(caught.value) == "There is no tool 'TW5' here. Choose one of TW1, TW2, TW3, TW4."


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("lowest_nm = 5", "lowest_nm = 50", r"TW1 lowest_nm: must be less than highest_nm"),
        ("due = 2027-01-12", "due = 2026-01-12", r"TW1 due: must be after calibrated"),
        ("due = 2027-01-12", 'due = "soon"', r"Expected `date`, got `str` - at `\$\.torque_wrenches\[0\]\.due`"),
        ('id = "TW2"', 'id = "TW1"', r"id: 'TW1' stands twice"),
        ("highest_nm = 25", "highest_nm = 125", r"torque_wrenches: must stand from the smallest"),
        ("step_mm = 0.01", "step_mm = 20", r"dial gauge step_mm: must fit into the range"),
        ("step_mm = 0.01", "steps_mm = 0.01", r"unknown field `steps_mm`"),
        ("tolerance_pct = 4", 'tolerance_pct = "4"', r"Expected `float`, got `str`"),
        ('iso_class = "A"', 'iso_class = "Z"', r"Invalid enum value 'Z'"),
        ("rated_kg = 3000", "rated_kg = = 3000", r"is no valid TOML"),
    ],
)
def test_a_bad_list_names_file_key_and_rule(tmp_path: Path, old: str, new: str, message: str) -> None:
    """A list of tools that breaks a rule says in one line which file, which key, which rule."""
    text = (places.assets() / "workshop.toml").read_text(encoding="utf-8")
    assert old in text
    path = tmp_path / "workshop.toml"
    path.write_text(text.replace(old, new, 1), encoding="utf-8")

    with pytest.raises(BadData, match=message) as caught:
        tools.read_workshop(path)

    assert str(caught.value).startswith("workshop.toml: ")
    assert "\n" not in str(caught.value)
