"""The time zone of a class: what a day or a time without a zone means, and how one is said."""

import os
from datetime import UTC, date, datetime, tzinfo
from pathlib import Path
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from bitepoint.errors import BadInput

THIS_COMPUTER = "this computer's time zone"


def checked_zone(name: object) -> str:
    """Return the name of a time zone, "" for none.

    Raises
    ------
    BadInput
        There is no such zone.
    """
    if name == "":
        return ""
    try:
        return ZoneInfo(name).key if isinstance(name, str) and name.isprintable() else _no_zone(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        # A name may be that of a folder of the zone data, which is an error of the system.
        return _no_zone(name)


def _no_zone(name: object) -> str:
    raise BadInput(
        f'zone must be the name of a time zone such as zone = "Europe/Vienna", but it is {str(name)[:40]!r}. '
        "Region and city stand on either side of the stroke."
    )


def zone_of_computer() -> str:
    """Return the name of this computer's time zone, "" where the system does not tell it by name."""
    named = os.environ.get("TZ", "").removeprefix(":") or _after_zoneinfo(Path("/etc/localtime"))
    try:
        return checked_zone(named)
    except BadInput:
        return ""


def _after_zoneinfo(link: Path) -> str:
    target = str(link.resolve()) if link.is_symlink() else ""
    return target.partition("/zoneinfo/")[2]


def in_zone(found: datetime, zone: str) -> datetime:
    """Return a time with its zone: its own where it has one, else that of the class, else this computer's.

    Where clocks are put back an hour comes twice, and the later one is meant; where they are put on, a time that no clock shows
    is as long after the last one that it showed. So nobody is late who read the clock on the wall.

    Examples
    --------
    >>> in_zone(datetime(2026, 6, 30, 23, 59), "Europe/Vienna").isoformat()
    '2026-06-30T23:59:00+02:00'
    """
    if found.tzinfo:
        return found
    where = ZoneInfo(zone) if zone else None
    readings = (found.replace(tzinfo=where, fold=fold).astimezone(UTC) for fold in (0, 1))
    return max(readings).astimezone(where)


def day_in(found: datetime, zone: str) -> date:
    """Return the day of a time in the zone of the class, else in this computer's."""
    where: tzinfo | None = ZoneInfo(zone) if zone else None
    try:
        return found.astimezone(where).date()
    # A line may say any time, and the first and last day there is have no neighbour.
    except (OverflowError, ValueError):
        return found.date()


def said(found: datetime, zone: str) -> str:
    """Return a time as a person reads it, with its zone.

    Examples
    --------
    >>> said(in_zone(datetime(2026, 6, 30, 23, 59), "Europe/Vienna"), "Europe/Vienna")
    '2026-06-30 23:59 (+02:00, Europe/Vienna)'
    """
    offset = found.strftime("%z")
    return f"{found:%Y-%m-%d %H:%M} ({offset[:3]}:{offset[3:5]}, {zone or THIS_COMPUTER})"
