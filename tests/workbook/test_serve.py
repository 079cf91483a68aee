"""The server's command line and settings, and one real start and stop."""

import json
import socket
import subprocess
import sys
from pathlib import Path

import pytest

from bitepoint.errors import CannotRun
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.running import running
from bitepoint.workbook.runtime_folder import LAB_SETTINGS, environment, runtime_folder_of, write_settings
from bitepoint.workbook.serve import Server, command, free_port, last_words

from .small_course import LEARNER, notebook, ship


def test_the_command_is_this_python_on_loopback(tmp_path: Path) -> None:
    """Nothing is searched for on the PATH, no other machine is served, the token is in no argument."""
    line = command(tmp_path / "Übung 1 ö", port=9001)
    assert [sys.executable, "-P", "-m", "bitepoint.workbook.lab_process"] == line[:4]
    assert {"--no-browser", "--ip=127.0.0.1", "--ServerApp.port=9001"} <= set(line)
    assert f"--ServerApp.root_dir={tmp_path / 'Übung 1 ö'}" in line
    assert not [part for part in line if "token" in part]


def test_jupyterlab_comes_up_without_the_grammars_that_nobody_needs() -> None:
    """It starts by our module as by its own, and the slowest part of its loading is left out."""
    line = [sys.executable, "-P", "-X", "importtime", "-m"]
    done = [
        subprocess.run([*line, module, "--version"], capture_output=True, text=True, encoding="utf-8", check=True)
        for module in ("bitepoint.workbook.lab_process", "jupyterlab")
    ]
    assert done[0].stdout == done[1].stdout
    assert ["rfc3987_syntax.syntax_helpers" in one.stderr for one in done] == [False, True]
    assert all("jupyter_server.serverapp" in one.stderr for one in done)


@pytest.mark.parametrize(("root", "expected"), [(True, True), (False, False)])
def test_root_is_allowed_only_to_root(monkeypatch: pytest.MonkeyPatch, root: bool, expected: bool) -> None:
    """In a container the server starts as root; elsewhere it is not told that it may."""
    monkeypatch.setattr("bitepoint.workbook.serve.is_root", lambda: root)
    assert expected is ("--allow-root" in command(Path("work"), port=1))


def test_every_folder_jupyter_reads_is_in_the_room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Configuration, data, runtime, workspaces, settings and IPython's folder: none in the workbook or home."""
    monkeypatch.setenv("JPY_SESSION_NAME", "star.ipynb")
    monkeypatch.setenv("JUPYTER_CONFIG_PATH", "/elsewhere")
    found = environment(tmp_path, token="secret")
    names = ["JUPYTER_CONFIG_DIR", "JUPYTER_DATA_DIR", "JUPYTER_RUNTIME_DIR", "IPYTHONDIR"]
    names += ["JUPYTERLAB_WORKSPACES_DIR", "JUPYTERLAB_SETTINGS_DIR"]
    assert {tmp_path} == {Path(found[name]).parent for name in names}
    assert found["JUPYTER_TOKEN"] == "secret"
    assert not {"JPY_SESSION_NAME", "JUPYTER_CONFIG_PATH"} & set(found)


def test_the_room_is_the_workbooks_own(tmp_path: Path, own_state: Path) -> None:
    """Two workbooks have two folders, both in the state folder."""
    folders = {runtime_folder_of(tmp_path / name) for name in ("one", "two", "one")}
    assert len(folders) == 2
    assert {own_state} == {folder.parent for folder in folders}


