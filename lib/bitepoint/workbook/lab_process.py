"""`python -P -m bitepoint.workbook.lab_process`: JupyterLab, up in less than its own time.

The library that checks its events compiles 38 grammars of internationalised addresses as soon as it is loaded, half a second
on a fast computer; where they are not installed it does without them. None of what the course sends has such an address.
"""

import runpy
import sys

if __name__ == "__main__":
    # What is None here counts as not installed.
    sys.modules["rfc3987_syntax"] = None  # type: ignore[assignment]
    runpy.run_module("jupyterlab", run_name="__main__", alter_sys=True)
