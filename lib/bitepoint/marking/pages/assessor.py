"""The page about a learner that is for the assessor: everything that marking found, with questions to ask."""

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from bitepoint.bank import exercises
from bitepoint.marking.class_cars import ClassCars
from bitepoint.marking.figures.teaching import by_outcome, next_practice, oral_questions
from bitepoint.marking.line_marking import MarkedLine, asked_text, drawn_for
from bitepoint.marking.moderation.agreement import compared, in_words
from bitepoint.marking.pages.asked import asked_of
from bitepoint.marking.pages.asked_again import asked_again
from bitepoint.marking.pages.render import moment, piece, pieces, render
from bitepoint.marking.passing import latest_observations
from bitepoint.marking.progress import Progress
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.result import Result, Row
from bitepoint.marking.rows import shown_answer

if TYPE_CHECKING:
    from markupsafe import Markup


def assessor_page(result: Result, marked: datetime, progress: Progress | None = None) -> str:
    """Return the assessor's page about one learner; `marked` is when it was marked, `progress` what moved since an earlier day."""
    twice, answered = compared(result), {r.exercise for r in result.shown_rows}
    left = [e for e in asked_of(result.rules) if e.id not in answered]
    at_once, apart = _parted(result.rows)
    changed = [_changed(line, result.cars, result.cards.get(line.record.exercise, "")) for line in result.changed]
    return render(
        "assessor.html.jinja",
        result=result,
        marked=moment(marked),
        counted=result.counted,
        first_count=sum(row.outcome == "right at first try" for row in result.rows),
        at_once=[row.exercise for row in at_once],
        apart=[(*_cells(row), row) for row in apart],
        wrong=[row for row in result.rows if row.says],
        exercises=exercises(),
        left=pieces("left", ((e.id, e.outcome) for e in left)),
        asked_count=len(answered) + len(left),
        changed=changed,
        practice=next_practice(result),
        again=asked_again(result),
        progress=progress,
        by_outcome=pieces("outcome", by_outcome(result)),
        oral=oral_questions(result),
        criteria=observed(result),
        boxes=_boxes(result),
        compared=twice,
        agreed_in=in_words(twice),
        given=[e for e in result.entries if e.kind in ("override", "withdraw override", "resolution")],
    )


def _parted(rows: Sequence[Row]) -> tuple[list[Row], list[Row]]:
    """Return the rows that say nothing but that one answer was given and was right, which are listed together, and the others."""
    at_once: list[Row] = []
    apart: list[Row] = []
    for row in rows:
        (at_once if _at_once(row) else apart).append(row)
    return at_once, apart


def _cells(row: Row) -> tuple["Markup", "Markup"]:
    """Return the cells of a row that stand the same for many learners."""
    about = exercises()[row.exercise].outcome
    return (
        piece("stands", row.exercise, about, row.outcome, row.critical_open),
        piece("figures", row.first_score, row.mark, row.tries, row.turns, row.solutions_seen),
    )


def _at_once(row: Row) -> bool:
    seen = (row.first_score, row.last_score, row.tries, row.turns, row.solutions_seen)
    return seen == (1, 1, 1, 1, 0) and not (row.override or row.critical_open or row.withdrawn or row.critical_dropped)


def observed(result: Result) -> list[tuple[str, Entry | None]]:
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
