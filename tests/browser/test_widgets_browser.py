"""The three live controls in the real JupyterLab: mouse, keyboard, what reaches the kernel, sizes, contrast."""

import json
import re
from collections.abc import Callable
from typing import Any

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.mechanics.tightening import even_circle_deg, out_of_balance
from bitepoint.page.widgets import AnswerForm, BoltCircle, CalculatorForm

from .lab import Lesson

pytestmark = pytest.mark.browser
Open = Callable[..., Lesson]

HEAD = """
from IPython.display import display
from bitepoint.page.widgets import AnswerForm, BoltCircle, CalculatorForm
from bitepoint.page.widgets.common import said, view_bundle

def put(control):
    display(view_bundle(control), raw=True)
"""
DRILL = """
drill = BoltCircle(spec={
    "title": "Tighten the cover", "frame": "TRAINING VEHICLE · INVENTED FIGURES · NEVER USE ON A CAR", "part": "cover",
    "angles_deg": [0, 60, 120, 180, 240, 300], "dowel_deg": 30, "setting_unit": "N·m", "fitted": "crow-foot, 60 mm, in line",
    "stages": [{"key": "hand", "label": "Hand start", "kind": "hand"},
               {"key": "stage 1", "label": "Stage 1 · 20 N·m", "kind": "torque"},
               {"key": "angle", "label": "Angle stage · 50°", "kind": "angle"},
               {"key": "check", "label": "Second round", "kind": "look"}],
    "tools": [{"key": "fingers", "label": "Fingers"}, {"key": "wrench", "label": "Torque wrench"},
              {"key": "gauge", "label": "Bar with angle gauge"}, {"key": "impact", "label": "Impact wrench"},
              {"key": "eye", "label": "Look at the paint mark"}]})
heard = []
drill.on_msg(lambda control, content, buffers: heard.append([content["do"], len(control.pulls)]))
put(drill)
"""
FORMS = """
picture = ("<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 400 200'><rect width='400' height='200' fill='#fff'/>"
           "<circle cx='100' cy='100' r='60' fill='none' stroke='#333'/></svg>")
specs = {
    "number": {"kind": "number", "label": "What do you set?", "unit": "N·m", "units": ["lbf·ft"]},
    "choice": {"kind": "choice", "label": "Choose", "options": [{"key": k, "text": f"Choice {k}"} for k in "abc"]},
    "several": {"kind": "several", "label": "Tick", "options": [{"key": k, "text": f"Tick {k}"} for k in "abc"]},
    "order": {"kind": "order", "label": "Put in order", "options": [{"key": k, "text": f"Step {k}"} for k in "abc"]},
    "region": {"kind": "region", "label": "Where?", "picture": {"svg": picture, "alt": "A ring", "regions": [
        {"key": "r1", "label": "The ring", "shape": "circle", "points": [100, 100, 60]},
        {"key": "r2", "label": "Beside it", "shape": "rect", "points": [250, 50, 100, 100]},
        {"key": "r3", "label": "Below", "shape": "polygon", "points": [180, 180, 240, 180, 210, 120]}]}},
}
heard = []
forms = {}
for name, spec in specs.items():
    forms[name] = AnswerForm(spec=spec)
    forms[name].on_msg(lambda control, content, buffers: heard.append([content["do"], content.get("answer")]))
    put(forms[name])
"""
CALCULATOR = """
sums = CalculatorForm(spec={"title": "Wrench with a crow-foot", "frame": "", "fields": [
    {"key": "offset", "label": "Crow-foot", "unit": "mm", "kind": "number", "low": 0, "high": 120, "step": 2.5},
    {"key": "way", "label": "How it is fitted", "kind": "choice", "options": ["in line", "square"]}]},
    values={"offset": "60", "way": "in line"}, shown="<p>first</p>")
sums.observe(lambda change: setattr(sums, "shown", f"<p>{change['new']['offset']} {change['new']['way']}</p>"), "values")
put(sums)
"""


@pytest.fixture(scope="module")
def drill_page(lesson: Open) -> Lesson:
    """One notebook with a drill in its first cell and two cells after it, for all drill tests."""
    return lesson("drill", HEAD + DRILL, "1 + 1", "2 + 2")


