"""The page of a class over the term: what moved for whom since the last marking of an earlier day."""

from collections.abc import Sequence
from datetime import datetime

from msgspec import Struct

from bitepoint.marking.pages.render import moment, numbered, render
from bitepoint.marking.progress import Progress
from bitepoint.marking.rules import ClassRules

FILE = "progress.html"


class ClassStep(Struct):
    """The class at one marking, summed up."""

    learners: int = 0
    right: int = 0
    dangerous: int = 0
    recalled: int = 0
    recalled_right: int = 0


def class_progress_page(found: Sequence[Progress], rules: ClassRules, marked: datetime) -> str:
    """Return progress.html."""
    compared = sorted((p for p in found if p.since), key=lambda p: (not p.moved, -_how_much(p), numbered(p.learner)))
    return render(
        "class-progress.html.jinja",
        compared=compared,
        count=len(found),
        days=sorted({p.since for p in compared}),
        steps=sorted(_steps(found).items()),
        rules=rules,
        marked=moment(marked),
    )


def _how_much(progress: Progress) -> int:
    moved = (progress.newly_right, progress.newly_dangerous, progress.put_right, progress.no_longer_right)
    return sum(map(len, moved))


def _steps(found: Sequence[Progress]) -> dict[str, ClassStep]:
    days: dict[str, ClassStep] = {}
    for step in (step for progress in found for step in progress.steps):
        total = days.setdefault(step.day, ClassStep())
        total.learners += 1
        total.right += step.right
        total.dangerous += step.dangerous
        total.recalled += step.recalled
        total.recalled_right += step.recalled_right
    return days
