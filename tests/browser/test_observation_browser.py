"""The form for observations in the real JupyterLab, by keyboard alone, and the notebook it leaves behind."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import expect

from . import lab

pytestmark = [pytest.mark.browser, pytest.mark.slow]
FORM = "from bitepoint.page.staff import observations\nseen = observations()\nseen.form()"


def test_an_observation_is_recorded_by_keyboard_and_no_cell_is_lost(
    lesson: Callable[..., lab.Lesson], folder: Path
) -> None:
    """Tab, typing and Space only; “dd” typed to choose deletes nothing; the saved page shows the table and no form."""
    opened = lesson("observe", FORM, "1 + 1")
    page = opened.page
    first = page.get_by_label("Learner", exact=True)
    expect(first).to_be_visible()
    page.wait_for_function("() => document.querySelector('.widget-dropdown select').dataset.lmSuppressShortcuts")
    first.focus()
    page.keyboard.type("L07-E")
    page.keyboard.press("Tab")
    page.keyboard.type("dd")
    page.keyboard.press("Tab")
    page.keyboard.type("dd")
    expect(page.get_by_label("Result", exact=True)).to_have_value("done right")
    page.keyboard.press("Tab")
    page.keyboard.type("A. Assessor")
    for _ in range(3):
        page.keyboard.press("Tab")
    page.keyboard.press("Space")

    expect(page.get_by_text("Tried.")).to_be_visible()
    expect(page.locator(".jp-RenderedHTMLCommon table").get_by_text("done right")).to_be_visible()
    assert 2 == len(opened.cells())
    opened.wait_kernel("[e.result for e in seen.register.entries()]", ["done right"])
    names = page.evaluate(
        "() => [...document.querySelectorAll('.widget-vbox :is(input, select)')].map((e) => e.labels?.[0]?.textContent)"
    )
    assert ["Class folder", "Learner", "Criterion", "Result", "Assessor", "Date", "Note"] == names
    opened.save()
    stored = json.loads((folder / "observe.ipynb").read_text(encoding="utf-8"))
    assert "done right" in str(stored["cells"][0]["outputs"])