@pytest.fixture
def drill(drill_page: Lesson) -> Lesson:
    """The drill, made afresh."""
    drill_page.run_all()
    expect(drill_page.page.locator(".bp-log li")).to_have_count(0)
    return drill_page


@pytest.fixture(scope="module")
def forms_page(lesson: Open) -> Lesson:
    """One notebook with a form of every kind."""
    return lesson("forms", HEAD + FORMS)


@pytest.fixture
def forms(forms_page: Lesson) -> Lesson:
    """The forms, made afresh."""
    forms_page.run_all()
    expect(forms_page.page.locator(".bp-form")).to_have_count(5)
    return forms_page


@pytest.fixture(scope="module")
def sums(lesson: Open) -> Lesson:
    """One notebook with a calculator."""
    return lesson("calculator", HEAD + CALCULATOR)


def bolt(lesson: Lesson, number: int) -> Locator:
    return lesson.page.get_by_role("button", name=re.compile(rf"^Bolt {number},"))


def pull(lesson: Lesson, *numbers: int) -> None:
    for number in numbers:
        bolt(lesson, number).click()
        bolt(lesson, number).click()


def take(lesson: Lesson, *, stage: str, tool: str, setting: str = "") -> None:
    """Choose stage and tool, set the wrench."""
    lesson.page.get_by_label(stage).check()
    lesson.page.get_by_label(tool, exact=True).check()
    if setting:
        lesson.page.get_by_label("Wrench setting").fill(setting)


def pulls(lesson: Lesson) -> list[int]:
    return [one["bolt"] for one in lesson.ask_kernel("drill.pulls")]


def status(lesson: Lesson) -> Locator:
    return lesson.page.locator(".bp-drill .bp-status")


def test_first_click_takes_a_bolt_and_the_second_pulls_it(drill: Lesson) -> None:
    """A slip of the finger pulls nothing."""
    take(drill, stage="Hand start", tool="Fingers")
    bolt(drill, 4).click()
    expect(bolt(drill, 4)).to_have_attribute("aria-pressed", "true")
    expect(status(drill)).to_contain_text("Bolt 4 taken")
    assert pulls(drill) == []
    bolt(drill, 4).click()
    expect(status(drill)).to_contain_text("Bolt 4: snug")
    drill.wait_kernel("drill.pulls", [{"bolt": 4, "stage": "hand", "tool": "fingers", "setting": None}])


def test_another_bolt_in_between_lets_the_first_one_go(drill: Lesson) -> None:
    """Two clicks on two bolts pull neither."""
    take(drill, stage="Hand start", tool="Fingers")
    bolt(drill, 1).click()
    bolt(drill, 2).click()
    bolt(drill, 1).click()
    expect(status(drill)).to_contain_text("Bolt 1 taken")
    assert pulls(drill) == []


def test_nothing_is_pulled_without_a_tool(drill: Lesson) -> None:
    """With empty hands a bolt stays as it is, and the drill says why."""
    pull(drill, 1)
    expect(status(drill)).to_contain_text("choose a tool first")
    assert pulls(drill) == []


def test_a_torque_stage_wants_a_setting(drill: Lesson) -> None:
    """A wrench that was never set pulls nothing; once set, the setting travels as typed."""
    take(drill, stage="Stage 1", tool="Torque wrench")
    pull(drill, 1)
    expect(status(drill)).to_contain_text("type its setting in N·m first")
    assert pulls(drill) == []
    drill.page.get_by_label("Wrench setting").fill("17,4")
    pull(drill, 1)
    drill.wait_kernel("drill.pulls", [{"bolt": 1, "stage": "stage 1", "tool": "wrench", "setting": "17,4"}])


def test_an_impact_wrench_has_no_setting_and_is_not_stopped(drill: Lesson) -> None:
    """The drill lets a learner make the mistake: the kernel judges it."""
    take(drill, stage="Stage 1", tool="Impact wrench")
    pull(drill, 1)
    drill.wait_kernel("drill.pulls", [{"bolt": 1, "stage": "stage 1", "tool": "impact", "setting": None}])


