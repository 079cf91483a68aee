"""Cases planted in a rehearsed class, for an assessor to find; and honest oddities that must not be flagged."""

import json
from collections.abc import Callable, Sequence
from datetime import date, datetime, timedelta
from typing import Any

from msgspec import Struct

from bitepoint.logbook.record import check_code, write_line
from bitepoint.marking.flagging import answers as flags
from bitepoint.marking.flagging import history
from bitepoint.marking.flagging.neighbours import OTHER_FIGURES
from bitepoint.marking.rehearsal.apprentice import FIRST_DAY, Apprentice, stamp

OTHER_WORD = "elm-2026"
FEWEST = 18
"""Learners that a class with planted cases needs."""
CRITERIA = ("Checks the disc on the input shaft for free sliding", "Tightens the cover in the star, in stages")

Files = dict[str, list[str]]


class PlantedCase(Struct, frozen=True):
    """What was planted with one learner; `flag` is "" for honest work that looks odd."""

    number: int
    name: str
    flag: str


CASES = (
    PlantedCase(2, "two honest devices", ""),
    PlantedCase(4, "fast clicker", flags.FAST),
    PlantedCase(6, "copied answers of L05", OTHER_FIGURES),
    PlantedCase(7, "two honest devices", ""),
    PlantedCase(8, "edited log: the recorded scores were raised", flags.CHAIN),
    PlantedCase(9, "log rewritten after its check code was noted", history.CODE),
    PlantedCase(10, "worked under another class word", flags.CLASS_WORD),
    PlantedCase(11, "last lesson late", history.LATE),
    PlantedCase(13, "handed in the file of L14 under own name", flags.TWICE),
    PlantedCase(14, "file handed in by L13 too", flags.TWICE),
    PlantedCase(15, "typed in advance by Run All", ""),
    PlantedCase(16, "clock set back by a day", history.CLOCK),
    PlantedCase(17, "handed in again with fewer lines", history.FEWER),
    PlantedCase(18, "not in the roster", flags.UNKNOWN),
)
NOTHING_OWN, DOUBLE, FEWER, NOT_ENROLLED = 13, 14, 17, 18


def due_day(lessons: int) -> date:
    """Return the day on which the work of a rehearsed class is due: a week after its last lesson began."""
    return (FIRST_DAY + timedelta(days=7 * lessons)).date()


def change_work(person: Apprentice, number: int) -> None:
    """Change what a learner did before it is written down."""
    if number == 11:
        last = person.written[-1][0]
        shift([f for lesson, _, f in person.written if lesson == last], timedelta(days=40))
    elif number == 16:
        last = person.written[-1][0]
        found = [f for lesson, _, f in person.written if lesson == last]
        middle = found[len(found) // 2]["exercise"]
        start = next(i for i, f in enumerate(found) if f["exercise"] == middle) or len(found)
        shift(found[start:], -timedelta(days=1))


def shift(found: Sequence[dict[str, Any]], by: timedelta) -> None:
    """Move the times of answers."""
    for fields in found:
        for key in ("at", "opened"):
            fields[key] = stamp(datetime.fromisoformat(fields[key]) + by)


def change_files(files: Files, number: int) -> Files:
    """Change the lines of a learner after they were written, as someone with an editor or with the program would."""
    change: Callable[[list[str]], list[str]] | None = {8: _edited, 9: _rewritten}.get(number)
    return {name: change(lines) for name, lines in files.items()} if change else files


def _edited(lines: list[str]) -> list[str]:
    """Return the lines with raised scores; the last one stays, so that its check code is still there."""
    return [line.replace('"score":0.0', '"score":1.0') for line in lines[:-1]] + lines[-1:]


def _rewritten(lines: list[str]) -> list[str]:
    """Return a chain that holds, with other times: what someone with the program can make."""
    found: list[str] = []
    prev = ""
    for n, line in enumerate(lines, start=1):
        fields = json.loads(line)
        for key in ("n", "prev", "hash"):
            fields.pop(key)
        shift([fields], timedelta(minutes=-20))
        found.append(write_line(fields, n=n, prev=prev))
        prev = json.loads(found[-1])["hash"]
    return found


def shortened(files: Files) -> Files:
    """Return the files without the second half of the longest one."""
    longest = max(files, key=lambda name: len(files[name]))
    return {**files, longest: files[longest][: max(1, len(files[longest]) // 2)]}


def noted_codes(learner: str, files: Files) -> list[list[str]]:
    """Return rows for codes.csv: the code an instructor reads off at the end of each lesson, one a device."""
    rows = []
    for name, lines in files.items():
        last = json.loads(lines[-1])
        rows.append([learner, name.partition(".")[0], check_code(last["hash"]), last["at"]])
    return rows


def class_file(class_word: str, weeks: int, lessons: Sequence[str] = (), *, sitting: str = "", cars: str = "") -> str:
    """Return class.toml of a rehearsed class; one with a sitting allows no retake. `cars`: lines on other than the standard cars."""
    counted = f"lessons = [{', '.join(json.dumps(key) for key in lessons)}]\n" if lessons else ""
    sat = f'sitting = "{sitting}"\nfeedback = "after hand-in"\nretakes = 0\n' if sitting else ""
    criteria = ", ".join(json.dumps(c) for c in CRITERIA)
    return (
        f'class_word = "{class_word}"\ntitle = "Rehearsed class"\npass_share = 0.8\n'
        f"due = {due_day(weeks).isoformat()}\n{counted}criteria = [{criteria}]\n{sat}{cars}"
    )
