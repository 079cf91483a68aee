"""The developers' command that runs the course afresh: `python -m bitepoint.workbook.canonical [FOLDER]`.

Every notebook is run as the practice learner and stored in one form, so that a change in a diff is a change
in what a learner sees: hand-written ids, one kernel name, counts 1 to N, no live views, nothing on stderr,
sorted keys.
"""

import re
import sys
from pathlib import Path
from typing import Any

from bitepoint.errors import BadData, BitepointError
from bitepoint.logbook import find_workbook
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.places import course
from bitepoint.workbook.execute import executed, use_selector_loop
from bitepoint.workbook.notebooks import Notebook, as_text, joined, read_notebook
from bitepoint.workbook.save_hook import LIVE_VIEW

KERNEL = {"display_name": "Python 3", "language": "python", "name": "python3"}
NOTEBOOK_KEYS = {"kernelspec", "bitepoint"}
CELL_KEYS = {"editable", "deletable", "jupyter", "tags", "bitepoint"}
_ID = re.compile(r"[a-z][a-z0-9-]{1,63}", re.ASCII)
# Jupyter's own ids are eight hexadecimal digits or a UUID: they change whenever a tool rewrites the cell.
_MADE_BY_A_TOOL = re.compile(r"[0-9a-f]{8}(-[0-9a-f]{4}){0,3}(-[0-9a-f]{12})?", re.ASCII)


def canonical(notebook: Notebook) -> Notebook:
    """Return an executed notebook in the form it is stored in.

    Raises
    ------
    BadData
        A cell raised or printed on stderr; names the cell and its last words.
    """
    metadata = {key: value for key, value in notebook.get("metadata", {}).items() if key in NOTEBOOK_KEYS}
    metadata["kernelspec"] = dict(KERNEL)
    cells = [_canonical_cell(cell) for cell in notebook["cells"]]
    return {"cells": cells, "metadata": metadata, "nbformat": 4, "nbformat_minor": 5}


def is_canonical(notebook: Notebook) -> list[str]:
    """Return what keeps a notebook from being canonical, one phrase each; empty if it is.

    The bytes on the disk are canonical if they are also `as_text(notebook)`.
    """
    problems = []
    if (notebook.get("nbformat"), notebook.get("nbformat_minor")) != (4, 5):
        problems.append("the format is not 4.5")
    metadata = notebook.get("metadata", {})
    if metadata.get("kernelspec") != KERNEL:
        problems.append(f"the kernelspec is not {KERNEL}")
    problems += [f"metadata has {key!r}" for key in sorted(set(metadata) - NOTEBOOK_KEYS)]
    ids = [cell.get("id") for cell in notebook["cells"]]
    twice = sorted({one for one in ids if one and ids.count(one) > 1})
    problems += [f"the id {one!r} is there twice" for one in twice]
    code = [cell for cell in notebook["cells"] if cell["cell_type"] == "code" and joined(cell["source"])]
    counts = [cell.get("execution_count") for cell in code]
    if counts != list(range(1, len(counts) + 1)):
        problems.append(f"the execution counts are {counts}, not 1 to {len(counts)}")
    return problems + [problem for cell in notebook["cells"] for problem in _cell_problems(cell)]


def run_afresh(path: Path) -> bool:
    """Run one notebook as the practice learner and store it; return whether the file changed.

    Raises
    ------
    BadData
        It is no notebook, lies in somebody's workbook, or a cell raised or printed on stderr.
    """
    notebook = read_notebook(path)
    if notebook is None:
        raise BadData(f"{path.name} is no notebook.")
    if find_workbook(path.resolve().parent).kept:
        raise BadData(f"{path.name} lies in a learner's workbook. Run the course as shipped instead.")
    try:
        text = as_text(canonical(executed(notebook, path.parent)))
    except BadData as error:
        raise BadData(f"{path.name}: {error}") from None
    content = text.encode("utf-8")
    changed = content != path.read_bytes()
    if changed:
        write_in_one_step(path, content)
    return changed


def _canonical_cell(cell: dict[str, Any]) -> dict[str, Any]:
    kept: dict[str, Any] = {key: cell[key] for key in ("cell_type", "id", "attachments") if key in cell}
    kept["metadata"] = {key: value for key, value in cell.get("metadata", {}).items() if key in CELL_KEYS}
    kept["source"] = joined(cell["source"]).splitlines(keepends=True)
    if cell["cell_type"] == "code":
        kept["execution_count"] = cell.get("execution_count")
        kept["outputs"] = [_canonical_output(output, cell.get("id")) for output in cell["outputs"]]
    return kept


def _canonical_output(output: dict[str, Any], cell: object) -> dict[str, Any]:
    kind = output["output_type"]
    if kind == "error":
        raise BadData(f"cell {cell} raised {output['ename']}: {output['evalue']}")
    if kind == "stream" and output["name"] != "stdout":
        raise BadData(f"cell {cell} printed on stderr: {joined(output['text']).strip()[-300:]}")
    return {key: value for key, value in output.items() if key != "transient"}


def _cell_problems(cell: dict[str, Any]) -> list[str]:
    name = cell.get("id")
    problems = []
    if not isinstance(name, str) or not _ID.fullmatch(name) or _MADE_BY_A_TOOL.fullmatch(name):
        problems.append(f"the id {name!r} is not written by hand: letters, digits, hyphens, such as star-figure")
    problems += [f"cell {name} has metadata {key!r}" for key in sorted(set(cell["metadata"]) - CELL_KEYS)]
    for output in cell.get("outputs", []):
        if output["output_type"] == "error" or output.get("name") == "stderr":
            problems.append(f"cell {name} has an error or a warning in its output")
        if LIVE_VIEW in output.get("data", {}):
            problems.append(f"cell {name} has a live view")
    return problems


def _asked_for(places: list[Path]) -> list[Path]:
    return sorted(path for place in places for path in (place.rglob("*.ipynb") if place.is_dir() else [place]))


def main(arguments: list[str]) -> int:
    """Run notebooks afresh, those of a folder or those named; 2 if one could not be stored."""
    use_selector_loop()
    status = 0
    for path in _asked_for([Path(a) for a in arguments] or [course()]):
        if ".ipynb_checkpoints" in path.parts:
            continue
        try:
            print(f"{path.name}: {'stored' if run_afresh(path) else 'as before'}")
        except BitepointError as error:
            print(error, file=sys.stderr)
            status = 2
    return status


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
