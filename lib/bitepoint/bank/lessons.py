"""The lessons of the course: the key used in exercise ids and logbooks, the title and the notebook.

`LESSONS` are those that the course ships; `lessons_in_use()` adds the one of a college's own questions, where the data files in use
have some.
"""

from collections.abc import Mapping
from types import MappingProxyType

from msgspec import Struct

from bitepoint.bank.own import KEY, own_questions
from bitepoint.errors import BadInput
from bitepoint.workshop.datafiles import data_files, once_a_set


class Lesson(Struct, frozen=True):
    """One lesson; `key` is the first part of its exercises' ids."""

    key: str
    title: str
    notebook: str


LESSONS: dict[str, Lesson] = {
    lesson.key: lesson
    for lesson in (
        Lesson("start", "Start here", "00-start-here.ipynb"),
        Lesson("carry", "How a clutch carries torque", "01-how-a-clutch-carries-torque.ipynb"),
        Lesson("safe", "Work safely", "02-working-safely.ipynb"),
        Lesson("fault", "Find the fault", "03-finding-the-fault.ipynb"),
        Lesson("kit", "Find the right kit", "04-right-vehicle-right-kit.ipynb"),
        Lesson("strip", "Strip and inspect", "05-strip-down-and-inspection.ipynb"),
        Lesson("measure", "Measure it, then decide", "06-measuring-and-deciding.ipynb"),
        Lesson("torque", "Torque and the wrench", "07-torque-and-the-wrench.ipynb"),
        Lesson("star", "Tighten in a star", "08-star-tightening.ipynb"),
        Lesson("assembly", "Fit the new clutch", "09-assembly.ipynb"),
        Lesson("release", "Connect, bleed and judge the release system", "10-the-release-system.ipynb"),
        Lesson("refit", "Refit, prove the work, hand over", "11-refit-and-final-checks.ipynb"),
        Lesson("job", "The whole job", "12-the-whole-job.ipynb"),
    )
}

JOB_NOTEBOOK = "13-workshop-job"
"""How the notebook of a job on a car is called: it lies among the lessons, is none and is never handed in."""


KEEP_NOTEBOOK = "14-keep-it"
"""How the page of recall is called: it lies among the lessons and is none; what is answered there is in the logbook alone."""


OWN_NOTEBOOK = "15-class-questions.ipynb"


def lessons_in_use() -> Mapping[str, Lesson]:
    """Return the lessons of the data files in use by key: those of the course, then that of the own questions."""
    return LESSONS if data_files().is_shipped else _with_own()


@once_a_set
def _with_own() -> Mapping[str, Lesson]:
    own = own_questions()
    return MappingProxyType(LESSONS | ({KEY: Lesson(KEY, own.title, OWN_NOTEBOOK)} if own else {}))


def lesson(key: str) -> Lesson:
    """Return the lesson with this key.

    Raises
    ------
    BadInput
        There is no such lesson.
    """
    known = lessons_in_use()
    if key not in known:
        raise BadInput(f"There is no lesson {key!r}. Choose one of {', '.join(known)}.")
    return known[key]
