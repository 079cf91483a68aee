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
        title; frame (words or ""); fields, a list of {"key", "label", "kind": "number" or "choice"}; a
        number also unit, low, high, step, slider (whether it can be dragged too), a choice options (texts, or
        {"key", "text"}).
    values : dict
        Field key to text exactly as typed; read it by `observe`. The kernel sets the first values.
    shown : str
        HTML made by the kernel: results, working, picture. A learner's text must be escaped before.
    """

    _esm: ClassVar[str] = text("common.js", "calculator.js")
    _css: ClassVar[str] = text("common.css", "calculator.css")
    spec = traitlets.Dict().tag(sync=True)
    values = traitlets.Dict().tag(sync=True)
    shown = traitlets.Unicode("").tag(sync=True)

    def __repr__(self) -> str:
        return f"CalculatorForm({len(self.spec.get('fields', ()))} fields)"
