"""The form of a calculator: fields go to the kernel as typed, the kernel answers with the page to show."""

from typing import ClassVar

import anywidget
import traitlets

from .common import text


class CalculatorForm(anywidget.AnyWidget):  # type: ignore[misc]
    """Fields over a calculator and a place for what it shows.

    Traits
    ------
    spec : dict
        title; frame (words or ""); folds (whether a button opens and closes it); fields, a list of {"key", "label", "kind": "number" or "choice"}; a
        number also unit, low, high, step, slider (whether it can be dragged too), group and short (words over fields
        that stand side by side, and its own there), a choice options (texts, or {"key", "text"}). `only_for` names a
        choice and the options with which a field shows; `folded` fields stand behind a button.
    values : dict
        Field key to text exactly as typed; read it by `observe`. The kernel sets the first values.
    shown : str
        HTML made by the kernel: parts of class bp-answer, bp-drawn and bp-worked. A learner's text must be escaped before.
    wrong : dict
        Field key to what is wrong with it, "" for figures that do not go together. `shown` is then of the figures before.
    answered : int
        One more with each answer of the kernel, also where nothing else changes.
    unfolded : bool
        Whether the folded fields are shown; the page sets it.
    opened : bool
        Whether fields and result are shown at all, where the calculator folds; the page sets it.
    """

    _esm: ClassVar[str] = text("common.js", "fields.js", "calculator.js")
    _css: ClassVar[str] = text("common.css", "calculator.css")
    spec = traitlets.Dict().tag(sync=True)
    values = traitlets.Dict().tag(sync=True)
    shown = traitlets.Unicode("").tag(sync=True)
    wrong = traitlets.Dict().tag(sync=True)
    answered = traitlets.Int(0).tag(sync=True)
    unfolded = traitlets.Bool(False).tag(sync=True)
    opened = traitlets.Bool(True).tag(sync=True)

    def __repr__(self) -> str:
        return f"CalculatorForm({len(self.spec.get('fields', ()))} fields)"
