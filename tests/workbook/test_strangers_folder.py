"""A folder that somebody sent may hold code in every place where Python, IPython, Jupyter or a test would look.

Each piece leaves a mark when it runs. None of opening, a kernel, marking or the board may make one appear.
"""

import json
import os
import subprocess
import sys
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

import pytest
from jupyter_client.blocking.client import BlockingKernelClient

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, find_workbook, read_folder
from bitepoint.logbook.identity import write_identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.workbook.create import shipped_lessons
from bitepoint.workbook.notebooks import fingerprint
from bitepoint.workbook.running import Running, running
from bitepoint.workbook.runtime_folder import runtime_folder_of
from bitepoint.workbook.shipped_lessons import LessonFiles, write_lesson_files

from .open_course import opened
from .small_course import notebook, read, write

MODULES = (
    "bitepoint", "ipykernel_launcher", "ipykernel", "IPython", "jupyterlab", "jupyter_server", "jupyter_core",
    "traitlets", "msgspec", "json", "matplotlib", "ipywidgets", "filelock", "sitecustomize", "usercustomize", "conftest",
    "setup", "stranger",
)  # fmt: skip
PACKAGES = ("bitepoint", "ipykernel", "stranger_package")
CONFIGS = (
    "jupyter_server_config.py", "jupyter_lab_config.py", "jupyter_config.py", "jupyter_notebook_config.py",
    "jupyter_nbconvert_config.py", "jupyter_application_config.py", "ipython_config.py", "ipython_kernel_config.py",
    "profile_default/ipython_config.py", "profile_default/ipython_kernel_config.py", "profile_default/startup/00.py",
    ".ipython/profile_default/ipython_config.py", ".ipython/profile_default/ipython_kernel_config.py",
    ".ipython/profile_default/startup/00.py", ".ipython/extensions/stranger.py", ".jupyter/jupyter_server_config.py",
    ".jupyter/jupyter_lab_config.py", "etc/jupyter/jupyter_server_config.py", "logbook/bitepoint.py",
)  # fmt: skip
KERNELS = (
    "kernels", "share/jupyter/kernels", ".local/share/jupyter/kernels", ".ipython/kernels", ".jupyter/kernels",
    "share/kernels",
)  # fmt: skip
START = "Open my course.sh"


def plant(folder: Path, marks: Path) -> None:
    """Put code into every place of a folder."""
    folder.mkdir(parents=True, exist_ok=True)

    def marking(name: str) -> str:
        return f"open({str(marks / name.replace('/', '+'))!r}, 'w').close()\n"

    named = [f"{name}.py" for name in MODULES] + [f"{name}/__init__.py" for name in PACKAGES] + list(CONFIGS)
    for name in named:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(marking(name), encoding="utf-8")
    (folder / "stranger.pth").write_text(f"import sys; {marking('pth')}", encoding="utf-8")
    (folder / "jupyter_server_config.json").write_text(
        json.dumps({"ServerApp": {"jpserver_extensions": {"stranger": True}}}), encoding="utf-8"
    )
    for place in KERNELS:
        for kernel in ("python3", "stranger"):
            spec = folder / place / kernel / "kernel.json"
            spec.parent.mkdir(parents=True, exist_ok=True)
            argv = [sys.executable, "-c", marking(f"{place}/{kernel}")]
            spec.write_text(json.dumps({"argv": argv, "display_name": "Python 3", "language": "python"}), "utf-8")


def forge(folder: Path, marks: Path) -> None:
    """Put a stranger's cell into the first two lessons, and a record that says we left them there."""
    record = LessonFiles()
    for lesson in shipped_lessons()[:2]:
        evil = read(lesson)
        evil["cells"] += notebook(f"open({str(marks / lesson.name)!r}, 'w').close()")["cells"][1:]
        evil["metadata"]["kernelspec"]["name"] = "stranger"
        write(folder / lesson.name, evil)
        record.files[lesson.name] = fingerprint(evil)
        record.offered[lesson.name] = fingerprint(read(lesson))
    write_lesson_files(folder, record)


def ask(server: Running, what: str, body: dict[str, Any]) -> dict[str, Any]:
    """Post to the server's own interface."""
    request = urllib.request.Request(
        server.address + what, data=json.dumps(body).encode(), headers={"Authorization": f"token {server.token}"}
    )
    with urllib.request.urlopen(request, timeout=60) as reply:
        found: dict[str, Any] = json.load(reply)
        return found


