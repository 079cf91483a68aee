"""The notebooks for staff: canonical, with their logic in the package, never handed to a learner."""

import ast
import re
from pathlib import Path

import pytest

from bitepoint import places
from bitepoint.workbook.canonical import is_canonical
from bitepoint.workbook.create import shipped_lessons

from .lessons import notebook, source

STAFF = sorted((places.course() / "staff").glob("*.ipynb"))
ALL = pytest.mark.parametrize("path", STAFF, ids=lambda p: p.stem)


def test_the_notebooks_are_there() -> None:
    """Marking and observations at least."""
    assert {"marking.ipynb", "observations.ipynb"} <= {path.name for path in STAFF}


def test_no_learner_is_handed_a_notebook_for_staff() -> None:
    """A workbook gets the lessons alone."""
    assert [path for path in shipped_lessons() if "staff" in path.parts] == []
    assert {path.name for path in STAFF} & {path.name for path in shipped_lessons()} == set()


@ALL
def test_a_staff_notebook_is_canonical(path: Path) -> None:
    """Stored as the developers' command stores it, with an output that can be read without a kernel."""
    assert is_canonical(notebook(path)) == []
    stored = [cell for cell in notebook(path)["cells"] if cell.get("outputs")]
    assert len(stored) >= 3


@ALL
def test_each_cell_is_one_verb(path: Path) -> None:
    """No logic in the notebook: after the first cell each has one statement, a call, and defines nothing."""
    cells = [cell for cell in notebook(path)["cells"] if cell["cell_type"] == "code"]
    for cell in cells[1:]:
        tree = ast.parse(source(cell))
        assert len(tree.body) == 1, cell["id"]
        assert isinstance(tree.body[0], (ast.Expr, ast.Assign)), cell["id"]
        assert isinstance(tree.body[0].value, ast.Call), cell["id"]


@ALL
def test_nothing_of_this_machine_shows(path: Path) -> None:
    """No path of a machine, no address, no day of today's in what is stored."""
    text = str(notebook(path)["cells"])
    assert re.findall(r"https?://(?!www\.w3\.org)|(?<![\w.])/(?:home|root|tmp|work)/", text) == []


@ALL
def test_it_starts_with_the_frame_and_one_heading(path: Path) -> None:
    """The invented figures are framed on the first screen; one title."""
    words = [source(cell) for cell in notebook(path)["cells"] if cell["cell_type"] == "markdown"]
    assert "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR" in words[0]
    assert 1 == sum(len(re.findall(r"^# ", text, re.M)) for text in words)
