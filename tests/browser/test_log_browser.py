"""Logs in the real JupyterLab: the reader zooms by mouse and by keyboard, questions show plots, enquiries their own heads."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.bank import exercise_named
from bitepoint.questions.question import Question

from .lab import AXE, Lesson

pytestmark = pytest.mark.browser
IMPORT = "from bitepoint import ask, calculator\n"


@pytest.fixture(scope="module")
def reader(lesson: Callable[..., Lesson]) -> Lesson:
    """A notebook with the log reader alone."""
    return lesson("log-reader", IMPORT + 'calculator("read-a-log")', "1 + 1")


@pytest.fixture(scope="module")
def asked(lesson: Callable[..., Lesson]) -> Lesson:
    """A notebook with every question that is read from a plot, and two enquiries."""
    ids = [
        "fault.slip",
        "fault.road-log",
        "fault.standing-log",
        "refit.road-log",
        "fault.noise",
        "kit.find-kit",
    ]
    return lesson("log-questions", IMPORT, *(f'ask("{id}")' for id in ids), width=1280)


@pytest.fixture
def fresh(reader: Lesson) -> Lesson:
    """The reader with its first figures."""
    reader.run_all()
    expect(caption(reader)).to_have_text("Road test a-1, training vehicle A, 0 to 60.1 s.")
    return reader


def question(exercise: str) -> Question:
    """What the practice learner is asked."""
    return exercise_named(exercise).draw(class_word="practice", learner="practice")


def caption(page: Lesson) -> Locator:
    return page.page.locator(".bp-shown figcaption")


def field(page: Lesson, label: str) -> Locator:
    return page.page.get_by_role("textbox", name=label, exact=True)


def slider(page: Lesson, label: str) -> Locator:
    return page.page.get_by_role("slider", name=f"{label}, slider")


def drag(page: Lesson, label: str, share: float) -> None:
    """Take the knob of a slider where it is and let it go at a share of its width."""
    knob = slider(page, label)
    knob.scroll_into_view_if_needed()
    box = knob.bounding_box()
    assert box is not None
    low, high, now = (float(knob.evaluate(f"one => one.{name}")) for name in ("min", "max", "value"))
    at, mouse = box["y"] + box["height"] / 2, page.page.mouse
    mouse.move(box["x"] + 8 + (box["width"] - 16) * (now - low) / (high - low), at)
    mouse.down()
    mouse.move(box["x"] + box["width"] * share, at, steps=8)
    mouse.up()


def test_dragging_both_ends_zooms_into_the_log(fresh: Lesson) -> None:
    """The figure beside the knob follows, the plot holds that part, and the picture has the place beside the fields."""
    drag(fresh, "To", 0.5)
    drag(fresh, "From", 0.3)
    began, ended = (float(field(fresh, label).input_value()) for label in ("From", "To"))
    assert (20 < began < 32, 38 < ended < 52) == (True, True)
    expect(caption(fresh)).to_have_text(f"Road test a-1, training vehicle A, {began:g} to {ended:g} s.")
    picture, table = (fresh.page.locator(f".bp-calculator {tag}").first.bounding_box() for tag in ("img", "table"))
    assert picture is not None
    assert table is not None
    assert table["x"] + table["width"] <= picture["x"]
    assert picture["width"] > 560


def test_the_reader_by_keyboard_alone(fresh: Lesson) -> None:
    """Tab goes from field to stepper to slider; arrows and Home move; the focus stays where it was."""
    keys = fresh.page.keyboard
    slider(fresh, "From").focus()
    for _ in range(21):
        keys.press("ArrowRight")
    expect(slider(fresh, "From")).to_be_focused()
    expect(field(fresh, "From")).to_have_value("21")
    keys.press("Tab")
    keys.press("Tab")
    expect(field(fresh, "To")).to_be_focused()
    keys.press("Control+A")
    keys.type("24")
    expect(caption(fresh)).to_have_text("Road test a-1, training vehicle A, 21 to 24 s.")
    expect(slider(fresh, "To")).to_have_value("24")
    keys.press("ArrowUp")
    expect(caption(fresh)).to_have_text("Road test a-1, training vehicle A, 21 to 25 s.")
    expect(field(fresh, "To")).to_be_focused()
    alt = fresh.page.locator(".bp-shown img").get_attribute("alt") or ""
    assert "Read at 8 moments, 21 s: throttle" in alt


def test_another_log_and_another_plot(fresh: Lesson) -> None:
    """Vehicle, number and kind of plot; a part that holds nothing is one line and the fields stay."""
    page = fresh.page
    page.get_by_label("Log of").select_option("training vehicle B")
    field(fresh, "Number of the log").fill("417")
    expect(caption(fresh)).to_contain_text("Road test b-417, training vehicle B, 0 to 7")
    page.get_by_label("What is drawn", exact=True).select_option("engine against wheels")
    expect(page.locator(".bp-shown img")).to_have_attribute(
        "alt", re.compile(r"^Road test b-417.*One dashed line a gear")
    )
    field(fresh, "To").fill("10")
    expect(page.locator(".bp-shown")).to_contain_text("In this part the pedal is never up in a gear.")
    page.get_by_label("What is drawn", exact=True).select_option("shake of moving off")
    expect(page.locator(".bp-shown img")).to_have_attribute("alt", re.compile("taken apart"))


def test_no_key_at_a_slider_reaches_jupyterlab(fresh: Lesson) -> None:
    """Letters that mean something to the notebook change no cell."""
    before = [cell["source"] for cell in fresh.cells()]
    slider(fresh, "To").focus()
    for key in "ddmabyxz00J":
        fresh.page.keyboard.press(key)
    fresh.page.wait_for_timeout(150)
    assert before == [cell["source"] for cell in fresh.cells()]
    expect(fresh.page.get_by_role("dialog")).to_have_count(0)


def test_questions_show_their_plot_with_its_readings(asked: Lesson) -> None:
    """Five plots as images with alt text; none is wider than its card, none says what is wrong."""
    asked.run_all()
    images = asked.page.locator(".jp-RenderedHTMLCommon img")
    expect(images).to_have_count(5)
    for image in images.all():
        image.scroll_into_view_if_needed()
        alt = image.get_attribute("alt") or ""
        assert re.search(r"\d rpm|engine speed \d|clutch pedal \d|against shakes", alt)
        assert not re.search("judder|healthy|rattle|drag", alt)
        assert image.evaluate("one => one.naturalWidth > 0 && one.scrollWidth <= one.parentElement.clientWidth")


def test_each_enquiry_has_heads_of_its_own(asked: Lesson) -> None:
    """A noise is seen or heard and has a cause; a car shows facts and gets a kit."""
    asked.run_all()
    noise, kit = (asked.page.locator(".bp-enquiry").nth(i) for i in (0, 1))
    kit.scroll_into_view_if_needed()
    expect(noise.locator("thead th")).to_have_text(["Condition", "What you see or hear"])
    expect(noise.locator("legend")).to_have_text(["Ask for one thing more", "The cause"])
    expect(kit.locator("thead th")).to_have_text(["Fact", "What the car shows"])
    expect(kit.locator("legend")).to_have_text(["Ask for one thing more", "The kit"])
    form = asked.page.locator(".bp-form").last
    form.get_by_role("button", name="Check", exact=True).click()
    expect(form.locator(".bp-status").first).to_contain_text("Choose the kit first.")


def test_log_questions_are_answered_by_keyboard_alone(asked: Lesson) -> None:
    """Slip read from the plot is typed, a fault is chosen by arrows; then a noise is asked out and named."""
    asked.run_all()
    keys, forms = asked.page.keyboard, asked.page.locator(".bp-form")
    expect(forms).to_have_count(7)
    forms.nth(0).get_by_role("textbox").focus()
    keys.type(str(question("fault.slip").right_answer()))
    keys.press("Enter")
    expect(forms.nth(0).locator(".bp-said-words")).to_contain_text("Right. Of about")
    standing = question("fault.standing-log")
    forms.nth(2).get_by_role("radio").first.focus()
    keys.press("Space")
    for _ in range("abcd".index(str(standing.right_answer()))):
        keys.press("ArrowDown")
    keys.press("Tab")
    keys.press("Enter")
    expect(forms.nth(2).locator(".bp-said-words")).to_contain_text(f"Right. {standing.why}")
    noise, form = question("fault.noise"), forms.nth(5)
    asks = form.locator(".bp-ask")
    asks.first.focus()
    for number in range(asks.count()):
        keys.press("Enter")
        expect(form.locator(".bp-known caption")).to_have_text(f"What you know so far ({number + 1} asked)")
        keys.press("Tab")
    keys.press("Space")
    cause = str(noise.right_answer()).rpartition("> ")[2]
    keys_of = [suspect.key for suspect in noise.suspects]  # type: ignore[attr-defined]
    for _ in range(keys_of.index(cause)):
        keys.press("ArrowDown")
    keys.press("Tab")
    keys.press("Enter")
    expect(form.locator(".bp-said-words")).to_contain_text("Right.")


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("which", ["reader", "asked"])
def test_axe_finds_nothing_in_reader_plots_and_enquiries(
    request: pytest.FixtureRequest, axe: Path, which: str, dark: bool
) -> None:
    """No violation of any rule axe-core knows, in both themes."""
    page: Lesson = request.getfixturevalue(which)
    page.run_all()
    page.theme(dark)
    page.page.add_script_tag(path=axe)
    expect(page.page.locator(".bp-root").first).to_be_visible()
    page.page.wait_for_timeout(300)
    roots, passed, violations = page.page.evaluate(AXE)
    page.theme(False)
    assert (roots >= 2, passed >= 5) == (True, True)
    assert violations == []
