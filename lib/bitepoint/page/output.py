"""The thin edge to IPython: is a page watching, show something, redraw it."""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from IPython import get_ipython
from IPython.display import display

from bitepoint.errors import NotRecorded
from bitepoint.logbook import Identity, find_workbook


def page_watches() -> bool:
    """Whether a page that can draw live controls is on the other side (JupyterLab, or a browser's own Python)."""
    return bool(os.environ.get("JPY_SESSION_NAME")) or sys.platform == "emscripten"


def _here() -> Path | None:
    try:
        return Path.cwd()
    except FileNotFoundError:
        return None


_STARTED = _here()


def who_asks() -> Identity:
    """Return the learner of the workbook in which this notebook runs.

    Raises
    ------
    NotRecorded
        The notebook's folder was moved or deleted. A moved one is not followed: it may lie in the waste bin by now.
    """
    place = _here()
    if place is None or (_STARTED and not _STARTED.is_dir()):
        raise NotRecorded(
            "The course folder was moved, renamed or deleted while the course was open, so nothing can be kept. Close the "
            "course (Ctrl+C in its window), then open the folder where it is now: bitepoint open FOLDER"
        )
    return find_workbook(place)


def opening() -> bool:
    """Whether the page runs this cell because its lesson was opened, not because somebody ran it."""
    kernel = getattr(get_ipython(), "kernel", None)
    parent = kernel.get_parent("shell") if kernel else {}
    return bool(parent) and parent.get("metadata", {}).get("bitepoint") == "opening"


def show_static(thing: Any) -> Callable[[Any], None]:
    """Show something with a text and an HTML form; return a function that redraws it in place."""
    handle = display(thing, display_id=True)
    return lambda new: handle.update(new) if handle is not None else None


def show_live(widget: Any) -> None:
    """Show a live control alone, only where a page can draw it.

    The bundle holds the widget view and nothing else: a checker without a page never sees it, and the save hook
    finds and removes it.
    """
    if page_watches():
        view = {"model_id": widget.model_id, "version_major": 2, "version_minor": 0}
        display({"application/vnd.jupyter.widget-view+json": view}, raw=True)


class Static:
    """Finished HTML with its plain text, for display."""

    def __init__(self, text: str, html: str, extra: dict[str, Any] | None = None) -> None:
        self._text, self._html, self._extra = text, str(html), extra or {}

    def __repr__(self) -> str:
        return self._text

    def _repr_mimebundle_(self, include: object = None, exclude: object = None) -> dict[str, Any]:
        return {"text/plain": self._text, "text/html": self._html, **self._extra}


def say(error: Exception) -> None:
    """Show an error as one line in a panel, never as a traceback."""
    tell("Cannot do that.", str(error))


def tell(word: str, text: str) -> None:
    """Show one sentence in a panel that begins with a leading word."""
    from bitepoint.page import html

    display(Static(text, html.card(html.panel("note", word, html.paragraphs(text)))))
