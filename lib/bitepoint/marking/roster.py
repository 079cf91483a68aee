"""Who is in the class: roster.csv, and how a learner is named in the marks."""

from collections.abc import Iterator
from hashlib import blake2b
from pathlib import Path

from msgspec import Struct

from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_name, checked_vehicles, key_of
from bitepoint.marking.reading.csv_rows import csv_rows, too_many
from bitepoint.marking.reading.files import open_regular, whole
from bitepoint.marking.reading.limits import Counter

__all__ = ["Enrolled", "Roster", "key_of", "public_name", "read_roster"]
_UNKNOWN = "unknown-"
_MAX_ROSTER = 2_000_000


class Enrolled(Struct, frozen=True):
    """One row of the roster: learner id, class word, letter of the car and the cars of the class when it was written down.

    What the roster does not say is empty. The cars stay with the learner: a list that becomes longer later moves nobody.
    """

    learner: str
    class_word: str = ""
    vehicle: str = ""
    cars: tuple[str, ...] = ()


Roster = dict[str, Enrolled]
"""Enrolled by case-folded learner id."""


def read_roster(path: Path) -> Roster:
    """Read roster.csv: a column `learner`; `class_word`, `vehicle` and `cars` are optional, others not looked at.

    Raises
    ------
    BadInput
        The file cannot be read, has no column `learner` or no learner, or a row cannot be used.
    """
    try:
        with open_regular(path) as file:
            text = whole(file, Counter(_MAX_ROSTER)).decode("utf-8-sig")
    except BadInput as error:
        raise BadInput(f"{path.name}: {error}") from None
    except UnicodeDecodeError:
        raise BadInput(f"{path.name}: is not written in UTF-8. Save it again as “CSV UTF-8”.") from None
    found: Roster = {}
    for number, row in _rows(path.name, text):
        learner = (row.get("learner") or "").strip()
        if not learner:
            continue
        class_word, car, cars = ((row.get(name) or "").strip() for name in ("class_word", "vehicle", "cars"))
        try:
            entry = Enrolled(
                checked_name(learner, "The learner id"),
                checked_name(class_word, "The class word") if class_word else "",
                checked_vehicles((car,), "vehicle")[0] if car else "",
                checked_vehicles(cars.split(), "cars") if cars else (),
            )
        except BadInput as error:
            raise BadInput(f"{path.name}: line {number}: {error}") from None
        if key_of(entry.learner) in found:
            raise BadInput(f"{path.name}: line {number}: {learner} is there twice. Keep one line for each learner.")
        found[key_of(entry.learner)] = entry
    if not found:
        raise BadInput(f"{path.name}: lists no learner. Write a line for each, with the id under the column “learner”.")
    return found


def _rows(name: str, text: str) -> Iterator[tuple[int, dict[str, str]]]:
    rows = csv_rows(name, text)
    columns = [c.strip() for c in next(rows, (1, []))[1]]
    if "learner" not in columns:
        there = ", ".join(f"“{c[:30]}”" for c in columns[:10]) or "none"
        raise BadInput(
            f"{name}: has no column “learner”. Its columns are: {there}. Name the column with the learner ids “learner”."
        )
    for line, row in rows:
        problem = too_many(columns, row)
        if problem:
            raise BadInput(f"{name}: line {line}: {problem}")
        yield line, dict(zip(columns, row, strict=False))


def public_name(learner: str) -> str:
    """Return the name of a learner's row and page: the id, or unknown-<hash> when it cannot be one."""
    try:
        name = checked_name(learner, "The learner id") if learner.isascii() else ""
    except BadInput:
        name = ""
    if name and not key_of(name).startswith(_UNKNOWN):
        return name
    return _UNKNOWN + blake2b(key_of(learner).encode("utf-8", "replace"), digest_size=6).hexdigest()
