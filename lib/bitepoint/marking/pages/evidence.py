"""The record of evidence: one page about one learner, to be signed and kept."""

from datetime import datetime

from bitepoint.bank.lessons import LESSONS
from bitepoint.marking.pages.assessor import observed
from bitepoint.marking.pages.render import moment, render
from bitepoint.marking.result import Result, SittingWork

_MOST = 14
"""So many criteria fit on the page; the rest stand on the assessor's page, and the record says how many."""


def evidence_page(result: Result, marked: datetime) -> str:
    """Return the record to sign; `marked` is when it was marked."""
    criteria = observed(result)
    return render(
        "evidence.html.jinja",
        result=result,
        marked=moment(marked),
        counted=result.sat.counted if result.sat else result.counted,
        sittings=[(s, _when(s), _lessons(s)) for s in result.sittings],
        criteria=criteria[:_MOST],
        more=len(criteria[_MOST:]),
        declarations=[e for e in result.entries if e.kind == "declaration"],
        decisions=[e for e in result.entries if e.kind == "decision"][-3:],
        overrides=sum(row.override is not None for row in (*result.rows, *result.sitting_rows)),
    )


def _when(sitting: SittingWork) -> str:
    return moment(sitting.begins.astimezone()) if sitting.begins else "not in the register"


def _lessons(sitting: SittingWork) -> str:
    return ", ".join(LESSONS[key].title if key in LESSONS else key for key in sitting.lessons) or "all lessons"
