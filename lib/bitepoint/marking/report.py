"""The report and a page for each learner: one file each, no script, nothing fetched, every text escaped."""

from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bitepoint.bank import exercises
from bitepoint.marking.marks import decimal
from bitepoint.marking.remark import MarkedLine, drawn_for
from bitepoint.marking.result import OBSERVATION, OUTCOMES, Result, shown_answer
from bitepoint.marking.summary import ClassSummary
from bitepoint.marking.version import VERSION

if TYPE_CHECKING:
    from jinja2 import Environment

TRAINING = "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR"
PRACTICE_ONLY = (
    "Unsupervised work is practice evidence only. It shows what was practised, not who did it, and not what "
    "a learner can do at a vehicle. For that it takes a supervised sitting, a declaration and observation at "
    "the vehicle."
)


_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


@lru_cache(maxsize=1)
def _environment() -> "Environment":
    from jinja2 import Environment, FileSystemLoader, StrictUndefined

    found = Environment(
        loader=FileSystemLoader(Path(__file__).parent, encoding="utf-8"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    found.filters["decimal"] = decimal
    found.filters["day"] = _day
    found.filters["percent"] = lambda share: f"{100 * share:.0f} %"
    return found


def _day(at: str) -> str:
    try:
        day = date.fromisoformat(at[:10])
    except ValueError:
        return "an unreadable date"
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def _render(template: str, **values: Any) -> str:
    common = {
        "training": TRAINING,
        "practice_only": PRACTICE_ONLY,
        "observation": OBSERVATION,
        "version": VERSION,
        "outcomes": OUTCOMES,
    }
    return _environment().get_template(template).render(**common, **values)


def report_page(summary: ClassSummary, problems: list[str], *, sources: int, with_roster: bool) -> str:
    """Return report.html: the class in figures, where it is stuck, what to look at, every learner."""
    return _render(
        "report.html.jinja",
        summary=summary,
        problems=problems,
        sources=sources,
        with_roster=with_roster,
        answered=summary.answered_exercises(),
        stuck=summary.stuck(),
        exercise_count=len(exercises()),
    )


def learner_page(result: Result) -> str:
    """Return the page of one learner."""
    known = exercises()
    left = [e for e in known.values() if e.id not in {r.exercise for r in result.rows}]
    changed = [_changed(line) for line in result.changed]
    return _render("learner.html.jinja", result=result, exercises=known, left=left, changed=changed)


def _changed(line: MarkedLine) -> dict[str, Any]:
    question = drawn_for(line.record)
    return {
        "record": line.record,
        "answer": shown_answer(line.record.answer),
        "now": line.now,
        "ask": question.ask if question else "",
    }
