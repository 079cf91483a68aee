"""Bench of work cards, places to mark and enquiry in the real JupyterLab, with the kernel's side of `ask` behind them."""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.page.widgets import WorkBench

from .drill import HEAD
from .lab import Lesson, found_by_axe

pytestmark = pytest.mark.browser
Open = Callable[..., Lesson]

ASK = """
from bitepoint.bank.registry import Maker, Exercise
from bitepoint.logbook import Identity
from bitepoint.page import answer_control, begun_rows, output
from bitepoint.page.cards import Card
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.questions.order import Before
from bitepoint.questions.question import Picture
from bitepoint.questions.region import Spot
from bitepoint.questions.spots import Spots
from bitepoint.questions.work_order import WorkCard, WorkOrder, WorkStage

controls = {}
begun_rows.forget()
def put_exercise(name, question, feedback="at once"):
    exercise = Exercise(id=f"work.{name}", lesson="work", title=name.capitalize(), outcome="Works", minutes=1,
                        revision=1, beyond=False, makers={1: Maker(make=lambda draw: question)})
    session = ExerciseSession(exercise, Identity(learner="practice", class_word="practice", feedback=feedback))
    controls[name] = answer_control.AnswerControl(session, output.show_static(Card(session)))
    controls[name].show()

bench = WorkOrder(ask="Fit the clutch.", why="Clean, then tight.", source="common-practice", vehicle="A",
    cards=(WorkCard("Tighten the cover"), WorkCard("Oil the facings", False, "Never: oil makes it slip.", True),
           WorkCard("Centre the plate"), WorkCard("Clean the friction face")),
    rules=(Before("Clean the friction face", "Centre the plate", "dirt stays under it."),
           Before("Centre the plate", "Tighten the cover", "afterwards it is clamped.")),
    example=("Clean the friction face", "Centre the plate", "Tighten the cover"), done=("Inspect everything",),
    stages=(WorkStage("Remove", "done"), WorkStage("Fit", "now"), WorkStage("Test", "to come")))
"""
BENCH = ASK + "put_exercise('bench', bench)"
LATER = ASK + "put_exercise('later', bench, 'after hand-in')"
MARKS = (
    ASK
    + """
put_exercise("marks", Spots(ask="Mark both.", why="So it is.", source="invented", picture=Picture("bolt-ring", {}),
    spots=(Spot("1", "bolt 1", True), Spot("2", "bolt 2", name="two", says="Bolt 2 is sound."), Spot("4", "bolt 4", True))))
"""
)
ENQUIRY = (
    ASK
    + """
put_exercise("enquiry", Enquiry(ask="It makes a noise.", why="It was the pilot bearing.", source="invented",
    observations=(Observation("up", "Pedal up", "quiet"), Observation("down", "Pedal down", "HUM"),
                  Observation("gear", "In gear", "SILENCE")),
    suspects=(Suspect("pilot", "pilot bearing", {"up": "quiet", "down": "HUM", "gear": "SILENCE"}, True),
              Suspect("release", "release bearing", {"up": "quiet", "down": "ROAR", "gear": "SILENCE"}, name="release",
                      says="It would roar.")),
    free=("up",)))
"""
)


@pytest.fixture(scope="module")
def pages(lesson: Open) -> dict[str, Lesson]:
    """One notebook for each control."""
    cells = {"bench": BENCH, "later": LATER, "marks": MARKS, "enquiry": ENQUIRY}
    return {name: lesson(f"work-{name}", HEAD + cell, "1 + 1") for name, cell in cells.items()}


@pytest.fixture
def bench(pages: dict[str, Lesson]) -> Lesson:
    """The bench, told at once, made afresh."""
    return afresh(pages["bench"])


@pytest.fixture
def later(pages: dict[str, Lesson]) -> Lesson:
    """The bench in a class with feedback after the hand-in."""
    return afresh(pages["later"])


