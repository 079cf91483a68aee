"""The tightening drill in the real JupyterLab: mouse, keyboard, what reaches the kernel, what is shown."""

import re

import pytest
from playwright.sync_api import expect

from bitepoint.mechanics.tightening import even_circle_deg, out_of_balance

from .drill import bolt, pull, pulls, status, take
from .lab import Lesson

pytestmark = pytest.mark.browser


def test_one_click_is_one_pull_and_a_double_one_is_no_second(drill: Lesson) -> None:
    """What a click does is said before it; the second half of a double click pulls nothing, a click after it does."""
    take(drill, stage="Hand start", tool="Fingers")
    expect(drill.page.locator(".bp-deed")).to_have_text("Click a bolt: your fingers turn it.")
    bolt(drill, 4).click()
    expect(status(drill)).to_contain_text("Bolt 4: snug")
    drill.wait_kernel("drill.pulls", [{"bolt": 4, "stage": "hand", "tool": "fingers", "setting": None}])
    bolt(drill, 2).dblclick()
    expect(status(drill)).to_contain_text("Bolt 2 had one pull")
    drill.wait_kernel("[one['bolt'] for one in drill.pulls]", [4, 2])
    bolt(drill, 2).click()
    drill.wait_kernel("[one['bolt'] for one in drill.pulls]", [4, 2, 2])


def test_a_slip_of_the_finger_is_taken_back(drill: Lesson) -> None:
    """The last pull goes, with its mark on the ring, and only that one."""
    take(drill, stage="Hand start", tool="Fingers")
    back = drill.page.get_by_role("button", name="Take back the last pull")
    expect(back).to_be_disabled()
    pull(drill, 1, 2)
    back.click()
    expect(status(drill)).to_have_text("Taken back: the pull on bolt 2.")
    expect(bolt(drill, 2).locator(".bp-count")).to_have_text("0/4")
    drill.wait_kernel("[one['bolt'] for one in drill.pulls]", [1])


def test_setting_ring_and_verdict_are_seen_at_once(drill: Lesson) -> None:
    """At 1280 by 800 setting, bolts and a short verdict are in view; a long one begins below them, as wide as all three."""
    drill.page.set_viewport_size({"width": 1280, "height": 800})
    take(drill, stage="Stage 1", tool="Torque wrench", setting="20")
    expect(drill.page.locator(".bp-deed")).to_have_text("Click a bolt: the wrench pulls it once, set to 20 N·m.")
    drill.ask_kernel("setattr(drill, 'said', said(1, 'not yet', 'Not yet. Bolt 3 was left out.'))")
    drill.page.locator(".bp-drill").evaluate("(e) => e.scrollIntoView({block: 'start'})")
    for seen in (".bp-setting .bp-input", ".bp-ring", ".bp-said-words", ".bp-drill .bp-main"):
        expect(drill.page.locator(seen).first).to_be_in_viewport(ratio=1)
    expect(drill.page.locator(".bp-side-panel .bp-said")).to_be_visible()
    drill.ask_kernel("setattr(drill, 'said', said(2, 'not yet', 'Not yet. ' + 40 * 'Bolt 3. '))")
    below = drill.page.locator(".bp-bench > .bp-said")
    expect(below).to_be_in_viewport()
    assert below.evaluate("(e) => e.offsetWidth === e.parentElement.offsetWidth")
    for seen in (".bp-setting .bp-input", ".bp-ring", ".bp-drill .bp-main"):
        expect(drill.page.locator(seen).first).to_be_in_viewport(ratio=1)
    drill.page.set_viewport_size({"width": 1100, "height": 1000})


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
    """The drill lets a learner make the mistake, which the kernel judges; but no tick and no count praise it."""
    take(drill, stage="Stage 1", tool="Impact wrench")
    pull(drill, 1)
    expect(bolt(drill, 1).locator(".bp-count")).to_have_text("0/4")
    expect(bolt(drill, 1)).to_have_accessible_name(re.compile("not had this stage, pulled once"))
    expect(drill.page.locator(".bp-tile-count").nth(1)).to_have_text("0 of 6")
    expect(status(drill)).to_contain_text("Pulled, but no stage is counted for this tool.")
    drill.wait_kernel("drill.pulls", [{"bolt": 1, "stage": "stage 1", "tool": "impact", "setting": None}])


