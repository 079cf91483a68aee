"""Pages of the classroom: one file each, no script, nothing fetched, every text escaped, made for paper."""

from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Literal

from bitepoint import __version__
from bitepoint.templates import environment
from bitepoint.workshop.vehicles import FRAME

if TYPE_CHECKING:
    from jinja2 import Environment

_HERE = Path(__file__).parent
Paper = Literal["A4", "letter"]


@lru_cache(maxsize=1)
def _environment() -> "Environment":
    filters = {"g": lambda value: f"{value:g}", "first_up": lambda text: text[:1].upper() + text[1:]}
    return environment(_HERE, _HERE / "boards", filters=filters)


def render(template: str, *, paper: Paper = "A4", **values: Any) -> str:
    """Return a page from one of the templates beside this module."""
    common = {"frame": FRAME, "paper": paper, "version": __version__}
    return _environment().get_template(template).render(**common, **values)