@pytest.fixture
def marks(pages: dict[str, Lesson]) -> Lesson:
    """A picture with places to mark."""
    return afresh(pages["marks"])


@pytest.fixture
def enquiry(pages: dict[str, Lesson]) -> Lesson:
    """An enquiry with one observation free and two to ask for."""
    return afresh(pages["enquiry"])


def afresh(page: Lesson) -> Lesson:
    page.run_all()
    expect(page.page.locator(".bp-root")).to_have_count(1)
    return page


def card(page: Lesson, letter: str) -> Locator:
    return page.page.locator(".bp-card").nth("abcd".index(letter))


def put_down(page: Lesson, *letters: str) -> None:
    for letter in letters:
        card(page, letter).click()
        card(page, letter).click()


def placed(page: Lesson) -> list[str]:
    return page.page.locator(".bp-placed:not(.bp-before, .bp-next) .bp-letter").all_inner_texts()


def status(page: Lesson) -> Locator:
    return page.page.locator(".bp-root .bp-status").first


def answers(page: Lesson, name: str) -> list[object]:
    """Answers kept so far, as read."""
    code = f"[line.record.answer for line in controls[{name!r}].session.lines]"
    return page.ask_kernel(code)  # type: ignore[no-any-return]


def test_a_safe_card_stays_and_a_wrong_one_comes_back_with_its_reason(bench: Lesson) -> None:
    """Two actions put a card down; a wrong one lies on the bench again, and its letter stays in the answer."""
    expect(status(bench)).to_contain_text("It is kept, and counts when you press “Done”.")
    card(bench, "c").click()
    expect(card(bench, "c")).to_have_attribute("aria-pressed", "true")
    assert placed(bench) == []
    card(bench, "c").click()
    expect(status(bench)).to_contain_text(
        "comes too early: first “Clean the friction face”, because dirt stays under it."
    )
    expect(card(bench, "c")).to_contain_text("sent back")
    put_down(bench, "d")
    expect(status(bench)).to_contain_text("Clean the friction face: put down.")
    put_down(bench, "c")
    expect(status(bench)).to_contain_text("Centre the plate: put down.")
    put_down(bench, "a")
    expect(bench.page.locator(".bp-placed:not(.bp-before, .bp-next)")).to_have_count(3)
    assert placed(bench) == ["d", "c", "a"]
    bench.page.get_by_role("button", name="Done: check my work").click()
    expect(bench.page.locator(".bp-said-words")).to_contain_text("Not yet.")
    assert answers(bench, "bench") == ["c d c a"]


def test_a_card_sent_back_counts_as_still_on_the_bench(bench: Lesson) -> None:
    """What was refused is not done: the card after it is refused too."""
    put_down(bench, "c")
    expect(card(bench, "c")).to_contain_text("sent back")
    put_down(bench, "a")
    expect(card(bench, "a")).to_contain_text("sent back")
    assert placed(bench) == []


def test_the_bench_is_worked_by_keyboard_alone(bench: Lesson) -> None:
    """One tab stop; arrows move; Enter and Space take up and put down; the focus never falls off the bench."""
    keys = bench.page.keyboard
    card(bench, "a").focus()
    keys.press("End")
    expect(card(bench, "d")).to_be_focused()
    keys.press("Enter")
    keys.press(" ")
    expect(card(bench, "d")).to_be_hidden()
    expect(card(bench, "c")).to_be_focused()
    keys.press("Enter")
    keys.press("Enter")
    expect(card(bench, "c")).to_be_hidden()
    keys.press("ArrowUp")
    expect(card(bench, "a")).to_be_focused()
    keys.press(" ")
    keys.press(" ")
    expect(bench.page.locator(".bp-placed:not(.bp-before, .bp-next)")).to_have_count(3)
    keys.press("Tab")
    expect(bench.page.get_by_role("button", name="Done: check my work")).to_be_focused()
    keys.press("Shift+Tab")
    expect(card(bench, "b")).to_be_focused()
    keys.press("Tab")
    keys.press("Enter")
    expect(bench.page.locator(".bp-said-words")).to_contain_text("Right. Clean, then tight.")
    assert answers(bench, "bench") == ["d c a"]


