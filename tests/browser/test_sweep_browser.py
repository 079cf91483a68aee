"""The sweep of a dial gauge in the real JupyterLab: turned, pushed, read and answered by mouse and by keyboard."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.bank import exercise_named
from bitepoint.questions.sweep import Sweep

from .lab import AXE, Lesson

pytestmark = pytest.mark.browser
NEWEST = (
    "[w for w in __import__('ipywidgets').widgets.widget._instances.values() if type(w).__name__ == 'SweepForm'][-1]"
)


@pytest.fixture(scope="module")
def sweep_page(lesson: Callable[..., Lesson]) -> Lesson:
    """One notebook with the exercise as a lesson asks it, and a cell after it; nothing begun is kept from test to test."""
    head = "from bitepoint import ask\nfrom bitepoint.page import begun_rows\nbegun_rows.keep = lambda session, begun: None"
    return lesson("sweep", head, 'ask("measure.run-out")', "1 + 1", height=1500)


@pytest.fixture
def sweep(sweep_page: Lesson) -> Lesson:
    """The exercise asked afresh: nothing turned, nothing pushed."""
    sweep_page.run_all()
    expect(sweep_page.page.locator(".bp-sweep")).to_have_count(1)
    expect(wheel(sweep_page)).to_have_attribute("aria-valuenow", "1")
    return sweep_page


@pytest.fixture(scope="module")
def question() -> Sweep:
    """The same question, drawn here: what the gauge has to show."""
    drawn = exercise_named("measure.run-out").draw(class_word="practice", learner="practice")
    assert isinstance(drawn, Sweep)
    return drawn


def wheel(page: Lesson) -> Locator:
    return page.page.get_by_role("slider", name="Flywheel")


def hand(page: Lesson) -> float:
    """Lines at which the hand stands, from its turn on the page."""
    style = page.page.locator(".bp-sweep-hand").get_attribute("style") or ""
    found = re.search(r"rotate\((-?[\d.]+)deg\)", style)
    assert found
    return round(float(found[1]) / 3.6, 6)


def note(page: Lesson, place: str) -> Locator:
    return page.page.get_by_role("textbox", name=f"Your note for place {place}", exact=True)


def answer(page: Lesson, text: str) -> None:
    page.page.get_by_label("Your answer").last.fill(text)
    page.page.keyboard.press("Enter")


def test_a_sweep_by_mouse_shows_every_reading_and_the_figure_is_right(sweep: Lesson, question: Sweep) -> None:
    """Pushed in, place after place and back at place 1, the hand shows the held readings; highest less lowest is right."""
    page = sweep.page
    page.get_by_label("Push held against the crankshaft").check()
    read = [hand(sweep)]
    for step in range(question.places):
        if step % 2:
            wheel(sweep).click()
        else:
            page.get_by_role("button", name="Turn on").click()
        read.append(hand(sweep))
    assert read == list(question.held)
    expect(page.locator(".bp-sweep-place")).to_have_text("Place 1 again is under the stylus")
    page.get_by_role("button", name="Turn back").click()
    assert hand(sweep) == question.held[-2]
    answer(sweep, f"{(max(read) - min(read)) / 100:.2f}")
    expect(page.locator(".bp-said-words")).to_contain_text("Right.")


def test_by_keyboard_alone_and_not_pushed_end_float_creeps_in(sweep: Lesson, question: Sweep) -> None:
    """Arrow keys turn, the spoken words follow the hand, Enter in a note goes on; not held, the figure is the known mistake."""
    keys = sweep.page.keyboard
    wheel(sweep).focus()
    read = [hand(sweep)]
    for at in range(1, question.places + 1):
        keys.press("ArrowRight")
        read.append(hand(sweep))
        name = "Place 1 again" if at == question.places else f"Place {at + 1}"
        words = f"{name}. The hand stands on line {question.loose[at] % 100} of the outer scale."
        expect(wheel(sweep)).to_have_attribute("aria-valuetext", words)
    assert read == list(question.loose)
    keys.press("Home")
    expect(wheel(sweep)).to_have_attribute("aria-valuenow", "1")
    for _ in range(3):
        keys.press("Tab")
    keys.press("Space")
    expect(sweep.page.get_by_label("Push held")).to_be_checked()
    assert hand(sweep) == question.held[0]
    keys.press("Space")
    keys.press("Tab")
    keys.type("7")
    keys.press("Enter")
    expect(note(sweep, "2")).to_be_focused()
    expect(wheel(sweep)).to_have_attribute("aria-valuenow", "2")
    answer(sweep, f"{(max(read) - min(read)) / 100:.2f}")
    expect(sweep.page.locator(".bp-said-words")).to_contain_text("moved in its end float")


def test_no_key_of_the_sweep_reaches_jupyterlab(sweep: Lesson) -> None:
    """Keys pressed on wheel, button and note change no cell."""
    before = [cell["source"] for cell in sweep.cells()]
    for place in (wheel(sweep), sweep.page.get_by_role("button", name="Turn on"), note(sweep, "4")):
        place.focus()
        for key in "ddabmyxJ":
            sweep.page.keyboard.press(key)
    sweep.page.wait_for_timeout(150)
    assert [cell["source"] for cell in sweep.cells()] == before


def test_the_wheel_is_drawn_round_by_mouse_or_finger(sweep: Lesson) -> None:
    """A quarter against the clock brings the place after the next under the stylus, and is no click as well."""
    wheel(sweep).scroll_into_view_if_needed()
    box = wheel(sweep).bounding_box()
    assert box is not None
    x, y, reach = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, box["width"] * 0.35
    mouse = sweep.page.mouse
    mouse.move(x + reach, y)
    mouse.down()
    mouse.move(x + 0.7 * reach, y - 0.7 * reach)
    mouse.move(x, y - reach)
    mouse.up()
    expect(wheel(sweep)).to_have_attribute("aria-valuenow", "3")


def test_a_control_built_again_stands_where_the_learner_left_it(sweep: Lesson, question: Sweep) -> None:
    """Place, push and notes live in the kernel, and a control that is built anew takes them from there."""
    page = sweep.page
    page.get_by_label("Push held against the crankshaft").check()
    note(sweep, "1").fill("3")
    note(sweep, "1").press("Enter")
    sweep.wait_kernel(f"{NEWEST}.step", {"at": 1, "held": True, "notes": ["3", *[""] * question.places]})
    sweep.ask_kernel(f"setattr({NEWEST}, 'spec', {{**{NEWEST}.spec, 'label': 'Once more'}})")
    expect(page.get_by_text("Once more")).to_be_visible()
    expect(wheel(sweep)).to_have_attribute("aria-valuenow", "2")
    expect(note(sweep, "1")).to_have_value("3")
    assert hand(sweep) == question.held[1]


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_axe_finds_nothing_in_sweep_and_card(sweep: Lesson, axe: Path, dark: bool) -> None:
    """No violation of any rule axe-core knows, in both themes."""
    sweep.theme(dark)
    sweep.page.add_script_tag(path=axe)
    sweep.page.wait_for_timeout(300)
    roots, passed, violations = sweep.page.evaluate(AXE)
    sweep.theme(False)
    assert roots >= 1
    assert passed >= 5
    assert violations == []
