"""Whose results moved since the marking before: the learners' lines of the set that was there, against the new ones."""

import csv
from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

_COMPARED = ("evidence", "right", "of", "needed", "critical_open")
_SAT = ("sitting_right", "sitting_of", "sitting_needed", "sitting_critical_open")


class MovedResult(Struct, frozen=True):
    """One learner whose result is another than at the marking before, in words for both."""

    learner: str
    before: str
    now: str


def earlier(folder: Path | None) -> list[dict[str, str]]:
    """Return the learners' lines of the set in a results folder, none where there is none that can be read."""
    path = folder / "learners.csv" if folder else None
    if path is None or not path.is_file():
        return []
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            return [row for row in csv.DictReader(file) if row.get("learner")]
    except (OSError, UnicodeDecodeError, csv.Error):
        return []


def moved(
    before: Sequence[dict[str, str]], columns: Sequence[str], lines: Sequence[Sequence[str]]
) -> list[MovedResult]:
    """Return who moved, in the order of the new lines; who was not there before did not move.

    Examples
    --------
    >>> old = [{"learner": "L1", "evidence": "more work needed", "right": "2", "of": "4", "needed": "3", "critical_open": "0"}]
    >>> moved(old, list(old[0]), [["L1", "complete", "3", "3", "3", "0"]])[0].now
    'complete: 3 of 3 right, 3 needed, critical open: 0'
    """
    known = {row["learner"]: row for row in before}
    found = []
    for line in lines:
        new = dict(zip(columns, line, strict=True))
        old = known.get(new["learner"])
        if old and any(old.get(name, new.get(name)) != new.get(name) for name in (*_COMPARED, *_SAT)):
            found.append(MovedResult(new["learner"], _said(old), _said(new)))
    return found


def _said(row: dict[str, str]) -> str:
    evidence, right, of, needed, critical = (row.get(name, "?") for name in _COMPARED)
    said = f"{evidence}: {right} of {of} right, {needed} needed, critical open: {critical}"
    if not row.get("sitting_right"):
        return said
    right, of, needed, critical = (row.get(name, "?") for name in _SAT)
    return f"{said}; in the sitting {right} of {of} right, {needed} needed, critical open: {critical}"
