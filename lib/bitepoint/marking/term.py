"""Where each learner stood at the markings of a term, term.jsonl: one line a learner, carried on from set to set.

A marking is compared with the last one of an earlier day, so marking twice on one day changes nothing. Who is in no result has
no line; so nothing is left of a learner who was deleted on request.
"""

from collections.abc import Mapping
from contextlib import suppress
from datetime import datetime
from pathlib import Path

import msgspec
from msgspec import Struct

from bitepoint.marking.result import Result, Row

FILE = "term.jsonl"
RIGHT, DANGEROUS, NOT_YET = "r", "d", "n"
_MOST = 200
"""Markings that a line remembers."""


class TermStanding(Struct, frozen=True, kw_only=True):
    """A learner at one marking: `marks` says of each exercise answered r, d (dangerous, open) or n; recall so far."""

    day: str
    marks: dict[str, str] = {}
    recalled: int = 0
    recalled_right: int = 0

    def having(self, mark: str) -> set[str]:
        """Return the exercises that stand so."""
        return {id for id, found in self.marks.items() if found == mark}


class Step(Struct, frozen=True, array_like=True):
    """One marking in a few figures: its day, exercises right and dangerous, answers in recall and how many were right."""

    day: str
    right: int
    dangerous: int
    recalled: int
    recalled_right: int


class TermLine(Struct, frozen=True, kw_only=True):
    """A learner's line: the standing now, the one it is compared with (None: there was none), and every marking so far."""

    learner: str
    now: TermStanding
    before: TermStanding | None = None
    steps: tuple[Step, ...] = ()


class _Named(Struct):
    learner: str


def read_term(folder: Path | None) -> dict[str, bytes]:
    """Return the lines of the set in a results folder by learner; what cannot be read is as if it were not there."""
    found: dict[str, bytes] = {}
    if folder is None:
        return found
    try:
        with open(folder / FILE, "rb") as file:
            for line in file:
                with suppress(msgspec.MsgspecError):
                    found[msgspec.json.decode(line, type=_Named).learner] = line
    except OSError:
        return {}
    return found


def standing_at(result: Result, day: str) -> TermStanding:
    """Return where a learner stands: in practice, and where nothing was practised in the sitting that counts."""
    return TermStanding(
        day=day,
        marks={row.exercise: _mark(row) for row in result.shown_rows},
        recalled=len(result.recalled),
        recalled_right=sum(one.right for one in result.recalled),
    )


def _mark(row: Row) -> str:
    if row.critical_open:
        return DANGEROUS
    return RIGHT if (row.mark or 0) >= 1 else NOT_YET


def term_line(result: Result, marked: datetime, earlier: Mapping[str, bytes]) -> TermLine:
    """Return a learner's line at a marking; `earlier` are the lines of the set before."""
    day = marked.date().isoformat()
    now, old = standing_at(result, day), _decoded(earlier.get(result.name, b""))
    known = [standing for standing in (old.before, old.now) if standing and standing.day < day] if old else []
    steps = [step for step in old.steps if step.day < day] if old else []
    return TermLine(
        learner=result.name,
        now=now,
        before=known[-1] if known else None,
        steps=tuple([*steps, _step(now)][-_MOST:]),
    )


def _decoded(line: bytes) -> TermLine | None:
    try:
        return msgspec.json.decode(line, type=TermLine)
    except msgspec.MsgspecError:
        return None


def _step(now: TermStanding) -> Step:
    return Step(now.day, len(now.having(RIGHT)), len(now.having(DANGEROUS)), now.recalled, now.recalled_right)