def test_the_ring_is_one_tab_stop_worked_with_arrows_enter_and_space(drill: Lesson) -> None:
    """Tab goes in and out; the arrows go round, past the top as well."""
    take(drill, stage="Hand start", tool="Fingers")
    keys = drill.page.keyboard
    keys.press("Tab")
    expect(bolt(drill, 1)).to_be_focused()
    for key in ("ArrowLeft", "Enter", " ", "ArrowRight", "ArrowDown", " ", "Enter"):
        keys.press(key)
    expect(bolt(drill, 2)).to_be_focused()
    drill.wait_kernel("[one['bolt'] for one in drill.pulls]", [6, 2])
    keys.press("Tab")
    expect(drill.page.get_by_role("button", name="Done: check my work")).to_be_focused()
    keys.press("Shift+Tab")
    expect(bolt(drill, 2)).to_be_focused()


def test_a_focused_bolt_shows_a_ring(drill: Lesson) -> None:
    """Whoever works with keys sees where they are."""
    take(drill, stage="Hand start", tool="Fingers")
    drill.page.keyboard.press("Tab")
    expect(bolt(drill, 1).locator(".bp-focus")).to_have_css("opacity", "1")
    expect(bolt(drill, 3).locator(".bp-focus")).to_have_css("opacity", "0")


@pytest.mark.parametrize("keys", ["dd", "m", "a", "b", "y", "x", "z", "00", "1", "J", "M"])
def test_no_key_reaches_jupyterlab_from_a_bolt(drill: Lesson, keys: str) -> None:
    """JupyterLab's one-key commands would delete, add or change cells under the learner's hands."""
    take(drill, stage="Hand start", tool="Fingers")
    bolt(drill, 3).click()
    before = drill.cells()
    for key in keys:
        drill.page.keyboard.press(key)
    drill.page.wait_for_timeout(150)
    assert before == drill.cells()
    expect(drill.page.get_by_role("dialog")).to_have_count(0)
    expect(bolt(drill, 3)).to_be_focused()


def test_bolts_say_how_many_stages_they_have_had(drill: Lesson) -> None:
    """In figures, in the name a screen reader speaks, and in the list of pulls."""
    take(drill, stage="Hand start", tool="Fingers")
    pull(drill, 5)
    take(drill, stage="Stage 1", tool="Torque wrench", setting="20")
    expect(bolt(drill, 5).locator(".bp-count")).to_have_text("1/4")
    pull(drill, 5)
    expect(bolt(drill, 5).locator(".bp-count")).to_have_text("2/4 ✓")
    expect(bolt(drill, 5)).to_have_accessible_name("Bolt 5, 2 of 4 stages, had this stage")
    expect(bolt(drill, 5).locator(".bp-had")).to_have_count(2)
    drill.page.get_by_text("What you did so far (2)").click()
    expect(drill.page.locator(".bp-log li").last).to_have_text(
        "Bolt 5: Stage 1 · 20 N·m, Torque wrench set to 20 N·m"
    )


def test_the_balance_is_the_one_the_calculators_give(drill: Lesson) -> None:
    """Length of the vector sum, bolt by bolt, equal to the mechanics; fingers tighten nothing."""
    take(drill, stage="Hand start", tool="Fingers")
    pull(drill, 1)
    figure = drill.page.locator(".bp-figure")
    expect(figure).to_have_text("Level")
    take(drill, stage="Stage 1", tool="Torque wrench", setting="20")
    for done in ([1], [1, 2], [1, 2, 3], [1, 2, 3, 6]):
        pull(drill, done[-1])
        expect(figure).to_have_text(f"Out of balance {out_of_balance(even_circle_deg(6), done):.2f} bolts")


def test_the_part_goes_down_where_the_bolts_are_tight(drill: Lesson) -> None:
    """The words beside the side view name the bolt, or the two with the middle between them."""
    take(drill, stage="Stage 1", tool="Torque wrench", setting="20")
    words = drill.page.locator(".bp-balance .bp-hint")
    pull(drill, 6)
    expect(words).to_contain_text("down at bolt 6,")
    pull(drill, 1)
    expect(words).to_contain_text("down at bolts 1 and 6,")
    pull(drill, 3, 4)
    expect(words).to_contain_text("sits level")


def test_sound_is_off_at_first_and_can_be_put_on(drill: Lesson) -> None:
    """The button says its state; a pull with the sound on raises no error on the page."""
    button = drill.page.get_by_role("button", name="Sound")
    expect(button).to_have_attribute("aria-pressed", "false")
    button.click()
    expect(button).to_have_text("Sound: on")
    take(drill, stage="Hand start", tool="Impact wrench")
    pull(drill, 1)
    drill.wait_kernel("len(drill.pulls)", 1)
    assert drill.errors == []


