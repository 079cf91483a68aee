"""The form for a figure found by sweeping a dial gauge round a part."""

from typing import ClassVar

from .common import text
from .form import AnswerForm


class SweepForm(AnswerForm):
    """A flywheel to turn, a dial gauge to read, fields for notes, and the form for the figure under them.

    Traits
    ------
    spec : dict
        As for a number, its kind "sweep", and sweep: {"held": [...], "loose": [...]}, the lines on which the hand stands
        at each place and at the first one again, with the shaft pushed to one side and with nobody pushing: what the
        gauge shows, nothing that follows from it.
    step : dict
        What the learner does, for a page loaded again: {"at": place from 0, "held": bool, "notes": [text, …]}, or {}.
    """

    _esm: ClassVar[str] = text("common.js", "dial.js", "sweep.js", "form.js")
    _css: ClassVar[str] = text("common.css", "form.css", "sweep.css")
