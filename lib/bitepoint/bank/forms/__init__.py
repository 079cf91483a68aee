"""Forms of words: what choice, several, order and enquiry questions ask and say, read from each lesson's forms.toml.

A form holds text with named places to fill, `{like_this}`; Python draws the figures that fill them and works out what is
right. Every option, step and suspect has a key of its own, which stays when its words are bettered. The forms of an
exercise lie under the last part of its id::

    [tags]                                   # exercise safe.tags
    source = "hse-loler-6-months"

    [tags.shared.by-look]                    # an option that several forms offer
    text = "Use it: it looks strong and always held"
    name = "judges strength by its look"
    says = "An examination finds cracks that you cannot see. What gives way falls on you."
    hurts = true

    [[tags.form]]
    key = "overdue"
    ask = "Last thorough examination {late} months ago. {opened} is to go up. What do you do?"
    why = "Overdue means not used."
    step = "Who may say that a lift is sound?"
    offers = ["leave-it", "by-look"]         # keys in the order in which they are shuffled; left out: as written below
    needs = ["self-adjusting cover"]         # traits of the car it speaks of; a class without one gets the other forms

    [[tags.form.option]]
    key = "leave-it"
    text = "Leave it down, and report that it is overdue"
    right = true
"""

from pathlib import Path

from bitepoint.bank.forms.form import Form, places_of
from bitepoint.bank.forms.reading import Forms, read_forms
from bitepoint.errors import BadData
from bitepoint.questions.draw import Draw
from bitepoint.workshop.datafiles import once_a_set

__all__ = ["Form", "Forms", "form_of", "forms_of", "places_of", "read_forms"]

_FOLDER = Path(__file__).parent.parent


def forms_of(draw: Draw) -> Forms:
    """Return the forms of the exercise that is drawn, in its revision.

    Raises
    ------
    BadData
        Its lesson's forms.toml cannot be used, or has no such exercise.
    """
    return _forms(draw.exercise, draw.revision)


def form_of(draw: Draw) -> Form:
    """Return the form of this turn of the exercise that is drawn."""
    return _forms(draw.exercise, draw.revision).drawn(draw)


@once_a_set
def _forms(exercise: str, revision: int) -> Forms:
    lesson, _, topic = exercise.partition(".")
    known = _lesson_forms(lesson)
    found = known.get(f"{topic}.r{revision}") or known.get(topic)
    if found is None:
        raise BadData(f"{lesson}/forms.toml: has no exercise {topic!r}. Write its forms under [{topic}].")
    return found


@once_a_set
def _lesson_forms(lesson: str) -> dict[str, Forms]:
    """Return the forms of a lesson by topic, those of an older revision under `topic.rN`."""
    found = read_forms(_FOLDER / lesson / "forms.toml")
    older = _FOLDER / "retired" / f"{lesson}.toml"
    return {**found, **(read_forms(older) if older.exists() else {})}
