"""The calendar file: valid by RFC 5545, one event with an alarm, and nobody's name."""

from datetime import UTC, date, datetime, timedelta

import pytest
from icalendar import Calendar

from bitepoint.recall.calendar_file import SUMMARY, calendar_file

DAY, MADE = date(2026, 12, 3), datetime(2026, 11, 29, 17, 5, tzinfo=UTC)
FILE = calendar_file(DAY, whose="oak/l07-k", made=MADE)


def test_one_event_of_ten_minutes_after_work_with_an_alarm() -> None:
    """On the phone's own clock: a time without a zone (RFC 5545, 3.3.5, form 1)."""
    calendar = Calendar.from_ical(FILE)
    [event] = calendar.walk("VEVENT")
    assert event["summary"] == SUMMARY
    assert event["dtstart"].dt == datetime(2026, 12, 3, 17, 30)
    assert event["duration"].dt == timedelta(minutes=10)
    [alarm] = event.walk("VALARM")
    assert (alarm["action"], alarm["description"]) == ("DISPLAY", SUMMARY)
    assert alarm["trigger"].dt == timedelta(minutes=-5)


def test_what_the_standard_requires_is_there() -> None:
    """PRODID and VERSION (3.6), UID and DTSTAMP in UTC (3.6.1), lines ending in CR LF and of 75 octets at most (3.1)."""
    text = FILE.decode("ascii")
    for line in ("BEGIN:VCALENDAR", "VERSION:2.0", "DTSTAMP:20261129T170500Z", "END:VCALENDAR"):
        assert f"{line}\r\n" in text
    assert "PRODID:" in text
    assert text.count("\n") == text.count("\r\n")
    assert max(len(line) for line in FILE.split(b"\r\n")) <= 75


@pytest.mark.parametrize("days", [9, -9])
def test_the_next_date_moves_the_same_event(days: int) -> None:
    """One learner's UID stays, and a later file has the higher sequence number (RFC 5545, 3.8.7.4), be its date later or sooner."""

    def event(day: date, whose: str, made: datetime = MADE) -> tuple[str, int]:
        [found] = Calendar.from_ical(calendar_file(day, whose=whose, made=made)).walk("VEVENT")
        return str(found["uid"]), int(found["sequence"])

    one, other = event(DAY, "oak/l07-k"), event(DAY, "oak/l08-j")
    next_one = event(DAY + timedelta(days=days), "oak/l07-k", MADE + timedelta(days=1))
    assert one[0] == next_one[0] != other[0]
    assert one[1] < next_one[1] < 2**31
    assert b"l07" not in FILE.lower()
    assert b"oak" not in FILE


def test_the_same_round_gives_the_same_bytes() -> None:
    """Nothing of it hangs on when it is made."""
    assert FILE == calendar_file(DAY, whose="oak/l07-k", made=MADE)
