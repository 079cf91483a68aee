"""The words of all pictures, measured by a browser in a wide and in a narrow font: none leaves the picture or its box."""

from base64 import b64encode
from html import escape
from pathlib import Path
from typing import Any

import matplotlib
import pytest

from bitepoint.bank import exercises
from bitepoint.bank.lessons import LESSONS
from bitepoint.classroom.lesson_text import pictures_shown
from bitepoint.pictures import draw, keys
from bitepoint.pictures.canvas import Canvas

from .lab import Browser

pytestmark = pytest.mark.browser
MEASURE = (Path(__file__).parent / "words_in_boxes.js").read_text(encoding="utf-8")
TURNS = (1, 2, 3)
PLOTS = {"road-test", "slip-plot", "order-spectrum"}
"""Drawn as pixels with a font of their own: nothing of them depends on the reader's machine."""


def fonts() -> str:
    """Two families from one font that every machine with this project has: as it is, among the widest, and 15 % narrower."""
    folder = Path(matplotlib.get_data_path(), "fonts", "ttf")
    faces = []
    for name, weight in (("DejaVuSans.ttf", "normal"), ("DejaVuSans-Bold.ttf", "bold")):
        data = b64encode((folder / name).read_bytes()).decode()
        faces += [
            f"@font-face {{ font-family: {family}; font-weight: {weight}; size-adjust: {share}; "
            f"src: url(data:font/ttf;base64,{data}); }}"
            for family, share in (("wide", "100%"), ("narrow", "85%"))
        ]
    return "".join(faces)


def all_drawings() -> dict[str, str]:
    """Every picture that is drawn: as it stands by itself, as the lessons show it, and as exercises ask from it."""
    found: dict[str, str] = {}

    def keep(where: str, key: str, parameters: dict[str, Any]) -> None:
        if key not in PLOTS:
            found.setdefault(str(draw(key, **parameters).content), f"{key} {where}".strip())

    for key in keys():
        keep("", key, {})
    for lesson in LESSONS:
        for key, parameters in pictures_shown(lesson):
            if key in keys():
                keep(f"in {lesson}", key, parameters)
    for exercise in exercises().values():
        for turn in TURNS:
            shown = exercise.draw(class_word="practice", learner="practice", turn=turn).picture
            if shown:
                keep(f"in {exercise.id}, turn {turn}", shown.key, shown.parameters)
    return {name: content for content, name in found.items()}


def said(chromium: Browser, drawings: dict[str, str]) -> list[str]:
    """What the measure says of these drawings."""
    page = chromium.new_page()
    body = "".join(f'<div data-key="{escape(name)}">{content}</div>' for name, content in drawings.items())
    page.set_content(
        f"<style>{fonts()}</style><p style='font-family: wide'>a<b>b</b></p><p style='font-family: narrow'>a<b>b</b></p>{body}"
    )
    page.evaluate("() => document.fonts.ready")
    found: list[str] = page.evaluate(MEASURE)
    page.close()
    return found


def test_no_words_leave_their_picture_or_their_box_in_a_wide_font(chromium: Browser) -> None:
    """A browser falls back to what the machine has: a safety line that is cut says something else."""
    drawings = all_drawings()
    assert len(drawings) > 150
    told = said(chromium, drawings)
    assert not told, "\n".join(told)


def test_the_measure_finds_what_is_cut_too_wide_or_run_together(chromium: Browser) -> None:
    """A line cut at the edge, a title wider than its box, two words in one place; and it lets a short title be."""
    canvas = Canvas(300)
    canvas.text(
        20, 40, "Brake fluid harms eyes, skin and paint: goggles, gloves, water at hand.", 18, anchor="start", bold=True
    )
    canvas.rect(100, 100, 200, 60)
    canvas.text(200, 130, "A title that is too wide for it", 18)
    canvas.rect(400, 100, 200, 60)
    canvas.text(500, 130, "Short", 18)
    canvas.text(60, 200, "one word", 18)
    canvas.text(100, 200, "another", 18)
    told = said(chromium, {"trial": str(canvas.drawing(alt="", caption="").content)})
    assert told == [
        "trial: cut by the edge of the picture: Brake fluid harms eyes, skin and paint: goggles, gloves, water at hand.",
        "trial: wider than its box: A title that is too wide for it",
        "trial: runs into “another”: one word",
    ]
