"""The marks as tables: marks.csv with a row for each learner and exercise, learners.csv with one for each learner."""

import csv
import io
import re
import unicodedata
from collections.abc import Iterable
from functools import lru_cache

from bitepoint.bank import exercises
from bitepoint.marking.outputs.manifest import ASSESSOR, EVIDENCE, LEARNERS
from bitepoint.marking.passing import Sat
from bitepoint.marking.result import Result, Row

COLUMNS = (
    "learner",
    "exercise",
    "first_score",
    "last_score",
    "tries",
    "turns",
    "solutions_seen",
    "critical_open",
    "mistake",
    "reason",
    "flags",
    "override",
    "override_by",
    "mark",
    "withdrawn",
    "critical_dropped",
    "sitting",
    "sitting_standing",
    "sitting_first_score",
    "sitting_last_score",
    "sitting_critical_open",
    "sitting_override",
    "sitting_override_by",
    "sitting_mark",
    "sitting_reason",
)
LEARNER_COLUMNS = (
    "learner",
    "class_word",
    "evidence",
    "sitting",
    "observation",
    "right",
    "of",
    "needed",
    "critical_open",
    "flags",
    "last_at",
    "sitting_words",
    "sitting_right",
    "sitting_of",
    "sitting_needed",
    "sitting_critical_open",
)
BOM = "\ufeff"
"""Begins a table that a person opens: a spreadsheet takes a file without it for one of an old alphabet.

marks.csv has none: programs read it by the names of its columns, and the mark would become part of the first.
"""
_PLAIN_NUMBER = re.compile(r"[+-]?[0-9]+([.,][0-9]+)?", re.ASCII)
_MOST_KEPT = 4096
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%")


def cell(text: str) -> str:
    """Return text that a spreadsheet shows as text: one line, and no formula; a plain number stays one.

    Examples
    --------
    >>> cell("=1+1"), cell("-3.2"), cell("-3.2+A1")
    ("'=1+1", '-3.2', "'-3.2+A1")
    """
    if not text:
        return text
    plain = text
    if not text.isprintable():
        plain = "".join(" " if unicodedata.category(c) in ("Cc", "Cf", "Zl", "Zp", "Cs") else c for c in text)
    stripped = plain.strip()
    if not (stripped.startswith(_FORMULA) or text.startswith(_FORMULA)) or _PLAIN_NUMBER.fullmatch(stripped):
        return plain
    return f"'{plain}"


def decimal(score: float | None) -> str:
    """Return a score as a plain decimal with at most four places, "" for none.

    Examples
    --------
    >>> decimal(1.0), decimal(2 / 3), decimal(0.0), decimal(None)
    ('1', '0.6667', '0', '')
    """
    if score is None:
        return ""
    return "1" if score == 1 else f"{score:.4f}".rstrip("0").rstrip(".")


def mark_lines(rows: Iterable[tuple[Row, Row | None]]) -> str:
    """Return lines of marks.csv: each exercise in practice, and beside it in the sitting that counts."""
    file = io.StringIO()
    csv.writer(file, lineterminator="\n").writerows(
        [_cells(row) + (_sitting_cells(sat) if sat else _NOT_SAT) for row, sat in rows]
    )
    return file.getvalue()


def both(result: Result) -> list[tuple[Row, Row | None]]:
    """Return each row of practice with that of the sitting that counts, in the order of the bank."""
    sat = {row.exercise: row for row in result.sitting_rows}
    found = {e: Row(learner=result.name, exercise=e, reason=_NOT_PRACTISED, flags=r.flags) for e, r in sat.items()}
    found |= {row.exercise: row for row in result.rows}
    return [(found[e], sat.get(e)) for e in exercises() if e in found]


_NOT_SAT = ("",) * 9
_NOT_PRACTISED = "Not answered in practice."


def _cells(row: Row) -> tuple[str, ...]:
    override = row.override
    return (
        _known(row.learner),
        _known(row.exercise),
        *_figures(row.first_score, row.last_score, row.tries, row.turns, row.solutions_seen, row.critical_open),
        _known(row.mistake),
        _known(row.reason),
        cell("; ".join(row.flags)) if row.flags else "",
        decimal(override.score) if override else "",
        cell(override.by) if override else "",
        decimal(row.mark),
        cell(row.withdrawn),
        cell(row.critical_dropped),
    )


_known = lru_cache(maxsize=_MOST_KEPT)(cell)
"""Cells of ids and of what the bank names and says: they come again and again."""


@lru_cache(maxsize=_MOST_KEPT)
def _figures(
    first: float | None, last: float | None, tries: int, turns: int, solutions_seen: int, critical_open: bool
) -> tuple[str, ...]:
    """Return the cells of a row's figures; True equals 1 and 1.0, and none of these comes as another kind."""
    said = "yes" if critical_open else "no"
    return decimal(first), decimal(last), str(tries), str(turns), str(solutions_seen), said


def _sitting_cells(row: Row) -> tuple[str, ...]:
    return (
        cell(row.sitting),
        cell(row.standing),
        decimal(row.first_score),
        decimal(row.last_score),
        "yes" if row.critical_open else "no",
        decimal(row.override.score) if row.override else "",
        cell(row.override.by) if row.override else "",
        decimal(row.mark),
        cell(row.reason),
    )


def learner_cells(result: Result) -> list[str]:
    """Return a learner's line of learners.csv."""
    counted = result.counted
    return [
        cell(result.name),
        cell(result.class_word),
        result.evidence,
        cell(result.sitting),
        result.observation,
        str(counted.right),
        str(counted.rest),
        str(counted.needed),
        str(len(counted.critical_open)),
        cell("; ".join(dict.fromkeys(f.kind for f in result.flags))),
        cell(result.last_at),
        cell("; ".join(dict.fromkeys(row.sitting for row in result.sitting_rows))),
        *_sat_cells(result.sat),
    ]


def _sat_cells(sat: Sat | None) -> list[str]:
    if sat is None:
        return [""] * 4
    found = sat.counted
    return [str(found.right), str(found.rest), str(found.needed), str(len(found.critical_open))]


def page_file(name: str) -> str:
    """Return the file of the learner's own page; the name was checked, so it cannot lead out of the folder."""
    return f"{LEARNERS}/{name}.html"


def assessor_file(name: str) -> str:
    """Return the file of the page about a learner that is for the assessor."""
    return f"{ASSESSOR}/{name}.html"


def evidence_file(name: str) -> str:
    """Return the file of a learner's record of evidence, to sign."""
    return f"{EVIDENCE}/{name}.html"