def test_the_ring_is_one_tab_stop_worked_with_arrows_enter_and_space(drill: Lesson) -> None:
    """Tab goes in and out; the arrows go round, past the top as well."""
    take(drill, stage="Hand start", tool="Fingers")
    keys = drill.page.keyboard
    keys.press("Tab")
    expect(bolt(drill, 1)).to_be_focused()
    for key in ("ArrowLeft", "Enter", "ArrowRight", "ArrowDown", " "):
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
    expect(drill.page.locator(".bp-log li").last).to_have_text("Bolt 5: Stage 1 · 20 N·m, Torque wrench set to 20 N·m")


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
    worst = out_of_balance(even_circle_deg(6), [6, 1])
    expect(words).to_contain_text(f"Worst on the way (dashed): {worst:.2f} bolts, down at bolts 1 and 6.")
    expect(drill.page.locator(".bp-side-worst")).to_be_visible()


def test_an_impact_wrench_is_warned_of_when_it_is_chosen(drill: Lesson) -> None:
    """The caution comes with the tool, before the first pull."""
    take(drill, stage="Stage 1", tool="Impact wrench")
    expect(drill.page.locator(".bp-drill .bp-status")).to_contain_text("nobody can set it to a torque")


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
    drill.ask_kernel(
        "setattr(drill, 'said', said(1, 'not yet', 'Not yet. <b>Bolt 3</b>\\nleft out', closed=True, again=True))"
    )
    words = drill.page.locator(".bp-said-words")
    expect(words).to_have_text("Not yet. <b>Bolt 3</b>\nleft out")
    expect(words).to_have_css("white-space", "pre-line")
    pull(drill, 1)
    expect(status(drill)).to_contain_text("closed")
    assert pulls(drill) == []
    drill.page.get_by_role("button", name="Try again with new figures").click()
    drill.wait_kernel("heard", [["again", 0]])


def test_new_figures_begin_without_an_old_verdict(drill: Lesson) -> None:
    """After "Try again" the drill is empty, says how to begin and shows no verdict."""
    take(drill, stage="Hand start", tool="Fingers")
    pull(drill, 1)
    drill.ask_kernel("setattr(drill, 'said', said(1, 'right', 'Right.', closed=True, again=True))")
    expect(status(drill)).to_have_text("Checked. Read the verdict at the button “Done: check my work”.")
    fewer = "{**drill.spec, 'angles_deg': [0, 120, 240]}"
    drill.ask_kernel(
        f"[drill.set_trait('pulls', []), drill.set_trait('spec', {fewer}), drill.set_trait('said', said(2))]"
    )
    expect(drill.page.locator(".bp-bolt")).to_have_count(3)
    expect(drill.page.locator(".bp-said")).to_be_hidden()
    expect(drill.page.locator(".bp-deed")).to_contain_text("Choose a stage and a tool.")


def test_a_reloaded_page_finds_the_drill_as_it_was(drill: Lesson) -> None:
    """The kernel keeps the pulls; shown again after the page was loaded anew, the drill goes on from there."""
    take(drill, stage="Stage 1", tool="Torque wrench", setting="20")
    pull(drill, 1, 4)
    drill.wait_kernel("len(drill.pulls)", 2)
    drill.save()
    drill.reload()
    expect(drill.page.locator(".bp-log")).to_have_count(0)
    drill.run_instead(2, "put(drill)")
    expect(drill.page.locator(".bp-log li")).to_have_count(2)
    expect(drill.page.get_by_label("Stage 1")).to_be_checked()
    pull(drill, 2)
    drill.wait_kernel("[one['bolt'] for one in drill.pulls]", [1, 4, 2])
    drill.run_instead(2, "2 + 2")
