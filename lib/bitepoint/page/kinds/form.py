"""The answer form, which most kinds share: what it is told and how it is made."""

from collections.abc import Iterable
from typing import Any

from msgspec import to_builtins

from bitepoint import pictures
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds.view import Spec
from bitepoint.questions.question import Question

FRESH = ("told", "step")


def form_spec(question: Question, title: str, **more: Any) -> Spec:
    """Return the spec of the form, with the sound of the question's picture; `more` is what a kind adds."""
    spec = {"kind": question.kind, "label": f"Your answer: {title}", "unit": "", "units": [], "options": []}
    return spec | _sound(question) | more


def options(offered: Iterable[tuple[str, str]]) -> list[dict[str, str]]:
    """Return what is on offer with its keys, as a control is told."""
    return [{"key": key, "text": text} for key, text in offered]


def answer_form(session: ExerciseSession, spec: Spec) -> Any:
    """Return the widget."""
    from bitepoint.page import widgets

    return widgets.AnswerForm(spec=spec, told={}, said={}, step={})


def _sound(question: Question) -> Spec:
    """Return what can be heard to the picture, nothing where it is silent."""
    shown = question.picture
    heard = pictures.sound(shown.key, **shown.parameters) if shown else None
    return {"sound": to_builtins(heard)} if heard else {}