def test_a_relative_state_folder_is_the_same_place_for_every_process(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Servers and kernels start in other folders than we do."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("BITEPOINT_STATE", "state")
    assert tmp_path / "state" == runtime_folder_of(tmp_path / "work").parent
    assert str(tmp_path / "state") == environment(tmp_path)["BITEPOINT_STATE"]


def test_the_settings_are_written_as_jupyterlab_reads_them(tmp_path: Path) -> None:
    """Autosave, closing, news, updates and lesson text: the file holds what the table says."""
    write_settings(tmp_path)
    told = json.loads((tmp_path / "config/labconfig/default_setting_overrides.json").read_text(encoding="utf-8"))
    assert told == LAB_SETTINGS
    documents = told["@jupyterlab/docmanager-extension:plugin"]
    assert documents == {"autosave": True, "autosaveInterval": 20, "confirmClosingDocument": True}
    news = told["@jupyterlab/apputils-extension:notification"]
    assert news == {"fetchNews": "false", "checkForUpdates": False}
    server = json.loads((tmp_path / "config/jupyter_server_config.json").read_text(encoding="utf-8"))
    assert server["ContentsManager"]["pre_save_hook"] == "bitepoint.workbook.save_hook.drop_live_views"
    kernel = json.loads((tmp_path / "share/kernels/python3/kernel.json").read_text(encoding="utf-8"))
    assert (sys.executable, "Python 3") == (kernel["argv"][0], kernel["display_name"])
    assert [str(tmp_path / "share/kernels")] == server["KernelSpecManager"]["kernel_dirs"]


def test_a_projector_gets_large_type_and_the_next_opening_without_it_does_not(tmp_path: Path) -> None:
    """The style is on only while it is asked for."""
    server = tmp_path / "config/jupyter_server_config.json"
    write_settings(tmp_path, projector=True)
    assert json.loads(server.read_text(encoding="utf-8"))["LabApp"]["custom_css"] is True
    assert "zoom: 1.6" in (tmp_path / "config/custom/custom.css").read_text(encoding="utf-8")
    write_settings(tmp_path)
    assert "custom_css" not in json.loads(server.read_text(encoding="utf-8"))["LabApp"]


def test_a_taken_port_is_passed_over() -> None:
    """The next port is taken."""
    with socket.socket() as busy:
        busy.bind(("127.0.0.1", 0))
        busy.listen()
        port = busy.getsockname()[1]
        assert port < free_port(port) < port + 50


@pytest.mark.parametrize(
    ("log", "told"),
    [
        ("[I 10:00] fine\n[C 10:01 ServerApp] Running as root\n[I 10:02] bye\n", "[C 10:01 ServerApp] Running as root"),
        ("Traceback\n  File x\nModuleNotFoundError: No module named 'tornado'\n", "ModuleNotFoundError"),
        ("only this\n", "only this"),
        ("", "it printed nothing."),
    ],
)
def test_the_last_words_are_the_telling_ones(tmp_path: Path, log: str, told: str) -> None:
    """An error line wins over what came after it."""
    (tmp_path / "server.log").write_text(log, encoding="utf-8")
    assert last_words(tmp_path / "server.log").startswith(told)


def test_a_server_that_ends_at_once_is_told_in_one_line(tmp_path: Path, own_state: Path) -> None:
    """The error has the last words of the log and what to do next."""
    broken = Server(tmp_path, own_state / "runtime", options=("--ServerApp.port=none",))
    with broken, pytest.raises(CannotRun, match="JupyterLab did not start: .*check-machine"):
        broken.wait_ready()


def test_a_stale_file_is_no_server(tmp_path: Path) -> None:
    """A stale or damaged file of an earlier server is no server."""
    runtime = tmp_path / "runtime"
    runtime.mkdir()
    (runtime / "jpserver-1.json").write_text("{", encoding="utf-8")
    (runtime / "jpserver-2.json").write_text('{"port": 1, "token": "x"}', encoding="utf-8")
    assert running(tmp_path) is None


@pytest.mark.slow
def test_a_real_server_starts_serves_and_stops(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """In a folder with blanks and accents it answers with its token; afterwards nothing of it runs."""
    ship(tmp_path / "course", monkeypatch, star=notebook("1 + 1"))
    folder = tmp_path / "Übung 1 ö"
    make_workbook(folder, LEARNER)
    (folder / "jupyter_server_config.py").write_text("raise SystemExit(9)", encoding="utf-8")
    runtime = runtime_folder_of(folder)
    with Server(folder, runtime) as server:
        found = server.wait_ready()
        assert found == running(runtime)
        assert f"{found.address}lab/tree/star.ipynb?reset&token={server.token}" == found.page("star.ipynb")
    assert not server.alive
    assert running(runtime) is None
