"""What a live control is told about a question: never anything about the right answer."""

from typing import Any

from bitepoint import pictures, units
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.enquiry import Enquiry
from bitepoint.questions.keys import letters_for
from bitepoint.questions.number import Number
from bitepoint.questions.order import Order
from bitepoint.questions.pulls import TOOLS
from bitepoint.questions.question import Question
from bitepoint.questions.region import Region
from bitepoint.questions.spots import Spots
from bitepoint.questions.staged_work import StagedWork
from bitepoint.questions.sweep import Sweep
from bitepoint.questions.tightening import Tightening
from bitepoint.questions.work_order import WorkOrder
from bitepoint.workshop.vehicles import FRAME


def form_spec(question: Question, title: str) -> dict[str, Any]:
    """Return the spec of the answer form for every kind but the drills, tightening and order of work."""
    spec: dict[str, Any] = {
        "kind": question.kind,
        "label": f"Your answer: {title}",
        "unit": "",
        "units": [],
        "options": [],
    }
    if isinstance(question, Number):
        spec["unit"] = question.unit
        spec["units"] = [u for u in units.units_of(units.dimension_of(question.unit)) if u != question.unit]
        if isinstance(question, Sweep):
            spec["kind"], spec["sweep"] = "sweep", {"held": list(question.held), "loose": list(question.loose)}
    elif isinstance(question, (Choice, Several)):
        spec["options"] = _options([o.text for o in question.options])
    elif isinstance(question, Order):
        spec["options"] = _options(list(question.steps))
    elif isinstance(question, (Region, Spots)):
        spec["options"] = [{"key": s.key, "text": s.label} for s in question.spots]
        spec["picture"] = _picture(question)
    elif isinstance(question, Enquiry):
        spec["options"] = [{"key": o.key, "text": o.label} for o in question.observations if o.key not in question.free]
        spec["causes"] = [{"key": s.key, "text": s.label} for s in question.suspects]
        spec["heads"], spec["cause"] = list(question.heads), question.cause
        spec["known"] = [{"text": o.label, "shows": o.shows} for o in question.observations if o.key in question.free]
    return spec


def work_spec(question: WorkOrder, title: str, *, at_once: bool) -> dict[str, Any]:
    """Return the spec of the bench of work cards; `at_once`: this class is told at each pick."""
    return {
        "title": title,
        "cards": _options([card.text for card in question.cards]),
        "done": list(question.done),
        "stages": [{"title": s.title, "state": s.state} for s in question.stages],
        "at_once": at_once,
        "frame": FRAME if question.vehicle else "",
    }


def staged_spec(question: StagedWork, title: str, *, at_once: bool) -> dict[str, Any]:
    """Return the spec of the whole job: the same bench, one for each stage; `own` is how many cards belong there."""
    benches = [
        {
            "title": part.title,
            "cards": _options([card.text for card in part.cards]),
            "own": len(part.example),
        }
        for part in question.parts
    ]
    return {"title": title, "benches": benches, "at_once": at_once, "frame": FRAME if question.vehicle else ""}


def _options(texts: list[str]) -> list[dict[str, str]]:
    return [{"key": k, "text": t} for k, t in zip(letters_for(len(texts)), texts, strict=True)]


def _picture(question: Region | Spots) -> dict[str, Any]:
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


def drill_spec(question: Tightening, title: str) -> dict[str, Any]:
    """Return the spec of the bolt circle."""
    kinds = {"order": "hand", "second torque": "torque"}
    whole_job = len(question.stages) > 1
    tools = set(TOOLS) if whole_job else {"wrench"}
    return {
        "title": title,
        "angles_deg": list(question.angles_deg),
        "dowel_deg": question.dowel_deg,
        "part": question.part,
        "stages": [{"key": s.key, "label": s.label, "kind": kinds.get(s.kind, s.kind)} for s in question.stages],
        "tools": [{"key": k, "label": label[0].upper() + label[1:]} for k, label in TOOLS.items() if k in tools],
        "setting_unit": "N·m",
        "fitted": question.fitted.label,
        "frame": FRAME if question.vehicle else "",
    }
