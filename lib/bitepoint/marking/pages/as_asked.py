"""A page of a learner's answers, each with its question as it was read, for whoever answers an appeal."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from bitepoint.bank import exercises
from bitepoint.bank.corrections import correction_since, withdrawal_of
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.marking.as_asked import AsAsked, as_asked
from bitepoint.marking.class_cars import ORDINARY, ClassCars
from bitepoint.marking.line_marking import MarkedLine, mark_line
from bitepoint.marking.pages.render import render
from bitepoint.marking.pages.solutions import picture_of
from bitepoint.marking.reading.handins import find_sources, read_source
from bitepoint.marking.result import shown_answer
from bitepoint.marking.roster import key_of
from bitepoint.questions.kinds import kind_of


def write_as_asked(
    out: Path, inputs: Sequence[Path], *, learner: str, exercise: str = "", cars: ClassCars = ORDINARY
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

    Raises
    ------
    BadInput
        There are no such answers, or the page cannot be written.
    """
    lines = _lines(inputs, learner, exercise, cars)
    if not lines:
        of = f" to {exercise[:60]}" if exercise else ""
        raise BadInput(f"No answer of {learner[:40]}{of} was handed in there. Check learner, exercise and folder.")
    found = [_shown(one) for one in as_asked(lines, cars)]
    page = render("as-asked.html.jinja", learner=learner, answers=found)
    try:
        out.parent.mkdir(parents=True, exist_ok=True)
        write_in_one_step(out, page.encode("utf-8"))
    except OSError as error:
        raise BadInput(f"{out}: cannot be written ({error.strerror}). Name another file with --out.") from None
    return len(found)


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


def _shown(one: AsAsked) -> dict[str, Any]:
    record, verdict, question = one.line.record, one.line.verdict, one.question
    known = exercises().get(record.exercise)
    corrected, gone = (
        correction_since(record.exercise, record.revision),
        withdrawal_of(record.exercise, record.revision),
    )
    return {
        "title": known.title if known else record.exercise[:60],
        "record": record,
        "where": one.where,
        "question": question,
        "offer": kind_of(question).offered(question) if question else [],
        "picture": picture_of(question) if question else None,
        "answer": verdict.understood if verdict and verdict.understood else shown_answer(record.answer),
        "verdict": verdict,
        "right": question.mark(question.right_answer()).understood if question else "",
        "changed": one.line.changed,
        "corrected": corrected,
        "withdrawn": gone,
    }
