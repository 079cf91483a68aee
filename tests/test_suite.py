"""The suite itself: in CI a skip is a failure, all cores are used once, and two processes at most start JupyterLab."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

import conftest

HERE = Path(__file__).parent
TESTS = """
import pytest

def test_fine(): pass

def test_not_here(): pytest.skip("no browser")

@pytest.mark.xfail
def test_known(): raise ValueError
"""
MODULE = "import pytest\n\npytest.importorskip('no_such_module_anywhere')\n"


def pytest_with_hooks(folder: Path, *options: str, **environment: str) -> str:
    """Run pytest in a folder with the hooks of this suite; what it said."""
    off = [f"-pno:{plugin}" for plugin in ("nbval", "hypothesispytest", "benchmark")]
    command = [sys.executable, "-m", "pytest", *off, *options]
    shutil.copy(HERE / "conftest.py", folder)
    own = {key: value for key, value in os.environ.items() if not key.startswith("PYTEST_")}
    done = subprocess.run(
        command,
        env=own | environment,
        cwd=folder,
        capture_output=True,
        encoding="utf-8",
        timeout=120,
    )
    return done.stdout


def run(folder: Path, *, ci: str) -> str:
    """Run these tests as CI does or as anybody else."""
    (folder / "pytest.ini").write_text("[pytest]\n", encoding="utf-8")
    (folder / "test_it.py").write_text(TESTS, encoding="utf-8")
    (folder / "test_module.py").write_text(MODULE, encoding="utf-8")
    return pytest_with_hooks(folder, "-pno:xdist", "-rfs", "--continue-on-collection-errors", CI=ci)


def test_a_skip_fails_in_ci_and_only_there(tmp_path: Path) -> None:
    """A skipped test or module fails and says why it was skipped; elsewhere it stays a skip; xfail is no skip."""
    said = run(tmp_path, ci="true")
    why = re.findall(r"nothing may be skipped in CI\. Skipped: (no browser|could not import)", said)
    assert {"no browser", "could not import"} == set(why)
    assert "1 failed, 1 passed, 1 xfailed, 1 error" in said
    assert "1 passed, 2 skipped, 1 xfailed" in run(tmp_path, ci="")


COUNT = """
import os
from pathlib import Path

def test_who():
    Path(os.environ["SEEN"], str(os.getpid())).write_text(os.environ.get("PYTEST_XDIST_WORKER_COUNT", "none"))
"""


@pytest.mark.parametrize(("named", "processes"), [((), "3"), (("test_one.py", "test_two.py"), "none")])
def test_a_run_of_everything_starts_one_process_more_than_cores(
    tmp_path: Path, named: tuple[str, ...], processes: str
) -> None:
    """Each started process starts none itself; tests that are named run in the process that was asked."""
    seen = tmp_path / "seen"
    seen.mkdir()
    (tmp_path / "pytest.ini").write_text("[pytest]\ntestpaths = .\n", encoding="utf-8")
    for name in ("one", "two"):
        (tmp_path / f"test_{name}.py").write_text(COUNT, encoding="utf-8")
    done = pytest_with_hooks(tmp_path, "-ktest_who", *named, PYTEST_XDIST_AUTO_NUM_WORKERS="2", SEEN=str(seen))
    assert "2 passed" in done
    told = [path.read_text(encoding="utf-8") for path in seen.iterdir()]
    assert {processes} == set(told)
    assert len(told) == (1 if named else 2)


def test_what_uses_the_machine_is_named_by_files_that_are_there() -> None:
    """Each end of a path that stands in the list fits a file of tests, and every test of a browser is among them."""
    files = [path.as_posix() for path in HERE.rglob("test_*.py")]
    assert [end for end in conftest.USES_THE_MACHINE if not any(file.endswith(end) for file in files)] == []
    marked = {path.as_posix() for path in HERE.rglob("test_*.py") if "mark.browser" in path.read_text(encoding="utf-8")}
    assert {file for file in marked if not file.endswith(conftest.USES_THE_MACHINE)} == {Path(__file__).as_posix()}


def test_what_uses_the_machine_is_in_two_halves_that_stay_together() -> None:
    """Each half has some files; a file that starts nothing of the kind is on its own."""
    files = [path.relative_to(HERE.parent).as_posix() for path in HERE.rglob("test_*.py")]
    halves = [conftest.half_of_machine(file) for file in files if file.endswith(conftest.USES_THE_MACHINE)]
    assert 2 == len(set(halves))
    assert min(halves.count(half) for half in set(halves)) * 4 > len(halves)
    assert "tests/test_suite.py" == conftest.half_of_machine("tests/test_suite.py")
