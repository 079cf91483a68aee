"""What every test needs: all cores for a run of everything, nbval for the lessons, doctests, a state folder of its own."""

import os
import sys
from collections.abc import Generator, Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest

USES_THE_MACHINE = (
    "_browser.py",
    "marking/test_hostile.py",
    "workbook/test_hub.py",
    "workbook/test_opening.py",
    "workbook/test_serve.py",
)
"""Files of tests that start JupyterLab or Chromium, by the end of their path: never more than two at once."""
SECOND_HALF = "m"
"""From this letter on their names belong to the second half of them; both take about as long."""


def on_all_cores(config: pytest.Config) -> bool:
    """Whether nothing was named on the command line and no timing is asked for."""
    # A process that was started for one core reads the same options again and must start no others.
    if "PYTEST_XDIST_WORKER" in os.environ or getattr(config.option, "benchmark_only", False):
        return False
    return config.args_source == config.ArgsSource.TESTPATHS


@pytest.hookimpl(tryfirst=True)
def pytest_cmdline_main(config: pytest.Config) -> None:
    """A run of everything uses all cores, a file of tests stays together on one; what is named runs at once, in one process.

    Not in addopts: `python -m pytest -p no:xdist` runs too.
    """
    if config.pluginmanager.hasplugin("xdist"):
        if config.option.numprocesses is None and on_all_cores(config):
            config.option.numprocesses = "logical"
        if config.option.numprocesses and config.option.dist == "no":
            config.option.dist = "loadfile"
            # The longest comes first, not the file with the most tests: see the order of the items below.
            config.option.loadscopereorder = False


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> object:
    """Keep what starts JupyterLab or Chromium in two processes, one file after the other: both have processes of their own."""
    from xdist.scheduler.loadfile import LoadFileScheduling

    class TwoHalves(LoadFileScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return half_of_machine(super()._split_scope(nodeid))

    return TwoHalves(config, log) if config.getoption("dist") == "loadfile" else None


def half_of_machine(file: str) -> str:
    """Return what a file's tests stay together with: one of two halves of all that use the machine, or the file alone."""
    if not file.endswith(USES_THE_MACHINE):
        return file
    return "machine, first half" if Path(file).stem.removeprefix("test_") < SECOND_HALF else "machine, second half"


@pytest.hookimpl(wrapper=True, optionalhook=True)
def pytest_xdist_auto_num_workers() -> Generator[None, Any, Any]:
    """One process more than there are cores: those with a browser wait half of their time."""
    return (yield) + 1


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Tests that use the machine come first in a run on several cores: together they take longest."""
    items.sort(key=lambda item: not item.path.as_posix().endswith(USES_THE_MACHINE))


def pytest_configure(config: pytest.Config) -> None:
    """Switch nbval on when its plugin is there; a run of everything also takes the doctests of the package.

    Not in addopts: `python -m pytest -p no:nbval tests/mechanics` is the fast loop.
    """
    os.environ.pop("JPY_SESSION_NAME", None)
    if not getattr(config.option, "benchmark_only", True):
        # Timing is asked for by --benchmark-only; otherwise a benchmark runs once, as a test.
        config.option.benchmark_disable = True
    if config.pluginmanager.hasplugin("nbval"):
        config.option.nbval = True
        config.option.nbval_sanitize_with = str(Path(__file__).parent / "sanitize.cfg")
        config.option.nbval_cell_timeout = 60
        config.option.nbval_kernel_startup_timeout = 120
    if config.args_source == config.ArgsSource.TESTPATHS:
        config.option.doctestmodules = True
        config.option.pyargs = True
        # Absolute: with pyargs a bare "tests" would be looked up as an installed package of that name first.
        config.args[:] = [str(config.rootpath / folder) for folder in config.args]
        config.args += ["bitepoint.units", "bitepoint.mechanics", "bitepoint.logbook"]


def fail_where_ci(report: Any) -> Any:
    """Turn a skip into a failure where the environment says `CI=true`: there nothing may be missing."""
    if os.environ.get("CI") == "true" and report.outcome == "skipped" and not hasattr(report, "wasxfail"):
        why = report.longrepr[-1] if isinstance(report.longrepr, tuple) else report.longrepr
        report.outcome, report.longrepr = "failed", f"{report.nodeid}: nothing may be skipped in CI. {why}"
    return report


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, Any, Any]:
    """A test that was skipped."""
    return fail_where_ci((yield))


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report() -> Generator[None, Any, Any]:
    """A module that was skipped."""
    return fail_where_ci((yield))


@pytest.fixture(scope="session")
def states(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Folders for the states of all tests, one after the other.

    Not each beside the others' temporary folders: for a new one of these pytest reads the names of all, thousands by then.
    """
    folder = tmp_path_factory.mktemp("states")
    return (folder / str(number) for number in count())


@pytest.fixture(autouse=True)
def own_state(states: Iterator[Path], monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep the program's own state out of the home of whoever runs the tests."""
    folder = next(states)
    folder.mkdir()
    monkeypatch.setenv("BITEPOINT_STATE", str(folder))
    return folder


OWN_SHEET = Path(__file__).parent / "own_sheets" / "k7v.toml"
"""A college's own sheet, unlike the training vehicles: seven bolts unevenly spaced, torque and angle, rear-wheel drive."""


@pytest.fixture(scope="session")
def own_pack(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A class's own folder with one own sheet in it."""
    folder = tmp_path_factory.mktemp("own")
    (folder / "vehicles").mkdir()
    (folder / "vehicles" / "k7v.toml").write_text(OWN_SHEET.read_text(encoding="utf-8"), encoding="utf-8")
    return folder


@pytest.fixture
def package(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of a package whose compiled modules may be written."""
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    monkeypatch.setattr(sys, "pycache_prefix", None)
    (tmp_path / "__init__.py").touch()
    return tmp_path
