"""Reading a data file of the project: typed, checked, and one clear line when something is wrong with it."""

import csv
from datetime import date, datetime, time
from pathlib import Path
from typing import TypeVar

import msgspec

from bitepoint.errors import BadData
from bitepoint.sources import SOURCES
from bitepoint.toml_once import toml_once

T = TypeVar("T")


class StrictStruct(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Base of what is read from a data file: frozen, and a misspelt key is an error."""


class WholeFile(StrictStruct, frozen=True, kw_only=True):
    """Base of a whole data file: `edition` counts up when what it says is corrected after a release.

    The edition before is kept under retired/, with its number in its name.
    """

    edition: int = 1


def read_toml(path: Path, kind: type[T], *, what: str = "data file") -> T:
    """Read a TOML file as `kind`.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    try:
        return _decoded(path, kind)
    except OSError as error:
        told = f"{path.name}: cannot be read ({error.strerror}). Put the {what} back in its folder."
    except msgspec.ValidationError as error:
        told = f"{path.name}: {error}. Correct that key in the {what}."
    except (msgspec.DecodeError, UnicodeDecodeError) as error:
        told = f"{path.name}: is no valid TOML ({error}). Correct that line."
    raise BadData(told)


def _decoded(path: Path, kind: type[T]) -> T:
    content = path.read_bytes()
    if not (path.parent / "__init__.py").exists():
        return msgspec.toml.decode(content, type=kind)
    return msgspec.convert(toml_once(path, content), kind, builtin_types=(datetime, date, time))


def csv_rows(path: Path, *, what: str) -> list[tuple[int, dict[str, str]]]:
    """Return the number of each line of a CSV file and its fields by the headings of the first line.

    Raises
    ------
    BadData
        Names the file, the line and the rule.
    """
    try:
        with path.open(encoding="utf-8-sig", newline="") as file:
            rows = list(enumerate(csv.DictReader(file), start=2))
    except OSError as error:
        raise BadData(f"{path.name}: cannot be read ({error.strerror}). Put the {what} back in its folder.") from None
    except UnicodeDecodeError:
        raise BadData(f"{path.name}: is not written in UTF-8. Save it again as UTF-8.") from None
    except csv.Error as error:
        raise BadData(f"{path.name}: cannot be read as CSV ({error}). Save it again from the spreadsheet.") from None
    for line, row in rows:
        if None in row or None in row.values():
            raise broken(path, f"line {line}", "must have one field a column", what=what)
    return rows


def broken(path: Path, key: str, rule: str, *, what: str = "data file") -> BadData:
    """Return the error for a key that breaks a rule, to be raised."""
    return BadData(f"{path.name}: {key}: {rule}. Correct that key in the {what}.")


def check_unique(path: Path, key: str, names: list[str]) -> None:
    """Raise `BadData` naming the first name that stands twice."""
    for place, name in enumerate(names):
        if name in names[:place]:
            raise broken(path, key, f"{name!r} stands twice")


def check_sources(path: Path, keys: list[tuple[str, str]]) -> None:
    """Raise `BadData` for the first (place, source key) whose source is not in the list of sources."""
    for place, key in keys:
        if key not in SOURCES:
            raise broken(path, place, f"{key!r} is not in the list of sources")
