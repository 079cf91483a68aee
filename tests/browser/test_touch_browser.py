"""A drill worked by finger alone on a narrow screen, and found again after the kernel was restarted."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.logbook import Identity, read_folder
from bitepoint.workbook.create import make_workbook

from . import lab

pytestmark = pytest.mark.browser
SMALLEST_PX = 40


@pytest.fixture
def workbook(jupyterlab: lab.Served, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A learner's own folder, with a notebook that asks for one drill of each way of touching."""
    folder = jupyterlab.work / "touched"
    monkeypatch.setenv("BITEPOINT_STATE", str(jupyterlab.state))
    make_workbook(folder, Identity(learner="learner-one", class_word="oak"))
    asks = ('ask("star.six-bolts")', 'ask("torque.order-of-use")')
    lab.write(folder / "touch.ipynb", "from bitepoint import ask", *asks)
    return folder


@pytest.fixture
def page(workbook: Path, jupyterlab: lab.Served, chromium: lab.Browser) -> Iterator[lab.Lesson]:
    """The notebook on a phone."""
    opened = lab.Lesson(jupyterlab, chromium, width=390, height=844, touch=True)
    yield opened.open(f"{workbook.name}/touch.ipynb")
    assert opened.errors == []
    opened.close()


def _box(one: Locator) -> dict[str, float]:
    found = one.bounding_box()
    assert found is not None
    return {"x": found["x"], "y": found["y"], "width": found["width"], "height": found["height"]}


def _drag(page: lab.Lesson, x: float, y: float, to_y: float) -> None:
    """Draw one finger down or up."""
    finger = page.page.context.new_cdp_session(page.page)
    finger.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    for part in (0.3, 0.7, 1.0):
        at = [{"x": x, "y": y + (to_y - y) * part}]
        finger.send("Input.dispatchTouchEvent", {"type": "touchMove", "touchPoints": at})
    finger.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})


def test_a_finger_pulls_bolts_and_drags_steps_and_a_restart_loses_neither(page: lab.Lesson, workbook: Path) -> None:
    """One tap a bolt, targets of a finger's size, a drag that leaves the page where it is; nothing becomes an answer."""
    bolts, items = page.page.locator(".bp-bolt"), page.page.locator(".bp-order-item")
    for number in (1, 4, 2):
        bolts.nth(number - 1).tap()
    expect(page.page.locator(".bp-deed")).to_contain_text("Tap a bolt")
    expect(page.page.locator(".bp-log li")).to_have_count(3)
    assert (
        min(min(_box(hit)["width"], _box(hit)["height"]) for hit in page.page.locator(".bp-hit").all()) >= SMALLEST_PX
    )
    handle = items.first.locator(".bp-handle")
    page.page.locator(".bp-order").evaluate("(e) => e.scrollIntoView({block: 'start'})")
    words = items.first.locator(".bp-tile-words").inner_text()
    start, third = _box(handle), _box(items.nth(2))
    _drag(page, start["x"] + 10, start["y"] + 10, third["y"] + third["height"] - 2)
    expect(items.nth(2).locator(".bp-tile-words")).to_have_text(words)
    assert _box(page.page.locator(".bp-order"))["y"] == pytest.approx(start["y"], abs=30)
    page.wait_kernel(f"len(list(__import__('pathlib').Path({str(workbook)!r}).glob('.drafts/*.json')))", 2)
    page.page.evaluate(f"async () => {{ await {lab.PANEL}.sessionContext.session.kernel.restart(); }}")
    page.wait_ready()
    page.run_all()
    expect(page.page.locator(".bp-log li")).to_have_count(3)
    expect(items.nth(2).locator(".bp-tile-words")).to_have_text(words)
    assert not any(read_folder(workbook).values())
