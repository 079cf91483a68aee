"""The picture with a slider in the real JupyterLab: by mouse, by keyboard alone, in both themes, and what is stored."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from .drill import HEAD
from .lab import AXE, Lesson

pytestmark = pytest.mark.browser
Open = Callable[..., Lesson]
SHOW = "from bitepoint import show\nshow('clutch-in-motion')"
WHERE = """(picture) => Object.fromEntries(['pressure-plate', 'facings', 'release-bearing', 'cover'].map(
  (name) => [name, picture.querySelector(`.bp-part-${name}`).getBoundingClientRect().x]))"""


@pytest.fixture(scope="module")
def page(lesson: Open) -> Lesson:
    """One notebook with the moving section and a cell after it."""
    return lesson("slide", HEAD + SHOW, "1 + 1")


@pytest.fixture
def slide(page: Lesson) -> Locator:
    """The slider, pedal up."""
    page.run_all()
    expect(page.page.locator(".bp-sliding")).to_have_count(1)
    return page.page.get_by_role("slider", name="Travel of the pedal pad")


def moved(page: Lesson, before: dict[str, float]) -> dict[str, int]:
    """Which way each part has gone since: towards the engine -1, towards the gearbox 1."""
    now = page.page.locator(".bp-slide-picture").evaluate(WHERE)
    return {name: (now[name] > x + 0.5) - (now[name] < x - 0.5) for name, x in before.items()}


def test_the_pedal_is_pressed_by_keyboard_alone(page: Lesson, slide: Locator) -> None:
    """Arrows and End press it; bearing and plate part; the words follow; no key reaches the notebook."""
    before = page.page.locator(".bp-slide-picture").evaluate(WHERE)
    slide.focus()
    expect(slide).to_have_attribute("aria-valuetext", "0 mm: plate clamped")
    for _ in range(30):
        page.page.keyboard.press("ArrowRight")
    expect(slide).to_have_attribute("aria-valuetext", "60 mm: gap opens, plate may still drag, gap 0.3 mm on each side")
    page.page.keyboard.press("End")
    expect(slide).to_have_attribute("aria-valuetext", "140 mm: plate free, gap 1.0 mm on each side")
    assert {"release-bearing": -1, "pressure-plate": 1, "facings": 1, "cover": 0} == moved(page, before)
    picture = page.page.locator(".bp-slide-picture")
    expect(picture).to_contain_text("Pedal 140 mm: plate free")
    expect(picture).to_contain_text("lift 1.96 mm")
    page.page.keyboard.press("Home")
    assert {"release-bearing": 0, "pressure-plate": 0, "facings": 0, "cover": 0} == moved(page, before)
    page.page.keyboard.press("d")
    page.page.keyboard.press("d")
    assert len(page.cells()) == 2


def test_the_pedal_is_pressed_by_mouse(page: Lesson, slide: Locator) -> None:
    """A click on the slider's middle, then the two buttons."""
    slide.click()
    expect(slide).to_have_attribute("aria-valuetext", "70 mm: gap opens, plate may still drag, gap 0.4 mm on each side")
    page.page.get_by_role("button", name="Press slowly").click()
    expect(slide).to_have_value("140")
    page.page.get_by_role("button", name="Let it up").click()
    expect(slide).to_have_value("0")


def test_slider_and_picture_fit_on_one_screen(page: Lesson, slide: Locator) -> None:
    """What moves and what moves it are seen together, on a window of 1000 by 800 too."""
    page.page.set_viewport_size({"width": 1000, "height": 800})
    box = page.page.locator(".bp-sliding").bounding_box()
    page.page.set_viewport_size({"width": 1100, "height": 1000})
    assert box is not None
    assert box["height"] < 700


@pytest.mark.parametrize("dark", [False, True])
def test_nothing_stops_someone_who_sees_or_hears_it_differently(
    page: Lesson, slide: Locator, axe: Path, dark: bool
) -> None:
    """axe-core finds no violation in the picture and its slider, light or dark, pedal up or down."""
    page.theme(dark)
    page.page.evaluate(axe.read_text(encoding="utf-8"))
    slide.focus()
    for key in ("Home", "End"):
        page.page.keyboard.press(key)
        parts, passes, violations = page.page.evaluate(AXE)
        assert violations == []
        assert parts >= 2
        assert passes > 10
    page.theme(False)


def test_a_saved_notebook_keeps_the_still_picture(page: Lesson, slide: Locator) -> None:
    """Beside the live view, which saving takes off, stands the picture with its alt text, under 120 kB."""
    outputs = page.cells()[0]["outputs"]
    still = [o["data"]["text/html"] for o in outputs if "text/html" in o.get("data", {})]
    assert len(still) == 1
    assert "<img alt=" in still[0]
    assert len(json.dumps(still)) < 120_000
