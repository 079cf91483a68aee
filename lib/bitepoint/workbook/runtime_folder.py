"""Where one workbook's server keeps its things: a folder of the user's own state, never the workbook.

Jupyter reads configuration from the folder it is started in; it is started here for that reason.
"""

import json
import os
from hashlib import blake2b
from pathlib import Path
from shutil import copytree
from typing import Any

from bitepoint.logbook.device import state_folder
from bitepoint.workbook.kernel import NAME, kernel_spec, without_own_folder
from bitepoint.workbook.own_lesson import know_own_lesson
from bitepoint.workshop.datafiles import DataFiles

AWAKE = Path(__file__).with_name("awake")
AWAKE_NAME = "bitepoint-awake"
_LEFT_OUT = {"JPY_SESSION_NAME", "JPY_PARENT_PID", "JUPYTER_CONFIG_PATH", "JUPYTERLAB_DIR"}

LAB_SETTINGS: dict[str, dict[str, Any]] = {
    "@jupyterlab/docmanager-extension:plugin": {
        "autosave": True,
        "autosaveInterval": 20,
        "confirmClosingDocument": True,
    },
    "@jupyterlab/apputils-extension:notification": {"fetchNews": "false", "checkForUpdates": False},
    # A lesson is short: all of it is drawn, so that scrolling is steady and the browser's search finds all.
    "@jupyterlab/notebook-extension:tracker": {
        "showEditorForReadOnlyMarkdown": False,
        "windowingMode": "none",
    },
}
SERVER_SETTINGS: dict[str, dict[str, Any]] = {
    "ContentsManager": {"pre_save_hook": "bitepoint.workbook.save_hook.drop_live_views"},
    "KernelSpecManager": {"allowed_kernelspecs": [NAME]},
    "LabApp": {"extension_manager": "readonly"},
}

# Cards and forms have sizes of their own, so the whole cell is enlarged, not the type alone.
PROJECTOR_CSS = """\
.jp-Notebook .jp-Cell { zoom: 1.6; }
.jp-Notebook .jp-Cell :is(.jp-InputPrompt, .jp-OutputPrompt, .jp-OutputArea-promptOverlay) { display: none; }
.jp-Notebook .jp-Cell .jp-Collapser { flex-basis: 4px; }
"""


def runtime_folder_of(workbook: Path) -> Path:
    """Return the state folder of this workbook."""
    name = os.path.normcase(str(workbook.resolve()))
    return state_folder().absolute() / blake2b(name.encode("utf-8", "surrogatepass"), digest_size=8).hexdigest()


def write_settings(runtime: Path, *, projector: bool = False, files: DataFiles | None = None) -> None:
    """Make the folder and write the settings, replacing what an earlier version wrote; large type for a projector.

    Where the data files of the class have questions of its own, the page knows their lesson too.
    """
    runtime.mkdir(parents=True, exist_ok=True)
    if os.name == "posix":
        runtime.chmod(0o700)
    _write(runtime / "config" / "labconfig" / "default_setting_overrides.json", LAB_SETTINGS)
    lab = SERVER_SETTINGS["LabApp"] | ({"custom_css": True} if projector else {})
    kernels = runtime / "share" / "kernels"
    # The list of names alone would still start another kernel that a notebook names.
    ours = SERVER_SETTINGS["KernelSpecManager"] | {"kernel_dirs": [str(kernels)]}
    server = SERVER_SETTINGS | {"LabApp": lab, "KernelSpecManager": ours}
    _write(runtime / "config" / "jupyter_server_config.json", server)
    if projector:
        style = runtime / "config" / "custom" / "custom.css"
        style.parent.mkdir(parents=True, exist_ok=True)
        style.write_text(PROJECTOR_CSS, encoding="utf-8")
    _write(kernels / NAME / "kernel.json", kernel_spec())
    copytree(AWAKE, runtime / "share" / "labextensions" / AWAKE_NAME, dirs_exist_ok=True)
    if files:
        know_own_lesson(runtime / "share" / "labextensions" / AWAKE_NAME / "static" / "lessons.json", files)
    for stale in (runtime / "runtime").glob("jpserver-*"):
        stale.unlink(missing_ok=True)


def environment(runtime: Path, *, token: str = "") -> dict[str, str]:
    """Return the environment for a server or a kernel of this folder."""
    inside = {f"JUPYTER_{kind.upper()}_DIR": str(runtime / kind) for kind in ("config", "data", "runtime")}
    lab = {f"JUPYTERLAB_{kind.upper()}_DIR": str(runtime / kind) for kind in ("settings", "workspaces")}
    kept = {key: value for key, value in without_own_folder(os.environ).items() if key not in _LEFT_OUT}
    # The first place on this path wins: a kernel of that name elsewhere may belong to another Python.
    path = os.pathsep.join(filter(None, (str(runtime / "share"), os.environ.get("JUPYTER_PATH"))))
    ours = {"JUPYTER_PATH": path, "IPYTHONDIR": str(runtime / "ipython")}
    if "BITEPOINT_STATE" in os.environ:
        # A path that is relative here means another place to a process started elsewhere.
        ours["BITEPOINT_STATE"] = str(state_folder().absolute())
    if token:
        ours["JUPYTER_TOKEN"] = token
    return kept | inside | lab | ours


def _write(path: Path, what: object) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps(what, indent=1), encoding="utf-8")
