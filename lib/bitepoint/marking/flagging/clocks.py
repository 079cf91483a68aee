"""What laptops' clocks said: the first and the last time, times that cannot be read, and how far off a clock was."""

from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime

import msgspec

from bitepoint.marking.flagging.answers import quoted
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.passing import TO_CONFIRM
from bitepoint.marking.registry.windows import utc_time
from bitepoint.marking.result import Flag

UNREADABLE = "time that cannot be read"
_SHOWN = 3
TimeRead = tuple[datetime | None, str]
"""A time as recorded, behind the moment that it means [UTC]; None where it cannot be read."""

_MOST = 100 * 366 * 86_400
_WHAT = "this laptop's clock, as typed at the opening"


def read_times(times: Iterable[str]) -> list[TimeRead]:
    """Return times as they are recorded, each with the moment that its first 40 characters mean."""
    return [(utc_time(at[:40]), at) for at in times]


def first_and_last(times: Iterable[TimeRead]) -> tuple[str, str]:
    """Return the first and the last of the times that can be read, as they are recorded; "" where there is none.

    They may have other zones; which comes first is told by the moment that they mean.
    """
    read = [(moment, at[:40]) for moment, at in times if moment]
    return (min(read)[1], max(read)[1]) if read else ("", "")


def unreadable(name: str, times: Iterable[TimeRead]) -> Iterator[Flag]:
    """Flag answers whose time cannot be read: no due date and no window of a sitting can be held against them."""
    found = sorted(at for moment, at in times if moment is None)
    if found:
        many = "1 answer has" if len(found) == 1 else f"{len(found)} answers have"
        shown = list(dict.fromkeys(map(quoted, found)))
        more = " and others" if len(shown) > _SHOWN else ""
        evidence = (
            f"{many} a time that cannot be read: {', '.join(shown[:_SHOWN])}{more}. No laptop's clock writes that; "
            "neither the due date nor a sitting's time can be held against it."
        )
        yield Flag(kind=UNREADABLE, learner=name, evidence=evidence)


def beside(flags: Iterator[Flag], lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Yield flags, those about a sitting's time with how far the laptop was from the room's clock.

    Who sat could have typed it; so it settles nothing, and stands beside the flag for the person who confirms.
    """
    typed = {x.record.clock_ahead_s for x in lines if x.record.clock_ahead_s is not None and x.record.sitting}
    said = "; ".join(_said(seconds) for seconds in sorted(s for s in typed if abs(s) < _MOST)[:5])
    for flag in flags:
        if said and flag.kind == TO_CONFIRM:
            flag = msgspec.structs.replace(flag, evidence=f"{flag.evidence} Typed when it was opened: {said}.")
            flag = msgspec.structs.replace(flag, beside=(*flag.beside, (_WHAT, said)))
        yield flag


def _said(seconds: int) -> str:
    """Return a difference in words.

    Examples
    --------
    >>> _said(3720), _said(-86400), _said(20)
    ("1 h 2 min ahead of the room's clock", "24 h 0 min behind the room's clock", "within a minute of the room's clock")
    """
    hours, minutes = divmod(abs(seconds) // 60, 60)
    if abs(seconds) < 60:
        return "within a minute of the room's clock"
    far = f"{hours:,} h {minutes} min" if hours else f"{minutes} min"
    return f"{far} {'ahead of' if seconds > 0 else 'behind'} the room's clock"
