"""docs/outcomes.md is current, and the map behind it names only what exists."""

from collections import Counter
from pathlib import Path

from bitepoint.bank import exercises
from bitepoint.bank.course_map import course_map
from bitepoint.bank.lessons import LESSONS
from bitepoint.workbook.documents import outcomes_page

DOCS = Path(__file__).parents[2] / "docs"


def test_the_page_is_current() -> None:
    """Run `python -m bitepoint.workbook.documents` after a change of lessons or exercises."""
    assert outcomes_page() == (DOCS / "outcomes.md").read_text(encoding="utf-8")


def test_every_lesson_says_what_it_serves_and_what_only_observation_shows() -> None:
    """No lesson stands outside the map."""
    assert set(LESSONS) - set(course_map().lessons) == set()


def test_every_outcome_has_two_exercises() -> None:
    """One exercise could be luck."""
    counted = Counter((e.lesson, e.outcome) for e in exercises().values())
    assert [key for key, count in counted.items() if count < 2] == []


def test_every_point_of_the_job_is_tested_by_exercises_that_exist() -> None:
    """A point of the job without an exercise would only be talked about."""
    known = set(exercises())
    assert len(course_map().points) >= 38
    assert [p.says for p in course_map().points if not p.exercises or set(p.exercises) - known] == []
