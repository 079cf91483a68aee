"""What JupyterLab leaves out when it saves: live views, which come back as an error line when reopened.

The static card of the same cell is an output of its own and stays.
"""

from typing import Any

LIVE_VIEW = "application/vnd.jupyter.widget-view+json"


def without_live_views(notebook: dict[str, Any]) -> None:
    """Remove every output with a live view, and the stored widget state, from a notebook in place."""
    metadata = notebook.get("metadata")
    if isinstance(metadata, dict):
        metadata.pop("widgets", None)
    for cell in notebook.get("cells") or []:
        outputs = cell.get("outputs") if isinstance(cell, dict) else None
        if isinstance(outputs, list):
            cell["outputs"] = [output for output in outputs if not _is_live(output)]


def drop_live_views(model: dict[str, Any], **_: Any) -> None:
    """Clean the model that Jupyter's contents manager is about to write (its pre_save_hook)."""
    content = model.get("content")
    if model.get("type") == "notebook" and isinstance(content, dict):
        without_live_views(content)


def _is_live(output: Any) -> bool:
    data = output.get("data") if isinstance(output, dict) else None
    return isinstance(data, dict) and LIVE_VIEW in data
