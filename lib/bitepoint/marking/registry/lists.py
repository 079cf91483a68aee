"""Lists that a person brings to the register: noted check codes and observations, all rows checked before one is written."""

from pathlib import Path

import msgspec

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import key_of
from bitepoint.marking.registry.register import Entry, Register, check_entry, deleted
from bitepoint.marking.registry.tables import read_table


def read_codes(path: Path) -> list[Entry]:
    """Read a CSV of noted check codes: learner, lesson, code, noted at.

    Raises
    ------
    BadInput
        Names the file, the line and what is wrong.
    """
    found, lessons = [], list(dict.fromkeys(e.lesson for e in exercises().values()))
    for number, row in read_table(path, ("learner", "lesson", "code", "noted at")):
        if row.get("lesson", "") not in lessons:
            raise BadInput(
                f"{path.name}: line {number}: there is no lesson {row.get('lesson', '')[:40]!r}. "
                f"Choose one of {', '.join(lessons)}."
            )
        entry = Entry(
            kind="code",
            learner=row.get("learner", ""),
            lesson=row.get("lesson", ""),
            code=row.get("code", ""),
            date=row.get("noted at", "")[:10],
            by=row.get("by", ""),
        )
        found.append(_checked(path, number, entry))
    return found


def read_observations(path: Path) -> list[Entry]:
    """Read a CSV of observations: criterion, result, learner, assessor, date, note.

    Raises
    ------
    BadInput
        Names the file, the line and what is wrong.
    """
    found = []
    for number, row in read_table(path, ("criterion", "result", "learner", "assessor", "date")):
        entry = Entry(
            kind="observation",
            criterion=row.get("criterion", ""),
            result=" ".join(row.get("result", "").casefold().split()),
            learner=row.get("learner", ""),
            by=row.get("assessor", ""),
            date=row.get("date", ""),
            text=row.get("note", ""),
        )
        found.append(_checked(path, number, entry))
    return found


def _checked(path: Path, number: int, entry: Entry) -> Entry:
    try:
        return check_entry(entry)
    except BadInput as error:
        raise BadInput(f"{path.name}: line {number}: {error}") from None


def add_all(register: Register, entries: list[Entry]) -> tuple[int, int]:
    """Write entries that are not in the register yet; return how many were written and how many were there.

    Raises
    ------
    BadInput
        One is about a learner who was deleted on request; then none is written.
    """
    there = register.entries()
    gone, seen = deleted(there), {_sameness(e) for e in there}
    for entry in entries:
        if key_of(entry.learner) in gone:
            raise BadInput(f"{entry.learner} was deleted on request. Take the rows about this learner out of the list.")
    new = list({_sameness(e): e for e in entries if _sameness(e) not in seen}.values())
    for entry in new:
        register.add(entry, gone=gone)
    return len(new), len(entries) - len(new)


def _sameness(entry: Entry) -> bytes:
    return msgspec.json.encode(msgspec.structs.replace(entry, at="", n=0, device="", hash=""))
