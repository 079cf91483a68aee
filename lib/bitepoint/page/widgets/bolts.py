"""The tightening drill: a ring of bolts, tools, stages, and what the order of pulls does to the part."""

from typing import Any, ClassVar

import anywidget
import traitlets

from .common import text


class BoltCircle(anywidget.AnyWidget):  # type: ignore[misc]
    """A ring of bolts to tighten with the mouse, a finger or the keyboard.

    Traits
    ------
    spec : dict
        title; frame; angles_deg (clockwise from 12 o'clock, bolt 1 first); dowel_deg or None; stages and tools,
        each a list of {"key", "label"}, a stage also "kind": "hand", "torque", "angle" or "look"; setting_unit;
        fitted (words beside the wrench, or ""). The tools "fingers" (or "hand"), "wrench", "gauge", "impact" and
        "eye" have a drawing. Optional: part, "cover" or "flywheel", chooses the drawing of the part; a tool's
        "setting": True says that a stage of kind "torque" needs a setting typed for it ("wrench" needs one anyway).
    pulls : list of dict
        {"bolt": number from 1, "stage": key, "tool": key, "setting": text as typed or None}, in order.
    said : dict
        The verdict shown under the drill, see `common.said`.

    Messages to the kernel: {"do": "answer", "pulls": [...]} and {"do": "again"}.
    """

    _esm: ClassVar[str] = text("common.js", "ring.js", "balance.js", "play.js", "panel.js", "bolts.js")
    _css: ClassVar[str] = text("common.css", "bolts.css", "ring.css")
    spec = traitlets.Dict().tag(sync=True)
    pulls = traitlets.List().tag(sync=True)
    said = traitlets.Dict().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(**traits)
        self.on_msg(_take_pulls)

    def __repr__(self) -> str:
        return f"BoltCircle({len(self.spec.get('angles_deg', ()))} bolts)"


def _take_pulls(control: BoltCircle, content: Any, buffers: Any) -> None:
    """Take the pulls from the message: it can overtake the trait, whose changes the browser holds back."""
    if isinstance(content, dict) and isinstance(content.get("pulls"), list):
        control.pulls = content["pulls"]
