"""The lines of a log file, cut into fields: at most 64 MB, one million lines, text in the encoding that was named."""

import csv
from collections.abc import Iterator
from io import BytesIO, TextIOWrapper
from os import PathLike
from pathlib import Path

from bitepoint.errors import BadInput

MOST_BYTES, MOST_ROWS, MOST_FIELDS = 64_000_000, 1_000_000, 1000
_WIDE = {
    b"\xff\xfe": "UTF-16",
    b"\xfe\xff": "UTF-16",
    b"PK\x03\x04": "a workbook or zip file",
    b"\x1f\x8b": "a packed file",
}


def content_of(source: str | PathLike[str] | bytes, name: str = "") -> tuple[str, bytes]:
    """Return name and bytes of a log.

    Raises
    ------
    BadInput
        It cannot be read, is too large, or is no text.
    """
    name = name or ("log" if isinstance(source, bytes) else Path(source).name)
    content = source if isinstance(source, bytes) else _read(Path(source), name)
    if len(content) > MOST_BYTES:
        raise BadInput(f"{name}: is larger than {MOST_BYTES // 1_000_000} MB. Cut the log to the drive itself.")
    kind = next((kind for mark, kind in _WIDE.items() if content.startswith(mark)), None)
    if kind:
        raise BadInput(f"{name}: is {kind}, not a plain table. Save it as CSV in UTF-8.")
    return name, content


def _read(path: Path, name: str) -> bytes:
    try:
        if not path.is_file():
            raise BadInput(f"{name}: there is no such file. Check where the log lies.")
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = getattr(error, "strerror", None) or "no usable name"
        raise BadInput(f"{name}: cannot be read ({why}). Check where the log lies.") from None


def rows(content: bytes, *, name: str, separator: str, encoding: str) -> Iterator[tuple[int, list[str]]]:
    """Yield number and fields of each line.

    Raises
    ------
    BadInput
        Names the line that cannot be read.
    """
    text = TextIOWrapper(BytesIO(content), encoding="utf-8-sig" if encoding == "utf-8" else "latin-1", newline="")
    reader = csv.reader(text, delimiter=separator)
    try:
        for fields in reader:
            if len(fields) > MOST_FIELDS:
                raise BadInput(f"{name}: line {reader.line_num}: has {len(fields)} fields. Check the separator.")
            yield reader.line_num, fields
    except UnicodeDecodeError:
        line = reader.line_num + 1
        advice = 'Save it as UTF-8, or write encoding = "latin-1" in the column map.'
        raise BadInput(f"{name}: after line {line}: is no text in UTF-8. {advice}") from None
    except csv.Error as error:
        told = f"{name}: line {reader.line_num}: is no line of a table ({error}). Look for a quotation mark without its pair."
        raise BadInput(told) from None
