"""The bench sheets of a whole class in one file: who has which car, the sheets of each car, and each learner's own."""

from itertools import groupby
from pathlib import Path
from typing import Any

from bitepoint.bank.lessons import lessons_in_use
from bitepoint.classroom.bench_sheets.inspecting import looked_at, measuring_rows
from bitepoint.classroom.bench_sheets.observing import observed_criteria
from bitepoint.classroom.bench_sheets.sheets import SHEETS
from bitepoint.classroom.class_folder import ClassFolder
from bitepoint.classroom.render import Paper, render, render_block
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.workshop.hazards import LOCAL_RULES
from bitepoint.workshop.vehicles import Vehicle, vehicle

CAR_SHEETS = ("risk", "order-of-work", "tightening", "final-check")
"""Sheets that go with a car; the others are one learner's."""
NAME, SUPERVISOR = "class-sheets.html", "supervisor.html"


def class_page(group: ClassFolder, *, paper: Paper = "A4") -> str:
    """Return the sheets of a class as one page: a list of the cars, then what goes with each car, then each learner's.

    Parameters
    ----------
    group : ClassFolder
        The class; a learner whose car is not known raises `BadInput`.
    paper : "A4" or "letter"
        Page size.
    """
    lettered = [(group.letter_of(enrolled), enrolled.learner) for enrolled in group.learners]
    by_car = [
        (vehicle(letter), [who for _, who in pairs]) for letter, pairs in groupby(sorted(lettered), lambda p: p[0])
    ]
    return render(
        "class-sheets.html.jinja",
        paper=paper,
        title=f"Sheets: {group.title or group.class_word}",
        class_title=group.title,
        local_rules=LOCAL_RULES,
        cars=[{"v": v, "learners": who, "sheets": _of_car(v, paper)} for v, who in by_car],
        learners=[_of_learner(group, who, vehicle(letter)) for letter, who in lettered],
        tightening_style=render_block("tightening.html.jinja", "style", paper=paper),
    )


def supervisor_page(group: ClassFolder, *, paper: Paper = "A4") -> str:
    """Return the sheet for whoever supervises the class's sitting: the word, what to watch for, a line a learner."""
    keys = {e.lesson for e in group.rules.assessed()}
    titles = [lesson.title for key, lesson in lessons_in_use().items() if key in keys]
    return render(
        "supervisor.html.jinja",
        paper=paper,
        title=f"Sitting: {group.title or group.class_word}",
        class_title=group.title,
        group=group,
        lessons=titles,
    )


def write_class_sheets(group: ClassFolder, out: Path, *, paper: Paper = "A4") -> list[Path]:
    """Write the sheets of a class into a folder and return the files; of a sitting the supervisor's sheet alone.

    Raises
    ------
    BadInput
        A learner's car is not known, or the folder's name is that of a file; nothing is written then.
    """
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for the sheets: --out sheets")
    made = {SUPERVISOR: supervisor_page} if group.sitting else {NAME: class_page}
    pages = {name: page(group, paper=paper) for name, page in made.items()}
    out.mkdir(parents=True, exist_ok=True)
    for name, page in pages.items():
        write_in_one_step(out / name, page.encode("utf-8"))
    return [out / name for name in pages]


def _of_car(v: Vehicle, paper: Paper) -> list[tuple[str, str]]:
    found = []
    for key in CAR_SHEETS:
        title, more = SHEETS[key]
        found.append((title, render_block(f"{key}.html.jinja", "sheet", paper=paper, v=v, **more(v))))
    return found


def _of_learner(group: ClassFolder, learner: str, v: Vehicle) -> dict[str, Any]:
    return {
        "learner": learner,
        "v": v,
        "lines": measuring_rows(v),
        "parts": looked_at(v),
        "observed": observed_criteria(v, group.rules.criteria),
    }
