"""The report and a page for each learner: one file each, no script, nothing fetched, every text escaped."""

from collections.abc import Callable, Sequence
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from bitepoint.bank import exercises
from bitepoint.bank.corrections import withdrawal_of, withdrawals
from bitepoint.bank.coverage import left_out, not_covered
from bitepoint.bank.version import bank_digest
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.figures.sampling import plan
from bitepoint.marking.figures.statistics import LOW
from bitepoint.marking.figures.teaching import by_outcome, next_practice, oral_questions, reteach
from bitepoint.marking.line_marking import MarkedLine, asked_text, drawn_for
from bitepoint.marking.marks import decimal
from bitepoint.marking.moderation.agreement import compared, in_words
from bitepoint.marking.moved import MovedResult
from bitepoint.marking.passing import OBSERVATION, latest_observations
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.result import OUTCOMES, Result, shown_answer
from bitepoint.marking.summary import ClassSummary
from bitepoint.marking.version import VERSION
from bitepoint.templates import environment

if TYPE_CHECKING:
    from jinja2 import Environment

    from bitepoint.marking.classwork import ClassWork

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
    filters: dict[str, Callable[..., str]] = {
        "decimal": decimal,
        "day": _day,
        "minutes": lambda s: f"{s / 60:.1f}",
        "percent": lambda share: f"{100 * share:.0f} %",
    }
    return environment(Path(__file__).parent, filters=filters)


def _day(at: str) -> str:
    try:
        day = date.fromisoformat(at[:10])
    except ValueError:
        return "an unreadable date"
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def render(template: str, **values: Any) -> str:
    common = {
        "training": TRAINING,
        "practice_only": PRACTICE_ONLY,
        "observation": OBSERVATION,
        "version": VERSION,
        "bank": bank_digest(),
        "outcomes": OUTCOMES,
    }
    return _environment().get_template(template).render(**common, **values)


def report_page(
    summary: ClassSummary,
    problems: list[str],
    *,
    sources: int,
    with_roster: bool,
    work: "ClassWork",
    moved: Sequence[MovedResult] = (),
) -> str:
    """Return report.html: the class in figures, where it is stuck, what to look at, every learner."""
    answered = summary.answered_exercises()
    items = summary.items.lines()
    return render(
        "report.html.jinja",
        summary=summary,
        problems=problems,
        sources=sources,
        with_roster=with_roster,
        answered=answered,
        stuck=summary.stuck(),
        exercise_count=len({e.id for e in work.rules.assessed()} | {e.id for e in answered}),
        rules=work.rules,
        reteach=reteach(answered),
        items=items,
        odd=sorted((i for i in items if i.stands_out), key=lambda i: (i.discrimination or 0, i.id)),
        low=[i for i in items if i.says == LOW],
        few=[i for i in items if i.says.startswith("too few")],
        sampled=plan(summary.candidates),
        class_entries=[e for e in work.entries if not e.learner],
        gone=[e for e in work.entries if e.kind == "deletion"],
        entry_count=len(work.entries),
        moved=moved,
        compared=summary.compared,
        agreed_in=in_words(summary.compared),
        withdrawn=[w for w in withdrawals() if w.exercise in {e.id for e in answered}],
        left_out=left_out(work.rules.vehicles, work.rules.lessons),
        not_covered=not_covered(work.rules.vehicles, work.rules.lessons),
    )


def learner_page(result: Result) -> str:
    """Return the page of one learner."""
    known = exercises()
    answered = {r.exercise for r in result.shown_rows}
    asked = [e for e in result.rules.assessed() if not withdrawal_of(e.id, e.revision)]
    left = [e for e in asked if e.id not in answered]
    twice = compared(result)
    changed = [_changed(line, result.cars, result.cards.get(line.record.exercise, "")) for line in result.changed]
    return render(
        "learner.html.jinja",
        result=result,
        counted=result.counted,
        exercises=known,
        left=left,
        asked_count=len(answered) + len(left),
        changed=changed,
        practice=next_practice(result),
        by_outcome=by_outcome(result),
        oral=oral_questions(result),
        criteria=_criteria(result),
        boxes=_boxes(result),
        compared=twice,
        agreed_in=in_words(twice),
        given=[e for e in result.entries if e.kind in ("override", "withdraw override", "resolution")],
    )


def _criteria(result: Result) -> list[tuple[str, Entry | None]]:
    """Return each criterion of the class, and any other that was observed, with its newest observation."""
    found = latest_observations(result.entries)
    listed: list[tuple[str, Entry | None]] = [(c, found.pop(c.strip().casefold(), None)) for c in result.rules.criteria]
    return listed + [(e.criterion, e) for e in found.values()]


BOXES = (
    ("declaration", "Learner’s declaration: this is my own work"),
    ("sitting", "Supervised sitting"),
    ("decision", "Assessor’s decision"),
    ("verification", "Verification"),
    ("adjustment", "Adjustment given"),
    ("resubmission", "Resubmission"),
    ("appeal", "Appeal"),
    ("code", "Check codes noted"),
    ("second mark", "Second marking"),
)


def _boxes(result: Result) -> list[tuple[str, list[Entry]]]:
    """Return a box for each kind of entry: what is recorded, or nothing, to be filled in by hand."""
    return [(title, [e for e in result.entries if e.kind == kind]) for kind, title in BOXES]


def _changed(line: MarkedLine, cars: ClassCars, card: str) -> dict[str, Any]:
    question = drawn_for(line.record, cars)
    return {
        "record": line.record,
        "answer": shown_answer(line.record.answer),
        "now": line.now,
        "ask": question.ask if question else "",
        "asked": asked_text(line.record, cars),
        "card": card,
    }
