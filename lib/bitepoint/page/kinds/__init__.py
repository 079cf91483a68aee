"""How each kind of question shows in a notebook: one module a kind, one table of them."""

from bitepoint.page.kinds import (
    choice,
    enquiry,
    number,
    order,
    region,
    several,
    spots,
    staged_work,
    sweep,
    tightening,
    work_order,
)
from bitepoint.page.kinds.view import KindView
from bitepoint.questions.question import Question

__all__ = ["VIEWS", "KindView", "view_of"]

_MODULES = (
    number,
    sweep,
    choice,
    several,
    order,
    enquiry,
    region,
    spots,
    tightening,
    work_order,
    staged_work,
)
VIEWS: dict[type[Question], KindView] = {module.VIEW.question: module.VIEW for module in _MODULES}


def view_of(question: Question) -> KindView:
    """Return how a question of its kind shows."""
    return VIEWS[type(question)]
