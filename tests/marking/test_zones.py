"""The time zone of a class: a day ends where the class is, not in Greenwich."""

import time
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from bitepoint.errors import BadInput
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


@pytest.mark.parametrize(
    ("due", "utc", "shown"),
    [
        ("2026-10-25T02:30:00", "2026-10-25T01:30:00", "2026-10-25 02:30 (+01:00"),
        ("2026-03-29T02:30:00", "2026-03-29T01:30:00", "2026-03-29 03:30 (+02:00"),
        ("2026-10-25T02:30:00+02:00", "2026-10-25T00:30:00", "2026-10-25 02:30 (+02:00"),
        ("2026-10-25", "2026-10-25T22:59:59", "2026-10-25 23:59 (+01:00"),
        ("2026-03-29", "2026-03-29T21:59:59", "2026-03-29 23:59 (+02:00"),
    ],
)
@pytest.mark.parametrize("zone", ['zone = "Europe/Vienna"', ""], ids=["named", "of the computer"])
def test_of_an_hour_that_is_there_twice_or_never_the_later_reading_counts(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, due: str, utc: str, shown: str, zone: str
) -> None:
    """Nobody is late by a clock that was put back or on, and what is printed is a time that a clock shows."""
    with monkeypatch.context() as patched:
        patched.setenv("TZ", "Europe/Vienna")
        time.tzset()
        path = tmp_path / "class.toml"
        path.write_text(f"due = {due}\n{zone}\n", "utf-8")
        rules = read_rules(path)
    time.tzset()

    # Compared as text: in an hour that is there twice Python calls no two zones equal.
    assert rules.due
    assert f"{utc}+00:00" == rules.due.astimezone(UTC).isoformat()
    assert rules.due_said.startswith(shown)


@pytest.mark.parametrize("day", ["0001-01-01", "1970-01-01T00:00:00Z", "9999-12-31", "9999-12-31T23:59:59-10:00"])
def test_a_due_day_of_no_class_is_one_line(tmp_path: Path, day: str) -> None:
    """A day that no calendar of a class has, and that no zone can hold, is refused."""
    (tmp_path / "class.toml").write_text(f"due = {day}\n", "utf-8")
    with pytest.raises(BadInput, match="class.toml: due must be a date such as 2026-06-30, but it is"):
        read_rules(tmp_path / "class.toml")


@pytest.mark.parametrize("left", [b"", b"# a class\n", b"\xef\xbb\xbf\r\n"])
def test_an_empty_class_file_is_no_class(tmp_path: Path, left: bytes) -> None:
    """What a power cut may leave of a class file is told; it does not mark by the ordinary rules in silence."""
    (tmp_path / "class.toml").write_bytes(left)
    with pytest.raises(BadInput, match=r"class\.toml: says nothing\. Put the class file back from a copy"):
        read_rules(tmp_path / "class.toml")


def test_the_day_of_any_time_is_told() -> None:
    """The first and the last moment that can be written have a day in every zone."""
    for at in (datetime.min, datetime.max):
        for zone in ("America/New_York", "Asia/Tokyo", ""):
            assert at.date() == day_in(at.replace(tzinfo=UTC), zone)


def test_a_day_is_that_of_the_zone() -> None:
    """Half past eleven in the evening in Greenwich is the next day in Vienna."""
    assert date(2026, 7, 1) == day_in(datetime(2026, 6, 30, 23, 30, tzinfo=UTC), "Europe/Vienna")


def test_no_zone_is_no_error() -> None:
    """Nothing named: this computer's."""
    assert "" == checked_zone("")
