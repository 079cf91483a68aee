"""A course of two short lessons, and the moves the tests of the workbook share."""

import json
from pathlib import Path
from typing import Any

import pytest

from bitepoint.logbook import Identity

LEARNER = Identity(learner="ann", class_word="autumn")


def notebook(*sources: str) -> dict[str, Any]:
    """A lesson: a title, then one code cell a source."""
    title = {"cell_type": "markdown", "id": "title", "metadata": {}, "source": "# Look at a clutch"}
    cells: list[dict[str, Any]] = [title]
    for number, source in enumerate(sources, start=1):
        cell = {"cell_type": "code", "id": f"step-{number}", "metadata": {}, "source": source}
        cells.append(cell | {"execution_count": None, "outputs": []})
    kernel = {"display_name": "Python 3", "language": "python", "name": "python3"}
    return {"cells": cells, "metadata": {"kernelspec": kernel}, "nbformat": 4, "nbformat_minor": 5}


def write(path: Path, content: dict[str, Any]) -> None:
    """Put a notebook on the disk."""
    path.write_text(json.dumps(content), encoding="utf-8")


def read(path: Path) -> dict[str, Any]:
    """Take a notebook from the disk."""
    found: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    return found


def ship(folder: Path, monkeypatch: pytest.MonkeyPatch, **lessons: dict[str, Any]) -> Path:
    """Make `folder` the course as shipped, with these lessons."""
    folder.mkdir(exist_ok=True)
    for name, content in lessons.items():
        write(folder / f"{name}.ipynb", content)
    monkeypatch.setattr("bitepoint.workbook.create.course", lambda: folder)
    return folder
