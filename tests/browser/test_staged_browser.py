"""The whole job stage by stage in the real JupyterLab: by mouse, by keyboard alone, told at once and told later."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.page import widgets

from .drill import HEAD
from .lab import AXE, Lesson
from .test_work_browser import ASK

pytestmark = pytest.mark.browser
Open = Callable[..., Lesson]
WIDGETS = Path(widgets.__file__).parent

JOB = (
    ASK.replace("begun_rows.forget()", "if not globals().get('again'): begun_rows.forget()")
    + """
from bitepoint.questions.staged_work import StagedWork, WorkPart
job = StagedWork(ask="Do it all.", why="First safe, then apart.", source="common-practice", vehicle="B",
    parts=(
        WorkPart("Gearbox out", (WorkCard("Gearbox out"), WorkCard("Hang it on its shaft", False, "Never: it falls.", True),
                                 WorkCard("Jack under it"), WorkCard("Road test", False)), ("Jack under it", "Gearbox out")),
        WorkPart("Clutch off", (WorkCard("Lock it"), WorkCard("Catch the dust"),
                                WorkCard("Jack under it", False, "That was done before.")), ("Catch the dust", "Lock it")),
        WorkPart("Check", (WorkCard("Road test"), WorkCard("Pedal, engine off")), ("Pedal, engine off", "Road test"))),
    rules=(Before("Jack under it", "Gearbox out", "it drops.", "safety", True),
           Before("Catch the dust", "Lock it", "you breathe it.", "safety", True),
           Before("Pedal, engine off", "Road test", "the car can jump.", "safety", True)))
"""
)
WHOLE = (
    ASK
    + """
from bitepoint.bank import exercise_named
session = ExerciseSession(exercise_named("job.order"), Identity(learner="practice", class_word="practice"))
controls["whole"] = answer_control.AnswerControl(session, output.show_static(Card(session)))
controls["whole"].show()
"""
)


@pytest.fixture(scope="module")
def pages(lesson: Open) -> dict[str, Lesson]:
    """One notebook for each control."""
    cells = {
        "job": JOB + "put_exercise('job', job)",
        "later": JOB + "put_exercise('later', job, 'after hand-in')",
        "whole": WHOLE,
    }
    return {name: lesson(f"staged-{name}", HEAD + cell, "1 + 1") for name, cell in cells.items()}


@pytest.fixture
def job(pages: dict[str, Lesson]) -> Lesson:
    """The small job, told at once, made afresh."""
    return afresh(pages["job"])


@pytest.fixture
def later(pages: dict[str, Lesson]) -> Lesson:
    """The same in a class with feedback after the hand-in."""
    return afresh(pages["later"])


@pytest.fixture
def whole(pages: dict[str, Lesson]) -> Lesson:
    """The whole job as the course asks it."""
    return afresh(pages["whole"])


def afresh(page: Lesson) -> Lesson:
    page.run_all()
    expect(page.page.locator(".bp-root")).to_have_count(1)
    return page


def card(page: Lesson, letter: str) -> Locator:
    return page.page.locator(".bp-card").nth("abcdefghijklmnopqrstuvwxyz".index(letter))


def put_down(page: Lesson, *letters: str) -> None:
    """Put cards down by mouse, each after the kernel has answered to the one before."""
    for letter in letters:
        card(page, letter).click()
        card(page, letter).click()
        expect(status(page)).not_to_have_text("Checking …")


def placed(page: Lesson) -> list[str]:
    return page.page.locator(".bp-placed:not(.bp-next) .bp-letter").all_inner_texts()


def chips(page: Lesson) -> list[str]:
    """Return the words of each chip, part by part: whether a space stands between them hangs on whether it is laid out yet."""
    parts = page.page.locator(".bp-chip-words").evaluate_all(
        "all => all.map(chip => [...chip.childNodes].map(n => n.textContent))"
    )
    return [" ".join(" ".join(found).split()) for found in parts]


def status(page: Lesson) -> Locator:
    return page.page.locator(".bp-root .bp-status").first


def main(page: Lesson) -> Locator:
    return page.page.locator(".bp-main")


def answers(page: Lesson, name: str) -> Any:
    return page.ask_kernel(f"[line.record.answer for line in controls[{name!r}].session.lines]")


def test_the_whole_job_by_mouse(job: Lesson) -> None:
    """Each stage brings its own bench; the strip counts; what is left over says why; the row is the answer."""
    assert chips(job) == ["Gearbox out now: 0 of 2", "Clutch off to come: 2 cards", "Check to come: 2 cards"]
    put_down(job, "a")
    expect(status(job)).to_have_text(
        "⚠ Dangerous: back to the bench. “Gearbox out” comes too early: first “Jack under it”, because it drops."
    )
    expect(card(job, "a")).to_contain_text("sent back")
    main(job).click(force=True)
    expect(status(job)).to_have_text("Not yet: this stage still has cards on the bench.")
    put_down(job, "c", "a")
    expect(status(job)).to_have_text("✓ Gearbox out is done. Go on.")
    expect(card(job, "b")).to_contain_text("Never: it falls.")
    expect(card(job, "d")).to_contain_text("first “Pedal, engine off”, because the car can jump.")
    assert chips(job)[0] == "Gearbox out now: 2 of 2"
    main(job).click()
    expect(status(job)).to_have_text("Stage 2 of 3: Clutch off. Take its first card.")
    assert chips(job)[:2] == ["Gearbox out done: 2 of 2", "Clutch off now: 0 of 2"]
    assert placed(job) == []
    put_down(job, "b", "a")
    expect(main(job)).to_have_text("Go on to: Check")
    main(job).click()
    put_down(job, "b", "a")
    expect(status(job)).to_have_text("✓ Check is done. That was the last stage: check your work.")
    main(job).click()
    expect(job.page.locator(".bp-said-words")).to_contain_text("Dangerous:")
    expect(job.page.locator(".bp-said-words")).to_contain_text("could hurt someone")
    assert answers(job, "job") == ["a c a / b a / b a"]


def test_the_whole_job_by_keyboard_alone(job: Lesson) -> None:
    """Enter and Space; at a stage's end the focus is on the way on, after it on the first card of the next bench."""
    keys = job.page.keyboard
    card(job, "a").focus()
    keys.press("ArrowDown")
    keys.press("ArrowDown")
    keys.press("Enter")
    keys.press("Enter")
    expect(status(job)).to_have_text("✓ Jack under it: put down.")
    keys.press("Home")
    keys.press(" ")
    keys.press(" ")
    expect(main(job)).to_be_focused()
    keys.press("Enter")
    expect(card(job, "a")).to_be_focused()
    expect(status(job)).to_contain_text("Stage 2 of 3")
    keys.press("ArrowDown")
    keys.press("Enter")
    keys.press("Enter")
    expect(status(job)).to_have_text("✓ Catch the dust: put down.")
    keys.press("Home")
    keys.press("Enter")
    keys.press("Enter")
    expect(main(job)).to_be_focused()
    keys.press("Enter")
    keys.press("End")
    keys.press("Enter")
    keys.press("Enter")
    expect(status(job)).to_have_text("✓ Pedal, engine off: put down.")
    keys.press("Enter")
    keys.press("Enter")
    expect(main(job)).to_be_focused()
    keys.press("Enter")
    expect(job.page.locator(".bp-said-words")).to_contain_text("Right. First safe, then apart.")
    assert answers(job, "job") == ["c a / b a / b a"]


