"""Point at one place of a picture."""

from bitepoint.page.kinds import form
from bitepoint.page.kinds.places import PLACES_BEGUN, places_offered, places_spec
from bitepoint.page.kinds.view import KindView, as_understood
from bitepoint.questions.region import Region


def _typed(question: Region) -> str:
    return repr(question.spots[0].key)


VIEW = KindView(
    question=Region,
    offer=places_offered,
    typed=_typed,
    spec=places_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    draws=True,
    record=as_understood,
    begun=PLACES_BEGUN,
)
