"""How an answer is marked, in words for whoever has to defend a mark: a sentence for each kind of question."""

from collections.abc import Callable
from typing import Any

from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.enquiry import Enquiry
from bitepoint.questions.number import Number
from bitepoint.questions.order import Order
from bitepoint.questions.question import Question
from bitepoint.questions.region import Region
from bitepoint.questions.spots import Spots
from bitepoint.questions.staged_work import StagedWork
from bitepoint.questions.sweep import Sweep
from bitepoint.questions.tightening import Tightening
from bitepoint.questions.work_order import WorkOrder

_ONE = "The right one: 1. Any other: 0."
_SEVERAL = (
    "Each right pick counts, each wrong pick takes one away, of all that are right. Only all of them and no other is 1."
)
_CARDS = "Every card in a safe order: 1. Each wrong pick and each card left over takes its share; a dangerous pick makes it 0."

_RULES: dict[type[Question], Callable[[Any], str]] = {
    Number: lambda q: _number(q),
    Sweep: lambda q: _number(q),
    Choice: lambda _: _ONE,
    Region: lambda _: _ONE,
    Several: lambda _: _SEVERAL,
    Spots: lambda _: _SEVERAL,
    Order: lambda _: "An order that keeps every rule: 1, also another than the example. One that breaks a rule: 0.",
    WorkOrder: lambda _: _CARDS,
    StagedWork: lambda _: _CARDS,
    Tightening: lambda _: "Every bolt once a stage, balanced, rightly set: 1. Anything done wrong: 0.",
    Enquiry: lambda _: (
        "The right cause, and nothing else left that fits what was asked for: 1. The right cause while another one "
        "still fits: 0.5. Another cause: 0."
    ),
}


def _number(question: Number) -> str:
    width = question.within.width(question.answer)
    return f"Within {width:.4g} {question.unit}".rstrip() + " of the right figure, in any unit for it: 1. Else: 0."


def rule_of(question: Question) -> str:
    """Return how answers to a question are marked.

    Examples
    --------
    >>> from bitepoint.questions.number import plus_minus
    >>> rule_of(Number(ask="", why="", source="", answer=4.0, unit="mm", within=plus_minus(0.1), mistakes=()))
    'Within 0.1 mm of the right figure, in any unit for it: 1. Else: 0.'
    """
    return _RULES[type(question)](question)
