"""The answer form, which most kinds share: what it is told and how it is made."""

from collections.abc import Iterable
from typing import Any

from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds.view import Spec
from bitepoint.questions.question import Question

FRESH = ("told", "step")


def form_spec(question: Question, title: str, **more: Any) -> Spec:
    """Return the spec of the form; `more` is what a kind adds."""
    return {"kind": question.kind, "label": f"Your answer: {title}", "unit": "", "units": [], "options": []} | more


def options(offered: Iterable[tuple[str, str]]) -> list[dict[str, str]]:
    """Return what is on offer with its keys, as a control is told."""
    return [{"key": key, "text": text} for key, text in offered]


def answer_form(session: ExerciseSession, spec: Spec) -> Any:
    """Return the widget."""
    from bitepoint.page import widgets

    return widgets.AnswerForm(spec=spec, told={}, said={}, step={})
