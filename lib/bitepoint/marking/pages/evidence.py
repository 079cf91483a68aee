"""The record of evidence: one page about one learner, to be signed and kept."""

from collections.abc import Sequence
from datetime import datetime

from bitepoint.bank.lessons import lessons_in_use
from bitepoint.marking.pages.assessor import observed
from bitepoint.marking.pages.render import moment, render
from bitepoint.marking.result import Result, SittingWork

_MOST, _MOST_DECISIONS, _MOST_SITTINGS, _LONGEST = 12, 2, 3, 160
"""So many criteria, decisions and sittings fit on the page; the rest stand on the assessor's page, and the record says so."""


def evidence_page(result: Result, marked: datetime) -> str:
    """Return the record to sign; `marked` is when it was marked."""
    criteria, decisions = observed(result), [e for e in result.entries if e.kind == "decision"]
    return render(
        "evidence.html.jinja",
        result=result,
        marked=moment(marked),
        counted=result.sat.counted if result.sat else result.counted,
        sittings=[(s, _when(s, marked), _lessons(s)) for s in result.sittings[-_MOST_SITTINGS:]],
        criteria=criteria[:_MOST],
        more=_more(criteria, decisions, result),
        longest=_LONGEST,
        declarations=result.declarations,
        none_counts="none that counts" if any(e.kind == "declaration" for e in result.entries) else "none recorded",
        decisions=decisions[-_MOST_DECISIONS:],
        overrides=sum(row.override is not None for row in (*result.rows, *result.sitting_rows)),
    )


def _more(criteria: Sequence[object], decisions: Sequence[object], result: Result) -> str:
    """Say what has no room on the page, "" when all has."""
    counted = {
        "criteria": len(criteria) - _MOST,
        "decisions": len(decisions) - _MOST_DECISIONS,
        "sittings": len(result.sittings) - _MOST_SITTINGS,
    }
    return ", ".join(f"{count} {what}" for what, count in counted.items() if count > 0)


def _when(sitting: SittingWork, marked: datetime) -> str:
    return moment(sitting.begins.astimezone(marked.tzinfo)) if sitting.begins else "not in the register"


def _lessons(sitting: SittingWork) -> str:
    if sitting.begins is None:
        return "not in the register"
    known = lessons_in_use()
    return ", ".join(known[key].title if key in known else key for key in sitting.lessons) or "all lessons"
