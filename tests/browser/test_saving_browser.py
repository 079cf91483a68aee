"""A lesson opened, run and saved in the real JupyterLab, with the settings of `bitepoint open`."""

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.save_hook import LIVE_VIEW
from workbook.small_course import LEARNER, notebook, read, ship

from . import lab

pytestmark = [pytest.mark.browser, pytest.mark.slow]
LIVE = "import ipywidgets; from IPython.display import HTML, display; display(HTML('<b>card</b>'))\nipywidgets.Button()"
SETTING = """async ([plugin, key]) => {
  const found = await window.jupyterapp.serviceManager.settings.fetch(plugin);
  return JSON.parse(JSON.stringify(found.schema.properties[key].default ?? null));
}"""


@pytest.fixture(scope="module")
def saved(
    tmp_path_factory: pytest.TempPathFactory, jupyterlab: lab.Served, folder: Path, chromium: lab.Browser
) -> Iterator[lab.Lesson]:
    """A workbook in a folder with blanks and accents, its lesson open in Chromium."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(jupyterlab.state))
        ship(tmp_path_factory.mktemp("course"), patch, star=notebook(LIVE))
        make_workbook(folder, LEARNER)
    page = lab.Lesson(jupyterlab, chromium)
    yield page.open(f"{folder.name}/star.ipynb", run=False)
    page.close()


def on_disk(folder: Path) -> list[list[str]]:
    """The kinds of data of each output of the lesson's code cell as saved."""
    return [sorted(output["data"]) for output in read(folder / "star.ipynb")["cells"][1]["outputs"]]


def test_opening_a_lesson_does_not_change_its_kernels_name(saved: lab.Lesson) -> None:
    """The kernel has the name the lesson has; with another name every lesson would count as changed at once."""
    spec = saved.page.evaluate(f"() => {lab.PANEL}.content.model.getMetadata('kernelspec').display_name")
    assert "Python 3" == spec


def test_saving_again_and_again_keeps_the_card_and_asks_nothing(saved: lab.Lesson, folder: Path) -> None:
    """Two runs and four saves: no dialog, the card on the disk, no live view there, the live button in the page."""
    for _ in range(2):
        saved.run_all()
        saved.save()
        saved.save()
        assert 0 == saved.page.locator(".jp-Dialog").count()
    assert [["text/html", "text/plain"]] == on_disk(folder)
    assert LIVE_VIEW not in json.dumps(read(folder / "star.ipynb"))
    assert 1 == saved.page.locator(".jp-OutputArea .jupyter-button").count()


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
def test_jupyterlab_has_taken_our_settings(saved: lab.Lesson, plugin: str, key: str, expected: object) -> None:
    """The page reports our value as its default."""
    assert expected == saved.page.evaluate(SETTING, [plugin, key])
