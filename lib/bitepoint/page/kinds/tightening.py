"""Tighten every bolt of a circle."""

from typing import Any

from markupsafe import Markup
from msgspec import structs

from bitepoint.page import html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds.view import Begun, KindView, Message, Spec
from bitepoint.pictures import Drawing
from bitepoint.questions.pulls import TOOLS
from bitepoint.questions.tightening import Tightening
from bitepoint.workshop.vehicles import frame_of

_FOR_THE_NUMBERS_PX = 320
_SETTING_LETTERS = 40


def _offer(question: Tightening) -> Markup:
    if len(question.stages) == 1:
        return html.NOTHING
    table = html.table([("Stage", "What the sheet asks"), *((stage.key, stage.label) for stage in question.stages)])
    fitted = question.fitted.label
    extra = [html.paragraphs(f"Fitted to the torque wrench: {fitted}.")] if fitted else []
    return html.joined([table, *extra])


def _figure(drawing: Drawing) -> Markup:
    """Return the ring small: the drill draws it once more, large and live; here it only shows the numbers."""
    return html.figure(structs.replace(drawing, width_px=_FOR_THE_NUMBERS_PX))


def _typed(question: Tightening) -> str:
    if len(question.stages) == 1:
        return "[1, 2, …]"
    return repr("; ".join(f"{s.key}{' at … N·m' if s.needs_setting else ''}: 1 2 …" for s in question.stages))


def _spec(question: Tightening, title: str, at_once: bool) -> Spec:
    """Return the spec of the bolt circle."""
    kinds = {"order": "hand", "second torque": "torque"}
    tools = set(TOOLS) if len(question.stages) > 1 else {"wrench"}
    return {
        "title": title,
        "angles_deg": list(question.angles_deg),
        "dowel_deg": question.dowel_deg,
        "part": question.part,
        "stages": [{"key": s.key, "label": s.label, "kind": kinds.get(s.kind, s.kind)} for s in question.stages],
        "tools": [{"key": k, "label": label[0].upper() + label[1:]} for k, label in TOOLS.items() if k in tools],
        "setting_unit": "N·m",
        "fitted": question.fitted.label,
        "frame": frame_of(question.vehicle),
    }


def _control(session: ExerciseSession, spec: Spec) -> Any:
    from bitepoint.page import widgets

    return widgets.BoltCircle(spec=spec, pulls=[], said={})


def _resume(widget: Any, session: ExerciseSession, pulls: Any) -> None:
    """Lay out the pulls kept. A setting is taken as typed: whether it can be read is said at the hand-over."""
    question: Any = session.question()
    bolts, stages = range(1, len(question.angles_deg) + 1), {stage.key for stage in question.stages}

    def fits(pull: Any) -> bool:
        if not isinstance(pull, dict) or set(pull) != {"bolt", "stage", "tool", "setting"}:
            return False
        bolt, stage, tool, setting = (pull[key] for key in ("bolt", "stage", "tool", "setting"))
        if type(bolt) is not int or not all(isinstance(text, str) for text in (stage, tool, setting or "")):
            return False
        return bolt in bolts and stage in stages and tool in TOOLS and len(setting or "") <= _SETTING_LETTERS

    if isinstance(pulls, list) and all(map(fits, pulls)):
        widget.pulls = pulls


def _answer(widget: Any, message: Message) -> object:
    return message.get("pulls", widget.pulls)


def _record(question: Tightening, understood: str) -> str:
    return f"{len(question.angles_deg)} of {len(question.angles_deg)}, every stage, second round"


VIEW = KindView(
    question=Tightening,
    offer=_offer,
    typed=_typed,
    spec=_spec,
    control=_control,
    fresh=("pulls",),
    draws=True,
    record=_record,
    figure=_figure,
    answer=_answer,
    begun=Begun(trait="pulls", resume=_resume),
)
