"""Things on offer under letters: what choice, several, order and the benches share."""

from collections.abc import Sequence

from markupsafe import Markup

from bitepoint.page import html
from bitepoint.page.kinds import form
from bitepoint.page.kinds.view import Spec
from bitepoint.questions.choice import Option
from bitepoint.questions.keys import letters_for
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question


def offered(question: Question) -> Markup:
    """Return what is on offer as a list, each under its letter."""
    return html.lettered(kind_of(question).offered(question))


def offered_spec(question: Question, title: str, at_once: bool) -> Spec:
    """Return the form with what is on offer."""
    return form.form_spec(question, title, options=form.options(kind_of(question).offered(question)))


def picked(options: Sequence[Option], letters: str) -> list[str]:
    """Return the words of the options whose letters stand in a text, with spaces between."""
    chosen = letters.split()
    return [o.text for key, o in zip(letters_for(len(options)), options, strict=True) if key in chosen]