def test_nothing_is_told_before_the_hand_in(later: Lesson) -> None:
    """A wrong card lies where it was put, the way on is always open, no trait says anything, and one may go back."""
    put_down(later, "a", "b")
    assert chips(later)[0] == "Gearbox out now: 2 put down"
    main(later).click()
    expect(status(later)).to_contain_text("Stage 2 of 3")
    later.page.get_by_role("button", name="Back one stage").click()
    expect(later.page.locator(".bp-placed:not(.bp-next)")).to_have_count(2)
    assert placed(later) == ["a", "b"]
    main(later).click()
    put_down(later, "a")
    main(later).click()
    put_down(later, "a", "b")
    later.wait_kernel("controls['later'].widget.picked", ["a", "b", "/", "a", "/", "a", "b"])
    assert later.ask_kernel("controls['later'].widget.told") == {}
    state = "str(controls['later'].widget.get_state())"
    assert later.ask_kernel(f"[word in {state} for word in ('it falls', 'it drops')]") == [False] * 2
    main(later).click()
    expect(later.page.locator(".bp-said-words")).to_have_text("Recorded. The feedback comes after the hand-in.")
    assert answers(later, "later") == ["a b / a / a b"]


def test_a_stage_is_begun_again_without_the_others(job: Lesson) -> None:
    """Asked once more, the stage's own cards go back and its refusals are forgotten; the stages before stay."""
    put_down(job, "c", "a")
    main(job).click()
    put_down(job, "a")
    expect(card(job, "a")).to_contain_text("sent back")
    job.page.get_by_role("button", name="This stage again").click()
    job.page.get_by_role("button", name="Yes, put them back").click()
    expect(card(job, "a")).not_to_contain_text("sent back")
    expect(card(job, "a")).to_be_focused()
    job.wait_kernel("controls['job'].widget.picked", ["c", "a", "/"])
    assert chips(job)[:2] == ["Gearbox out done: 2 of 2", "Clutch off now: 0 of 2"]
    job.page.get_by_role("button", name="Start again").click()
    job.page.get_by_role("button", name="Yes, put every card back").click()
    expect(status(job)).to_have_text("Every card is back on the bench. Start again.")
    job.wait_kernel("controls['job'].widget.picked", [])
    assert chips(job)[0] == "Gearbox out now: 0 of 2"


