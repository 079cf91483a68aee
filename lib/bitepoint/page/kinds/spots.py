"""Find them all in a picture."""

from bitepoint.page.kinds import form
from bitepoint.page.kinds.places import PLACES_BEGUN, places_offered, places_spec
from bitepoint.page.kinds.view import KindView, as_understood
from bitepoint.questions.spots import Spots


def _typed(question: Spots) -> str:
    return repr(" ".join(spot.key for spot in question.spots[:2]))


VIEW = KindView(
    question=Spots,
    offer=places_offered,
    typed=_typed,
    spec=places_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    draws=True,
    record=as_understood,
    begun=PLACES_BEGUN,
)
