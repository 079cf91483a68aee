"""What every test needs: nbval switched on for the lessons, the doctests of the calculators, a state folder of its own."""

import os
from pathlib import Path

import pytest


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


@pytest.fixture(autouse=True)
def own_state(tmp_path_factory: pytest.TempPathFactory, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Keep the program's own state out of the home of whoever runs the tests."""
    folder = tmp_path_factory.mktemp("state")
    monkeypatch.setenv("BITEPOINT_STATE", str(folder))
    return folder
