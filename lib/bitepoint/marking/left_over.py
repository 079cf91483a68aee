"""What of a learner's lines and of the register has no row: said in a line each, and how many of them a page shows."""

from collections.abc import Iterator, Sequence

from bitepoint.bank import exercises
from bitepoint.marking.flagging.answers import CHANGED, quoted
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.registry.entries import Entry

MAX_CHANGED = 250
"""Answers to changed questions on a learner's page: more than the bank has exercises."""
_WITH_THAT_VERSION = "Mark with the version that the class worked with."


def shown_changed(lines: Sequence[MarkedLine]) -> tuple[MarkedLine, ...]:
    """Return the lines to show of those whose question has changed: not more than a page can hold."""
    return tuple(line for line in lines if line.status == CHANGED)[:MAX_CHANGED]


def hidden_changed(name: str, lines: Sequence[MarkedLine]) -> Iterator[str]:
    """Say how many answers to changed questions there are where the page does not show them all."""
    count = sum(line.status == CHANGED for line in lines)
    if count > MAX_CHANGED:
        yield (
            f"{name}: gave {count:,} answers to questions that are not asked any more. "
            f"The page shows {MAX_CHANGED}; marks.jsonl has them all."
        )


def lost_overrides(entries: Sequence[Entry]) -> Iterator[str]:
    """Name the marks that a person gave for exercises that the bank does not have."""
    for entry in entries:
        if entry.kind in ("override", "resolution") and entry.exercise not in exercises():
            yield (
                f"Register: the mark that {quoted(entry.by)} gave {quoted(entry.learner)} is for exercise "
                f"{quoted(entry.exercise)}, which this bank does not have, so it has no row. {_WITH_THAT_VERSION}"
            )


def unknown_exercises(name: str, lines: Sequence[MarkedLine]) -> Iterator[str]:
    """Name the exercises a learner answered that the bank does not have."""
    ids = sorted({line.record.exercise[:40] for line in lines if line.status == "unknown exercise"})
    if ids:
        few = ", ".join(repr(i) for i in ids[:5]) + (f" and {len(ids) - 5} more" if len(ids) > 5 else "")
        yield f"{name}: answered {few}, which this bank does not have, so it has no mark. {_WITH_THAT_VERSION}"
