"""The button that makes the hand-in and gives the file to save."""

from collections.abc import Callable
from typing import Any, ClassVar

import anywidget
import traitlets

from .common import said, text

MOST_BYTES = 2_000_000
"""What goes through at once: a server holds back more than a megabyte a second of what a kernel shows."""


class HandInControl(anywidget.AnyWidget):  # type: ignore[misc]
    """A button, a sentence, and a link that saves the file wherever the browser saves files.

    Traits
    ------
    said : dict
        What came of it, see `common.said`.

    Messages to the kernel: {"do": "make"}. From it: {"name": file name} with the file's bytes as its buffer.
    """

    _esm: ClassVar[str] = text("common.js", "hand_in.js")
    _css: ClassVar[str] = text("common.css", "hand_in.css")
    said = traitlets.Dict().tag(sync=True)

    def __init__(self, make: Callable[[], tuple[str, Any]], **traits: Any) -> None:
        super().__init__(**traits)
        self.make = make
        self.on_msg(_take)

    def __repr__(self) -> str:
        return "HandInControl()"


def _take(control: HandInControl, content: Any, buffers: Any) -> None:
    if not isinstance(content, dict) or content.get("do") != "make":
        return
    told, made = control.make()
    if made and len(made.content) <= MOST_BYTES:
        control.send({"name": made.name}, buffers=[made.content])
    control.said = said(control.said.get("n", 0) + 1, "right" if made else "not yet", told)
