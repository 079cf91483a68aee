"""An invented class to practise marking on: hand-ins, a roster, a class file, a register of its own, and the truth."""

import csv
import json
import shutil
from collections.abc import Mapping, Sequence
from pathlib import Path

from bitepoint.bank import exercises
from bitepoint.errors import BadInput, OutOfRange
from bitepoint.logbook.identity import REHEARSAL, checked_vehicles
from bitepoint.logbook.own_files import FOLDER, digest_of_files, keep, use_kept
from bitepoint.marking.marks import decimal
from bitepoint.marking.registry.register import Register
from bitepoint.marking.rehearsal import planted as cases
from bitepoint.marking.rehearsal import sat
from bitepoint.marking.rehearsal.apprentice import Apprentice, stamp
from bitepoint.marking.rehearsal.forms import AGAIN, FORMS, HANDED_IN, Files, as_zip, written, zip_file
from bitepoint.marking.rehearsal.invented import hardness_of, invented_class, lessons_of
from bitepoint.marking.rehearsal.place import (
    CLASS,
    CODES,
    HAND_INS,
    NOTE,
    NOTE_TEXT,
    PLANTED,
    REGISTER,
    ROSTER,
    TRUTH,
    TRUTH_RECALL,
)
from bitepoint.marking.rehearsal.weeks import RecallTruth, come_back
from bitepoint.questions.draw import STANDARD

__all__ = ["HAND_INS", "ROSTER", "invented_class", "rehearse"]
MOST_LEARNERS, MOST_WEEKS = 999, 52


def rehearse(
    out: Path,
    *,
    learners: int,
    seed: int,
    form: str = "zip",
    planted: bool = False,
    sittings: bool = False,
    weeks: int = 0,
    lessons: Sequence[str] = (),
    class_word: str = REHEARSAL,
    cars: Sequence[str] = STANDARD,
    own: Mapping[str, bytes] | None = None,
) -> None:
    """Write an invented class into a folder: hand-ins/, roster.csv, class.toml, truth.csv; the same for the same seed.

    What is recorded about it goes into the folder `register` in it.

    Parameters
    ----------
    out
        Folder; it must be new, empty, or one that a rehearsal made.
    learners
        How many, 1 to 999.
    seed
        Which class.
    form
        How they hand in: "zip", "folder" (workbooks), "logbook" (single files), "notebook" (lines in outputs).
    planted
        With cases to find: planted.csv says which, codes.csv goes with them. Zips only.
    sittings
        With a supervised sitting and cases to find in it too.
    weeks
        Over how many weeks, from the first lesson on, they come back for recall; 0: never. What they really remembered then
        stands in truth-recall.csv.
    lessons
        Keys of the lessons that were worked on; none means all.
    class_word
        The word of the class; no class of anybody else has that of invented classes.
    cars
        The cars of the class, in order.
    own
        The class's own files by their names: own sheets, questions, kits.

    Raises
    ------
    OutOfRange
        `learners` is outside 1 to 999, or below 18 with planted cases, 24 with a sitting; `weeks` outside 0 to 52.
    BadInput
        There is no such form, or the folder holds something else or cannot be written.
    """
    if not 1 <= learners <= MOST_LEARNERS:
        raise OutOfRange("learners", f"between 1 and {MOST_LEARNERS}", learners, "Choose the size of a class.")
    if form not in FORMS:
        raise BadInput(f"There is no form {form!r} of hand-in. Choose one of {', '.join(FORMS)}.")
    if planted and form != "zip":
        raise BadInput("Planted cases are handed in as zips. Leave the form out.")
    if sittings and not planted:
        raise BadInput("A rehearsed sitting comes with planted cases. Add planted.")
    if not 0 <= weeks <= MOST_WEEKS:
        raise OutOfRange("weeks", f"between 0 and {MOST_WEEKS}", weeks, "Choose how long they come back.")
    if planted and weeks:
        raise BadInput("Planted cases come without weeks of recall. Leave one of them out.")
    fewest = sat.FEWEST if sittings else cases.FEWEST
    if planted and learners < fewest:
        raise OutOfRange("learners", f"{fewest} or more with planted cases", learners, "Make the class larger.")
    if own:
        use_kept(keep(own))
    cars = checked_vehicles(tuple(cars))
    try:
        _clear(out)
        truths: dict[tuple[str, str], float] = {}
        (out / HAND_INS).mkdir()
        (out / REGISTER).mkdir()
        people = invented_class(learners, seed, planted=planted, lessons=lessons, class_word=class_word, cars=cars)
        worked = lessons_of(lessons, cars)
        recalled = _weeks_of_recall(people, weeks, seed) if weeks else []
        text = cases.class_file(
            class_word, len(worked), lessons, sitting=sat.WORD if sittings else "", cars=_own(out, cars, own or {})
        )
        (out / CLASS).write_text(text, encoding="utf-8", newline="\n")
        if planted:
            sat_in = sat.Sitting(people, worked[:2][-1], seed, after=cases.due_day(len(worked))) if sittings else None
            _plant(out, people, sat_in, hardness_of(seed))
            truths = sat_in.truths if sat_in else {}
        for person in [] if planted else people:
            FORMS[form](out / HAND_INS, person, written(person))
        enrolled = [p for n, p in enumerate(people, start=1) if not (planted and n == cases.NOT_ENROLLED)]
        rows = [[p.learner, class_word, p.vehicle, " ".join(cars)] for p in enrolled]
        _write_csv(out / ROSTER, ["learner", "class_word", "vehicle", "cars"], rows)
        columns = ["learner", "exercise", "first_score", "last_score", *(["sitting_mark"] if sittings else [])]
        _write_csv(out / TRUTH, columns, _truth_rows(people, truths if sittings else None))
        if weeks:
            _write_csv(out / TRUTH_RECALL, list(_RECALL_COLUMNS), [_recall_row(truth) for truth in recalled])
    except OSError as error:
        raise BadInput(
            f"{out.name}: cannot be written ({error.strerror}). Name a folder where you may write."
        ) from None


