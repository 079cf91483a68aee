"""Places in a picture: what pointing at one and finding them all share."""

from typing import Any

from markupsafe import Markup

from bitepoint import pictures
from bitepoint.page import html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import form
from bitepoint.page.kinds.view import Begun, Spec
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.region import Region
from bitepoint.questions.spots import Spots


def places_offered(question: Region | Spots) -> Markup:
    """Return the places with their keys, unless each is called by its letter alone: the picture shows that."""
    if all(spot.label.casefold() == f"place {spot.key}" for spot in question.spots):
        return html.NOTHING
    return html.table([("Key", "Place"), *kind_of(question).offered(question)])


def places_spec(question: Region | Spots, title: str, at_once: bool) -> Spec:
    """Return the form with the places and their shapes in the picture."""
    places = form.options(kind_of(question).offered(question))
    return form.form_spec(question, title, options=places, picture=_picture(question))


def _resume(widget: Any, session: ExerciseSession, step: Any) -> None:
    question: Any = session.question()
    marked = step.get("marked") if isinstance(step, dict) else None
    offered = [spot.key for spot in question.spots]
    if isinstance(marked, list) and len(marked) <= len(offered) and all(key in offered for key in marked):
        widget.step = {"marked": marked}


PLACES_BEGUN = Begun(trait="step", resume=_resume)


def _picture(question: Region | Spots) -> Spec:
    if question.picture is None:
        return {}
    drawing = pictures.draw(question.picture.key, **question.picture.parameters)
    labels = {s.key: s.label for s in question.spots}
    regions = [
        {"key": r.key, "label": labels[r.key], "shape": r.shape, "points": list(r.points)}
        | ({"at": list(r.at)} if r.at else {})
        for r in drawing.regions
        if r.key in labels
    ]
    return {"svg": drawing.content, "alt": drawing.alt, "regions": regions}