def test_start_again_asks_once(drill: Lesson) -> None:
    """All work is gone only after a second yes, and that yes is not where the first press was."""
    take(drill, stage="Hand start", tool="Fingers")
    pull(drill, 1, 4)
    press = drill.page.get_by_role("button", name="Start again")
    press.dblclick()
    drill.page.get_by_role("button", name="No, keep my work").click()
    drill.wait_kernel("len(drill.pulls)", 2)
    expect(press).to_be_focused()
    press.click()
    drill.page.get_by_role("button", name="Yes, take every bolt out").click()
    drill.wait_kernel("drill.pulls", [])


def test_done_brings_every_pull_to_the_kernel(drill: Lesson) -> None:
    """The message carries the pulls: it can overtake the trait, which the browser holds back under load."""
    take(drill, stage="Hand start", tool="Fingers")
    pull(drill, 1, 4, 2, 5, 3, 6)
    drill.page.get_by_role("button", name="Done: check my work").click()
    drill.wait_kernel("heard", [["answer", 6]])
    assert pulls(drill) == [1, 4, 2, 5, 3, 6]


def test_a_verdict_is_shown_as_text_and_closes_the_drill(drill: Lesson) -> None:
    """Markup in a verdict stays text, line breaks stay, a closed drill takes no pull and offers new figures."""
    take(drill, stage="Hand start", tool="Fingers")
    drill.ask_kernel("setattr(drill, 'said', said(1, 'not yet', 'Not yet. <b>Bolt 3</b>\\nleft out', closed=True, again=True))")
    words = drill.page.locator(".bp-said-words")
    expect(words).to_have_text("Not yet. <b>Bolt 3</b>\nleft out")
    expect(words).to_have_css("white-space", "pre-line")
    pull(drill, 1)
    expect(status(drill)).to_contain_text("closed")
    assert pulls(drill) == []
    drill.page.get_by_role("button", name="Try again with new figures").click()
    drill.wait_kernel("heard", [["again", 0]])


def test_a_reloaded_page_finds_the_drill_as_it_was(drill: Lesson) -> None:
    """The kernel keeps the pulls; the page shows them again and goes on from there."""
    take(drill, stage="Stage 1", tool="Torque wrench", setting="20")
    pull(drill, 1, 4)
    drill.wait_kernel("len(drill.pulls)", 2)
    drill.save()
    drill.reload()
    expect(drill.page.locator(".bp-log li")).to_have_count(2)
    expect(drill.page.get_by_label("Stage 1")).to_be_checked()
    pull(drill, 2)
    drill.wait_kernel("[one['bolt'] for one in drill.pulls]", [1, 4, 2])


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


def test_an_order_is_made_with_buttons_or_arrow_keys(forms: Lesson) -> None:
    """No dragging; the focus goes with the step, and the new place is said."""
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
    expect(place.get_by_label("Beside it")).to_be_checked()
    place.get_by_label("Below").check()
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
    spec = {"kind": "choice", "label": "Choose", "options": [{"key": "a", "text": "This"}, {"key": "b", "text": "That"}]}
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
SHAPES = {".bp-mark:not(.bp-had, .bp-now)": "--bp-metal-far", ".bp-had": "--bp-metal-far", ".bp-chosen": "--bp-metal-far",
          ".bp-focus": "--bp-metal-far", ".bp-part": "--bp-ground", ".bp-side-part": "--bp-ground"}
SHAPE_CONTRASTS = CONTRASTS.replace(
    "  const words =", """  return Object.entries(SHAPES).map(([name, back]) =>
    [name, ratio(rgba(getComputedStyle(root.querySelector(name)).stroke).slice(0, 3), probe([back])[0])]);
  const words =""")


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
    shown = [BoltCircle(spec={"angles_deg": [0, 90, 180, 270]}), AnswerForm(spec={"kind": "order"}), CalculatorForm()]
    assert [repr(one) for one in shown] == ["BoltCircle(4 bolts)", "AnswerForm(order)", "CalculatorForm(0 fields)"]
