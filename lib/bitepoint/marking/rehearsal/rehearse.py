"""An invented class to practise marking on: hand-ins, a roster, and the truth to compare the marks with."""

import csv
import json
import shutil
import zipfile
from collections.abc import Callable, Sequence
from pathlib import Path
from random import Random

import msgspec

from bitepoint.bank import Exercise, exercises
from bitepoint.bank.lessons import LESSONS
from bitepoint.errors import BadInput, OutOfRange
from bitepoint.logbook.book import FOLDER
from bitepoint.logbook.identity import FILE, Identity, learner_id, write_identity
from bitepoint.logbook.record import write_line
from bitepoint.marking.marks import decimal
from bitepoint.marking.reading.notebooks import MIME
from bitepoint.marking.rehearsal import planted as cases
from bitepoint.marking.rehearsal.apprentice import Apprentice, Habit

CLASS_WORD = "oak-2026"
HAND_INS = "hand-ins"
ROSTER = "roster.csv"
TRUTH = "truth.csv"
NOTE = "rehearsal.txt"
MOST_LEARNERS = 999
_NOTE_TEXT = "An invented class, made by “bitepoint rehearse”. Nobody did this work. This folder may be made anew.\n"
_PACKED = (2026, 6, 30, 12, 0, 0)
_HANDED_IN, _AGAIN = "20260630-120000", "20260630-140000"

Files = dict[str, list[str]]
"""Logbook lines by `<lesson>.<device>`."""


def rehearse(
    out: Path, *, learners: int, seed: int, form: str = "zip", planted: bool = False, lessons: Sequence[str] = ()
) -> None:
    """Write an invented class into a folder: hand-ins/, roster.csv and truth.csv; the same for the same seed.

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
        With cases to find: planted.csv says which, class.toml and codes.csv go with them. Zips only.
    lessons
        Keys of the lessons that were worked on; none means all.

    Raises
    ------
    OutOfRange
        `learners` is outside 1 to 999, or below 18 with planted cases.
    BadInput
        There is no such form, or the folder holds something else or cannot be written.
    """
    if not 1 <= learners <= MOST_LEARNERS:
        raise OutOfRange("learners", f"between 1 and {MOST_LEARNERS}", learners, "Choose the size of a class.")
    if form not in _FORMS:
        raise BadInput(f"There is no form {form!r} of hand-in. Choose one of {', '.join(_FORMS)}.")
    if planted and form != "zip":
        raise BadInput("Planted cases are handed in as zips. Leave the form out.")
    if planted and learners < cases.FEWEST:
        raise OutOfRange("learners", f"{cases.FEWEST} or more with planted cases", learners, "Make the class larger.")
    try:
        _clear(out)
        (out / HAND_INS).mkdir()
        people = invented_class(learners, seed, planted=planted, lessons=lessons)
        if planted:
            _plant(out, people, lessons)
        for person in [] if planted else people:
            _FORMS[form](out / HAND_INS, person, _written(person))
        enrolled = [p.learner for n, p in enumerate(people, start=1) if not (planted and n == cases.NOT_ENROLLED)]
        _write_csv(out / ROSTER, ["learner", "class_word"], [[who, CLASS_WORD] for who in enrolled])
        _write_csv(out / TRUTH, ["learner", "exercise", "first_score", "last_score"], _truth_rows(people))
    except OSError as error:
        raise BadInput(
            f"{out.name}: cannot be written ({error.strerror}). Name a folder where you may write."
        ) from None


