"""Small CSV tables that a person fills in: columns by name, each problem with its line."""

from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.marking.reading.csv_rows import csv_rows, too_many
from bitepoint.marking.reading.files import open_regular, whole
from bitepoint.marking.reading.limits import Counter

_MAX = 2_000_000


class TableRow(Struct, frozen=True):
    """A row that is not empty: the line it begins on, its cells by column, and what is wrong with it as a row, or ""."""

    line: int
    cells: dict[str, str]
    problem: str = ""


def table_rows(
    path: Path, columns: Sequence[str], *, known: Iterable[str] = (), may_be_empty: bool = False
) -> list[TableRow]:
    """Return each row that is not empty; spaces round a cell are dropped.

    Column names are compared without regard to capitals, and “noted_at” is “noted at”. Semicolons will do. Where
    `known` names the columns there may be, another one is refused, so that a misspelt one loses nothing unseen.

    Raises
    ------
    BadInput
        The file cannot be read, a column is missing, or there is no row; names the file and the columns it has.
    """
    rows = csv_rows(path.name, _text_of(path))
    names = [_plain(c) for c in next(rows, (1, []))[1]]
    _check_names(path.name, names, columns, known)
    found = [
        TableRow(line, {n: c.strip() for n, c in zip(names, row, strict=False) if n}, too_many(names, row))
        for line, row in rows
        if any(cell.strip() for cell in row)
    ]
    if not found and not may_be_empty:
        raise BadInput(f"{path.name}: has no row under its columns. Write a line for each entry, then save it again.")
    return found


def read_table(
    path: Path, columns: Sequence[str], *, known: Iterable[str] = (), may_be_empty: bool = False
) -> Iterator[tuple[int, dict[str, str]]]:
    """Yield (line number, row) as `table_rows`, up to the first row that is wrong as a row.

    Raises
    ------
    BadInput
        As table_rows, or a row has more cells than columns; names the line.
    """
    for row in table_rows(path, columns, known=known, may_be_empty=may_be_empty):
        if row.problem:
            raise BadInput(f"{path.name}: line {row.line}: {row.problem}")
        yield row.line, row.cells


def _text_of(path: Path) -> str:
    try:
        with open_regular(path) as file:
            return whole(file, Counter(_MAX)).decode("utf-8-sig")
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None
    except UnicodeDecodeError:
        raise BadInput(f"{path.name}: is not written in UTF-8. Save it again as “CSV UTF-8”.") from None


def _check_names(name: str, names: Sequence[str], columns: Sequence[str], known: Iterable[str]) -> None:
    missing = [c for c in columns if c not in names]
    if missing:
        there = ", ".join(f"“{n[:30]}”" for n in names[:10]) or "none"
        raise BadInput(f"{name}: has no column “{missing[0]}”. Its columns are: {there}.")
    strange = [n for n in names if known and n and n not in known]
    if strange:
        raise BadInput(f"{name}: has a column “{strange[0][:30]}”. Its columns may be: {', '.join(known)}.")


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("_", " ").replace("-", " ").split())
