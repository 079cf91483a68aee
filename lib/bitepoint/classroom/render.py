"""Pages of the classroom: one file each, no script, nothing fetched, every text escaped, made for paper."""

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from markupsafe import Markup

from bitepoint import __version__
from bitepoint.missing import told
from bitepoint.printable import printable
from bitepoint.templates import environment
from bitepoint.workshop.vehicles import FRAME

if TYPE_CHECKING:
    from jinja2 import Environment

_HERE = Path(__file__).parent
Paper = Literal["A4", "letter"]


@lru_cache(maxsize=1)
def _environment() -> "Environment":
    filters = {
        "g": lambda value: told(lambda: f"{value:g}"),
        "first_up": lambda text: text[:1].upper() + text[1:],
        "css": _in_style,
    }
    return environment(_HERE, _HERE / "boards", filters=filters)


def _in_style(text: str) -> Markup:
    """Return a text for between quotes in a style sheet, where a browser reads no entities such as that of an apostrophe."""
    return Markup("".join(f"\\{ord(sign):x} " if sign in '"\\<' else sign for sign in printable(text)))


def render(template: str, *, paper: Paper = "A4", **values: Any) -> str:
    """Return a page from one of the templates beside this module."""
    return _environment().get_template(template).render(**{**_common(paper), **_of_car(values), **values})


def render_block(template: str, block: str, *, paper: Paper = "A4", **values: Any) -> str:
    """Return one block of a template, to stand in a page that joins several."""
    found = _environment().get_template(template)
    return "".join(found.blocks[block](found.new_context({**_common(paper), **_of_car(values), **values})))


def _common(paper: Paper) -> dict[str, str]:
    return {"frame": FRAME, "paper": paper, "version": __version__, "stamp": ""}


def _of_car(values: dict[str, Any]) -> dict[str, str]:
    """Return the frame of the car `v` that a page is about."""
    return {"frame": values["v"].frame} if "v" in values else {}
