"""What is kept of a class to find copies in other classes: a hash of each hand-in's lines, and wrong figures."""

from msgspec import Struct

from bitepoint.marking.classwork import ClassWork
from bitepoint.marking.flagging.neighbours import COPIED, typed_quantity, unexplained_figures
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.roster import key_of, public_name

MOST_FIGURES = 60
"""Wrong figures of one learner that are compared."""


class AskedFor(Struct, frozen=True, array_like=True, order=True):
    """A question as it is drawn for anybody: all but whose it is."""

    exercise: str
    turn: int
    revision: int
    sitting: str
    edition: int


class WrongFigure(Struct, frozen=True, array_like=True):
    """A wrong figure that no known mistake explains; `unit` is None where none was typed."""

    learner: str
    asked: AskedFor
    value: float
    unit: str | None
    said: str


class HandedLines(Struct, frozen=True, array_like=True):
    """A hand-in: its name, a hash of its lines, and one of its bytes."""

    name: str
    lines: str
    content: str


class ClassTrace(Struct, frozen=True, array_like=True):
    """What is kept of one class with this class word."""

    word: str
    handed: list[HandedLines]
    figures: list[WrongFigure]


def trace_of(work: ClassWork, word: str) -> ClassTrace:
    """Return the trace of a class with this class word; of who was deleted on request there is nothing in it."""
    handed = [HandedLines(n.name, n.line_set, n.sha256) for n in work.named_notes() if n.line_set]
    figures = [f for key in sorted(work.learners) for f in _figures(work.lines_by_key(key), word)]
    return ClassTrace(key_of(word), handed, figures)


def _figures(lines: list[MarkedLine], word: str) -> list[WrongFigure]:
    """Return the wrong figures of one learner; fewer than three can fit nobody often enough."""
    found = []
    for line in unexplained_figures([x for x in lines if key_of(x.record.class_word) == key_of(word)]):
        record, typed = line.record, typed_quantity(line.record.answer)
        if typed:
            asked = AskedFor(record.exercise, record.turn, record.revision, record.sitting, record.edition)
            said = str(record.answer)[:40]
            found.append(WrongFigure(public_name(record.learner), asked, typed.value, typed.unit, said))
    return found[:MOST_FIGURES] if len(found) >= COPIED else []
