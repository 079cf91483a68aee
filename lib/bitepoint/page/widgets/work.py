"""The bench of work cards: pick what comes next, see the row of work grow."""

from typing import Any, ClassVar

import anywidget
import traitlets

from .common import text


class WorkBench(anywidget.AnyWidget):  # type: ignore[misc]
    """A shuffled bench of cards, each with a letter, and the row of what was picked.

    Traits
    ------
    spec : dict
        title; frame; cards, a list of {"key": letter, "text"}; done, texts of what is done already; stages, a list of
        {"title", "state": "done", "now" or "to come"}, may be empty; at_once: whether the learner is told at each
        pick. Not at once: a card stays where it was put, and nothing is said about it. The whole job has benches
        instead of cards, one a stage: {"title", "cards", "own": how many of them belong there}.
    picked : list of str
        Letters as picked, the refused ones too: this row is the answer; "/" where the next stage was begun.
    told : dict
        {"picks": [{"letter", "safe", "says"}]}, one for each pick that was judged; {} where nothing may be said yet.
        Of the whole job also finished, whether the open stage has all its cards, and then strangers, the picks of the
        cards that do not belong there.
    said : dict
        The verdict shown under the bench, see `common.said`.

    Messages to the kernel: {"do": "pick", "picked": [...]}, {"do": "answer", "answer": [...]} and {"do": "again"}.
    """

    _esm: ClassVar[str] = text("common.js", "row.js", "stages.js", "cards.js", "work.js")
    _css: ClassVar[str] = text("common.css", "work.css")
    spec = traitlets.Dict().tag(sync=True)
    picked = traitlets.List().tag(sync=True)
    told = traitlets.Dict().tag(sync=True)
    said = traitlets.Dict().tag(sync=True)

    def __init__(self, **traits: Any) -> None:
        super().__init__(**traits)
        self.on_msg(_take_row)

    def __repr__(self) -> str:
        benches = self.spec.get("benches", [self.spec])
        return f"WorkBench({sum(len(bench.get('cards', ())) for bench in benches)} cards)"


def _take_row(control: WorkBench, content: Any, buffers: Any) -> None:
    """Take the row from the message: it can overtake the trait, whose changes the browser holds back."""
    row = content.get("picked", content.get("answer")) if isinstance(content, dict) else None
    if isinstance(row, list):
        control.picked = row
