"""Bench sheets: what lies beside the car instead of a laptop, one page file a sheet, figures from the data sheet."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from bitepoint.classroom.bench_sheets.checking import final_figures, slip_test
from bitepoint.classroom.bench_sheets.inspecting import looked_at, measuring_rows
from bitepoint.classroom.bench_sheets.observing import observed_criteria
from bitepoint.classroom.bench_sheets.tightening import rings
from bitepoint.classroom.render import Paper, render
from bitepoint.errors import BadInput
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.logbook.toml_file import read_toml_file
from bitepoint.marking.rules import read_rules
from bitepoint.workshop.hazards import LOCAL_RULES, hazards_in
from bitepoint.workshop.operations import job, operations_for
from bitepoint.workshop.own_sheets.own_sheet import read_own_sheet
from bitepoint.workshop.vehicles import Vehicle, vehicles

_HARM = {"kills": "can kill", "injures": "can injure", "sickens": "can make ill"}


def _stages(v: Vehicle, of: Callable[[str], Any]) -> list[tuple[str, Any]]:
    found = [(stage.title, of(stage.id)) for stage in job().stages]
    return [(title, rows) for title, rows in found if rows]


def _order(v: Vehicle) -> dict[str, Any]:
    return {"stages": _stages(v, lambda stage: operations_for(v, stages=[stage]))}


def _final(v: Vehicle) -> dict[str, Any]:
    return {"steps": operations_for(v, stages=["check"]), "figures": final_figures(v), "slip": slip_test(v)}


def _risk(v: Vehicle) -> dict[str, Any]:
    return {"stages": _stages(v, lambda stage: hazards_in(stage, v)), "harm": _HARM}


SHEETS: dict[str, tuple[str, Callable[[Vehicle], dict[str, Any]]]] = {
    "risk": ("Risk sheet", _risk),
    "order-of-work": ("Order of work", _order),
    "inspection": ("Inspection sheet", lambda v: {"lines": measuring_rows(v), "parts": looked_at(v)}),
    "measuring": ("Measuring sheet", lambda v: {"lines": measuring_rows(v)}),
    "tightening": ("Tightening card", lambda v: {"rings": rings(v)}),
    "final-check": ("Final check and road test", _final),
    "observation": ("Observation sheet", lambda v: {}),
}
"""Key (also the name of the file and of its template), title, and what it needs beside the vehicle."""


def sheet_page(
    key: str, v: Vehicle, *, paper: Paper = "A4", criteria: tuple[str, ...] = (), class_title: str = "", stamp: str = ""
) -> str:
    """Return one bench sheet as a page.

    Parameters
    ----------
    key : str
        One of SHEETS.
    v : Vehicle
        Whose figures stand on it.
    paper : "A4" or "letter"
        Page size.
    criteria : tuple of str
        What is observed, for the observation sheet; none means the standard criteria.
    class_title : str
        Printed in the head.
    stamp : str
        What stands across the page, such as NOT CHECKED.
    """
    title, more = SHEETS[key]
    values = more(v)
    if key == "observation":
        values["observed"] = observed_criteria(v, criteria)
    return render(
        f"{key}.html.jinja",
        paper=paper,
        title=title,
        v=v,
        class_title=class_title,
        local_rules=LOCAL_RULES,
        stamp=stamp,
        **values,
    )


def class_of(path: Path) -> tuple[str, tuple[str, ...], tuple[str, ...]]:
    """Return title, criteria and cars of a class file; `BadInput` names the file and the key that cannot be used."""
    rules = read_rules(path)
    title = read_toml_file(path, dict).get("title", "")
    if not isinstance(title, str):
        raise BadInput(f"{path.name}: title must be a text in quotes.")
    return title, rules.criteria, rules.vehicles


def write_sheets(
    letter: str,
    out: Path,
    *,
    paper: Paper = "A4",
    criteria: tuple[str, ...] = (),
    class_title: str = "",
    cars: tuple[str, ...] = (),
) -> list[Path]:
    """Write every bench sheet of one training vehicle into a folder and return the files.

    Raises
    ------
    BadInput
        There is no such vehicle, it is none of the class's `cars` where those are named, or the folder's name is that of
        a file.
    """
    known = vehicles()
    if letter.upper() not in known:
        raise BadInput(f"There is no training vehicle {letter[:20]!r}. Choose one of {', '.join(known)}.")
    if cars and letter.upper() not in cars:
        raise BadInput(f"{letter.upper()} is no car of this class. Choose one of {', '.join(cars)}.")
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for the sheets: --out sheets")
    return _written(known[letter.upper()], out, paper=paper, criteria=criteria, class_title=class_title)


def write_own_sheets(
    path: Path, out: Path, *, paper: Paper = "A4", criteria: tuple[str, ...] = (), class_title: str = ""
) -> list[Path]:
    """Write every bench sheet of a college's own sheet; NOT CHECKED stands across them until a second person has checked it.

    Raises
    ------
    BadData
        The own sheet cannot be read.
    """
    sheet = read_own_sheet(path)
    return _written(sheet.vehicle, out, paper=paper, criteria=criteria, class_title=class_title, stamp=sheet.stamp)


def _written(v: Vehicle, out: Path, **said: Any) -> list[Path]:
    pages = {key: sheet_page(key, v, **said) for key in SHEETS}
    if out.exists() and not out.is_dir():
        raise BadInput(f"{out} is a file. Name a folder for the sheets: --out sheets")
    out.mkdir(parents=True, exist_ok=True)
    made = []
    for key, page in pages.items():
        path = out / f"{v.id.lower()}-{key}.html"
        write_in_one_step(path, page.encode("utf-8"))
        made.append(path)
    return made