@pytest.mark.parametrize("which", ["bench", "marks", "enquiry"])
def test_no_key_reaches_jupyterlab(request: pytest.FixtureRequest, which: str) -> None:
    """Keys pressed in a control change no cell."""
    page: Lesson = request.getfixturevalue(which)
    before = page.cells()
    page.page.locator(".bp-root :is(.bp-card, .bp-ask, input)").first.focus()
    for key in "ddmabyxz00J":
        page.page.keyboard.press(key)
    page.page.wait_for_timeout(150)
    sources = [cell["source"] for cell in page.cells()]
    assert [cell["source"] for cell in before] == sources
    expect(page.page.get_by_role("dialog")).to_have_count(0)


def test_starting_again_is_asked_once_more(bench: Lesson) -> None:
    """No keeps the row; Yes puts every card back, also the memory of what was refused."""
    put_down(bench, "b")
    expect(status(bench)).to_contain_text("oil makes it slip")
    put_down(bench, "d")
    expect(status(bench)).to_contain_text("put down")
    bench.page.get_by_role("button", name="Start again").click()
    bench.page.get_by_role("button", name="No, keep my order").click()
    assert placed(bench) == ["d"]
    bench.page.get_by_role("button", name="Start again").click()
    bench.page.get_by_role("button", name="Yes, put every card back").click()
    assert placed(bench) == []
    bench.wait_kernel("controls['bench'].widget.told", {"picks": []})
    expect(card(bench, "b")).not_to_contain_text("sent back")


def test_nothing_about_right_or_wrong_before_the_hand_in(later: Lesson) -> None:
    """The card stays, no trait says anything, and the verdict is only that it was recorded."""
    put_down(later, "b", "a")
    assert placed(later) == ["b", "a"]
    later.wait_kernel("controls['later'].widget.picked", ["b", "a"])
    assert later.ask_kernel("controls['later'].widget.told") == {}
    assert later.ask_kernel("'oil makes' in str(controls['later'].widget.get_state())") is False
    later.page.get_by_role("button", name="Done: check my work").click()
    expect(later.page.locator(".bp-said-words")).to_have_text("Recorded. The feedback comes after the hand-in.")
    assert later.ask_kernel("'oil makes' in str(controls['later'].widget.get_state())") is False
    assert answers(later, "later") == ["b a"]


def test_a_bench_seen_again_shows_what_was_done(bench: Lesson) -> None:
    """The row lives in the kernel: a second view of the control starts where the first one is."""
    put_down(bench, "b")
    expect(status(bench)).to_contain_text("oil makes it slip")
    put_down(bench, "d")
    expect(status(bench)).to_contain_text("put down")
    bench.ask_kernel("setattr(controls['bench'].widget, 'spec', {**controls['bench'].widget.spec, 'title': 'Again'})")
    expect(bench.page.locator(".bp-title")).to_have_text("Again")
    assert placed(bench) == ["d"]
    expect(card(bench, "b")).to_contain_text("sent back")


def test_places_are_marked_in_the_picture_and_in_the_list(marks: Lesson) -> None:
    """Once marks, once more takes the mark off; the count follows; Space on a checkbox does the same."""
    page = marks.page
    for number in (0, 1, 2, 1):
        page.locator(".bp-region").nth(number).click()
    expect(page.locator(".bp-count-marked")).to_have_text("2 marked")
    expect(page.get_by_role("checkbox", name="bolt 2")).not_to_be_checked()
    page.get_by_role("checkbox", name="bolt 4").press("Space")
    expect(page.locator(".bp-count-marked")).to_have_text("1 marked")
    expect(page.locator(".bp-region-chosen")).to_have_count(1)
    page.get_by_role("checkbox", name="bolt 4").press("Space")
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    expect(page.locator(".bp-said-words")).to_contain_text("Right.")
    assert answers(marks, "marks") == [["1", "4"]]


