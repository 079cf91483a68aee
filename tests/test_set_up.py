"""The one line that sets the course up: an old Python says what is missing, nothing is installed twice."""

import ast
import importlib.util
import subprocess
import sys
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parent.parent
SCRIPT = ROOT / "lib" / "set_up.py"


@pytest.fixture
def set_up() -> ModuleType:
    """The script as a module; its folder is not on the path of an installed course."""
    spec = importlib.util.spec_from_file_location("set_up", SCRIPT)
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_an_old_python_can_read_it() -> None:
    """Plain letters, no annotation, no text with places in it: what an old Python does not know is not there."""
    text = SCRIPT.read_text(encoding="ascii")
    newer = (ast.JoinedStr, ast.AnnAssign, ast.NamedExpr, ast.Match, ast.AsyncFunctionDef, ast.Nonlocal)
    found = list(ast.walk(ast.parse(text, feature_version=(3, 4))))
    assert [] == [node for node in found if isinstance(node, newer) or getattr(node, "returns", None)]


@pytest.mark.parametrize("version", [(2, 7, 18), (3, 6, 15), (3, 9, 18), (3, 10, 13)])
def test_an_old_python_says_it_in_one_line(
    set_up: ModuleType,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
    version: tuple[int, int, int],
) -> None:
    """Which Python this is, which is needed, what to do; nothing is begun and the status is the machine's."""
    monkeypatch.setattr(set_up.sys, "version_info", version)
    monkeypatch.setattr(set_up, "newer_python", lambda: "")
    monkeypatch.setattr(set_up, "installed", lambda what: pytest.fail("it went on"))
    assert 3 == set_up.main(["open"])
    assert capsys.readouterr().err == (
        f"set_up: this is Python {'.'.join(map(str, version))}, and the course needs 3.11 or newer. Install a newer one beside it "
        "and type the same line with its name, such as python3.13; or ask your IT.\n"
    )


def test_a_newer_python_on_the_computer_is_named(set_up: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    """The line to type stands in the message; a command that leads nowhere is passed over."""
    monkeypatch.setattr(set_up.shutil, "which", lambda name: name in ("python3.14", "python3.12"))
    monkeypatch.setattr(set_up, "quiet", lambda line: line[0] == "python3.12")
    assert "This computer has one: type python3.12 lib/set_up.py test" in set_up.too_old((3, 9, 18), "test")


def test_the_needed_python_is_the_packages_own(set_up: ModuleType) -> None:
    """The script asks for what pyproject.toml asks for."""
    assert f'requires-python = ">={set_up.dotted(set_up.NEEDED)}"' in (ROOT / "pyproject.toml").read_text("utf-8")


def test_nothing_to_do_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """Without a word that it knows it says the two lines, with the status of wrong use."""
    run = subprocess.run([sys.executable, str(SCRIPT), "install"], capture_output=True, text=True, check=False)
    assert (2, 1) == (run.returncode, run.stderr.count("\n"))
    assert "lib/set_up.py open" in run.stderr


def test_it_installs_again_only_what_changed(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """The tests' parts serve for opening too; another state of the course, or another Python, does not count."""
    monkeypatch.setattr(set_up, "STAMP", str(tmp_path / "set-up.txt"))
    monkeypatch.setattr(set_up, "same_python", lambda: True)
    assert not set_up.current("open", "a")
    (tmp_path / "set-up.txt").write_text(".[test] a", encoding="ascii")
    assert set_up.current("open", "a")
    assert set_up.current("test", "a")
    assert not set_up.current("open", "b")
    (tmp_path / "set-up.txt").write_text(". a", encoding="ascii")
    assert not set_up.current("test", "a")
    monkeypatch.setattr(set_up, "same_python", lambda: False)
    assert not set_up.current("open", "a")


def test_a_newer_bundle_takes_the_place_of_an_older(
    set_up: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """pip would leave an older course where one is there: the environment is made afresh, and from a checkout it stays."""
    for bundle in (True, False):
        asked: list[list[str]] = []
        monkeypatch.setattr(set_up, "BUNDLE", bundle)
        monkeypatch.setattr(set_up, "STAMP", str(tmp_path / "set-up.txt"))
        monkeypatch.setattr(set_up, "same_python", lambda: True)
        monkeypatch.setattr(set_up, "state", lambda: "newer")
        monkeypatch.setattr(set_up.subprocess, "call", lambda line, asked=asked: asked.append(line) or 0)
        (tmp_path / "set-up.txt").write_text(f"{set_up.PARTS['open']} older", encoding="ascii")
        assert set_up.installed("open") == set_up.DONE
        assert bundle == ("--clear" in asked[0])


def test_the_lines_of_the_readme_are_the_scripts_own(set_up: ModuleType) -> None:
    """Both lines stand alone in README.md, and what checks the whole takes the second from there."""
    lines = (ROOT / "README.md").read_text(encoding="utf-8").splitlines()
    assert [f"python3 lib/set_up.py {what}" for what in set_up.PARTS] == [x for x in lines if x.startswith("python3 ")]
