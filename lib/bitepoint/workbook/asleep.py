"""A lesson as it is put into a workbook: the outputs of its questions give way to a line, until they are this learner's.

As shipped they are the practice learner's. Whoever opens the lesson where it does not wake by itself must not take them
for their own.
"""

import re

from bitepoint.workbook.notebooks import Notebook, joined

LINES = {
    "ask": "Your own exercise comes here: press Run, then Run All Cells.",
    "summary": "Where you stand comes here: press Run, then Run All Cells.",
    "keep_it": "What is due for you comes here: press Run, then Run All Cells.",
    "who": "Who you are comes here: press Run, then Run All Cells.",
}
_ASKS = re.compile(r"^(ask|summary|keep_it)\(|\b(who)\(\)", re.MULTILINE)


def asleep(lesson: Notebook) -> Notebook:
    """Return a lesson with one quiet line for each output that is somebody's; pictures and calculators stay."""
    return lesson | {"cells": [_asleep(cell) for cell in lesson["cells"]]}


def _asleep(cell: Notebook) -> Notebook:
    asks = cell["cell_type"] == "code" and _ASKS.search(joined(cell["source"]))
    if not asks or not cell["outputs"]:
        return cell
    return cell | {"execution_count": None, "outputs": [quiet_line(LINES[asks[1] or asks[2]])]}


def quiet_line(line: str) -> Notebook:
    """Return an output that says one line."""
    data = {"text/markdown": [f"*{line}*"], "text/plain": [line]}
    return {"output_type": "display_data", "metadata": {}, "data": data}