def run_cell(runtime: Path, kernel: str, source: str) -> str:
    """Run a cell in a kernel of the server; return what it printed, or its error."""
    client = BlockingKernelClient(connection_file=str(runtime / "runtime" / f"kernel-{kernel}.json"))
    client.load_connection_file()
    client.start_channels()
    try:
        client.wait_for_ready(timeout=60)
        said: list[str] = []

        def heard(message: dict[str, Any]) -> None:
            content = message["content"]
            said.append(content.get("text") or content.get("ename") or "")

        client.execute_interactive(source, output_hook=heard, timeout=60)
        return "".join(said).strip()
    finally:
        client.stop_channels()


def command(where: Path, *arguments: str) -> str:
    """Run our command from inside a folder; return what it said."""
    line = [sys.executable, "-P", "-m", "bitepoint", *arguments]
    done = subprocess.run(line, cwd=where, capture_output=True, text=True, encoding="utf-8", check=False)
    assert "Traceback" not in done.stderr
    assert done.returncode in (0, 1), done.stderr
    return done.stdout


@pytest.mark.slow
def test_nothing_of_a_strangers_folder_runs(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Opened, with kernels in it and in a subfolder, a cell run in each, marked, on the board: no mark appears."""
    marks, folder = tmp_path / "marks", tmp_path / "hand-ins" / "ann"
    marks.mkdir()
    plant(folder, marks)
    plant(folder / "sub", marks)
    (folder / START).write_text(f"touch {marks / 'start'}\n", encoding="utf-8")
    write_identity(Identity(learner="ann", class_word="autumn"), folder)
    session = ExerciseSession(exercise_named("start.number"), find_workbook(folder))
    session.answer(session.question().right_answer(), how="form")
    forge(folder, marks)
    # Common in a shell's own start file, and it means the folder one is in.
    monkeypatch.setenv("PYTHONPATH", os.pathsep.join([os.environ.get("PYTHONPATH", ""), ""]))
    monkeypatch.setenv("PYTHONSTARTUP", "stranger.py")

    with opened(folder):
        runtime = runtime_folder_of(folder)
        server = running(runtime)
        assert server is not None
        for path in ("00-start-here.ipynb", "sub/notes.ipynb"):
            write(folder / "sub" / "notes.ipynb", notebook("1 + 1"))
            body = {"path": path, "type": "notebook", "name": path, "kernel": {"name": "python3"}}
            kernel = ask(server, "api/sessions", body)["kernel"]["id"]
            told = run_cell(runtime, kernel, "import bitepoint, os; bitepoint.ask('start.number'); print(os.getcwd())")
            assert told.endswith(str((folder / path).parent))
            assert "ModuleNotFoundError" == run_cell(runtime, kernel, "import stranger")
            inner = "import subprocess, sys; print(subprocess.run([sys.executable, '-m', 'stranger']).returncode)"
            assert "1" == run_cell(runtime, kernel, inner)
        with pytest.raises(urllib.error.HTTPError):
            ask(server, "api/sessions", {**body, "path": "other.ipynb", "kernel": {"name": "stranger"}})
        with pytest.raises(urllib.error.HTTPError):
            ask(server, "api/kernels", {"name": "stranger", "path": ""})

    monkeypatch.delenv("PYTHONPATH")
    out = tmp_path / "out"
    command(folder, "mark", str(folder), "--out", str(out / "marks"))
    command(folder, "board", str(folder), "--once", str(out / "board.html"))
    assert "ann" in (out / "marks" / "marks.csv").read_text(encoding="utf-8")
    assert 1 == sum(map(len, read_folder(folder).values()))
    assert (folder / START).read_text(encoding="utf-8").startswith(f"#!/bin/sh\n{sys.executable} -P -m bitepoint open")
    assert [] == [path.name for path in marks.iterdir()]

    # What was planted does run where nobody takes care.
    for name in ("bitepoint", "stranger_package", "sitecustomize"):
        subprocess.run([sys.executable, "-c", f"import {name}"], cwd=folder, check=False, env={"PYTHONPATH": "."})
    assert {"bitepoint+__init__.py", "stranger_package+__init__.py", "sitecustomize.py"} <= {
        path.name for path in marks.iterdir()
    }
