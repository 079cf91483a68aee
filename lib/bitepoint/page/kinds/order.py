"""Put in order."""

from bitepoint.page.kinds import form
from bitepoint.page.kinds.options import offered, offered_spec
from bitepoint.page.kinds.view import KindView, as_understood
from bitepoint.questions.keys import letters_for
from bitepoint.questions.order import Order


def _typed(question: Order) -> str:
    return repr(" ".join(letters_for(len(question.steps))))


VIEW = KindView(
    question=Order,
    offer=offered,
    typed=_typed,
    spec=offered_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    record=as_understood,
)
