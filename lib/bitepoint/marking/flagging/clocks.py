"""What was typed of the room's clock when a sitting was opened, beside the flag that its time must be confirmed."""

from collections.abc import Iterator, Sequence

import msgspec

from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.passing import TO_CONFIRM
from bitepoint.marking.result import Flag

_MOST = 100 * 366 * 86_400
_WHAT = "this laptop's clock, as typed at the opening"


def beside(flags: Iterator[Flag], lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Yield flags, those about a sitting's time with how far the laptop was from the room's clock.

    Who sat could have typed it; so it settles nothing, and stands beside the flag for the person who confirms.
    """
    typed = {x.record.clock_ahead_s for x in lines if x.record.sitting and x.record.clock_ahead_s is not None}
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
