"""How far this laptop's clock is from the room's, typed in when a sitting is opened."""

from datetime import datetime, timedelta

import msgspec

from bitepoint.errors import BadInput
from bitepoint.logbook import Identity

_DAY = timedelta(days=1)


def seconds_ahead(typed: str, now: datetime) -> int:
    """Return by how many seconds the laptop is ahead of the room, below zero where it is behind.

    Parameters
    ----------
    typed : str
        The room's clock, such as 09:03: of the three days round today's the nearest counts, so no more than twelve hours
        can be told. With the day, as 2026-06-30T09:03, any difference can.
    now : datetime
        The laptop's own clock, in local time without a zone: the zone of the room is taken to be the laptop's.

    Raises
    ------
    BadInput
        It is no time.

    Examples
    --------
    >>> seconds_ahead("09:03", datetime(2026, 6, 30, 10, 5)), seconds_ahead("23:58", datetime(2026, 6, 30, 0, 3))
    (3720, 300)
    """
    try:
        if "T" in typed or " " in typed.strip():
            return round((now - datetime.fromisoformat(typed.strip()).replace(tzinfo=None)).total_seconds())
        room = datetime.combine(now.date(), datetime.strptime(typed.strip(), "%H:%M").time())
    except ValueError:
        raise BadInput(
            f"--room-clock must be the time on the room's clock, such as 09:03 or 2026-06-30T09:03, but you gave {typed[:40]!r}."
        ) from None
    return round(min((now - room - n * _DAY for n in (-1, 0, 1)), key=abs).total_seconds())


def with_room_clock(identity: Identity, typed: str | None, now: datetime) -> Identity:
    """Return an identity with the difference, unchanged where nothing was typed.

    Raises
    ------
    BadInput
        It is no sitting, or no time.
    """
    if typed is None:
        return identity
    if not identity.sitting:
        raise BadInput("--room-clock is for a sitting. Leave it out, or open with the start file of the sitting.")
    return msgspec.structs.replace(identity, clock_ahead_s=seconds_ahead(typed, now))
