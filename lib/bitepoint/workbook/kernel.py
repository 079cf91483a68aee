"""The one kernel that our server offers and our own runs start: this very Python, and nothing of the folder it works in.

A workbook may come from anybody. Python and IPython would import modules that lie beside a notebook before installed
ones, ours among them; here they look in the installation alone.
"""

import os
import sys
from collections.abc import Mapping
from typing import Any

NAME = "python3"
SAFE = "PYTHONSAFEPATH"


def kernel_spec() -> dict[str, Any]:
    """Return the kernel of the Python that bitepoint is installed in, under the name the lessons have.

    Another name would make JupyterLab change every lesson as soon as it is opened.
    """
    argv = [sys.executable, "-P", "-Xfrozen_modules=off", "-m", "ipykernel_launcher", "-f", "{connection_file}"]
    # IPython puts the folder back on the path by itself; its completer would load compiled modules lying in it.
    argv += ["--IPKernelApp.ignore_cwd=True", "--IPCompleter.use_jedi=False"]
    # Whoever starts it may ask for encryption: on a hub other accounts can reach the ports it listens on.
    metadata = {"supported_encryption": "curve"}
    return {"argv": argv, "display_name": "Python 3", "language": "python", "env": {SAFE: "1"}, "metadata": metadata}


def without_own_folder(environment: Mapping[str, str]) -> dict[str, str]:
    """Return an environment in which no Python takes modules from the folder it is started in."""
    kept = {key: value for key, value in environment.items() if key not in {"PYTHONPATH", "PYTHONSTARTUP"}}
    # A relative or empty part of this path means the folder one is in.
    parts = [part for part in environment.get("PYTHONPATH", "").split(os.pathsep) if os.path.isabs(part)]
    return kept | {SAFE: "1"} | ({"PYTHONPATH": os.pathsep.join(parts)} if parts else {})
