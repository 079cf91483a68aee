"""The plan and the blind sheet as tables: the question as it was read, the answer, and no mark."""

import csv
import io
from collections.abc import Iterable, Sequence

from bitepoint.marking.as_asked import AsAsked
from bitepoint.marking.marks import cell
from bitepoint.marking.moderation.answers import ToMark
from bitepoint.marking.moderation.plan import Plan
from bitepoint.marking.rows import shown_answer
from bitepoint.marking.scoring import rule_of
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

SHEET = ("no", "learner", "sitting", "exercise", "question", "answer", "rule", "mark", "reason")
PLAN = ("learner", "why", "answers")


def plan_table(plan: Plan) -> str:
    """Return plan.csv: whom, why, and how many answers."""
    counts = {c.learner: sum(a.learner == c.learner for a in plan.answers) for c in plan.chosen}
    return _table(PLAN, ([c.learner, "; ".join(c.reasons), str(counts[c.learner])] for c in plan.chosen))


def sheet_table(answers: Sequence[ToMark], asked: Sequence[AsAsked]) -> str:
    """Return sheet.csv: a row for each answer; mark and reason are empty, for the second marker."""
    rows = (
        [str(n), a.learner, a.word, a.exercise, _words(one), answer_words(a), _rule(one), "", ""]
        for n, (a, one) in enumerate(zip(answers, asked, strict=True), start=1)
    )
    return _table(SHEET, rows)


def answer_words(answer: ToMark) -> str:
    """Return an answer as it was understood, with nothing about whether it is right."""
    verdict = answer.line.verdict
    return verdict.understood if verdict and verdict.understood else shown_answer(answer.line.record.answer)


def _rule(one: AsAsked) -> str:
    return rule_of(one.question) if one.question else ""


def _words(one: AsAsked) -> str:
    if one.question is None:
        return one.where
    return " / ".join(_parts(one.question))


def _parts(question: Question) -> Iterable[str]:
    yield from (part for part in question.ask.split("\n\n") if part)
    yield from (" | ".join(row) for row in question.table)
    yield from (f"{letter}: {text}" for letter, text in kind_of(question).offered(question))
    if question.picture:
        yield "(with a picture: see the page)"


def _table(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(columns)
    writer.writerows([cell(one) for one in row] for row in rows)
    return text.getvalue()
