"""Each sitting worked out by itself: which of its answers were supervised.

The window of a sitting does not hang on a laptop's clock. Answers outside it wait for a person where the device gave no
more than a window's length of work with that word; where it gave more, what lies outside was worked at another time.
Who has answers inside the window too sat with a clock that was not wrong, or hardly; who has more than one device outside it was
not at all of them in the room. There a room's confirmation says nothing, and an entry about that learner is waited for.
"""

from collections.abc import Sequence
from datetime import datetime, timedelta

import msgspec

from bitepoint.logbook.identity import key_of
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.passing import TO_CONFIRM, UNSUPERVISED
from bitepoint.marking.registry.register import CONFIRMED, Entry
from bitepoint.marking.registry.windows import utc_time
from bitepoint.marking.result import SittingWork
from bitepoint.marking.rows import rows_of, with_register
from bitepoint.marking.sitting_windows import Window, joined, sat_in, window_around, windows_of

_OUTSIDE = "outside"


def practice_of(lines: Sequence[MarkedLine]) -> list[MarkedLine]:
    """Return the lines that were drawn without a word of their own: neither in a sitting nor in recall."""
    return [line for line in lines if not line.record.sitting]


def without_recall(lines: Sequence[MarkedLine]) -> list[MarkedLine]:
    """Return the lines that marks and the checks on answers are about: all but those of recall."""
    return [line for line in lines if not line.record.is_recall]


def _about(entry: Entry, learner: str) -> bool:
    return not entry.learner or key_of(entry.learner) == key_of(learner)


def works_of(
    name: str, learner: str, lines: Sequence[MarkedLine], class_word: str, entries: Sequence[Entry]
) -> list[SittingWork]:
    """Return what a learner did in each sitting, in the order in which the register says they began.

    Parameters
    ----------
    name, learner
        Public name and id.
    lines
        All lines of the learner; those without a sitting word are left out.
    class_word
        The learner's class word.
    entries
        The whole register.
    """
    by_word: dict[str, list[MarkedLine]] = {}
    for line in lines:
        if line.record.sitting and not line.record.is_recall:
            by_word.setdefault(key_of(line.record.sitting), []).append(line)
    found = []
    for key, own in sorted(by_word.items()):
        there = windows_of(entries, learner, key)
        judge = _Judge(there, [e for e in entries if _confirms(e, key, learner)], own)
        overrides = [e for e in entries if e.learner and _about(e, learner) and key_of(e.word) == key]
        found.append(_work(name, own, class_word, overrides, there, judge))
    return sorted(found, key=lambda w: (w.begins is None, w.begins and w.begins.isoformat() or "", w.word))


def _confirms(entry: Entry, word: str, learner: str) -> bool:
    return entry.kind == "confirmation" and key_of(entry.word) == word and _about(entry, learner)


class _Judge:
    """Says of each line of one sitting of one learner who supervised it, or why nobody did."""

    def __init__(self, windows: Sequence[Window], confirmations: Sequence[Entry], lines: Sequence[MarkedLine]) -> None:
        self._windows, self._confirmations = windows, confirmations
        self._spans = _spans(lines)
        self.room_says = len(self._spans) == 1 and not any(window_around(line, windows) for line in lines)

    def says(self, line: MarkedLine) -> tuple[str, str]:
        """Return (who supervised, "") or ("", why nobody did)."""
        there = [w for w in self._windows if w.has(line)]
        if not there:
            return "", _OUTSIDE if self._windows else UNSUPERVISED
        inside = window_around(line, there)
        if inside:
            return inside.by, ""
        within = self._spans[line.record.device] <= max(w.ends - w.begins for w in there)
        found = self._confirmed(there, whole_room=within and self.room_says)
        if found and found.result in ("", CONFIRMED[0]):
            return f"{there[-1].by} (time by the laptop another, confirmed by {found.by} on {found.date})", ""
        return "", TO_CONFIRM if within and not found else _OUTSIDE

    def _confirmed(self, there: Sequence[Window], *, whole_room: bool) -> Entry | None:
        """Return the newest confirmation; `whole_room` tells whether one of a whole room reaches the line."""
        rooms = {w.room.casefold() for w in there}
        for entry in reversed(self._confirmations):
            if (entry.learner or whole_room) and (not entry.room or entry.room.casefold() in rooms):
                return entry
        return None


def _spans(lines: Sequence[MarkedLine]) -> dict[str, timedelta]:
    """Return how long each device was at work by its own clock."""
    times: dict[str, list[datetime]] = {}
    for line in lines:
        at = utc_time(line.record.at)
        times.setdefault(line.record.device, []).extend([at] if at else [])
    return {device: max(found) - min(found) if found else timedelta() for device, found in times.items()}


def _work(
    name: str,
    lines: Sequence[MarkedLine],
    class_word: str,
    overrides: Sequence[Entry],
    windows: Sequence[Window],
    judge: _Judge,
) -> SittingWork:
    said = [(line, *judge.says(line)) for line in lines]
    by = list(dict.fromkeys(who for _, who, _ in said if who))
    to_confirm = sum(why == TO_CONFIRM for _, _, why in said)
    waiting = sorted(line.record.at for line, _, why in said if why == TO_CONFIRM)
    standing = TO_CONFIRM if to_confirm else f"supervised by {', '.join(by)}" if by else UNSUPERVISED
    kept, word = [line for line, _, why in said if why != _OUTSIDE], lines[0].record.sitting
    inside = [w for w in windows if any(w.around(line) for line in lines)]
    rows = with_register(rows_of(name, kept, class_word), overrides, name)
    return SittingWork(
        word=word,
        standing=standing,
        begins=min((w.begins for w in inside or windows), default=None),
        lessons=joined(sat_in(kept, windows)),
        rows=tuple(msgspec.structs.replace(r, sitting=word, standing=standing) for r in rows),
        to_confirm=to_confirm,
        waiting=(waiting[0], waiting[-1]) if waiting else (),
        room_says=judge.room_says,
        outside=sum(why == _OUTSIDE for _, _, why in said),
    )
