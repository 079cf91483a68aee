"""Flags about a learner's history: noted check codes, clocks, shrinking hand-ins, two histories, lateness."""

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from datetime import UTC, datetime, timedelta
from operator import attrgetter
from typing import NamedTuple

from bitepoint.logbook.record import Record, check_code
from bitepoint.marking.flagging.answers import CHAIN
from bitepoint.marking.flagging.handins import HandInNote
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.result import Flag

CODE = "history differs from a noted check code"
CLOCK = "clock runs backwards"
FEWER = "hand-in after another with fewer lines"
FORK = "two histories from one device"
LATE = "after the due date"
_SLACK = timedelta(minutes=2)
_number = attrgetter("n")
_STAMP = re.compile(r"-(\d{8}-\d{6})(?!\d)", re.ASCII)


class StampedCount(NamedTuple):
    """How many lines of one device a hand-in has: the time in its file name, that name, the number."""

    stamp: str
    name: str
    lines: int


def noted_codes(name: str, lines: Sequence[MarkedLine], entries: Sequence[Entry]) -> Iterator[Flag]:
    """Flag a noted check code that no unchanged line of that lesson has; who handed nothing in is not flagged."""
    if not any(entry.kind == "code" for entry in entries):
        return
    codes: dict[str, list[str]] = {}
    for line in sorted(lines, key=lambda x: (x.record.at, x.record.n)):
        if not line.changed:
            codes.setdefault(line.record.book, []).append(_code(line.record.hash))
    for entry in entries:
        there = codes.get(entry.lesson, [])
        if entry.kind != "code" or not lines or entry.code in there:
            continue
        sides = (
            (f"noted on {entry.date}", entry.code),
            ("last code handed in", there[-1] if there else "no line of this lesson"),
        )
        evidence = f"Lesson {entry.lesson}: none of {len(there)} lines handed in has the noted check code {entry.code}."
        yield Flag(kind=CODE, learner=name, evidence=evidence, beside=sides)


def _code(hash: str) -> str:
    try:
        return check_code(hash)
    except ValueError:
        return ""


