"""When a sitting was for one learner: the room's time, and windows of the learner's own beside it.

Extra time or another day is a second entry “sitting” with the learner's id, or an adjustment with the sitting's word.
Where it names no lessons it is about those of the room, so that extra time in one lesson is not a sitting in all.
"""

from collections.abc import Sequence
from datetime import datetime

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.registry.windows import utc_time


class Window(Struct, frozen=True):
    """A time in which a sitting was, about which lessons (none means all), in which room, and who supervised it."""

    begins: datetime
    ends: datetime
    by: str
    lessons: tuple[str, ...] = ()
    room: str = ""

    def has(self, line: MarkedLine) -> bool:
        """Whether the sitting covers the lesson of a line."""
        return not self.lessons or line.record.lesson in self.lessons

    def around(self, line: MarkedLine) -> bool:
        """Whether a line was written in this time, by the clock of its device."""
        at = utc_time(line.record.at)
        return at is not None and self.begins <= at <= self.ends

    def meets(self, other: "Window") -> bool:
        """Whether two windows overlap or follow on each other."""
        return self.begins <= other.ends and other.begins <= self.ends


def windows_of(entries: Sequence[Entry], learner: str, word: str) -> list[Window]:
    """Return the windows of one sitting word (case-folded) for a learner, oldest entry first.

    An adjustment moves the time of a sitting that the register has; by itself it supervises nothing. Where it follows on
    that time, who supervised that goes on; on another day it is whoever entered it.
    """
    own = [e for e in entries if key_of(e.word) == word and (not e.learner or key_of(e.learner) == key_of(learner))]
    sittings = [e for e in own if e.kind == "sitting"]
    entered = [(e, w) for e in sittings if (w := _window(e))]
    rooms = [w for e, w in entered if not e.learner] or [w for _, w in entered if w.lessons]
    found: list[Window] = []
    for entry in own:
        window = _window(entry)
        if window is None or entry.kind not in ("sitting", "adjustment"):
            continue
        if entry.kind == "sitting" and not entry.learner:
            found.append(window)
            continue
        base = _base(window, rooms)
        lessons = window.lessons or joined(base)
        if entry.kind == "sitting":
            found.append(Window(window.begins, window.ends, window.by, lessons, window.room))
        elif entered:
            found.append(_moved(window, lessons, base or [w for _, w in entered]))
    return found


def _window(entry: Entry) -> Window | None:
    begins, ends = utc_time(entry.begins), utc_time(entry.ends)
    return Window(begins, ends, entry.by, entry.lessons, entry.room) if entry.word and begins and ends else None


def _base(own: Window, rooms: Sequence[Window]) -> list[Window]:
    """Return the rooms that a learner's own window belongs to: those it names, else those of its time, else all."""
    named = [w for w in rooms if own.room and w.room.casefold() == own.room.casefold()]
    return named or [w for w in rooms if w.meets(own)] or list(rooms)


def _moved(own: Window, lessons: tuple[str, ...], base: Sequence[Window]) -> Window:
    beside = [w for w in base if w.meets(own)]
    room = own.room or next((w.room for w in base), "")
    return Window(own.begins, own.ends, beside[0].by if beside else own.by, lessons, room)


def joined(windows: Sequence[Window]) -> tuple[str, ...]:
    """Return the lessons that windows are about together, none meaning all."""
    every = any(not w.lessons for w in windows)
    return () if every else tuple(dict.fromkeys(key for w in windows for key in w.lessons))


def window_around(line: MarkedLine, windows: Sequence[Window]) -> Window | None:
    """Return the first window in which a line was written."""
    return next((w for w in windows if w.around(line)), None)


def sat_in(lines: Sequence[MarkedLine], windows: Sequence[Window]) -> list[Window]:
    """Return the windows in which somebody sat, all where that cannot be told.

    A line outside every time may be of each window that is about its lesson.
    """
    found: list[Window] = []
    for line in lines:
        there = [w for w in windows if w.has(line)]
        found += [w for w in there if w.around(line)] or there
    return [w for w in windows if w in found] or list(windows)
