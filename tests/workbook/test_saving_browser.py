"""A lesson opened, run and saved in the real JupyterLab, with the settings of `bitepoint open`."""

import json
import os
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest

from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.running import open_notebooks
from bitepoint.workbook.runtime_folder import runtime_folder_of
from bitepoint.workbook.save_hook import LIVE_VIEW
from bitepoint.workbook.serve import Server
from browser import lab

from .small_course import LEARNER, notebook, read, ship

pytestmark = [pytest.mark.browser, pytest.mark.slow]
LIVE = "import ipywidgets; from IPython.display import HTML, display; display(HTML('<b>card</b>'))\nipywidgets.Button()"
OPTIONS = ("--LabApp.expose_app_in_browser=True",)
SETTING = """async ([plugin, key]) => {
  const found = await window.jupyterapp.serviceManager.settings.fetch(plugin);
  return JSON.parse(JSON.stringify(found.schema.properties[key].default ?? null));
}"""


@pytest.fixture(scope="module")
def lesson(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[lab.Lesson, Path]]:
    """A workbook in a folder with blanks and accents, its lesson open in Chromium."""
    if lab.chromium() is None:
        (pytest.fail if os.environ.get("CI") == "true" else pytest.skip)("no Chromium on this machine")
    place = tmp_path_factory.mktemp("saving")
    folder = place / "Übung 1 ö"
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(place / "state"))
        ship(place / "course", patch, star=notebook(LIVE))
        make_workbook(folder, LEARNER)
        with Server(folder, runtime_folder_of(folder), options=OPTIONS) as server, lab.browser() as chromium:
            found = server.wait_ready()
            page = lab.Lesson(SimpleNamespace(url=found.address, token=found.token), chromium)
            yield page.open("star.ipynb", run=False), folder


def on_disk(folder: Path) -> list[list[str]]:
    """The kinds of data of each output of the lesson's code cell as saved."""
    return [sorted(output["data"]) for output in read(folder / "star.ipynb")["cells"][1]["outputs"]]


def test_opening_a_lesson_does_not_change_its_kernels_name(lesson: tuple[lab.Lesson, Path]) -> None:
    """The kernel has the name the lesson has; with another name every lesson would count as changed at once."""
    page, _ = lesson
    spec = page.page.evaluate(f"() => {lab.PANEL}.content.model.getMetadata('kernelspec').display_name")
    assert "Python 3" == spec


def test_saving_again_and_again_keeps_the_card_and_asks_nothing(lesson: tuple[lab.Lesson, Path]) -> None:
    """Two runs and four saves: no dialog, the card on the disk, no live view there, the live button in the page."""
    page, folder = lesson
    for _ in range(2):
        page.run_all()
        page.save()
        page.save()
        assert 0 == page.page.locator(".jp-Dialog").count()
    assert [["text/html", "text/plain"]] == on_disk(folder)
    assert LIVE_VIEW not in json.dumps(read(folder / "star.ipynb"))
    assert 1 == page.page.locator(".jp-OutputArea .jupyter-button").count()


def test_a_lesson_open_in_the_page_is_known_to_be(lesson: tuple[lab.Lesson, Path]) -> None:
    """By this a lesson that somebody looks at is not written."""
    _, folder = lesson
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(folder.parent / "state"))
        runtime = runtime_folder_of(folder)
    assert {"star.ipynb"} == open_notebooks(runtime)


@pytest.mark.parametrize(
    ("plugin", "key", "expected"),
    [
        ("@jupyterlab/docmanager-extension:plugin", "autosaveInterval", 20),
        ("@jupyterlab/docmanager-extension:plugin", "confirmClosingDocument", True),
        ("@jupyterlab/apputils-extension:notification", "fetchNews", "false"),
        ("@jupyterlab/apputils-extension:notification", "checkForUpdates", False),
        ("@jupyterlab/notebook-extension:tracker", "showEditorForReadOnlyMarkdown", False),
        ("@jupyterlab/notebook-extension:tracker", "windowingMode", "none"),
    ],
)
def test_jupyterlab_has_taken_our_settings(
    lesson: tuple[lab.Lesson, Path], plugin: str, key: str, expected: object
) -> None:
    """The page reports our value as its default."""
    page, _ = lesson
    assert expected == page.page.evaluate(SETTING, [plugin, key])
