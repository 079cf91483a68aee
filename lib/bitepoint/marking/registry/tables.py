"""Small CSV tables that a person fills in: columns by name, each problem with its line."""

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.marking.reading.files import open_regular, whole
from bitepoint.marking.reading.limits import Counter

_MAX = 2_000_000


def read_table(
    path: Path, columns: Sequence[str], *, known: Iterable[str] = ()
) -> Iterator[tuple[int, dict[str, str]]]:
    """Yield (line number, row) for each row that is not empty; spaces round a cell are dropped.

    Column names are compared without regard to capitals, and “noted_at” is “noted at”. Semicolons will do. Where
    `known` names the columns there may be, another one is refused, so that a misspelt one loses nothing unseen.

    Raises
    ------
    BadInput
        The file cannot be read or a column is missing; names the file and the columns it has.
    """
    try:
        with open_regular(path) as file:
            text = whole(file, Counter(_MAX)).decode("utf-8-sig")
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None
    except UnicodeDecodeError:
        raise BadInput(f"{path.name}: is not written in UTF-8. Save it again as “CSV UTF-8”.") from None
    first = text.partition("\n")[0]
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=";" if first.count(";") > first.count(",") else ",")
    try:
        names = [_plain(c) for c in next(reader, [])]
        missing = [c for c in columns if c not in names]
        if missing:
            there = ", ".join(f"“{n[:30]}”" for n in names[:10]) or "none"
            raise BadInput(f"{path.name}: has no column “{missing[0]}”. Its columns are: {there}.")
        strange = [n for n in names if known and n and n not in known]
        if strange:
            raise BadInput(f"{path.name}: has a column “{strange[0][:30]}”. Its columns may be: {', '.join(known)}.")
        for row in reader:
            if any(cell.strip() for cell in row):
                yield reader.line_num, {n: c.strip() for n, c in zip(names, row, strict=False) if n}
    except csv.Error as error:
        raise BadInput(f"{path.name}: cannot be read as CSV ({error}). Save it again from the spreadsheet.") from None


def _plain(name: str) -> str:
    return " ".join(name.casefold().replace("_", " ").replace("-", " ").split())
