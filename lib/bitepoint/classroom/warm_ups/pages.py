"""A warm-up as three pages: screens for the wall, a sheet for the learners, and the answers for the instructor."""

from collections.abc import Collection, Sequence
from datetime import date
from pathlib import Path

from bitepoint.classroom.render import Paper, render
from bitepoint.classroom.warm_ups.missed import ClassMissed, read_missed
from bitepoint.classroom.warm_ups.questions import WarmUpQuestion, warm_up_questions
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.workshop.hazards import LOCAL_RULES

SCREENS, SHEET, ANSWERS = "warm-up-screens", "warm-up-sheet", "warm-up-answers"


def write_warm_up(
    results: Path,
    out: Path,
    *,
    cars: Sequence[str],
    day: date,
    title: str = "",
    paper: Paper = "A4",
    gone: Collection[str] = (),
) -> tuple[list[Path], ClassMissed]:
    """Write the three pages of a day's warm-up and return them with what they were made from.

    Raises
    ------
    BadInput
        There are no results, nothing was answered that can be asked, or the folder's name is that of a file.
    """
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for the warm-up: --out warm-up")
    missed = read_missed(results, gone=gone)
    questions = warm_up_questions(missed.exercises, class_word=missed.class_word, cars=cars, day=day)
    if not questions:
        raise BadInput(
            f"{results}: nobody has answered anything that a warm-up can ask. Let the class work on a lesson, mark, "
            "then run this again."
        )
    out.mkdir(parents=True, exist_ok=True)
    pages = []
    for name in (SCREENS, SHEET, ANSWERS):
        page = warm_up_page(name, questions, missed, day=day, title=title, paper=paper)
        write_in_one_step(out / f"{name}.html", page.encode("utf-8"))
        pages.append(out / f"{name}.html")
    return pages, missed


def warm_up_page(
    name: str, questions: Sequence[WarmUpQuestion], missed: ClassMissed, *, day: date, title: str, paper: Paper = "A4"
) -> str:
    """Return one of the three pages."""
    return render(
        f"warm_ups/{name}.html.jinja",
        paper=paper,
        title=f"Warm-up{f': {title}' if title else ''}",
        class_title=title,
        day=f"{day.day} {day:%B %Y}",
        questions=questions,
        from_recall=missed.from_recall,
        local_rules=LOCAL_RULES,
    )
