"""Places in a picture, marked by mouse, by keyboard alone and in the list, in the real JupyterLab."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from .drill import HEAD
from .lab import AXE, Lesson

pytestmark = pytest.mark.browser
Open = Callable[..., Lesson]

PLACES = """
svg = ("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 720 300'><rect width='720' height='300' fill='#fff'/>"
       "<text x='60' y='36' font-size='20'>A</text></svg>")
regions = [
    {"key": "a", "label": "big field", "shape": "rect", "points": [20, 20, 400, 260], "at": [60, 30]},
    {"key": "b", "label": "small field inside", "shape": "rect", "points": [100, 100, 80, 80]},
    {"key": "c", "label": "round", "shape": "circle", "points": [540, 150, 100]},
    {"key": "d", "label": "corner", "shape": "polygon", "points": [640, 20, 710, 20, 710, 120]}]
options = [{"key": one["key"], "text": one["label"]} for one in regions]
heard = []
forms = {}
for kind in ("spots", "region"):
    forms[kind] = AnswerForm(spec={"kind": kind, "label": f"Mark: {kind}", "options": options,
                                   "picture": {"svg": svg, "alt": "Four fields", "regions": regions}})
    forms[kind].on_msg(lambda control, content, buffers: heard.append(content.get("answer")))
    put(forms[kind])