def _plant(out: Path, people: Sequence[Apprentice], lessons: Sequence[str]) -> None:
    """Write the hand-ins of a class with planted cases, the codes an instructor noted, and what was planted."""
    codes: list[list[str]] = []
    by_number: dict[int, Files] = {}
    for number, person in enumerate(people, start=1):
        cases.change_work(person, number)
        written = _written(person)
        codes += [] if number == cases.NOTHING_OWN else cases.noted_codes(person.learner, written)
        by_number[number] = cases.change_files(written, number)
    for number, person in enumerate(people, start=1):
        folder = out / HAND_INS
        if number == cases.NOTHING_OWN:
            person.truths.clear()
            double = people[cases.DOUBLE - 1]
            _zip_file(folder / f"{person.learner}-{_HANDED_IN}.zip", double, by_number[cases.DOUBLE])
            continue
        _as_zip(folder, person, by_number[number])
        if number == cases.FEWER:
            _zip_file(folder / f"{person.learner}-{_AGAIN}.zip", person, cases.shortened(by_number[number]))
    planted = [[people[c.number - 1].learner, c.flag, c.name] for c in cases.CASES]
    _write_csv(out / "planted.csv", ["learner", "flag", "case"], planted)
    _write_csv(out / "codes.csv", ["learner", "lesson", "code", "noted at"], codes)
    text = cases.class_file(CLASS_WORD, len(_lessons(lessons)), lessons)
    (out / "class.toml").write_text(text, encoding="utf-8", newline="\n")


def _clear(out: Path) -> None:
    out.mkdir(parents=True, exist_ok=True)
    if (out / NOTE).is_file():
        shutil.rmtree(out / HAND_INS, ignore_errors=True)
    elif any(out.iterdir()):
        raise BadInput(f"{out.name}: is not empty and no rehearsal made it. Name a new folder.")
    (out / NOTE).write_text(_NOTE_TEXT, encoding="utf-8", newline="\n")


def invented_class(learners: int, seed: int, *, planted: bool = False, lessons: Sequence[str] = ()) -> list[Apprentice]:
    """Return the learners after their work.

    Some leave exercises out, some work on two machines; the fourth is hasty, the sixth copies figures.
    """
    # By name, so that a new exercise changes nothing about the others.
    hardness = {id: 0.45 * Random(f"bitepoint/{seed}/{id}").random() ** 2 for id in exercises()}
    people = []
    for number in range(1, learners + 1):
        rng = Random(f"bitepoint/{seed}/{number}")
        word = cases.OTHER_WORD if planted and number == 10 else CLASS_WORD
        habit = _planted_habit(number, rng) if planted else _habit(number, rng)
        person = Apprentice(word, learner_id(CLASS_WORD, number), habit, rng)
        person.work(_lessons(lessons), hardness)
        people.append(person)
    return people


def _habit(number: int, rng: Random) -> Habit:
    return Habit(
        ability=0.5 + 0.5 * rng.random(),
        two_devices=number % 5 == 2,
        hasty=number == 4,
        stops_early=number % 7 == 3,
        copies=learner_id(CLASS_WORD, 5) if number == 6 else "",
    )


def _planted_habit(number: int, rng: Random) -> Habit:
    """Return a habit that leaves enough work for the case that is planted."""
    planted = {case.number for case in cases.CASES if case.flag}
    return msgspec.structs.replace(
        _habit(number, rng),
        two_devices=number % 5 == 2 and number not in planted,
        stops_early=number % 7 == 3 and number not in planted,
        typed_ahead=number == 15,
    )


def _lessons(keys: Sequence[str]) -> Sequence[Sequence[Exercise]]:
    found: dict[str, list[Exercise]] = {}
    for exercise in exercises().values():
        if keys and exercise.lesson not in keys:
            continue
        found.setdefault(exercise.lesson, []).append(exercise)
    return list(found.values())


def _written(person: Apprentice) -> Files:
    files: Files = {}
    for name, all_fields in person.files():
        prev, lines = "", []
        for n, fields in enumerate(all_fields, start=1):
            lines.append(write_line(fields, n=n, prev=prev))
            prev = json.loads(lines[-1])["hash"]
        files[name] = lines
    return files