def test_the_cards_lie_where_they_lay_after_the_page_was_loaded_anew(job: Lesson) -> None:
    """The kernel remembers the row begun: the page comes back, Run All, and the second stage is open."""
    put_down(job, "c", "a")
    main(job).click()
    put_down(job, "b")
    job.wait_kernel("controls['job'].widget.picked", ["c", "a", "/", "b"])
    job.ask_kernel("globals().update(again=True)")
    job.reload()
    job.run_all()
    expect(job.page.locator(".bp-root")).to_have_count(1)
    assert chips(job)[:2] == ["Gearbox out done: 2 of 2", "Clutch off now: 1 of 2"]
    assert placed(job) == ["b"]
    job.ask_kernel("globals().update(again=False)")


def test_what_stands_below_the_bench_does_not_move_within_a_stage(whole: Lesson) -> None:
    """Card after card of the stage “Gearbox out” goes over, and buttons and bench stay where they are."""
    rows = whole.ask_kernel("controls['whole'].session.question().right_answer()").split(" / ")
    places = []
    for at, row in enumerate(rows[:3]):
        for letter in row.split():
            put_down(whole, letter)
            if at == 2:
                places.append(main(whole).evaluate("(e) => e.offsetTop"))
        if at < 2:
            main(whole).click()
    assert len(places) == len(rows[2].split()) > 1
    assert set(places) == {places[0]}


def test_the_focus_is_in_sight_on_a_small_screen(whole: Lesson) -> None:
    """At a stage's end the way on, after it the bench and the strip: nobody has to look for the focus."""
    whole.page.set_viewport_size({"width": 1100, "height": 560})
    rows = whole.ask_kernel("controls['whole'].session.question().right_answer()").split(" / ")
    for row in rows[:2]:
        put_down(whole, *row.split())
        expect(main(whole)).to_be_focused()
        expect(main(whole)).to_be_in_viewport()
        whole.page.keyboard.press("Enter")
        expect(whole.page.locator(".bp-card").first).to_be_focused()
        expect(whole.page.locator(".bp-card").first).to_be_in_viewport()
        expect(whole.page.locator(".bp-chip").first).to_be_in_viewport()
    whole.page.set_viewport_size({"width": 1100, "height": 1000})


def test_the_words_said_have_their_room_whatever_else_is_on_the_page(whole: Lesson) -> None:
    """The styles of a control loaded later do not shrink the place where a reason is said."""
    whole.page.add_style_tag(path=str(WIDGETS / "common.css"))
    height = status(whole).evaluate("(e) => e.offsetHeight")
    put_down(whole, "a")
    assert height >= 70
    assert status(whole).evaluate("(e) => e.offsetHeight") == height


def test_no_card_is_cut_off(whole: Lesson) -> None:
    """Words fit on cards, row and strip, and every card on the bench without a scroll bar of its own, on a narrow page too."""
    code = """() => [...document.querySelectorAll('.bp-tile-words, .bp-chip-words, .bp-status, .bp-card, .bp-cards, .bp-row-list')]
      .filter((e) => e.offsetParent && (e.scrollWidth > e.clientWidth + 1 || e.scrollHeight > e.clientHeight + 1))
      .map((e) => e.innerText)"""
    for width in (1100, 620):
        whole.page.set_viewport_size({"width": width, "height": 1000})
        whole.page.wait_for_timeout(100)
        assert whole.page.evaluate(code) == []
    whole.page.set_viewport_size({"width": 1100, "height": 1000})


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("which", ["job", "later", "whole"])
def test_axe_finds_nothing_in_the_staged_drill(
    request: pytest.FixtureRequest, axe: Path, which: str, dark: bool
) -> None:
    """No violation in control and card, with a card sent back and a stage finished, in both themes."""
    page: Lesson = request.getfixturevalue(which)
    page.theme(dark)
    page.page.add_script_tag(path=axe)
    if which == "job":
        put_down(page, "b", "c", "a")
        expect(main(page)).to_have_attribute("aria-disabled", "false")
    page.page.wait_for_timeout(300)
    roots, passed, violations = page.page.evaluate(AXE)
    page.theme(False)
    assert roots >= 1
    assert passed >= 5
    assert violations == []
