"""Lists that a person brings to the register: all rows are read and checked, and only then is one written."""

import re
from collections.abc import Callable, Iterable, Sequence
from pathlib import Path
from typing import Any

import msgspec

from bitepoint.errors import BadInput
from bitepoint.marking.registry.checking import check_entry
from bitepoint.marking.registry.class_lists import ClassList
from bitepoint.marking.registry.entries import OPTIONS, Entry
from bitepoint.marking.registry.register import Register
from bitepoint.marking.registry.tables import TableRow, table_rows

Numbered = tuple[str, Entry]
"""An entry and the place it stands in: “file: line 3”."""

_LINE = re.compile(r": line (\d{1,9}): ", re.ASCII)
_FIELDS = {OPTIONS.get(field, field).replace("-", " "): field for field in Entry.__struct_fields__}
_FIELDS = {name: field for name, field in _FIELDS.items() if field not in ("at", "n", "device", "hash")}


class BadRows(BadInput):
    """Rows of a list that cannot be used; `problems` has a line for each, `rows` the others."""

    def __init__(self, problems: Sequence[str], rows: Sequence[Numbered] = ()) -> None:
        self.problems, self.rows = tuple(problems), tuple(rows)
        super().__init__(" ".join(problems))


def read_codes(path: Path) -> list[Numbered]:
    """Read a CSV of noted check codes: learner, lesson, code, noted at.

    Raises
    ------
    BadInput
        Names the file and each line that cannot be used, and why.
    """
    return _read(path, ("learner", "lesson", "code", "noted at"), _code)


def _code(row: dict[str, str]) -> Entry:
    return Entry(
        kind="code",
        learner=row.get("learner", ""),
        lesson=row.get("lesson", ""),
        code=row.get("code", ""),
        date=row.get("noted at", "")[:10],
        by=row.get("by", ""),
    )


def read_observations(path: Path) -> list[Numbered]:
    """Read a CSV of observations: criterion, result, learner, assessor, date, note.

    Raises
    ------
    BadInput
        Names the file and each line that cannot be used, and why.
    """
    return _read(path, ("criterion", "result", "learner", "assessor", "date"), _observation)


def _observation(row: dict[str, str]) -> Entry:
    return Entry(
        kind="observation",
        criterion=row.get("criterion", ""),
        result=" ".join(row.get("result", "").casefold().split()),
        learner=row.get("learner", ""),
        by=row.get("assessor", ""),
        date=row.get("date", ""),
        text=row.get("note", ""),
    )


def read_entries(path: Path) -> list[Numbered]:
    """Read a CSV of entries of any kind but deletions: columns are “kind” and the options of `register add`.

    Raises
    ------
    BadInput
        Names the file and each line that cannot be used, and why.
    """
    return _read(path, ("kind",), _entry, known=_FIELDS)


def _entry(row: dict[str, str]) -> Entry:
    said: dict[str, Any] = {_FIELDS[name]: text for name, text in row.items() if text}
    kind = " ".join(said.pop("kind", "").casefold().split())
    if kind == "deletion":
        raise BadInput("A deletion is entered by itself, with the id twice: bitepoint register add deletion.")
    lessons = tuple(key.strip() for key in said.pop("lessons", "").split(",") if key.strip())
    score, number = number_of(said.pop("score", ""), "score"), number_of(said.pop("number", ""), "number")
    if number is not None and not number.is_integer():
        raise BadInput(f"number must be a whole number, but it is {number:g}.")
    return Entry(kind=kind, lessons=lessons, score=score, number=None if number is None else int(number), **said)


def number_of(text: str, column: str) -> float | None:
    """Return the number in a cell, None for an empty one; a comma will do.

    Raises
    ------
    BadInput
        It is no number.
    """
    if not text:
        return None
    try:
        return float(text.replace(",", "."))
    except ValueError:
        raise BadInput(f"{column} must be a number, but it is {text[:40]!r}.") from None


def cells_of(row: TableRow) -> dict[str, str]:
    """Return the cells of a row.

    Raises
    ------
    BadInput
        It is wrong as a row.
    """
    if row.problem:
        raise BadInput(row.problem)
    return row.cells


def _read(
    path: Path, columns: Sequence[str], make: Callable[[dict[str, str]], Entry], *, known: Iterable[str] = ()
) -> list[Numbered]:
    found, problems = [], []
    for row in table_rows(path, columns, known=known):
        where = f"{path.name}: line {row.line}"
        try:
            found.append((where, check_entry(make(cells_of(row)))))
        except BadInput as error:
            problems.append(f"{where}: {error}")
    if problems:
        raise BadRows(problems, found)
    return found


def every_problem(error: BadRows, register: Register, known: ClassList | None = None) -> list[str]:
    """Return a line for each row that cannot be used, in their order; those that only class or register refuses too."""
    more: tuple[str, ...] = ()
    try:
        _checked(register, error.rows, known)
    except BadRows as others:
        more = others.problems
    return sorted((*error.problems, *more), key=_line)


def _line(problem: str) -> int:
    found = _LINE.search(problem)
    return int(found[1]) if found else 0


def add_all(register: Register, rows: Sequence[Numbered], known: ClassList | None = None) -> tuple[int, int]:
    """Write entries that are not in the register yet; return how many were written and how many were there.

    Raises
    ------
    BadRows
        Some cannot be written (`known` is what the class knows of itself): then none is.
    """
    new = _checked(register, rows, known)
    for entry in new:
        register.write(entry)
    return len(new), len(rows) - len(new)


def _checked(register: Register, rows: Sequence[Numbered], known: ClassList | None) -> list[Entry]:
    """Return the entries that are not in the register yet, as they can be written."""
    there, problems = register.entries(), []
    seen: set[bytes] = {_sameness(e) for e in there}
    new: list[Entry] = []
    for where, row in rows:
        try:
            entry = known.checked(row) if known else row
            if _sameness(entry) not in seen:
                new.append(register.checked(entry, [*there, *new]))
                seen.add(_sameness(entry))
        except BadInput as error:
            problems.append(f"{where}: {error}")
    if problems:
        raise BadRows(problems)
    return new


def _sameness(entry: Entry) -> bytes:
    return msgspec.json.encode(msgspec.structs.replace(entry, at="", n=0, device="", hash=""))