def _truth_rows(people: Sequence[Apprentice]) -> list[list[str]]:
    rows = []
    place = {id: i for i, id in enumerate(exercises())}
    for person in sorted(people, key=lambda p: p.learner.casefold()):
        for truth in sorted(person.truths, key=lambda t: place[t.exercise]):
            rows.append([person.learner, truth.exercise, decimal(truth.first_score), decimal(truth.last_score)])
    return rows


def _write_csv(path: Path, columns: list[str], rows: list[list[str]]) -> None:
    with open(path, "w", encoding="utf-8", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(columns)
        writer.writerows(rows)


def _text(lines: list[str]) -> str:
    return "".join(f"{line}\n" for line in lines)


def _as_folder(folder: Path, person: Apprentice, files: Files) -> None:
    workbook = folder / person.learner
    (workbook / FOLDER).mkdir(parents=True)
    write_identity(Identity(learner=person.learner, class_word=person.class_word), workbook)
    for name, lines in files.items():
        (workbook / FOLDER / f"{name}.jsonl").write_text(_text(lines), encoding="ascii", newline="\n")


def _as_zip(folder: Path, person: Apprentice, files: Files) -> None:
    _zip_file(folder / f"{person.learner}-{_HANDED_IN}.zip", person, files)


def _zip_file(path: Path, person: Apprentice, files: Files) -> None:
    who = f'learner = "{person.learner}"\nclass_word = "{person.class_word}"\n'
    with zipfile.ZipFile(path, "w") as archive:
        contents = {FILE: who, **{f"{FOLDER}/{name}.jsonl": _text(lines) for name, lines in files.items()}}
        for name, text in contents.items():
            archive.writestr(zipfile.ZipInfo(name, _PACKED), text, zipfile.ZIP_DEFLATED)


def _as_logbooks(folder: Path, person: Apprentice, files: Files) -> None:
    for name, lines in files.items():
        (folder / f"{person.learner}.{name}.jsonl").write_text(_text(lines), encoding="ascii", newline="\n")


def _as_notebooks(folder: Path, person: Apprentice, files: Files) -> None:
    (folder / person.learner).mkdir()
    by_lesson: dict[str, list[str]] = {}
    for name, lines in files.items():
        by_lesson.setdefault(name.partition(".")[0], []).extend(lines)
    for lesson, lines in by_lesson.items():
        known = LESSONS.get(lesson)
        name = known.notebook if known else f"{lesson}.ipynb"
        text = json.dumps(_notebook(lesson, lines), ensure_ascii=False, indent=1)
        (folder / person.learner / name).write_text(text + "\n", encoding="utf-8", newline="\n")


def _notebook(lesson: str, lines: list[str]) -> dict[str, object]:
    by_exercise: dict[str, list[str]] = {}
    for line in lines:
        by_exercise.setdefault(json.loads(line)["exercise"], []).append(line)
    title = {"cell_type": "markdown", "id": "title", "metadata": {}, "source": f"# Lesson {lesson} (rehearsed)"}
    cells = [_cell(i, exercise, own) for i, (exercise, own) in enumerate(by_exercise.items(), start=1)]
    kernel = {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}
    return {"cells": [title, *cells], "metadata": kernel, "nbformat": 4, "nbformat_minor": 5}


def _cell(count: int, exercise: str, lines: list[str]) -> dict[str, object]:
    data = {"text/plain": f"{exercise}: {len(lines)} answers recorded", MIME: {"lines": lines}}
    return {
        "cell_type": "code",
        "execution_count": count,
        "id": f"ask-{count}",
        "metadata": {},
        "outputs": [{"data": data, "metadata": {}, "output_type": "display_data"}],
        "source": f'ask("{exercise}")',
    }


_FORMS: dict[str, Callable[[Path, Apprentice, Files], None]] = {
    "zip": _as_zip,
    "folder": _as_folder,
    "logbook": _as_logbooks,
    "notebook": _as_notebooks,
}
