"""What the controls share: their text files, read once, and the bundle that shows one of them alone."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

_HERE = Path(__file__).parent
_VIEW = "application/vnd.jupyter.widget-view+json"


def text(*names: str) -> str:
    """The named files of this folder, joined: a control's script may not import its shared parts."""
    return "\n".join((_HERE / name).read_text(encoding="utf-8") for name in names)


def view_bundle(control: Any) -> dict[str, dict[str, Any]]:
    """Output bundle that shows a control and nothing else: `display(view_bundle(control), raw=True)`.

    Without a text/plain beside it, a front end that knows no controls shows nothing at all.
    """
    return {_VIEW: {"model_id": control.model_id, "version_major": 2, "version_minor": 0}}


def said(
    n: int, tone: str = "", words: str = "", *, closed: bool = False, again: bool = False
) -> Mapping[str, int | str | bool]:
    """What a control shows under itself after an answer.

    Parameters
    ----------
    n : int
        Number of this verdict, one more each time: a repeated sentence is announced again.
    tone : str
        "right", "not yet", "danger", "note" or "" (nothing shown).
    words : str
        Shown as text, line breaks kept; the first word says the verdict, so that colour does not have to.
    closed : bool
        The control takes no further answer.
    again : bool
        A button "Try again with new figures" is offered; it sends `{"do": "again"}`.
    """
    return {"n": n, "tone": tone, "text": words, "closed": closed, "again": again}
