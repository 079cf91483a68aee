"""Choose several."""

from bitepoint.page.kinds import form
from bitepoint.page.kinds.options import offered, offered_spec, picked
from bitepoint.page.kinds.view import KindView
from bitepoint.questions.choice import Several


def _record(question: Several, understood: str) -> str:
    """Return what was picked, each without the reason behind its colon."""
    return "; ".join(text.partition(": ")[0] for text in picked(question.options, understood.replace(",", " ")))


VIEW = KindView(
    question=Several,
    offer=offered,
    typed=lambda question: "'a b'",
    spec=offered_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    record=_record,
)
