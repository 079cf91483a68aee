"""One form of a choice as plain data, and the choice made of it: what most choice exercises are written in."""

from typing import Any, NamedTuple

from bitepoint.questions.choice import Choice
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


class Case(NamedTuple):
    """One form of a choice: what is asked, the right option, the wrong ones, the reason and the next step."""

    ask: str
    right: str
    wrong: tuple[Mistake, ...]
    why: str
    step: str


def choice_from(draw: Draw, case: Case, *, source: str = "common-practice", **more: Any) -> Choice:
    """Return the choice of this case, its options in a drawn order."""
    return Choice.of(
        draw,
        ask=case.ask,
        right=case.right,
        wrong=case.wrong,
        why=case.why,
        step=case.step,
        solution=f"{case.right}. {case.why}",
        source=source,
        **more,
    )
