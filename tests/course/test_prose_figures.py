"""Figures in a lesson's words agree with data sheets and calculators; none that a data sheet holds is typed unchecked."""

import re
from pathlib import Path

import pytest

from bitepoint.bank.lessons import LESSONS

from .lessons import NOTEBOOKS, notebook, source
from .prose_figures import SAID

ALL = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda p: p.stem)
KEYS = {lesson.notebook: key for key, lesson in LESSONS.items()}
_UNITS = "N·m|lbf·ft|N/mm²|kN|N|mm³|mm²|mm|cm|m|ml|kg|°C|°|bar|rpm|km/h|%|Hz|J|kJ|litres?|teeth|splines"
_FIGURE = re.compile(rf"(?<![\w.])\d+(?:[.,]\d+)*\s?(?:{_UNITS})(?!\w)")
_FRAME = "TRAINING VEHICLE · INVENTED FIGURES"


def cells(path: Path) -> dict[str, str]:
    """Return the words of each Markdown cell on one line, by cell id."""
    return {
        cell["id"]: re.sub(r"\s+", " ", source(cell))
        for cell in notebook(path)["cells"]
        if cell["cell_type"] == "markdown"
    }


def said(path: Path) -> dict[str, tuple[str, ...]]:
    """Return what the cells of a lesson should say, computed."""
    make = SAID.get(KEYS[path.name])
    return make() if make else {}


@ALL
def test_what_a_lesson_says_of_a_training_vehicle_is_what_its_data_sheet_says(path: Path) -> None:
    """Each computed sentence stands in its cell, to the digit."""
    words = cells(path)
    assert [(id, text) for id, texts in said(path).items() for text in texts if text not in words.get(id, "")] == []


@ALL
def test_no_figure_beside_a_training_vehicle_goes_unchecked(path: Path) -> None:
    """In a cell that carries the training vehicles' frame, every figure with a unit lies in a computed sentence."""
    loose = []
    for id, words in cells(path).items():
        if _FRAME not in words or id == "title":
            continue
        checked = [m.span() for text in said(path).get(id, ()) for m in re.finditer(re.escape(text), words)]
        for figure in _FIGURE.finditer(words):
            if not any(start <= figure.start() and figure.end() <= end for start, end in checked):
                loose.append(f"{id}: {words[max(0, figure.start() - 40) : figure.end()]}")
    assert loose == []
