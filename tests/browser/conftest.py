"""One JupyterLab and one Chromium for all tests of this folder; without a Chromium they are skipped."""

import shutil
import subprocess
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import expect

from . import lab
from .drill import CALCULATOR, DRILL, FORMS, HEAD

AXE = "axe-core@4.14.1"


# A package, not a session: with Playwright's loop running no later test of this process could start one of its own.
@pytest.fixture(scope="package")
def launched() -> Iterator[lab.Browser]:
    """The one Chromium of all tests. No Chromium: skipped, and by that failed in CI."""
    if lab.chromium() is None:
        pytest.skip("no Chromium on this machine")
    with lab.browser() as opened:
        yield opened


@pytest.fixture(scope="module")
def chromium(launched: lab.Browser) -> Iterator[lab.Browser]:
    """The browser, without the pages of the module before: an open page goes on working."""
    yield launched
    for context in launched.contexts:
        context.close()


@pytest.fixture(scope="package")
def jupyterlab(tmp_path_factory: pytest.TempPathFactory, launched: lab.Browser) -> Iterator[lab.Served]:
    """The one JupyterLab of all tests, on a folder with blanks and accents; each module works in a subfolder."""
    with lab.served(tmp_path_factory.mktemp("jupyterlab"), work="Übung 1 ö") as running:
        yield running


@pytest.fixture(scope="module")
def folder(jupyterlab: lab.Served, request: pytest.FixtureRequest) -> Path:
    """The module's own subfolder of what JupyterLab shows: not there yet."""
    return jupyterlab.work / request.path.stem.removeprefix("test_").removesuffix("_browser")


@pytest.fixture(scope="module")
def lesson(jupyterlab: lab.Served, folder: Path, chromium: lab.Browser) -> Iterator[Callable[..., lab.Lesson]]:
    """Write cells to a new notebook, open it, run it; closed again after the module's last test.

    A script error on any of the pages fails that last test.
    """
    folder.mkdir()
    opened: list[lab.Lesson] = []

    def write_and_open(name: str, *cells: str, width: int = 1100, height: int = 1000) -> lab.Lesson:
        path = f"{folder.name}/{name}.ipynb"
        lab.write(folder / f"{name}.ipynb", *cells)
        jupyterlab.start_kernel(path)
        opened.append(lab.Lesson(jupyterlab, chromium, width=width, height=height))
        return opened[-1].open(path)

    yield write_and_open
    errors = [error for one in opened for error in one.errors]
    for one in opened:
        one.close()
    assert errors == []


@pytest.fixture(scope="session")
def axe(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The accessibility checker axe-core, fetched once; without npm: skipped, and by that failed in CI."""
    folder = tmp_path_factory.mktemp("axe")
    fetched = shutil.which("npm") and subprocess.run(
        ["npm", "install", "--silent", "--prefix", str(folder), AXE], capture_output=True, timeout=120
    )
    script = folder / "node_modules" / "axe-core" / "axe.min.js"
    if not fetched or not script.exists():
        pytest.skip("npm could not fetch axe-core")
    return script


@pytest.fixture(scope="module")
def drill_page(lesson: Callable[..., lab.Lesson]) -> lab.Lesson:
    """One notebook with a drill in its first cell and two cells after it, for all drill tests."""
    return lesson("drill", HEAD + DRILL, "1 + 1", "2 + 2")


@pytest.fixture
def drill(drill_page: lab.Lesson) -> lab.Lesson:
    """The drill, made afresh."""
    drill_page.run_all()
    expect(drill_page.page.locator(".bp-log li")).to_have_count(0)
    return drill_page


@pytest.fixture(scope="module")
def forms_page(lesson: Callable[..., lab.Lesson]) -> lab.Lesson:
    """One notebook with a form of every kind."""
    return lesson("forms", HEAD + FORMS)


@pytest.fixture
def forms(forms_page: lab.Lesson) -> lab.Lesson:
    """The forms, made afresh."""
    forms_page.run_all()
    expect(forms_page.page.locator(".bp-form")).to_have_count(5)
    return forms_page


@pytest.fixture(scope="module")
def sums(lesson: Callable[..., lab.Lesson]) -> lab.Lesson:
    """One notebook with a calculator."""
    return lesson("calculator", HEAD + CALCULATOR)
