"""The form for an answer and the calculator in the real JupyterLab: mouse, keyboard, what reaches the kernel."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, expect

from .drill import HEAD
from .lab import Lesson

pytestmark = pytest.mark.browser
Open = Callable[..., Lesson]


def form(lesson: Lesson, number: int) -> Locator:
    return lesson.page.locator(".bp-form").nth(number)


def test_a_number_is_checked_with_enter_and_travels_as_typed(forms: Lesson) -> None:
    """Decimal comma and unit reach the kernel untouched; an empty field sends nothing."""
    field = forms.page.get_by_label("What do you set?")
    field.press("Enter")
    expect(form(forms, 0).locator(".bp-status")).to_have_text("Type a figure first.")
    field.fill("84,2 lbf·ft")
    field.press("Enter")
    forms.wait_kernel("heard", [["answer", "84,2 lbf·ft"]])


def test_letters_typed_in_a_form_stay_in_it(forms: Lesson) -> None:
    """Typing a unit is typing, no command to JupyterLab."""
    before = forms.cells()
    field = forms.page.get_by_label("What do you set?")
    field.press_sequentially("dd m a b")
    form(forms, 1).get_by_label("Choice a").focus()
    forms.page.keyboard.press("d")
    forms.page.keyboard.press("d")
    forms.page.wait_for_timeout(150)
    assert before == forms.cells()
    assert field.input_value() == "dd m a b"


def test_a_choice_is_a_radio_group_worked_with_arrows(forms: Lesson) -> None:
    """Native radio buttons in a named group."""
    group = forms.page.get_by_role("group", name="Choose")
    group.get_by_label("Choice a").check()
    forms.page.keyboard.press("ArrowDown")
    expect(group.get_by_label("Choice b")).to_be_checked()
    form(forms, 1).get_by_role("button", name="Check").click()
    forms.wait_kernel("heard", [["answer", "b"]])


def test_several_are_sent_as_a_list(forms: Lesson) -> None:
    """Checkboxes; nothing ticked sends nothing."""
    check = form(forms, 2).get_by_role("button", name="Check")
    check.click()
    expect(form(forms, 2).locator(".bp-status")).to_have_text("Tick at least one first.")
    form(forms, 2).get_by_label("Tick c").check()
    form(forms, 2).get_by_label("Tick a").check()
    check.click()
    forms.wait_kernel("heard", [["answer", ["a", "c"]]])


def test_an_order_is_made_by_dragging_and_the_row_that_broke_a_rule_is_marked(forms: Lesson) -> None:
    """A step drawn by its handle lies where it was let go; the mark has sign and words, and goes when the rule is kept."""
    order = form(forms, 3)
    handle, last = order.locator(".bp-handle").first, order.locator(".bp-order-item").last
    handle.scroll_into_view_if_needed()
    start, end = handle.bounding_box(), last.bounding_box()
    assert start is not None
    assert end is not None
    mouse = forms.page.mouse
    mouse.move(start["x"] + 8, start["y"] + 8)
    mouse.down()
    mouse.move(start["x"] + 8, end["y"] + end["height"] - 2, steps=4)
    mouse.up()
    expect(order.locator(".bp-status")).to_have_text("Step a: now 3 of 3.")
    forms.wait_kernel("forms['order'].step", {"row": ["b", "c", "a"]})
    broken = "[{'key': 'b', 'first': 'a', 'says': 'First a.', 'critical': True}]"
    forms.ask_kernel(f"setattr(forms['order'], 'told', {{'broken': {broken}}})")
    expect(order.locator(".bp-broke")).to_have_text(re.compile("Step b.*⚠ Dangerous: First a.", re.S))
    order.get_by_role("button", name="Up: Step a").click()
    order.get_by_role("button", name="Up: Step a").click()
    expect(order.locator(".bp-broke")).to_have_count(0)


def test_an_order_is_made_with_buttons_or_arrow_keys(forms: Lesson) -> None:
    """The focus goes with the step, and the new place is said."""
    form(forms, 3).get_by_role("button", name="Down: Step a").click()
    forms.page.keyboard.press("ArrowDown")
    expect(form(forms, 3).locator(".bp-status")).to_have_text("Step a: now 3 of 3.")
    expect(form(forms, 3).get_by_role("button", name="Down: Step a")).to_be_focused()
    form(forms, 3).get_by_role("button", name="Check").click()
    forms.wait_kernel("heard", [["answer", ["b", "c", "a"]]])


def test_a_place_is_chosen_in_the_picture_or_in_the_list(forms: Lesson) -> None:
    """Both do the same; the picture keeps its alt text."""
    place = form(forms, 4)
    expect(place.get_by_role("img", name="A ring")).to_be_visible()
    place.locator(".bp-region").nth(1).click()
    expect(place.get_by_role("radio", name="Beside it")).to_be_checked()
    place.get_by_role("radio", name="Below").check()
    place.get_by_role("button", name="Check").click()
    forms.wait_kernel("heard", [["answer", "r3"]])


def test_a_closed_form_is_shut_and_keeps_the_focus(forms: Lesson) -> None:
    """After the verdict the answer stands, nothing can be changed, and the keyboard is not lost to the page."""
    form(forms, 1).get_by_label("Choice b").check()
    button = form(forms, 1).get_by_role("button", name="Check")
    button.focus()
    forms.page.keyboard.press("Enter")
    forms.ask_kernel("setattr(forms['choice'], 'said', said(1, 'right', 'Right. So it is.', closed=True))")
    expect(form(forms, 1).locator(".bp-said-words")).to_have_text("Right. So it is.")
    expect(button).to_be_disabled()
    expect(form(forms, 1).get_by_label("Choice a")).to_be_disabled()
    expect(form(forms, 1)).to_be_focused()


def test_two_forms_on_a_page_do_not_share_their_choices(lesson: Open) -> None:
    """Every control loads its script anew; names made from a bare counter made one radio group of two."""
    spec = {
        "kind": "choice",
        "label": "Choose",
        "options": [{"key": "a", "text": "This"}, {"key": "b", "text": "That"}],
    }
    page = lesson("two", f"{HEAD}put(AnswerForm(spec={spec}))", f"put(AnswerForm(spec={spec}))").page
    groups = page.get_by_role("group", name="Choose")
    expect(groups).to_have_count(2)
    groups.nth(0).get_by_label("This").check()
    groups.nth(1).get_by_label("That").check()
    expect(groups.nth(0).get_by_label("This")).to_be_checked()
    ids = page.locator(".bp-root [id]").evaluate_all("(all) => all.map((one) => one.id)")
    assert len(ids) == len(set(ids))


def test_a_new_spec_builds_the_form_afresh(forms: Lesson) -> None:
    """New figures in the same control: the old answer is gone."""
    forms.page.get_by_label("What do you set?").fill("12")
    forms.ask_kernel("setattr(forms['number'], 'spec', {'kind': 'number', 'label': 'And now?', 'unit': 'mm'})")
    expect(forms.page.get_by_label("And now?")).to_have_value("")


def test_typing_in_a_calculator_shows_its_answer_and_keeps_the_focus(sums: Lesson) -> None:
    """Each change reaches the kernel as typed, and what the kernel shows comes without moving anybody."""
    field = sums.page.get_by_label("Crow-foot", exact=True)
    field.fill("45,5")
    expect(sums.page.locator(".bp-shown")).to_have_text("45,5 in line")
    expect(field).to_be_focused()
    sums.wait_kernel("sums.values", {"offset": "45,5", "way": "in line"})
    sums.page.get_by_label("How it is fitted").select_option("square")
    expect(sums.page.locator(".bp-shown")).to_have_text("45,5 square")


def test_calculator_steps_stay_on_the_grid_and_inside_the_range(sums: Lesson) -> None:
    """Plus and minus go to the next whole step, keep a decimal comma, and stop at the ends."""
    field = sums.page.get_by_label("Crow-foot", exact=True)
    field.fill("45,5")
    sums.page.get_by_role("button", name="More: Crow-foot").click()
    expect(field).to_have_value("47,5")
    field.press("ArrowDown")
    expect(field).to_have_value("45,0")
    field.fill("119")
    sums.page.get_by_role("button", name="More: Crow-foot").click()
    sums.page.get_by_role("button", name="More: Crow-foot").click()
    expect(field).to_have_value("120.0")
    expect(sums.page.locator(".bp-unseen")).to_contain_text("120.0 mm is the highest")


def field_of(lesson: Lesson, label: str) -> Locator:
    return lesson.page.get_by_role("textbox", name=label, exact=True)


@pytest.fixture(scope="module")
def pedal(lesson: Open) -> Lesson:
    """The calculator with the most fields, on a small laptop."""
    return lesson("pedal", 'from bitepoint import calculator\ncalculator("pedal-and-release")', width=1280, height=800)


def in_view(lesson: Lesson, selector: str) -> bool:
    """Whether all of it lies in the part of the page that scrolls, and not below the field that has the focus."""
    seen: bool = lesson.page.evaluate(
        """(selector) => {
          const page = document.querySelector('.jp-WindowedPanel-outer').getBoundingClientRect();
          const part = document.querySelector(selector).getBoundingClientRect();
          const field = document.activeElement.getBoundingClientRect();
          const apart = part.bottom <= field.top || field.bottom <= part.top || part.right <= field.left || field.right <= part.left;
          return part.height > 20 && part.top >= page.top && part.bottom <= page.bottom + 1 && part.right <= page.right && apart;
        }""",
        selector,
    )
    return seen


def test_the_rest_of_the_fields_is_unfolded_by_keyboard_and_results_stay_in_view(pedal: Lesson) -> None:
    """Three first, a button that counts the others; at the last field results and picture are seen, on a phone too."""
    keys, more = pedal.page.keyboard, pedal.page.locator("button.bp-more")
    expect(pedal.page.locator(".bp-field:visible")).to_have_count(3)
    pedal.page.get_by_role("combobox", name="Release by").select_option("concentric slave cylinder")
    expect(more).to_have_text("Show 12 more fields")
    more.focus()
    keys.press("Enter")
    expect(more).to_have_attribute("aria-expanded", "true")
    last = field_of(pedal, "Plate lift needed")
    for _ in range(2 + 3 * 12):
        if last.evaluate("(one) => one === document.activeElement"):
            break
        keys.press("Tab")
    expect(last).to_be_focused()
    assert in_view(pedal, ".bp-results")
    assert in_view(pedal, ".bp-picture img")
    pedal.page.set_viewport_size({"width": 390, "height": 844})
    field_of(pedal, "Bearing travel needed").focus()
    for _ in range(6):
        keys.press("Tab")
    expect(last).to_be_focused()
    pedal.page.wait_for_function("() => document.querySelector('.bp-results').getBoundingClientRect().width < 300")
    assert in_view(pedal, ".bp-results")
    pedal.page.set_viewport_size({"width": 1280, "height": 800})


def test_wrong_input_is_told_at_its_field_and_the_result_before_is_marked_as_old(pedal: Lesson) -> None:
    """What was typed stays, the line asks for this field's unit, and a folded field with a fault comes to sight."""
    more, old = pedal.page.locator("button.bp-more"), pedal.page.locator(".bp-old-words")
    pedal.run_all()
    expect(more).to_have_attribute("aria-expanded", "false")
    more.click()
    field = field_of(pedal, "Bearing travel needed")
    field.fill("7 N")
    more.click()
    expect(old).to_have_text("Old result. Put right: Bearing travel needed.")
    expect(more).to_have_attribute("aria-expanded", "true")
    expect(pedal.page.locator(".bp-wrong:visible")).to_have_text(
        "Bearing travel needed: N measures force, but mm measures length. This field takes a length in mm, for example 7.2 mm."
    )
    expect(field).to_have_value("7 N")
    more.click()
    expect(more).to_have_text("Show 10 more fields: 1 to put right")
    more.click()
    field.fill("7")
    expect(old).to_be_hidden()
    expect(field).not_to_have_attribute("aria-invalid", "true")
