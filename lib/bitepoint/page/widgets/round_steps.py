"""What follows an answer in a round of recall: a reason in own words now and then, on to the next question, the date to keep."""

from typing import ClassVar

import anywidget
import traitlets

from .common import text


class RoundSteps(anywidget.AnyWidget):  # type: ignore[misc]
    """The lower part of a question of recall, or of the end of a round; empty while a question is open.

    Traits
    ------
    spec : dict
        place: words that stand on the card in view: where they change, that card is shown from its top and has the focus.
        why: {"label", "read", "hint", "most"} where a reason in own words is asked for, else {}; wrote and reason: the learner's
        words and the course's, side by side, "" where there are none; next: the word of the button that goes on, "" for
        none; another: that of the button for one more round; date: {"name", "text"} of a calendar file, or {}.
    said : dict
        What went wrong, see `common.said`.

    Messages to the kernel: {"do": "why", "text": text}, {"do": "pass"}, {"do": "next"} and {"do": "another"}.
    """

    _esm: ClassVar[str] = text("common.js", "round_steps.js")
    _css: ClassVar[str] = text("common.css", "round_steps.css")
    spec = traitlets.Dict().tag(sync=True)
    said = traitlets.Dict().tag(sync=True)

    def __repr__(self) -> str:
        return "RoundSteps()"
