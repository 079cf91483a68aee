"""The time zone of a class: a day ends where the class is, not in Greenwich."""

import time
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bitepoint.marking.rules import read_rules
from bitepoint.marking.zones import THIS_COMPUTER, checked_zone, day_in, in_zone, said, zone_of_computer


@pytest.fixture
def elsewhere(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """This computer stands in New York."""
    monkeypatch.setenv("TZ", "America/New_York")
    time.tzset()
    yield
    monkeypatch.undo()
    time.tzset()


def test_the_zone_of_the_class_wins_over_that_of_the_computer(tmp_path: Path, elsewhere: None) -> None:
    """Named in the class file it is the same moment everywhere; not named, it is this computer's and says so."""
    path = tmp_path / "class.toml"
    path.write_text('due = 2026-01-30\nzone = "Europe/Vienna"\n', "utf-8")
    named = read_rules(path)
    path.write_text("due = 2026-01-30\n", "utf-8")
    unnamed = read_rules(path)

    assert datetime(2026, 1, 30, 22, 59, 59, tzinfo=UTC) == named.due
    assert datetime(2026, 1, 31, 4, 59, 59, tzinfo=UTC) == unnamed.due
    assert f"2026-01-30 23:59 (-05:00, {THIS_COMPUTER})" == unnamed.due_said
    assert "America/New_York" == zone_of_computer()


def test_summer_and_winter_have_their_own_offsets() -> None:
    """The zone knows when clocks change; an offset written with the time stays."""
    ends = [in_zone(datetime(2026, month, 30, 23, 59), "Europe/Vienna").isoformat() for month in (1, 6)]
    assert ["2026-01-30T23:59:00+01:00", "2026-06-30T23:59:00+02:00"] == ends
    own = datetime.fromisoformat("2026-06-30T12:00+05:30")
    assert own == in_zone(own, "Europe/Vienna")
    assert "2026-06-30 12:00 (+05:30, Europe/Vienna)" == said(own, "Europe/Vienna")


def test_a_day_is_that_of_the_zone() -> None:
    """Half past eleven in the evening in Greenwich is the next day in Vienna."""
    assert date(2026, 7, 1) == day_in(datetime(2026, 6, 30, 23, 30, tzinfo=UTC), "Europe/Vienna")


def test_no_zone_is_no_error() -> None:
    """Nothing named: this computer's."""
    assert "" == checked_zone("")