def test_nothing_marked_sends_nothing(marks: Lesson) -> None:
    """The form says what is missing."""
    marks.page.get_by_role("button", name="Check", exact=True).click()
    expect(status(marks)).to_contain_text("Mark at least one place first.")
    assert answers(marks, "marks") == []


def test_an_observation_is_nowhere_before_it_is_asked_for(enquiry: Lesson) -> None:
    """Neither in a trait nor on the page; asked, it stands in the table; the answer carries what was asked."""
    page = enquiry.page
    state = "str(controls['enquiry'].widget.get_state()) + str(Card(controls['enquiry'].session)._repr_mimebundle_())"
    assert enquiry.ask_kernel(f"[word in {state} for word in ('HUM', 'SILENCE', 'ROAR')]") == [False] * 3
    expect(page.locator(".bp-known tbody tr")).to_have_text(["Pedal upquiet"])
    page.get_by_role("button", name="Pedal down").click()
    expect(page.locator(".bp-known tbody tr")).to_have_text(["Pedal upquiet", "Pedal downHUM"])
    expect(status(enquiry)).to_have_text("Pedal down: HUM")
    assert enquiry.ask_kernel(f"[word in {state} for word in ('HUM', 'SILENCE', 'ROAR')]") == [True, False, False]
    page.get_by_role("radio", name="pilot bearing").check()
    page.get_by_role("button", name="Check", exact=True).click()
    expect(page.locator(".bp-said-words")).to_contain_text("Right. It was the pilot bearing.")
    assert answers(enquiry, "enquiry") == ["down > pilot"]


def test_an_enquiry_by_keyboard_alone(enquiry: Lesson) -> None:
    """Buttons and radio buttons of the page itself; asking twice asks once; the focus stays on the button."""
    page, keys = enquiry.page, enquiry.page.keyboard
    page.get_by_role("button", name="Pedal down").focus()
    keys.press("Enter")
    expect(page.locator(".bp-known caption")).to_have_text("What you know so far (1 asked)")
    keys.press(" ")
    expect(page.get_by_role("button", name="Pedal down")).to_be_focused()
    keys.press("Tab")
    keys.press("Tab")
    keys.press(" ")
    keys.press("ArrowDown")
    expect(page.get_by_role("radio", name="release bearing")).to_be_checked()
    keys.press("Tab")
    keys.press("Enter")
    expect(page.locator(".bp-said-words")).to_contain_text("Not yet. It would roar.")
    assert answers(enquiry, "enquiry") == ["down > release"]


def test_the_bench_is_whole_in_itself_and_writes_only_text() -> None:
    """No import, no other address, no markup from words; its repr stays the same from run to run."""
    code = str(WorkBench._esm)
    assert (
        re.findall(r"^\s*import\b|\bimport\s*\(|innerHTML|outerHTML|insertAdjacentHTML|document\.write", code, re.M)
        == []
    )
    assert set(re.findall(r"https?://[^\"']*", code + str(WorkBench._css))) == {"http://www.w3.org/2000/svg"}
    assert repr(WorkBench(spec={"cards": [{"key": "a", "text": "Clean"}]})) == "WorkBench(1 cards)"


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("which", ["bench", "marks", "enquiry"])
def test_axe_finds_nothing_in_our_controls_and_cards(
    request: pytest.FixtureRequest, axe: Path, which: str, dark: bool
) -> None:
    """No violation of any rule axe-core knows, inside the controls and the cards, in both themes."""
    page: Lesson = request.getfixturevalue(which)
    assert found_by_axe(page, axe, dark=dark) == []
