"""What to send a practising fitter: the course's claims, each to agree with or not, a file a lesson and one for the rules."""

from pathlib import Path

from bitepoint.bank.lessons import LESSONS
from bitepoint.classroom.claims import ClaimSection, lesson_sections, rule_sections
from bitepoint.classroom.render import Paper, render
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step

RULES = "review-rules"


def review_page(name: str, *, paper: Paper = "A4") -> str:
    """Return the page of a lesson (by its key), or of the rules, to be read by a practising fitter.

    Parameters
    ----------
    name : str
        Key of a lesson, or RULES.
    paper : "A4" or "letter"
        Page size; the pages lie on their side.
    """
    if name == RULES:
        return _page("Rules behind the exercises and drills", rule_sections(), paper)
    lesson = LESSONS[name]
    return _page(f"Lesson {lesson.notebook[:2]}: {lesson.title}", lesson_sections(name), paper)


def _page(title: str, sections: tuple[ClaimSection, ...], paper: Paper) -> str:
    return render("review.html.jinja", paper=paper, title=title, sections=sections)


def write_review(out: Path, *, paper: Paper = "A4") -> list[Path]:
    """Write the pages of every lesson and of the rules into a folder and return the files.

    Raises
    ------
    BadInput
        The folder's name is that of a file.
    """
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for what is to be read: --out to-read")
    names = {key: f"review-{lesson.notebook[:2]}" for key, lesson in LESSONS.items()} | {RULES: RULES}
    pages = {file: review_page(name, paper=paper) for name, file in names.items()}
    out.mkdir(parents=True, exist_ok=True)
    for file, page in pages.items():
        write_in_one_step(out / f"{file}.html", page.encode("utf-8"))
    return [out / f"{file}.html" for file in pages]
