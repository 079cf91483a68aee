"""Reading the shipped lessons for the tests of this folder."""

import ast
import json
import re
from functools import cache
from pathlib import Path
from typing import Any

from bitepoint import places

NO_LESSONS = {
    "13-workshop-job.ipynb": "the forms of a job on a car: nothing in it is asked, marked or handed in",
    "14-keep-it.ipynb": "what is due is asked again: what is answered in it changes no mark of a lesson",
}
"""Notebooks among the lessons that are none, each with the reason; test_job_notebook.py and test_keep_it_notebook.py look at them."""
NOTEBOOKS = sorted(path for path in places.course().glob("[0-9]*.ipynb") if path.name not in NO_LESSONS)


@cache
def notebook(path: Path) -> dict[str, Any]:
    """Return a shipped lesson as plain data."""
    return json.loads(path.read_text(encoding="utf-8"))


def source(cell: dict[str, Any]) -> str:
    """Return a cell's source as one text."""
    return "".join(cell["source"])


def without_marks(text: str) -> str:
    """Return Markdown with its marks taken out."""
    return re.sub(r"[#*`|>_]|\]\([^)]*\)", " ", text)


def prose(path: Path) -> str:
    """Return the words of a lesson without marks of Markdown."""
    text = "\n\n".join(source(c) for c in notebook(path)["cells"] if c["cell_type"] == "markdown")
    return without_marks(text)


def calls(path: Path, verb: str) -> list[list[Any]]:
    """Return the literal arguments of each call of a verb, in order."""
    found = []
    for cell in notebook(path)["cells"]:
        if cell["cell_type"] == "code":
            for node in ast.walk(ast.parse(source(cell))):
                if isinstance(node, ast.Call) and getattr(node.func, "id", "") == verb:
                    found.append([ast.literal_eval(a) for a in node.args])
    return found


def asked_in(cell: dict[str, Any]) -> list[str]:
    """Return the exercises that a cell asks."""
    return re.findall(r'^ask\("([^"]+)"', source(cell), re.M) if cell["cell_type"] == "code" else []


def words_in(text: str) -> int:
    """Return the number of words of a text, marks of Markdown left out."""
    return len(without_marks(text).split())
