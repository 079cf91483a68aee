"""A class of two on a real hub: accounts of the system, the files of docs/hosting as they stand, a lesson each."""

import json
import os
import shutil
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import pytest

from bitepoint.cli import main
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import read_identity
from bitepoint.workbook.hub import server

HOLD = Path(__file__).with_name("on_a_hub.py")
OWN_WORLD = ["unshare", "--mount", "--pid", "--net", "--fork", "--kill-child", "--mount-proc"]


def missing() -> str:
    """What this machine lacks for a hub of its own, "" for nothing."""
    if os.name != "posix" or os.geteuid():
        return "the tests do not run as root, and only root can make accounts"
    if not find_spec("jupyterhub"):
        return "jupyterhub is not installed"
    programs = ["configurable-http-proxy", "unshare", "useradd", "chpasswd"]
    if absent := [name for name in programs if not shutil.which(name)]:
        return f"not on the path: {', '.join(absent)}"
    if not Path("/etc/pam.d/login").is_file():
        return "the system checks no passwords (/etc/pam.d/login)"
    if subprocess.run([*OWN_WORLD, "true"], capture_output=True, check=False).returncode:
        return "no mounts, network and processes of their own can be made here (unshare)"
    return ""


@pytest.fixture(scope="session")
def held(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, Any], Path]:
    """What a class of two saw and did on a hub, and the folder with what it left."""
    if lacks := missing():
        pytest.skip(f"{lacks}: the class on a hub is NOT held")
    base = tmp_path_factory.mktemp("hub")
    class_folder = new_class(base)
    run = subprocess.run(
        [*OWN_WORLD, sys.executable, str(HOLD), str(base), str(class_folder)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        check=False,
    )
    assert not run.returncode, run.stderr
    return json.loads(run.stdout), base


def new_class(base: Path) -> Path:
    """A class folder for two, by the command."""
    words = ["--title", "Autumn", "--class-word", "oak-2026", "--learners", "2"]
    assert 0 == main(["class", "new", str(base / "autumn"), *words])
    return base / "autumn"


@pytest.mark.slow
def test_two_accounts_work_in_their_own_lesson(held: tuple[dict[str, Any], Path]) -> None:
    """Each logs in with its own password only, gets its workbook and an awake lesson, answers and hands in; the board sees both."""
    seen, base = held
    names = sorted(path.stem for path in (base / "autumn" / "start").iterdir())
    assert [name.lower() for name in names] == sorted(seen["learners"])
    for name in names:
        learner = seen["learners"][name.lower()]
        assert [403, 200] == learner["logged in"]
        assert f"/user/{name.lower()}/lab/tree/00-start-here.ipynb" == learner["opened"]
        # The page has the extension that wakes a lesson, and the kernel says what it asks before it does.
        assert (200, "True") == (learner["awake"], learner["safe"])
        folder = base / "srv" / "clutch" / "work" / name.lower()
        assert (name, "oak-2026") == ((who := read_identity(folder / "workbook.toml")).learner, who.class_word)
        assert (folder / learner["handed in"]["file"]).is_file(), learner["handed in"]
        assert f"{name} " in seen["board"]["text"]
    assert "Learners 2 " in seen["board"]["text"]
    assert "Exercises answered 2 " in seen["board"]["text"]
    assert sorted(learner["handed in"]["name"] for learner in seen["learners"].values()) == seen["board"]["handed in"]
    print("seconds", seen["seconds"], "MB", seen["memory"])


@pytest.mark.slow
def test_neither_reaches_the_work_of_the_other(held: tuple[dict[str, Any], Path]) -> None:
    """Not as a page, not as a file, not by what a kernel says on the way; nor do they reach the hub's own; staff only reads."""
    seen, _ = held
    for learner in seen["learners"].values():
        own = learner["seen"].pop("own")
        assert own
        assert {"PermissionError"} == set(learner["seen"].values()), learner["seen"]
        assert {403, 404} >= set(learner["across"].values()), learner["across"]
        assert "True" == learner["encrypted"]
    assert [] == seen["board"]["writes"]


def test_an_account_without_a_class_gets_one_line(tmp_path: Path) -> None:
    """No start file, or no folder: the line says what to run, and nothing is made."""
    for made in ("start", "work"):
        with pytest.raises(BadInput, match=r"l01-x.* is not there.*Run add_learners\.sh with the class folder\."):
            server("l01-x", tmp_path / "start", tmp_path / "work")
        (tmp_path / made).mkdir()
    (start,) = new_class(tmp_path).glob("start/L01*.toml")
    shutil.copy(start, tmp_path / "start" / "l01-x.toml")
    with pytest.raises(BadInput, match=r"work/l01-x is not there"):
        server("l01-x", tmp_path / "start", tmp_path / "work")
    assert [] == list((tmp_path / "work").iterdir())
