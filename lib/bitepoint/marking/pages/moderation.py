"""The plan of a second marking and the blind sheet, written as tables and as pages to print."""

from collections.abc import Sequence
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_together
from bitepoint.marking.as_asked import THESE_WORDS, AsAsked, as_asked, same_facts
from bitepoint.marking.moderation.answers import ToMark
from bitepoint.marking.moderation.plan import Plan
from bitepoint.marking.moderation.sheet import answer_words, plan_table, sheet_table
from bitepoint.marking.pages.render import render
from bitepoint.marking.pages.solutions import picture_of
from bitepoint.marking.scoring import rule_of
from bitepoint.questions.kinds import kind_of

_FILES = ("plan.csv", "plan.html", "sheet.csv", "sheet.html")


def write_plan(out: Path, plan: Plan) -> list[Path]:
    """Write plan.csv and plan.html, for whoever moderates, and sheet.csv and sheet.html, for the second marker.

    Raises
    ------
    BadInput
        A sheet is there already, in which somebody may have written, or the folder cannot be written.
    """
    there = [name for name in _FILES if (out / name).exists()]
    if there:
        raise BadInput(f"{out / there[0]} is there already, and marks may stand in it. Name another folder with --out.")
    asked = [same_facts(as_asked([a.line], plan.cars)[0], plan.cars) for a in plan.answers]
    texts = {
        "plan.csv": plan_table(plan),
        "plan.html": render("moderation-plan.html.jinja", plan=plan),
        "sheet.csv": sheet_table(plan.answers, asked),
        "sheet.html": render("blind-sheet.html.jinja", seed=plan.seed, answers=_shown(plan.answers, asked)),
    }
    try:
        out.mkdir(parents=True, exist_ok=True)
        # A spreadsheet reads the letters of a CSV rightly only behind a byte-order mark.
        encoded = {out / n: t.encode("utf-8-sig" if n.endswith(".csv") else "utf-8") for n, t in texts.items()}
        write_together(encoded)
    except OSError as error:
        raise BadInput(f"{out}: cannot be written ({error.strerror}). Name another folder with --out.") from None
    return list(encoded)


def _shown(answers: Sequence[ToMark], asked: Sequence[AsAsked]) -> list[dict[str, object]]:
    return [
        {
            "no": n,
            "about": a,
            "where": one.where if THESE_WORDS in one.where or one.question is None else "",
            "rule": rule_of(one.question) if one.question else "",
            "question": one.question,
            "offer": kind_of(one.question).offered(one.question) if one.question else [],
            "picture": picture_of(one.question) if one.question else None,
            "answer": answer_words(a),
        }
        for n, (a, one) in enumerate(zip(answers, asked, strict=True), start=1)
    ]
