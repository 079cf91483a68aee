"""Where one workbook's server keeps its things: a folder of the user's own state, never the workbook.

Jupyter reads configuration from the folder it is started in; it is started here for that reason.
"""

import json
import os
from hashlib import blake2b
from pathlib import Path
from typing import Any

from bitepoint.logbook.device import state_folder

_LEFT_OUT = {"JPY_SESSION_NAME", "JPY_PARENT_PID", "JUPYTER_CONFIG_PATH", "JUPYTERLAB_DIR"}

LAB_SETTINGS: dict[str, dict[str, Any]] = {
    "@jupyterlab/docmanager-extension:plugin": {
        "autosave": True,
        "autosaveInterval": 20,
        "confirmClosingDocument": True,
    },
    "@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False},
    "@jupyterlab/notebook-extension:tracker": {"showEditorForReadOnlyMarkdown": False},
}
# An empty list of kernel folders leaves the one kernel of the Python that serves: the one bitepoint is installed in.
SERVER_SETTINGS: dict[str, dict[str, Any]] = {
    "ContentsManager": {"pre_save_hook": "bitepoint.workbook.save_hook.drop_live_views"},
    "KernelSpecManager": {"kernel_dirs": []},
    "LabApp": {"extension_manager": "readonly"},
}


def room_of(workbook: Path) -> Path:
    """Return the state folder of this workbook."""
    name = os.path.normcase(str(workbook.resolve()))
    return state_folder() / blake2b(name.encode("utf-8", "surrogatepass"), digest_size=8).hexdigest()


def furnish(room: Path) -> None:
    """Make the room and write the settings, replacing what an earlier version wrote."""
    room.mkdir(parents=True, exist_ok=True)
    if os.name == "posix":
        room.chmod(0o700)
    lab, server = room / "config" / "labconfig", room / "config"
    lab.mkdir(parents=True, exist_ok=True)
    _write(lab / "default_setting_overrides.json", LAB_SETTINGS)
    _write(server / "jupyter_server_config.json", SERVER_SETTINGS)
    for stale in (room / "runtime").glob("jpserver-*"):
        stale.unlink(missing_ok=True)


def environment(room: Path, *, token: str = "") -> dict[str, str]:
    """Return the environment for a server or a kernel of this room."""
    inside = {f"JUPYTER_{kind.upper()}_DIR": str(room / kind) for kind in ("config", "data", "runtime")}
    lab = {f"JUPYTERLAB_{kind.upper()}_DIR": str(room / kind) for kind in ("settings", "workspaces")}
    kept = {key: value for key, value in os.environ.items() if key not in _LEFT_OUT}
    return kept | inside | lab | {"IPYTHONDIR": str(room / "ipython")} | ({"JUPYTER_TOKEN": token} if token else {})


def _write(path: Path, what: object) -> None:
    path.write_text(json.dumps(what, indent=1), encoding="utf-8")
