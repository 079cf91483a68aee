"""How an invented learner hands in: a zip, a workbook folder, single logbooks, or notebooks alone."""

import json
import zipfile
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from bitepoint.bank.lessons import lessons_in_use
from bitepoint.logbook.book import FOLDER
from bitepoint.logbook.identity import FILE, Identity, write_identity
from bitepoint.logbook.record import write_line
from bitepoint.marking.reading.notebooks import MIME
from bitepoint.marking.rehearsal.apprentice import Apprentice

_PACKED = (2026, 6, 30, 12, 0, 0)
HANDED_IN, AGAIN = "20260630-120000", "20260630-140000"

Files = dict[str, list[str]]
"""Logbook lines by `<lesson>.<device>`."""


def chained(answers: Sequence[dict[str, Any]]) -> list[str]:
    """Return answers as lines of one logbook."""
    prev, lines = "", []
    for n, fields in enumerate(answers, start=1):
        lines.append(write_line(fields, n=n, prev=prev))
        prev = json.loads(lines[-1])["hash"]
    return lines


def written(person: Apprentice) -> Files:
    """Return the logbooks of a learner."""
    return {name: chained(answers) for name, answers in person.files()}


def _text(lines: list[str]) -> str:
    return "".join(f"{line}\n" for line in lines)


def _as_folder(folder: Path, person: Apprentice, files: Files) -> None:
    workbook = folder / person.learner
    (workbook / FOLDER).mkdir(parents=True)
    write_identity(Identity(learner=person.learner, class_word=person.class_word), workbook)
    for name, lines in files.items():
        (workbook / FOLDER / f"{name}.jsonl").write_text(_text(lines), encoding="ascii", newline="\n")


def as_zip(folder: Path, person: Apprentice, files: Files) -> None:
    zip_file(folder / f"{person.learner}-{HANDED_IN}.zip", person, files)


def zip_file(path: Path, person: Apprentice, files: Files) -> None:
    who = f'learner = "{person.learner}"\nclass_word = "{person.class_word}"\n'
    with zipfile.ZipFile(path, "w") as archive:
        contents = {FILE: who, **{f"{FOLDER}/{name}.jsonl": _text(lines) for name, lines in files.items()}}
        for name, text in contents.items():
            archive.writestr(zipfile.ZipInfo(name, _PACKED), text, zipfile.ZIP_DEFLATED)


def _as_logbooks(folder: Path, person: Apprentice, files: Files) -> None:
    for name, lines in files.items():
        (folder / f"{person.learner}.{name}.jsonl").write_text(_text(lines), encoding="ascii", newline="\n")


def as_notebooks(folder: Path, person: Apprentice, files: Files) -> None:
    (folder / person.learner).mkdir()
    by_lesson: dict[str, list[str]] = {}
    for name, lines in files.items():
        by_lesson.setdefault(name.partition(".")[0], []).extend(lines)
    for lesson, lines in by_lesson.items():
        known = lessons_in_use().get(lesson)
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


FORMS: dict[str, Callable[[Path, Apprentice, Files], None]] = {
    "zip": as_zip,
    "folder": _as_folder,
    "logbook": _as_logbooks,
    "notebook": as_notebooks,
}
