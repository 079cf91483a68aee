"""Days, numbers and places of the course in the words of the page of recall."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from functools import lru_cache

from bitepoint.bank import exercises
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.bank.taught import Taught, read_taught, taught_file
from bitepoint.page.recall.going_round import local_date

NAMES_AT_MOST = 3


def day_words(at: datetime, now: datetime) -> str:
    """Return a day as it is said, such as "tomorrow, Monday 30 November"."""
    day = local_date(at)
    words = f"{day:%A} {day.day} {day:%B}"
    return f"tomorrow, {words}" if day - local_date(now) == timedelta(days=1) else f"on {words}"


def counted(number: int, one: str, many: str = "") -> str:
    """Return a number with its word, such as "1 question" and "2 questions"."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def titles(ids: Sequence[str]) -> str:
    """Return the titles of the first exercises, three at most; some of them end with a question mark."""
    return ", ".join(quoted(exercises()[id].title) for id in ids[:NAMES_AT_MOST])


def quoted(title: str) -> str:
    """Return a title in quotation marks."""
    return f"“{title}”"


def read_again(exercise: str) -> tuple[str, str]:
    """Return where an exercise was taught: the title of the lesson, and the address of the cell from the course's own folder."""
    taught = _taught(exercise)
    lesson = lessons_in_use()[taught.lesson if taught else exercise.partition(".")[0]]
    cell = taught.cell if taught else f"ask-{exercise.replace('.', '-')}"
    return lesson.title, f"{lesson.notebook}#cell-id={cell}"


@lru_cache(maxsize=64)
def _taught(exercise: str) -> Taught | None:
    path = taught_file(exercise.partition(".")[0])
    return next(iter(read_taught(path).get(exercise, ())), None) if path.is_file() else None
