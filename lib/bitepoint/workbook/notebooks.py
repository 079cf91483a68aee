"""Notebooks as plain JSON: read, compared by what a person can change in them."""

import json
from hashlib import blake2b
from pathlib import Path
from typing import Any

Notebook = dict[str, Any]


def read_notebook(path: Path) -> Notebook | None:
    """Return the notebook, or None if the file is not there or is no notebook."""
    try:
        found = json.loads(_regular(path).decode("utf-8-sig"))
    except (OSError, ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) and isinstance(found.get("cells"), list) else None


def _regular(path: Path) -> bytes:
    """Read a file; a pipe that waits for a writer counts as missing."""
    if not path.is_file():
        raise FileNotFoundError(path)
    return path.read_bytes()


def joined(text: object) -> str:
    """Return a source or output text as one string: on disk it may be a list of lines."""
    if isinstance(text, list):
        return "".join(str(line) for line in text)
    return text if isinstance(text, str) else ""


def fingerprint(notebook: Notebook | None) -> str:
    """Return a digest of the cells' ids, types and sources, not of outputs and counts. Empty for None."""
    if notebook is None:
        return ""
    cells = [c if isinstance(c, dict) else {} for c in notebook["cells"]]
    what = [[c.get("id"), c.get("cell_type"), joined(c.get("source"))] for c in cells]
    return blake2b(json.dumps(what).encode(), digest_size=16).hexdigest()


def as_text(notebook: Notebook) -> str:
    """Return the notebook as it is stored: sorted keys, one blank of indent, a newline at the end."""
    return json.dumps(notebook, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