def _weeks_of_recall(people: Sequence[Apprentice], weeks: int, seed: int) -> list[RecallTruth]:
    hardness = hardness_of(seed)
    return [
        truth
        for number, person in enumerate(people, start=1)
        for truth in come_back(person, number, weeks=weeks, seed=seed, hardness=hardness)
    ]


_RECALL_COLUMNS = ("learner", "exercise", "at", "days", "chance", "right")


def _recall_row(truth: RecallTruth) -> list[str]:
    told = (truth.learner, truth.exercise, stamp(truth.at))
    return [*told, decimal(truth.days), decimal(truth.chance), "yes" if truth.right else "no"]


def _own(out: Path, cars: Sequence[str], own: Mapping[str, bytes]) -> str:
    """Write the class's own files and return the lines of the class file about its cars."""
    for name, content in own.items():
        path = out / FOLDER / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content)
    named = "" if tuple(cars) == STANDARD else f"vehicles = {json.dumps(list(cars))}\n"
    return named + (f'own = "{digest_of_files(own)}"\n' if own else "")


def _plant(out: Path, people: Sequence[Apprentice], sat_in: sat.Sitting | None, hardness: dict[str, float]) -> None:
    """Write the hand-ins of a class with planted cases, the codes an instructor noted, and what was planted."""
    codes: list[list[str]] = []
    by_number: dict[int, Files] = {}
    for number, person in enumerate(people, start=1):
        cases.change_work(person, number)
        files = written(person)
        # Codes are noted of those on the roster.
        unlisted = (cases.NOTHING_OWN, cases.NOT_ENROLLED)
        codes += [] if number in unlisted else cases.noted_codes(person.learner, files)
        by_number[number] = cases.change_files(files, number)
    for number, person in enumerate(people, start=1):
        folder = out / HAND_INS
        if number == cases.NOTHING_OWN:
            person.truths.clear()
            double = people[cases.DOUBLE - 1]
            zip_file(folder / f"{person.learner}-{HANDED_IN}.zip", double, by_number[cases.DOUBLE])
            continue
        as_zip(folder, person, by_number[number])
        if number == cases.FEWER:
            zip_file(folder / f"{person.learner}-{AGAIN}.zip", person, cases.shortened(by_number[number]))
    if sat_in:
        sat_in.hand_in(out / HAND_INS, hardness)
        sat_in.record(Register(out / REGISTER))
        codes += sat_in.codes
    found = sorted((*cases.CASES, *(sat.CASES if sat_in else ())), key=lambda c: c.number)
    planted = [[people[c.number - 1].learner, c.flag, c.name] for c in found]
    _write_csv(out / PLANTED, ["learner", "flag", "case"], planted)
    _write_csv(out / CODES, ["learner", "lesson", "code", "noted at"], codes)


def _clear(out: Path) -> None:
    out.mkdir(parents=True, exist_ok=True)
    if (out / NOTE).is_file():
        for name in (HAND_INS, REGISTER, FOLDER):
            shutil.rmtree(out / name, ignore_errors=True)
        for name in (PLANTED, CODES, TRUTH_RECALL):
            (out / name).unlink(missing_ok=True)
    elif any(out.iterdir()):
        raise BadInput(f"{out.name}: is not empty and no rehearsal made it. Name a new folder.")
    (out / NOTE).write_text(NOTE_TEXT, encoding="utf-8", newline="\n")


def _truth_rows(people: Sequence[Apprentice], sat_in: Mapping[tuple[str, str], float] | None) -> list[list[str]]:
    rows = []
    for person in sorted(people, key=lambda p: p.learner.casefold()):
        practised = {t.exercise: [decimal(t.first_score), decimal(t.last_score)] for t in person.truths}
        for exercise in exercises():
            score = (sat_in or {}).get((person.learner, exercise))
            if exercise in practised or score is not None:
                told = [] if sat_in is None else [decimal(score)]
                rows.append([person.learner, exercise, *practised.get(exercise, ["", ""]), *told])
    return rows


def _write_csv(path: Path, columns: list[str], rows: list[list[str]]) -> None:
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns)
        writer.writerows(rows)
