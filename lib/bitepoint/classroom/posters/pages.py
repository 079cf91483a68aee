"""The posters as pages: each a file, a sheet of paper each."""

from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any

from bitepoint.bank.lessons import LESSONS
from bitepoint.classroom.posters import bleeding, fault_tree, inspection, label, remember
from bitepoint.classroom.render import Paper, render
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.workshop.hazards import LOCAL_RULES

POSTERS: dict[str, tuple[str, Callable[[], dict[str, Any]]]] = {
    "fault-tree": ("From complaint to decision", fault_tree.values),
    "inspection": ("Look: sound or damaged?", inspection.values),
    "bleeding": ("Bleed the clutch", bleeding.values),
    "label": ("The label, true to size", label.values),
    **{
        f"remember-{one.notebook[:2]}": (f"Remember: {one.title}", partial(remember.values, key))
        for key, one in LESSONS.items()
    },
}
"""Key (also the name of the file), title, and what it shows."""


def poster_page(key: str, *, paper: Paper = "A4") -> str:
    """Return one poster as a page.

    Parameters
    ----------
    key : str
        One of POSTERS.
    paper : "A4" or "letter"
        Page size.
    """
    title, more = POSTERS[key]
    template = "remember" if key.startswith("remember-") else key
    return render(
        f"posters/{template}.html.jinja", paper=paper, title=title, local_rules=LOCAL_RULES, key=key, **more()
    )


def write_posters(out: Path, *, paper: Paper = "A4") -> list[Path]:
    """Write every poster into a folder and return the files.

    Raises
    ------
    BadInput
        The folder's name is that of a file.
    """
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for the posters: --out posters")
    pages = {key: poster_page(key, paper=paper) for key in POSTERS}
    out.mkdir(parents=True, exist_ok=True)
    for key, page in pages.items():
        write_in_one_step(out / f"{key}.html", page.encode("utf-8"))
    return [out / f"{key}.html" for key in pages]
