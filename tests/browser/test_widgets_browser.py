"""What holds for all three controls: contrast, sizes, names for a screen reader, scripts whole in themselves."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from bitepoint.page.widgets import AnswerForm, BoltCircle, CalculatorForm

from .drill import pull, take
from .lab import Lesson, found_by_axe

pytestmark = pytest.mark.browser

CONTRASTS = """(root) => {
  const paint = document.createElement('canvas').getContext('2d', {willReadFrequently: true});
  const rgba = (colour) => {
    paint.clearRect(0, 0, 1, 1); paint.fillStyle = colour; paint.fillRect(0, 0, 1, 1);
    const [r, g, b, a] = paint.getImageData(0, 0, 1, 1).data; return [r, g, b, a / 255];
  };
  const over = (top, under) => top.slice(0, 3).map((v, i) => v * top[3] + under[i] * (1 - top[3]));
  const ground = (element) => {
    const layers = [];
    for (let at = element; at; at = at.parentElement) layers.push(rgba(getComputedStyle(at).backgroundColor));
    return layers.reverse().reduce((under, top) => over(top, under), [255, 255, 255]);
  };
  const light = (rgb) => {
    const [r, g, b] = rgb.map((v) => v / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const ratio = (a, b) => (Math.max(light(a), light(b)) + 0.05) / (Math.min(light(a), light(b)) + 0.05);
  const probe = (names) => names.map((name) => rgba(getComputedStyle(root).getPropertyValue(name).trim()).slice(0, 3));
  const words = [...root.querySelectorAll('*')].filter((element) => element.namespaceURI.endsWith('xhtml')
    && element.getClientRects().length && [...element.childNodes].some((n) => n.nodeType === 3 && n.data.trim()));
  const found = words.map((element) => {
    const back = ground(element);
    return [element.className || element.tagName, ratio(over(rgba(getComputedStyle(element).color), back), back)];
  });
  for (const element of root.querySelectorAll('.bp-bolt .bp-count, .bp-dowel + text, .bp-number')) {
    const far = element.matches('.bp-number') ? [[169, 179, 189]] : probe(['--bp-metal-near', '--bp-metal-far']);
    for (const back of far) found.push(['drawing ' + element.textContent, ratio(rgba(getComputedStyle(element).fill), back)]);
  }
  return found;
}"""
SHAPES = {
    ".bp-mark:not(.bp-had, .bp-now)": "--bp-metal-far",
    ".bp-had": "--bp-metal-far",
    ".bp-focus": "--bp-metal-far",
    ".bp-part": "--bp-ground",
    ".bp-side-part": "--bp-ground",
}
SHAPE_CONTRASTS = CONTRASTS.replace(
    "  const words =",
    """  return Object.entries(SHAPES).map(([name, back]) =>
    [name, ratio(rgba(getComputedStyle(root.querySelector(name)).stroke).slice(0, 3), probe([back])[0])]);
  const words =""",
)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("which", ["drill_page", "forms_page", "sums"])
def test_words_stand_out_in_both_themes(request: pytest.FixtureRequest, which: str, dark: bool) -> None:
    """Every visible word reaches 4.5 to 1 against what lies behind it (WCAG 2.2, 1.4.3)."""
    lesson: Lesson = request.getfixturevalue(which)
    lesson.run_all()
    lesson.theme(dark)
    controls = lesson.page.locator(".bp-root")
    expect(controls.first).to_be_visible()
    lesson.page.wait_for_timeout(300)
    found = [pair for root in controls.all() for pair in root.evaluate(CONTRASTS)]
    lesson.theme(False)
    assert len(found) >= 8
    assert [(name, round(ratio, 2)) for name, ratio in found if ratio < 4.5] == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("which", ["drill_page", "forms_page", "sums"])
def test_axe_finds_nothing_in_our_controls(request: pytest.FixtureRequest, axe: Path, which: str, dark: bool) -> None:
    """No violation of any rule axe-core knows, in both themes."""
    assert found_by_axe(request.getfixturevalue(which), axe, dark=dark) == []


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_lines_stand_out_in_both_themes(drill: Lesson, dark: bool) -> None:
    """Marks, rings and outlines reach 3 to 1 (WCAG 2.2, 1.4.11)."""
    take(drill, stage="Hand start", tool="Fingers")
    pull(drill, 1)
    drill.theme(dark)
    script = SHAPE_CONTRASTS.replace("SHAPES", json.dumps(SHAPES))
    found = drill.page.locator(".bp-drill").evaluate(script)
    drill.theme(False)
    assert len(SHAPES) == len(found)
    assert [(name, round(ratio, 2)) for name, ratio in found if ratio < 3] == []


def sizes(lesson: Lesson) -> list[tuple[str, float, float]]:
    """Every target: its words, width and height [CSS px]."""
    found: list[tuple[str, float, float]] = []
    targets = ".bp-root :is(button, .bp-tile, .bp-input, select, summary), .bp-hit"
    for target in lesson.page.locator(targets).all():
        box: Any = target.bounding_box()
        if box:
            found.append((target.evaluate("(e) => e.textContent || e.className"), box["width"], box["height"]))
    return found


@pytest.mark.parametrize("which", ["drill_page", "forms_page", "sums"])
def test_targets_are_large_enough_on_a_narrow_page(request: pytest.FixtureRequest, which: str) -> None:
    """At 400 CSS px every target is at least 24 by 24, and nothing makes the control scroll sideways."""
    lesson: Lesson = request.getfixturevalue(which)
    lesson.page.set_viewport_size({"width": 400, "height": 1000})
    lesson.run_all()
    roots = lesson.page.locator(".bp-root")
    expect(roots.first).to_be_visible()
    found = sizes(lesson)
    too_wide = [root.evaluate("(e) => Math.max(0, e.scrollWidth - e.clientWidth)") for root in roots.all()]
    lesson.page.set_viewport_size({"width": 1100, "height": 1000})
    assert len(found) >= 4
    assert [one for one in found if min(one[1:]) < 24] == []
    assert [0] * len(too_wide) == too_wide


@pytest.mark.parametrize("which", ["drill_page", "forms_page", "sums"])
def test_every_control_has_a_name(request: pytest.FixtureRequest, which: str) -> None:
    """A screen reader can say what each field and button is."""
    lesson: Lesson = request.getfixturevalue(which)
    lesson.run_all()
    controls = lesson.page.locator(".bp-root :is(button, input, select, [role=button]):visible")
    expect(controls.first).to_be_visible()
    for control in controls.all():
        expect(control).to_have_accessible_name(re.compile(r"\S"))
    expect(lesson.page.locator(".bp-root [aria-live=polite]").first).to_be_attached()


@pytest.mark.parametrize("control", [AnswerForm, BoltCircle, CalculatorForm])
def test_scripts_are_whole_in_themselves(control: Any) -> None:
    """No import and no address in what goes to the page, so that it works without a network."""
    code = str(control._esm)
    assert None is re.search(r"^\s*import\b|\bimport\s*\(", code, re.MULTILINE)
    addresses = set(re.findall(r"https?://[^\"']*", code + str(control._css)))
    assert {"http://www.w3.org/2000/svg"} == addresses


def test_only_what_the_kernel_made_is_taken_as_markup() -> None:
    """Learner's and question's words become text; `shown` alone is markup, and the kernel makes it."""
    markup = r"innerHTML|outerHTML|insertAdjacentHTML|document\.write"
    counts = [len(re.findall(markup, str(control._esm))) for control in (AnswerForm, BoltCircle, CalculatorForm)]
    assert counts == [0, 0, 1]


def test_reprs_are_plain_and_stable() -> None:
    """A stored output must not change from run to run."""
    shown = [
        BoltCircle(spec={"angles_deg": [0, 90, 180, 270]}),
        AnswerForm(spec={"kind": "order"}),
        CalculatorForm(),
    ]
    assert [repr(one) for one in shown] == [
        "BoltCircle(4 bolts)",
        "AnswerForm(order)",
        "CalculatorForm(0 fields)",
    ]
