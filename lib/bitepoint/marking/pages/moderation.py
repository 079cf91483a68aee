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

_MANY = 3
"""A note about more questions than these stands once."""
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
        "sheet.html": _sheet_page(plan, asked),
    }
    try:
        out.mkdir(parents=True, exist_ok=True)
        # A spreadsheet reads the letters of a CSV rightly only behind a byte-order mark.
        encoded = {out / n: t.encode("utf-8-sig" if n.endswith(".csv") else "utf-8") for n, t in texts.items()}
        write_together(encoded)
    except OSError as error:
        raise BadInput(f"{out}: cannot be written ({error.strerror}). Name another folder with --out.") from None
    return list(encoded)


def _sheet_page(plan: Plan, asked: Sequence[AsAsked]) -> str:
    """Return the sheet as a page; what many questions say of their words stands once at its head, with their numbers."""
    shown = _shown(plan.answers, asked)
    by_note: dict[str, list[int]] = {}
    for n, answer in enumerate(shown, start=1):
        by_note.setdefault(str(answer["where"]), []).append(n)
    notes = [(note, numbers) for note, numbers in by_note.items() if note and len(numbers) > _MANY]
    folded = {note for note, _ in notes}
    answers = [a | {"where": "" if a["where"] in folded else a["where"]} for a in shown]
    said = [(note, "all" if len(numbers) == len(shown) else _ranges(numbers)) for note, numbers in notes]
    return render("blind-sheet.html.jinja", seed=plan.seed, answers=answers, notes=said)


def _ranges(numbers: Sequence[int]) -> str:
    """Return rising numbers with runs drawn together.

    Examples
    --------
    >>> _ranges([1, 2, 3, 7, 9, 10])
    '1 to 3, 7, 9 to 10'
    """
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(str(a) if a == b else f"{a} to {b}" for a, b in runs)


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
