"""A number with its unit."""

from bitepoint import units
from bitepoint.page.kinds import form
from bitepoint.page.kinds.view import KindView, Spec, as_understood, nothing_offered
from bitepoint.questions.number import Number
from bitepoint.questions.question import shown_number


def number_spec(question: Number, title: str, at_once: bool) -> Spec:
    """Return the form with the unit asked for and the others that are understood."""
    others = [u for u in units.units_of(units.dimension_of(question.unit)) if u != question.unit]
    return form.form_spec(question, title, unit=question.unit, units=others)


def typed_number(question: Number) -> str:
    """Return a figure that is nobody's answer, with the unit."""
    return repr(f"{shown_number(1.5 if question.unit != '' else 3)} {question.unit}".strip())


VIEW = KindView(
    question=Number,
    offer=nothing_offered,
    typed=typed_number,
    spec=number_spec,
    control=form.answer_form,
    fresh=form.FRESH,
    record=as_understood,
    tells_understood=True,
)
