"""The second marker's list, read back: every row checked before one is written."""

from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.marking.registry.checking import check_entry
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.registry.lists import BadRows, Numbered, cells_of, number_of
from bitepoint.marking.registry.tables import table_rows

COLUMNS = ("learner", "sitting", "exercise", "mark", "reason")


class SecondMarks(Struct, frozen=True):
    """The rows with a mark, and how many have none yet."""

    rows: tuple[Numbered, ...]
    empty: int


def read_second_marks(path: Path, by: str, date: str = "") -> SecondMarks:
    """Read a filled-in sheet; rows with neither mark nor reason are left for later.

    Raises
    ------
    BadInput
        The file cannot be read, or there is no mark in it.
    BadRows
        Names each row that cannot be used, and why.
    """
    rows: list[Numbered] = []
    problems, seen, empty = [], set(), 0
    for row in table_rows(path, COLUMNS):
        where = f"{path.name}: line {row.line}"
        if not (row.problem or row.cells.get("mark") or row.cells.get("reason")):
            empty += 1
            continue
        try:
            entry = _second_mark(cells_of(row), by, date)
            key = (entry.learner.casefold(), entry.word.casefold(), entry.exercise)
            if key in seen:
                raise BadInput(f"{entry.learner}, {entry.exercise} is there twice. Keep one row for each answer.")
            seen.add(key)
            rows.append((where, entry))
        except BadInput as error:
            problems.append(f"{where}: {error}")
    if problems:
        raise BadRows(problems, rows)
    if not rows:
        raise BadInput(f"{path.name}: no row has a mark. Write 0 to 1 into the column “mark”, and save it as CSV.")
    return SecondMarks(tuple(rows), empty)


def _second_mark(row: dict[str, str], by: str, date: str) -> Entry:
    if not row.get("mark"):
        raise BadInput("there is a reason and no mark. Write 0 to 1 into the column “mark”.")
    score = number_of(row["mark"], "mark")
    if score is None or not 0 <= score <= 1:
        raise BadInput(f"mark must be between 0 and 1, but it is {row['mark'][:40]!r}. 1 is fully right.")
    return check_entry(
        Entry(
            kind="second mark",
            learner=row.get("learner", ""),
            word=row.get("sitting", ""),
            exercise=row.get("exercise", ""),
            score=score,
            by=by,
            text=row.get("reason", ""),
            date=date,
        )
    )