"""


@pytest.fixture(scope="module")
def page(lesson: Open) -> Lesson:
    """One notebook with places to mark and a place to choose."""
    return lesson("places", HEAD + PLACES, "1 + 1")


@pytest.fixture
def places(page: Lesson) -> Lesson:
    """Both, made afresh."""
    page.run_all()
    expect(page.page.locator(".bp-form")).to_have_count(2)
    return page


def form(lesson: Lesson, kind: str) -> Locator:
    return lesson.page.locator(".bp-form").nth(["spots", "region"].index(kind))


def place(lesson: Lesson, name: str, kind: str = "spots") -> Locator:
    return form(lesson, kind).get_by_role("button", name=name, exact=True)


def in_list(lesson: Lesson, name: str) -> Locator:
    return form(lesson, "spots").get_by_role("checkbox", name=name, exact=True)


def test_a_click_marks_and_once_more_takes_the_mark_off(places: Lesson) -> None:
    """Button, list and count say the same; the mark is a tick and a thick line, not a colour alone."""
    place(places, "A, big field").click(position={"x": 8, "y": 8})
    place(places, "C, round").click()
    expect(place(places, "C, round")).to_have_attribute("aria-pressed", "true")
    expect(in_list(places, "round")).to_be_checked()
    expect(form(places, "spots").locator(".bp-count-marked")).to_have_text("2 marked")
    expect(form(places, "spots").locator(".bp-region-chosen .bp-tick")).to_have_count(2)
    expect(form(places, "spots").locator(".bp-region-chosen .bp-tick").first).to_be_visible()
    place(places, "C, round").click()
    expect(place(places, "C, round")).to_have_attribute("aria-pressed", "false")
    form(places, "spots").get_by_role("button", name="Check").click()
    places.wait_kernel("heard", [["a"]])


def test_a_small_place_inside_a_large_one_and_the_empty_corner_of_a_slanting_one(places: Lesson) -> None:
    """The small one lies on top; beside the edge of a polygon or a circle nothing is marked."""
    picture = form(places, "spots").locator(".bp-places-picture")
    picture.scroll_into_view_if_needed()
    box = picture.bounding_box()
    assert box is not None
    unit = box["width"] / 720
    for x, y in ((140, 140), (645, 115), (445, 55), (700, 40)):
        places.page.mouse.click(box["x"] + x * unit, box["y"] + y * unit)
    expect(place(places, "B, small field inside")).to_have_attribute("aria-pressed", "true")
    expect(place(places, "D, corner")).to_have_attribute("aria-pressed", "true")
    expect(form(places, "spots").locator(".bp-count-marked")).to_have_text("2 marked")


def test_the_picture_is_worked_by_keyboard_alone(places: Lesson) -> None:
    """One tab stop; arrows, Home, End and a letter move; Space and Enter mark; what has the focus is drawn and named."""
    keys = places.page.keyboard
    place(places, "A, big field").focus()
    keys.press("ArrowRight")
    expect(place(places, "B, small field inside")).to_be_focused()
    place(places, "C, round").hover()
    expect(form(places, "spots").locator(".bp-drawn-focus")).to_have_count(1)
    expect(form(places, "spots").locator(".bp-place-name")).to_have_text("B, small field inside")
    keys.press(" ")
    expect(form(places, "spots").locator(".bp-place-name")).to_have_text("B, small field inside · marked")
    keys.press("d")
    expect(place(places, "D, corner")).to_be_focused()
    keys.press("Enter")
    keys.press("Home")
    keys.press("ArrowUp")
    expect(place(places, "D, corner")).to_be_focused()
    keys.press("Tab")
    expect(in_list(places, "big field")).to_be_focused()
    keys.press(" ")
    keys.press("Shift+Tab")
    expect(place(places, "D, corner")).to_be_focused()
    for _ in "abcd":
        keys.press("Tab")
    keys.press("Tab")
    keys.press("Enter")
    places.wait_kernel("heard", [["a", "b", "d"]])
    assert len(places.cells()) == 2


def test_of_one_place_to_choose_only_one_is_pressed(places: Lesson) -> None:
    """The picture behaves like its list of radio buttons."""
    place(places, "C, round", "region").click()
    place(places, "B, small field inside", "region").press("Enter")
    expect(place(places, "C, round", "region")).to_have_attribute("aria-pressed", "false")
    expect(form(places, "region").get_by_role("radio", name="small field inside")).to_be_checked()
    form(places, "region").get_by_role("button", name="Check").click()
    places.wait_kernel("heard", ["b"])


def test_a_closed_question_takes_no_more_marks(places: Lesson) -> None:
    """Buttons and boxes are shut; the marks stay to be seen."""
    place(places, "C, round").click()
    places.ask_kernel("setattr(forms['spots'], 'said', said(1, 'right', 'Right. So it is.', closed=True))")
    expect(place(places, "C, round")).to_be_disabled()
    expect(in_list(places, "big field")).to_be_disabled()
    expect(form(places, "spots").locator(".bp-region-chosen")).to_have_count(1)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_axe_finds_nothing_with_places_marked_and_focused(places: Lesson, axe: Path, dark: bool) -> None:
    """No violation of any rule axe-core knows, with a mark set and the focus in the picture."""
    places.theme(dark)
    place(places, "C, round").click()
    place(places, "B, small field inside").focus()
    places.page.add_script_tag(path=axe)
    places.page.wait_for_timeout(300)
    roots, passed, violations = places.page.evaluate(AXE)
    places.theme(False)
    assert roots >= 2
    assert passed >= 5
    assert violations == []


def test_a_bay_is_looked_round_by_keyboard_alone(lesson: Open) -> None:
    """A real exercise of the course: its letters mark, the answer is taken and right, the marks stay to be seen."""
    bay = lesson("bay", 'from bitepoint import ask\nask("safe.strip-bay")')
    code = "__import__('bitepoint.bank', fromlist=['bank']).exercise_named('safe.strip-bay')"
    right = bay.ask_kernel(f"{code}.draw(class_word='practice', learner='practice', turn=1).right_answer()")
    bay.page.locator(".bp-region").first.focus()
    for letter in right:
        bay.page.keyboard.press(letter)
        bay.page.keyboard.press(" ")
    expect(bay.page.locator(".bp-region-chosen")).to_have_count(len(right))
    for _ in range(9):
        bay.page.keyboard.press("Tab")
    expect(bay.page.get_by_role("button", name="Check", exact=True)).to_be_focused()
    bay.page.keyboard.press("Enter")
    expect(bay.page.locator(".bp-said-words")).to_contain_text("Right.")
    expect(bay.page.locator(".bp-region-chosen .bp-tick").first).to_be_visible()
