"""Lesson 6, measuring and deciding: outcomes and small helpers that its exercises share."""

from collections.abc import Sequence

from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake

READS = "Reads vernier, micrometer and dial gauge"
RUNS_OUT = "Measures run-out and end float and keeps them apart"
WORKS_OUT = "Works out the figure that is held against the limit"
IS_SURE = "Says how sure a figure is, and keeps a guard band where one is due"
DECIDES = "Decides: reuse, replace, or stop and ask"

Form = tuple[str, str, tuple[Mistake, ...], str, str]
"""Question, right answer, wrong answers, why, next step."""


def choice_from(draw: Draw, form: Form, *, source: str = "common-practice", vehicle: str = "") -> Choice:
    """Return a choice made from one form of a pool."""
    ask, right, wrong, why, step = form
    return Choice.of(
        draw,
        ask=ask,
        right=right,
        wrong=wrong,
        why=why,
        step=step,
        solution=f"{right}. {why}",
        source=source,
        vehicle=vehicle,
    )


def hundredths(values: Sequence[float]) -> str:
    """Return readings in hundredths of a millimetre, in their order, as prose."""
    return ", ".join(f"{value:g}" for value in values)
