"""A calendar file (RFC 5545) with one event: when to come back to the course. No name is in it."""

from datetime import date, datetime, time, timedelta
from hashlib import blake2b
from uuid import UUID

NAME = "keep-it.ics"
SUMMARY = "Ten minutes: clutch course"
_WHAT = "Open the course with: bitepoint open --keep"
_STARTS = time(17, 30)
"""After work, on the phone's own clock. Whoever wants another time moves the event."""
_LASTS = timedelta(minutes=10)


def calendar_file(day: date, *, whose: str, made: datetime) -> bytes:
    """Return the file for one day; `whose` tells learners apart and stands in it as a digest alone.

    The event keeps its UID, so that the next date moves it where a calendar takes changes; `made` [UTC] is its stamp, and
    its sequence number grows with that stamp: the next date may also be a sooner one.
    """
    # Loaded once a round: it takes 0.15 s.
    from icalendar import Alarm, Calendar, Event

    event = Event()
    event.add("uid", str(UUID(bytes=blake2b(f"keep-it/{whose}".encode(), digest_size=16).digest(), version=4)))
    event.add("dtstamp", made)
    event.add("sequence", int(made.timestamp()) // 60)
    event.add("summary", SUMMARY)
    event.add("description", _WHAT)
    # A time without a zone is that of whoever reads it (RFC 5545, 3.3.5, form 1).
    event.add("dtstart", datetime.combine(day, _STARTS))
    event.add("duration", _LASTS)
    event.add("transp", "TRANSPARENT")
    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", SUMMARY)
    alarm.add("trigger", -timedelta(minutes=5))
    event.add_component(alarm)
    calendar = Calendar()
    calendar.add("prodid", "-//bitepoint//keep it//EN")
    calendar.add("version", "2.0")
    calendar.add_component(event)
    return bytes(calendar.to_ical())
