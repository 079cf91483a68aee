"""The lesson of a college's own questions: a notebook made from its file, put into a workbook like a lesson of the course."""

import json
import re
from math import ceil
from pathlib import Path
from typing import Any

from bitepoint.bank.lessons import OWN_NOTEBOOK, lessons_in_use
from bitepoint.bank.own import KEY, OwnQuestions, own_questions
from bitepoint.bank.own.rows import NO_SOURCE
from bitepoint.workbook import awake_lessons
from bitepoint.workbook.asleep import LINES, quiet_line
from bitepoint.workbook.canonical import KERNEL
from bitepoint.workbook.notebooks import Notebook
from bitepoint.workbook.shipped_lessons import read_lesson_files, write_lesson_files
from bitepoint.workbook.update import brought_up_to_date
from bitepoint.workshop.datafiles import DataFiles, using
from bitepoint.workshop.vehicles import FRAME

SETUP = "# Setup: wakes this page\nfrom bitepoint import ask, calculator, show, summary"
_LOCKED = {"deletable": False, "editable": False}
_HIDDEN = {**_LOCKED, "jupyter": {"source_hidden": True}}
_MARKS = re.compile(r"([\\`*_{}\[\]<>$#|~])")
_SAFETY = (
    "**Safety:** your vehicle's own repair data and local rules come first. The figures of these questions are for practice: "
    "take none of them for a car."
)


def own_lesson(files: DataFiles) -> Notebook | None:
    """Return the lesson of the own questions of a set of data files, in canonical form; None where it has none.

    Raises
    ------
    BadData
        The file of questions cannot be used.
    """
    with using(files):
        own = own_questions()
    return _notebook(own) if own else None


def put_own_lesson(folder: Path, files: DataFiles) -> list[str]:
    """Put the lesson of the own questions into a workbook, or bring it up to date; return what happened, in sentences.

    Only while no server of ours is open on the folder. One that the learner changed stays, the new one comes beside it.

    Raises
    ------
    BadData
        The file of questions cannot be used.
    OSError
        The folder cannot be written.
    """
    lesson = own_lesson(files)
    if lesson is None:
        return []
    record, target = read_lesson_files(folder), folder / OWN_NOTEBOOK
    if target.exists() or target.is_symlink():
        said = brought_up_to_date(target, lesson, record)
    else:
        said = f"{OWN_NOTEBOOK} was not there; a fresh one was put in." if OWN_NOTEBOOK in record.offered else ""
        record.offered[OWN_NOTEBOOK] = record.put_notebook(target, lesson)
    write_lesson_files(folder, record)
    return [said] if said else []


def know_own_lesson(awake: Path, files: DataFiles) -> None:
    """Let a page know the lesson of the own questions: `awake` is the list of lessons beside the extension that it loads.

    Raises
    ------
    BadData
        The file of questions cannot be used.
    OSError
        The list cannot be read or written.
    """
    with using(files):
        own, known = own_questions(), lessons_in_use()
    if own:
        found = json.loads(awake.read_text(encoding="utf-8"))
        whole = awake_lessons.with_own(found, known[KEY], own_cells(own))
        awake.write_text(awake_lessons.as_text(whole), encoding="utf-8", newline="\n")


def own_cells(own: OwnQuestions) -> list[str]:
    """Return the sources of the code cells of the lesson: what the page may run when it is opened."""
    return [SETUP, *(f'ask("{KEY}.{row.topic}")' for row in own.question), _summary()]


def _summary() -> str:
    return f'# Where you stand\nsummary("{KEY}")'


def _notebook(own: OwnQuestions) -> Notebook:
    setup, *asks, summary = own_cells(own)
    ids = [f"ask-{KEY}-{row.topic}" for row in own.question]
    count = len(asks)
    cells = [
        _words("title", _title(own)),
        _code("setup", setup, 1, _HIDDEN),
        _words("what-you-do", _what_you_do(own)),
        _words("outcomes", _outcomes(own)),
        *(_code(id, ask, n, {}, LINES["ask"]) for n, (id, ask) in enumerate(zip(ids, asks, strict=True), start=2)),
        _words("sources", _sources(own)),
        _code("summary", summary, count + 2, _HIDDEN, LINES["summary"]),
    ]
    return {"cells": cells, "metadata": {"kernelspec": dict(KERNEL)}, "nbformat": 4, "nbformat_minor": 5}


def _title(own: OwnQuestions) -> str:
    minutes = 5 * ceil(sum(row.minutes for row in own.question) / 5)
    paragraphs = [
        f"# {_plain(own.title)}",
        f"**Time: {minutes} minutes.**",
        "**You need:** paper, pencil, calculator.",
        _SAFETY,
    ]
    framed = [f"**{FRAME}**"] if any(row.sheet_paths for row in own.question) else []
    return "\n\n".join(paragraphs + framed)


def _what_you_do(own: OwnQuestions) -> str:
    count = len(own.question)
    many = "one question" if count == 1 else f"{count} questions"
    return (
        f"## What you will do\n\nYou answer {many} of your own college's, by {_plain(own.author)}, edition "
        f"{own.edition.isoformat()}. They are marked like those of the course; the course itself has not checked them."
    )


def _outcomes(own: OwnQuestions) -> str:
    found = dict.fromkeys(row.outcome for row in own.question)
    return "\n".join(["## What you will be able to do", "", *(f"* {_plain(outcome)}" for outcome in found)])


def _sources(own: OwnQuestions) -> str:
    named = dict.fromkeys(row.source for row in own.question)
    lines = [f"* {_plain(source[:1].upper() + source[1:] if source == NO_SOURCE else source)}" for source in named]
    end = "Repair data and workshop rules come first. In doubt: stop and ask. Practical observation is still required."
    return "\n".join(["## Sources and cautions", "", *lines, "", end])


def _plain(text: str) -> str:
    """Return a college's words as Markdown that shows them as they are."""
    return _MARKS.sub(r"\\\1", " ".join(text.split()))


def _words(id: str, text: str) -> dict[str, Any]:
    return {"cell_type": "markdown", "id": id, "metadata": dict(_LOCKED), "source": text.splitlines(keepends=True)}


def _code(id: str, source: str, count: int, metadata: dict[str, Any], line: str = "") -> dict[str, Any]:
    return {
        "cell_type": "code",
        "id": id,
        "metadata": dict(metadata),
        "source": source.splitlines(keepends=True),
        "execution_count": count,
        "outputs": [quiet_line(line)] if line else [],
    }
