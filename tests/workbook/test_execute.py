"""A notebook is run in a kernel of this Python, in its folder, and the kernel is gone afterwards."""

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from .small_course import notebook

RUN = """
import json, os, sys
from pathlib import Path
from bitepoint.workbook.execute import executed
done = executed(json.loads(sys.argv[1]), Path(sys.argv[2]))
kernel = int("".join(done["cells"][1]["outputs"][0]["text"]))
try:
    os.kill(kernel, 0)
except ProcessLookupError:
    kernel = 0
print(json.dumps({"done": done, "left": kernel}))
"""


@pytest.mark.slow
def test_a_run_keeps_outputs_and_leaves_no_kernel(tmp_path: Path) -> None:
    """Printed text, the folder, an error that does not stop, no live view, no session name; nothing on our stderr."""
    folder = tmp_path / "Übung 1 ö"
    folder.mkdir()
    lesson = notebook(
        "import os; print(os.getpid())",
        "import sys; print([os.getcwd(), sys.executable, os.environ.get('JPY_SESSION_NAME')])",
        "1 / 0",
        "import ipywidgets; ipywidgets.Button()",
        "print('still here')",
    )
    line = [sys.executable, "-c", RUN, json.dumps(lesson), str(folder)]
    run = subprocess.run(line, capture_output=True, text=True, encoding="utf-8", check=False)
    assert (0, "") == (run.returncode, run.stderr)
    told: dict[str, Any] = json.loads(run.stdout)
    cells = told["done"]["cells"]
    assert 0 == told["left"]
    assert [f"{[str(folder), sys.executable, None]}\n"] == cells[2]["outputs"][0]["text"]
    assert "ZeroDivisionError" == cells[3]["outputs"][0]["ename"]
    assert [] == cells[4]["outputs"]
    assert ["still here\n"] == cells[5]["outputs"][0]["text"]
    assert [1, 2, 3, 4, 5] == [cell["execution_count"] for cell in cells[1:]]
    assert {"kernelspec", "language_info"} == set(told["done"]["metadata"])
