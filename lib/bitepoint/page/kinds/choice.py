"""Choose one."""

from bitepoint.page.kinds import form
from bitepoint.page.kinds.options import offered, offered_spec, picked
from bitepoint.page.kinds.view import KindView
from bitepoint.questions.choice import Choice


def _record(question: Choice, understood: str) -> str:
    return picked(question.options, understood[:1])[0]


VIEW = KindView(
    question=Choice,
    offer=offered,
    typed=lambda question: "'a'",
    spec=offered_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    record=_record,
)
