"""Pieces of HTML for cards that must survive an untrusted notebook, each a macro of pieces.html.jinja.

What goes in as text is escaped; what comes out is Markup and is taken as it is by the next piece.
"""

from base64 import b64encode
from collections.abc import Iterable, Sequence
from functools import lru_cache
from html import escape
from pathlib import Path
from typing import TYPE_CHECKING, Any

from markupsafe import Markup

from bitepoint import templates
from bitepoint.pictures import Drawing

if TYPE_CHECKING:
    from jinja2 import Environment

_HERE = Path(__file__).parent


def _as_stored(value: Any) -> Any:
    """Spell quotes as the stored outputs of the lessons do: these are compared letter by letter."""
    return value if hasattr(value, "__html__") else Markup(escape(str(value)))


@lru_cache(maxsize=1)
def _environment() -> "Environment":
    return templates.environment(_HERE, finalize=_as_stored)


@lru_cache(maxsize=1)
def _pieces() -> Any:
    return _environment().get_template("pieces.html.jinja").module


def _piece(name: str, *values: Any) -> Markup:
    made: Markup = getattr(_pieces(), name)(*values)
    return made


def render(template: str, **values: Any) -> Markup:
    """Return a template of the page filled in; its name is its path below this folder."""
    return Markup(_environment().get_template(template).render(**values))


def joined(parts: Iterable[Markup]) -> Markup:
    """Return pieces one after the other."""
    return Markup("").join(parts)


NOTHING = Markup("")


def title(text: str, *, size_px: int = 18) -> Markup:
    """Return the heading of a card."""
    return _piece("title", text, size_px)


def lead(text: str) -> Markup:
    """Return a sentence in bold."""
    return _piece("lead", text)


def link(words: str, address: str) -> Markup:
    """Return words that lead to another place of the course."""
    return _piece("link", words, address)


def line(*parts: str) -> Markup:
    """Return a paragraph of several parts, words or pieces."""
    return _piece("line", parts)


def paragraphs(text: str) -> Markup:
    """Return text as paragraphs: an empty line parts them, a line end breaks."""
    return _piece("paragraphs", text)


def panel(tone: str, word: str, body: Markup) -> Markup:
    """Return a tinted panel that starts with a word in bold; `tone`: right, not yet, danger or note."""
    return _piece("panel", tone, word, body)


def frame(text: str) -> Markup:
    """Return the line that marks invented figures."""
    return _piece("frame", text)


def table(rows: Sequence[Sequence[str]], *, caption: str = "") -> Markup:
    """Return a table; the first row holds the headings."""
    return _piece("table", rows, caption)


def lettered(rows: Iterable[tuple[str, str]]) -> Markup:
    """Return what is on offer as a list, each with its letter."""
    return _piece("lettered", rows)


def folded(words: str, body: Markup, *, is_open: bool = False) -> Markup:
    """Return something folded away under a line of words that is large enough for a finger."""
    return _piece("folded", words, body, is_open)


def boxed(body: Markup) -> Markup:
    """Return something in a plain box."""
    return _piece("boxed", body)


def data_address(drawing: Drawing) -> str:
    """Return the picture as a data: address."""
    if isinstance(drawing.content, str):
        return f"data:image/svg+xml;base64,{b64encode(drawing.content.encode('utf-8')).decode('ascii')}"
    return f"data:image/png;base64,{b64encode(drawing.content).decode('ascii')}"


def figure(drawing: Drawing, *, caption: bool = True) -> Markup:
    """Return a picture with its alt text, the one form in which both survive everywhere."""
    below = drawing.caption if caption else None
    return _piece("figure", drawing.alt, data_address(drawing), drawing.width_px, below)


def card(body: Markup, *, state: str = "") -> Markup:
    """Return a bordered card round some HTML; `state`: right, not yet, danger, try (something to play with) or none."""
    return _piece("card", body, state)
