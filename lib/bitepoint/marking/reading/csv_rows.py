"""The rows of a CSV list that a person wrote: none is swallowed, and each has the line on which it begins."""

import csv
import io
from collections.abc import Iterator, Sequence

from bitepoint.errors import BadInput

_OPEN = ("unexpected end of data", "expected after", "field larger than")
"""How Python words what an open quotation mark leads to."""


def csv_rows(name: str, text: str) -> Iterator[tuple[int, list[str]]]:
    """Yield (line, cells) of a list, its head first; semicolons will do for commas.

    A quotation mark that is not closed takes all that follows into one cell. Read strictly it is an error there.

    Raises
    ------
    BadInput
        A quotation mark is not closed, or it is no CSV; names the file `name` and the line.
    """
    head = text.partition("\n")[0]
    delimiter = ";" if head.count(";") > head.count(",") else ","
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    while True:
        line = reader.line_num + 1
        try:
            row = next(reader, None)
        except csv.Error as error:
            raise BadInput(f"{name}: {_why(line, str(error))}") from None
        if row is None:
            return
        yield line, row


def _why(line: int, error: str) -> str:
    if any(words in error for words in _OPEN):
        return (
            f"line {line}: a quotation mark is not closed. Put one at the end of the cell as well, or take it out; inside a "
            "cell in quotation marks write it twice."
        )
    return f"cannot be read as CSV ({error}). Save it again from the spreadsheet."


def too_many(names: Sequence[str], cells: Sequence[str]) -> str:
    """Return what is wrong with a row that has something in more cells than there are columns, "" when nothing is."""
    if not any(cell.strip() for cell in cells[len(names) :]):
        return ""
    return "has more cells than columns. Put a text with the delimiter in it in quotation marks."
