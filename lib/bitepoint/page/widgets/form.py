"""The form for an answer: a number, one choice, several, an order, places in a picture, or an enquiry."""

from typing import ClassVar

import anywidget
import traitlets

from .common import text


class AnswerForm(anywidget.AnyWidget):  # type: ignore[misc]
    """A form for one answer; it knows what was asked, never what is right.

    Traits
    ------
    spec : dict
        kind: "number", "choice", "several", "order", "region", "spots" or "enquiry"; label. A number also has unit and
        units (others accepted); choice, several and order have options, a list of {"key", "text"}.
        A region (one place) and spots (several to mark) have options, the places, and picture: {"svg", "alt",
        "regions": [{"key", "label", "shape": "circle" | "rect" | "polygon", "points", "at"}]} in the drawing's own
        units: circle [x, y, r], rect [x, y, width, height], polygon [x1, y1, x2, y2, …]. `at` [x, y] says where the
        drawing has written the place's letter itself; without it the key (up to two characters) or a number is
        laid on the middle. A place's name is its option's text: a drill that asks for a part gives its places letters.
        An enquiry has options (what can be asked for, never what it shows), causes, a list of {"key", "text"}, and
        known, a list of {"text", "shows"} that needs no asking; heads (two texts over what is asked and what it
        shows) and cause (the word for what is named) where they are not those of a noise.
        Any kind: sound, what can be heard to the picture: {"seconds", "beats": [[at, hz, level]], "told": [[from, text]]}.
    told : dict
        Of an enquiry: {"shown": {key: text}}, what was asked for so far and what it shows, in the order asked. Of an
        order: {"broken": [{"key", "first", "says", "critical"}]}, steps that stood before their `first` in the last answer.
    step : dict
        What is begun and not handed over, for a page loaded again: {"row": [key, …]} of an order, {"marked": [key, …]} of
        places, or {}.
    said : dict
        The verdict shown under the form, see `common.said`.

    Messages to the kernel: {"do": "answer", "answer": text or list of keys}, {"do": "ask", "key": key} and
    {"do": "again"}.
    """

    _esm: ClassVar[str] = text("common.js", "enquiry.js", "places.js", "steps.js", "sound.js", "form.js")
    _css: ClassVar[str] = text("common.css", "form.css", "places.css")
    spec = traitlets.Dict().tag(sync=True)
    told = traitlets.Dict().tag(sync=True)
    step = traitlets.Dict().tag(sync=True)
    said = traitlets.Dict().tag(sync=True)

    def __repr__(self) -> str:
        return f"AnswerForm({self.spec.get('kind', 'empty')})"
