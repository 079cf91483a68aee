"""The course as `bitepoint open --projector` shows it on a wall of 1024 by 768, in the real JupyterLab."""

from collections.abc import Iterator

import pytest

from bitepoint.logbook.identity import practice_learner
from bitepoint.workbook.create import make_workbook
from bitepoint.workbook.running import Running
from workbook.small_course import notebook, ship

from . import lab

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def wall(tmp_path_factory: pytest.TempPathFactory, chromium: lab.Browser) -> Iterator[lab.Page]:
    """One lesson at the address that opening gives, run once, on a server of its own: the large type is its setting."""
    place = tmp_path_factory.mktemp("projector")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(place / "state"))
        ship(place / "course", patch, star=notebook('from bitepoint import ask\nask("start.number")'))
        with lab.served(place, projector=True) as server:
            make_workbook(server.work, practice_learner())
            page = chromium.new_page(viewport={"width": 1024, "height": 768})
            page.goto(Running(server.url, server.token).page("star.ipynb", single=True))
            page.evaluate(lab.READY)
            page.evaluate("async () => { await window.jupyterapp.commands.execute('notebook:run-all-cells'); }")
            yield page


def test_one_document_fills_the_page(wall: lab.Page) -> None:
    """No list of files beside it; the lesson is at least nine tenths of the width."""
    assert not wall.locator(".jp-FileBrowser").is_visible()
    box = wall.locator(".jp-Notebook").bounding_box()
    assert box is not None
    assert box["width"] > 0.9 * 1024


def test_words_card_and_form_are_large_and_nothing_is_cut_off(wall: lab.Page) -> None:
    """Everything read is at least 20 pixels high on the screen; no line is wider than the page."""
    sizes = wall.evaluate(
        """() => [...document.querySelectorAll('.jp-Notebook .jp-Cell :is(p, h1, .bp-label, .bp-title, input)')]
          .filter((e) => e.offsetParent && e.textContent + e.tagName)
          .map((e) => parseFloat(getComputedStyle(e).fontSize) * (e.currentCSSZoom ?? 1))"""
    )
    assert len(sizes) > 4
    assert min(sizes) >= 20
    assert (
        wall.evaluate(
            "() => { const n = document.querySelector('.jp-Notebook'); return n.scrollWidth - n.clientWidth; }"
        )
        <= 1
    )


def test_a_form_answers_as_at_a_desk(wall: lab.Page) -> None:
    """Typed and checked, the verdict stands under the form."""
    form = wall.locator(".bp-form")
    form.locator("input").fill("12 N·m")
    form.locator("button").filter(has_text="Check").click()
    form.get_by_text("Not yet.").or_(form.get_by_text("Right.")).first.wait_for()
