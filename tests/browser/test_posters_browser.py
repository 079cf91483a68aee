"""The posters and the pages for a fitter in a real browser: one sheet each, nothing that runs over its edge."""

from pathlib import Path

import pytest

from bitepoint.classroom.posters.pages import write_posters
from bitepoint.classroom.review import review_page

from .lab import Browser
from .test_pages_browser import counted

pytestmark = pytest.mark.browser
OVER = """() => [...document.querySelectorAll('main, main *')]
  .filter((e) => getComputedStyle(e).display !== 'inline' && e.clientWidth > 0)
  .filter((e) => e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 2)
  .map((e) => e.className || e.tagName)"""
"""Boxes whose content is wider or higher than they are; the page is one of them."""
LEAST_PICTURE_PX = 190
FULLEST = ("fault-tree", "inspection", "remember-01")


def test_each_poster_is_one_sheet_and_nothing_runs_over(chromium: Browser, tmp_path: Path) -> None:
    """On the wider and the lower paper, with this machine's own fonts, which are wider than most; printed where the page is fullest.

    A lesson's page grows by its recap: on the lower paper there is room left for its picture.
    """
    page = chromium.new_page()
    page.emulate_media(media="print")
    over, pictures, printed = {}, {}, []
    for paper in ("A4", "letter"):
        for path in write_posters(tmp_path / paper, paper=paper):  # type: ignore[arg-type]
            lesson = path.stem.startswith("remember-")
            if lesson and paper == "A4":
                continue
            page.goto(path.as_uri())
            if lesson:
                pictures[path.stem] = page.locator(".picture").bounding_box()["height"]  # type: ignore[index]
            over[paper, path.stem] = page.evaluate(OVER)
            if path.stem in FULLEST:
                printed.append(counted(page.pdf(prefer_css_page_size=True)))
    page.close()
    assert over == {(paper, key): [] for paper, key in over}
    assert printed == [1] * (2 * len(FULLEST) - 1)
    assert [(key, height) for key, height in pictures.items() if height < LEAST_PICTURE_PX] == []


def test_the_label_is_true_to_size(chromium: Browser, tmp_path: Path) -> None:
    """A label is 90 by 53 mm, the ruler 100 mm, at 96 pixels an inch."""
    page = chromium.new_page()
    page.goto(write_posters(tmp_path)[3].as_uri())
    sides = [
        (box["width"], box["height"]) for box in (one.bounding_box() for one in page.locator(".label").all()) if box
    ]
    ruler = page.locator(".rule i").bounding_box()
    page.close()
    assert sides == [pytest.approx((90 * 96 / 25.4, 53 * 96 / 25.4), abs=0.1)] * 6
    assert ruler
    assert ruler["width"] == pytest.approx(100 * 96 / 25.4, abs=0.1)


def test_what_a_fitter_reads_fits_its_page(chromium: Browser) -> None:
    """No word is wider than its column."""
    page = chromium.new_page(viewport={"width": 1060, "height": 800})
    page.set_content(review_page("fault"))
    over = page.evaluate(
        "() => [...document.querySelectorAll('td, th')].filter((e) => e.scrollWidth > e.clientWidth + 1).length"
    )
    page.close()
    assert over == 0
