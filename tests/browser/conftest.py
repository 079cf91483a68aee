"""One JupyterLab and one Chromium for all tests of this folder; without a Chromium they cannot run."""

import os
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from . import lab


@pytest.fixture(scope="package")
def chromium() -> Iterator[lab.Browser]:
    """A browser for these tests. No browser: skipped on a desk, failed where CI is "true"."""
    if lab.chromium() is None:
        (pytest.fail if os.environ.get("CI") == "true" else pytest.skip)("no Chromium on this machine")
    with lab.browser() as opened:
        yield opened


@pytest.fixture(scope="package")
def jupyterlab(tmp_path_factory: pytest.TempPathFactory, chromium: lab.Browser) -> Iterator[lab.Server]:
    """A JupyterLab server for these tests."""
    with lab.Server(tmp_path_factory.mktemp("jupyterlab")) as server:
        yield server


@pytest.fixture(scope="module")
def lesson(jupyterlab: lab.Server, chromium: lab.Browser) -> Iterator[Callable[..., lab.Lesson]]:
    """Write cells to a new notebook, open it, run it; closed again after the module's last test.

    A script error on any of the pages fails that last test.
    """
    opened: list[lab.Lesson] = []

    def write_and_open(name: str, *cells: str, width: int = 1100, height: int = 1000) -> lab.Lesson:
        lab.write(jupyterlab.work / f"{name}.ipynb", *cells)
        opened.append(lab.Lesson(jupyterlab, chromium, width=width, height=height))
        return opened[-1].open(f"{name}.ipynb")

    yield write_and_open
    errors = [error for one in opened for error in one.errors]
    for one in opened:
        one.close()
    assert errors == []


@pytest.fixture
def folder(jupyterlab: lab.Server) -> Path:
    """The folder the browser sees."""
    return jupyterlab.work
