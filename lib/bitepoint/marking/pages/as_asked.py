"""A page of a learner's answers, each with its question as it was read, for whoever answers an appeal."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from bitepoint.bank import exercises
from bitepoint.bank.corrections import correction_since, withdrawal_of
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.marking.appeals import AnsweredQuestion, Section, Try, sections
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.line_marking import MarkedLine, mark_line
from bitepoint.marking.pages.render import render
from bitepoint.marking.pages.solutions import picture_of
from bitepoint.marking.reading.handins import find_sources, read_source
from bitepoint.marking.registry.entries import Entry, deleted
from bitepoint.marking.roster import key_of
from bitepoint.marking.rows import shown_answer
from bitepoint.marking.scoring import rule_of
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

_MOST_MISTAKES = 6


def write_as_asked(
    out: Path,
    inputs: Sequence[Path],
    *,
    learner: str,
    exercise: str = "",
    cars: ClassCars = ORDINARY,
    entries: Sequence[Entry] = (),
) -> int:
    """Write the page of a learner's answers and return how many there are.

    Parameters
    ----------
    out : Path
        The page; one of that name is replaced.
    inputs : sequence of Path
        Hand-ins, as for marking.
    learner, exercise : str
        Whose answers, and to which exercise; "" : to all.
    entries : sequence of Entry
        The register: sittings, overrides, the appeal itself.

    Raises
    ------
    BadInput
        The learner was deleted on request, there are no such answers, or the page cannot be written.
    """
    refuse_deleted(learner, entries)
    lines = _lines(inputs, learner, exercise, cars)
    if not lines:
        of = f" to {exercise[:60]}" if exercise else ""
        raise BadInput(f"No answer of {learner[:40]}{of} was handed in there. Check learner, exercise and folder.")
    found = [_shown(section) for section in sections(learner, lines, cars, entries)]
    page = render("as-asked.html.jinja", learner=learner, sections=found)
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        write_in_one_step(out, page.encode("utf-8"))
    except OSError as error:
        raise BadInput(f"{out}: cannot be written ({error.strerror}). Name another file with --out.") from None
    return len(lines)


def refuse_deleted(learner: str, entries: Sequence[Entry]) -> None:
    """Refuse to print anything of who was deleted on request.

    Raises
    ------
    BadInput
        This learner was.
    """
    if entry := deleted(entries).get(key_of(learner)):
        raise BadInput(f"{entry.learner} was deleted on request on {entry.date}. Nothing is printed of them.")


def _lines(inputs: Sequence[Path], learner: str, exercise: str, cars: ClassCars) -> list[MarkedLine]:
    found: dict[str, MarkedLine] = {}
    for source in find_sources(inputs)[0]:
        for hand_in in read_source(source):
            for line in hand_in.lines:
                record = line.record
                wanted = record and key_of(record.learner) == key_of(learner) and exercise in ("", record.exercise)
                if record and wanted:
                    found.setdefault(record.hash, mark_line(line, cars))
    return list(found.values())


def _shown(section: Section) -> dict[str, Any]:
    known = exercises().get(section.exercise)
    return {
        "id": section.exercise[:60],
        "title": known.title if known else section.exercise[:60],
        "stands": section.stands,
        "appeals": section.appeals,
        "questions": [_question(asked) for asked in section.questions],
    }


def _question(asked: AnsweredQuestion) -> dict[str, Any]:
    one, record, question = asked.one, asked.one.line.record, asked.one.question
    return {
        "record": record,
        "where": one.where,
        "question": question,
        "offer": kind_of(question).offered(question) if question else [],
        "picture": picture_of(question) if question else None,
        "rule": rule_of(question) if question else "",
        "right": question.mark(question.right_answer()).understood if question else "",
        "key": _key(question) if question else [],
        "corrected": correction_since(record.exercise, record.revision),
        "withdrawn": withdrawal_of(record.exercise, record.revision),
        "tries": [_try(one) for one in asked.tries],
    }


def _key(question: Question) -> list[dict[str, Any]]:
    """Return the first known mistakes with what each of them scores."""
    found = []
    for answer, name in question.known_mistakes()[:_MOST_MISTAKES]:
        verdict = question.mark(answer)
        found.append({"answer": verdict.understood, "name": name, "score": verdict.score, "critical": verdict.critical})
    return found


def _try(one: Try) -> dict[str, Any]:
    record, verdict = one.line.record, one.line.verdict
    return {
        "record": record,
        "verdict": verdict,
        "answer": verdict.understood if verdict and verdict.understood else shown_answer(record.answer),
        "changed": one.line.changed,
        "counts": one.counts,
    }
