"""The report of a class: one file, no script, nothing fetched, every text escaped."""

from collections.abc import Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from bitepoint.bank import exercises
from bitepoint.bank.corrections import withdrawals
from bitepoint.bank.coverage import left_out, not_covered
from bitepoint.marking.figures.forgetting import BANDS, FEWEST
from bitepoint.marking.figures.sampling import plan
from bitepoint.marking.figures.teaching import reteach
from bitepoint.marking.moderation.agreement import in_words
from bitepoint.marking.moved import MovedResult
from bitepoint.marking.pages.appeal_list import appeal_list
from bitepoint.marking.pages.dangers import grouped
from bitepoint.marking.pages.render import moment, numbered, render
from bitepoint.marking.summary import ClassSummary

if TYPE_CHECKING:
    from bitepoint.marking.classwork import ClassWork


def report_page(
    summary: ClassSummary,
    problems: list[str],
    *,
    sources: int,
    with_roster: bool,
    work: "ClassWork",
    marked: datetime,
    moved: Sequence[MovedResult] = (),
) -> str:
    """Return report.html: the class in figures, where it is stuck, what to look at, every learner.

    `marked` is when it was marked, with its zone.
    """
    answered = summary.answered_exercises()
    items = summary.items.lines()
    return render(
        "report.html.jinja",
        summary=summary,
        marked=moment(marked),
        class_words=sorted({x.class_word for x in summary.learners if x.class_word}),
        learners=sorted(summary.learners, key=lambda x: numbered(x.name)),
        dangers=grouped(summary.critical),
        flags=sorted(summary.flags, key=lambda f: numbered(f.learner)),
        missing=[(why, sorted(who, key=numbered)) for why, who in summary.missing().items()] if with_roster else [],
        problems=problems,
        work=work,
        sources=sources,
        answered=answered,
        stuck=summary.stuck(),
        exercise_count=len({e.id for e in work.rules.assessed()} | {e.id for e in answered}),
        rules=work.rules,
        reteach=[(r, [exercises()[id].title for id in r.exercises]) for r in reteach(answered)],
        recall=summary.forgetting,
        bands=BANDS,
        fewest=FEWEST,
        over_all=summary.forgetting.over_all(),
        forgotten=summary.forgetting.outcomes(answered),
        recall_dangers=sorted(summary.recall_dangers, key=lambda d: (d.put_right, numbered(d.learner))),
        titles={id: exercise.title for id, exercise in exercises().items()},
        items=items,
        odd=sorted((i for i in items if i.stands_out), key=lambda i: (i.item_rest or 0, i.id)),
        few=[i for i in items if i.says.startswith("too few")],
        sampled=sorted(plan(summary.candidates), key=lambda x: numbered(x.learner)),
        class_entries=[e for e in work.entries if not e.learner],
        appeals=appeal_list(work.entries),
        gone=[e for e in work.entries if e.kind == "deletion"],
        entry_count=len(work.entries),
        moved=moved,
        compared=summary.compared,
        agreed_in=in_words(summary.compared),
        withdrawn=[w for w in withdrawals() if w.exercise in {e.id for e in answered}],
        left_out=left_out(work.rules.vehicles, work.rules.lessons),
        not_covered=not_covered(work.rules.vehicles, work.rules.lessons),
    )