def clock_backwards(name: str, lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag a line that is more than two minutes older than the line before it on the same device."""
    records = [line.record for line in lines]
    # Nearly always no clock was set back: then no chain needs putting in order.
    if not _runs_back(records):
        return
    chains: dict[tuple[str, str, str], list[Record]] = {}
    for record in records:
        chains.setdefault((record.device, record.book, record.sitting), []).append(record)
    for (device, lesson, _), chain in sorted(chains.items()):
        chain.sort(key=_number)
        times = [_time(record.at) for record in chain]
        for before, after, first, second in zip(chain, chain[1:], times, times[1:], strict=False):
            if after.prev == before.hash and first and second and first - second > _SLACK:
                sides = ((f"line {before.n}", before.at), (f"line {after.n}", after.at))
                evidence = f"Lesson {lesson}, device {device[:32]}: line {after.n} is older than the line before it."
                yield Flag(kind=CLOCK, learner=name, evidence=evidence, beside=sides)
                break


def _runs_back(records: Sequence[Record]) -> bool:
    """Whether any line is more than two minutes older than the one that it follows."""
    times = {record.hash: _time(record.at) for record in records}
    for record in records:
        before, after = times.get(record.prev), times[record.hash]
        if before and after and before - after > _SLACK:
            return True
    return False


def gaps(name: str, lines: Sequence[MarkedLine], elsewhere: Collection[str]) -> Iterator[Flag]:
    """Flag lines that follow one that was not handed in, over all hand-ins of a learner, notebooks too.

    `elsewhere` holds the hashes of lines that were handed in but may not count for this learner.
    """
    numbers = {line.record.hash: line.record.n for line in lines}
    loose: dict[tuple[str, str], list[int]] = {}
    for record in (line.record for line in lines):
        before = numbers.get(record.prev) if record.prev else 0
        follows = record.prev in elsewhere if before is None else before == record.n - 1
        if not follows:
            loose.setdefault((record.book, record.device), []).append(record.n)
    for (lesson, device), found in sorted(loose.items()):
        few = ", ".join(map(str, sorted(found)[:5])) + (" and more" if len(found) > 5 else "")
        evidence = (
            f"Lesson {lesson[:40]}, device {device[:32]}: the line before number {few} was not handed in. "
            "The zip of “Make my hand-in” has all lines; ask for it."
        )
        yield Flag(kind=CHAIN, learner=name, evidence=evidence)


def _time(text: str) -> datetime | None:
    try:
        found = datetime.fromisoformat(text)
    except ValueError:
        return None
    return found if found.tzinfo else found.replace(tzinfo=UTC)


def two_histories(name: str, lines: Sequence[MarkedLine]) -> Iterator[Flag]:
    """Flag two unchanged lines with the same number from the same lesson and device, once for each of those.

    A sitting has a folder of its own, and so a numbering of its own beside that of practice.
    """
    unchanged = [x.record for x in lines if not x.changed]
    if len(unchanged) == len({(r.book, r.device, r.sitting, r.n) for r in unchanged}):
        return
    seen: dict[tuple[str, str, str, int], MarkedLine] = {}
    told: set[tuple[str, str, str]] = set()
    for line in sorted(lines, key=lambda x: (x.record.at, x.record.hash)):
        record = line.record
        chain = (record.book, record.device, record.sitting)
        if line.changed or chain in told:
            continue
        older = seen.setdefault((*chain, record.n), line)
        if older.record.hash != record.hash:
            told.add(chain)
            evidence = (
                f"Lesson {record.book}, device {record.device[:32]}: two different lines are numbered {record.n}."
            )
            sides = tuple((f"{x.record.exercise}, {x.record.at[:40]}", _code(x.record.hash)) for x in (older, line))
            yield Flag(kind=FORK, learner=name, evidence=evidence, beside=sides)


def stamped_counts(notes: Sequence[HandInNote]) -> dict[str, dict[str, list[StampedCount]]]:
    """Return by case-folded learner and by device the lines in each hand-in that has a time in its file name, in that order."""
    found: dict[str, dict[str, list[StampedCount]]] = {}
    for note in notes:
        if stamp := stamp_of(note.name):
            for learner, device, count in note.counts:
                counts = found.setdefault(learner, {}).setdefault(device, [])
                counts.append(StampedCount(stamp, note.name, count))
    for devices in found.values():
        for counts in devices.values():
            counts.sort()
    return found


def fewer_lines(name: str, stamped: Mapping[str, Sequence[StampedCount]]) -> Iterator[Flag]:
    """Flag a hand-in that, by the time in its file name, came after another with more lines of the same device.

    `stamped` are a learner's, see `stamped_counts`.
    """
    for device, found in sorted(stamped.items()):
        for (t1, before, most), (t2, after, count) in zip(found, found[1:], strict=False):
            if t1 < t2 and count < most:
                sides = ((before, f"{most} lines"), (after, f"{count} lines"))
                evidence = f"Device {device}: {after} has {most - count} lines fewer than the hand-in before it."
                yield Flag(kind=FEWER, learner=name, evidence=evidence, beside=sides)


def stamp_of(name: str) -> str:
    """Return the date and time in a hand-in's file name, "" when there is none."""
    found = _STAMP.findall(name.rpartition("/")[2])
    return found[-1] if found else ""


def late(name: str, lines: Sequence[MarkedLine], due: datetime | None) -> Iterator[Flag]:
    """Flag answers given after the due date."""
    if due is None:
        return
    after = sorted(x.record.at for x in lines if (at := _time(x.record.at)) and at > due)
    if after:
        many = "1 answer was" if len(after) == 1 else f"{len(after)} answers were"
        sides = (("due", due.isoformat()), ("last answer", after[-1]))
        yield Flag(kind=LATE, learner=name, evidence=f"{many} given after the due date.", beside=sides)
