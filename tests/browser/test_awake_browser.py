"""A lesson wakes when it is opened, in the real JupyterLab: its own cells run, nobody else's, and nothing is recorded."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, read_folder
from bitepoint.workbook.create import make_workbook
from bitepoint.workshop.vehicles import FRAME

from . import lab

pytestmark = pytest.mark.browser
LEARNER, CLASS = "learner-one", "oak"
LESSON = "07-torque-and-the-wrench.ipynb"
SCROLLED = "document.querySelector('.jp-WindowedPanel-outer').scrollTop"
CHOICE = "torque.one-click"
SAID_TWICE = """() => [...document.querySelectorAll('.jp-Notebook .jp-OutputArea')].flatMap((area) => {
  const seen = [...area.querySelectorAll('h3, p, legend, td, .bp-tile-words, img')].filter(
    (element) => element.checkVisibility() && element.getBoundingClientRect().width > 2);
  const said = seen.map((element) => element.src ?? element.innerText.trim()).filter((words) => words.length > 25);
  return said.filter((words, at) => said.indexOf(words) < at).map((words) => words.slice(0, 80));
})"""
"""Words and pictures that one output shows more than once."""


class Course:
    """A fresh workbook, with the lesson open in a page of its own; nothing in it was ever run."""

    def __init__(self, folder: Path, server: lab.Served, browser: lab.Browser) -> None:
        self.folder, self.server, self.browser = folder, server, browser
        self.page_of = f"{folder.name}/{LESSON}"

    def opened(self) -> lab.Lesson:
        page = lab.Lesson(self.server, self.browser, width=1280, height=800).open(self.page_of, run=False)
        page.page.wait_for_selector("[data-bp-awake]", timeout=60_000)
        return page

    def change(self, **sources: str) -> None:
        """Write other sources into cells of the lesson, by their ids with _ for -; an unknown id becomes a new cell."""
        path = self.folder / LESSON
        notebook = json.loads(path.read_text(encoding="utf-8"))
        for name, source in sources.items():
            cell = next((c for c in notebook["cells"] if c["id"] == name.replace("_", "-")), None)
            if cell is None:
                cell = lab.notebook("")["cells"][0] | {"id": name}
                notebook["cells"].append(cell)
            cell["source"] = source
        path.write_text(json.dumps(notebook), encoding="utf-8")

    def lines(self) -> list[Any]:
        return [x.record for found in read_folder(self.folder).values() for x in found if x.record]


@pytest.fixture
def course(
    jupyterlab: lab.Served, chromium: lab.Browser, request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> Iterator[Course]:
    """A workbook for one test."""
    folder = jupyterlab.work / request.node.name
    monkeypatch.setenv("BITEPOINT_STATE", str(jupyterlab.state))
    make_workbook(folder, Identity(learner=LEARNER, class_word=CLASS))
    yield Course(folder, jupyterlab, chromium)
    for context in chromium.contexts:
        context.close()


def _bar(lesson: lab.Lesson) -> Locator:
    return lesson.page.locator(".bp-bar-middle")


def _answer(lesson: lab.Lesson) -> None:
    """Answer the choice right, by its form."""
    question = exercise_named(CHOICE).draw(class_word=CLASS, learner=LEARNER)
    at = next(i for i, c in enumerate(lesson.cells()) if f'ask("{CHOICE}"' in "".join(c["source"]))
    cell = lesson.page.locator(".jp-Notebook .jp-Cell").nth(at)
    cell.scroll_into_view_if_needed()
    cell.locator(f'input[value="{question.right_answer()}"]').check()
    cell.get_by_role("button", name="Check").click()


def test_a_lesson_is_awake_at_its_top_and_a_reload_keeps_the_place(course: Course) -> None:
    """Every exercise has its form, the first screen stays in view; loaded again it stands where it was; no line."""
    lesson = course.opened()
    asked = sum("".join(c["source"]).startswith("ask(") for c in lesson.cells())
    expect(lesson.page.locator(".bp-root:visible")).not_to_have_count(0)
    assert asked <= lesson.page.locator(".bp-root").count()
    assert 0 == lesson.page.evaluate(SCROLLED)
    expect(lesson.page.locator(".bp-asleep")).to_have_count(0)
    lesson.page.locator(".jp-WindowedPanel-outer").hover()
    lesson.page.mouse.wheel(0, 2500)
    lesson.page.wait_for_function(f"() => {SCROLLED} > 2400")
    lesson.page.wait_for_timeout(600)
    place = lesson.page.evaluate(SCROLLED)
    lesson.reload()
    lesson.page.wait_for_selector("[data-bp-awake]", timeout=60_000)
    expect(_bar(lesson)).to_contain_text("You are where you stopped.")
    assert abs(lesson.page.evaluate(SCROLLED) - place) < 40
    assert [] == course.lines()
    assert lesson.errors == []


def test_only_what_is_the_courses_own_runs_and_a_typed_answer_is_not_taken(course: Course) -> None:
    """A foreign cell, a changed cell, a typed draft, one that calls something, a planted module: none runs or records."""
    mark = course.folder / "ran"
    evil = f"open({str(mark)!r}, 'a').close()"
    (course.folder / "bitepoint.py").write_text(evil, encoding="utf-8")
    course.change(
        stranger=evil,
        ask_torque_one_click=f'ask("{CHOICE}", "a")',
        ask_torque_spread=f'ask("torque.spread", {evil[:-8]})',
        setup=f"# Setup: wakes this page\nfrom bitepoint import ask, calculator, show, summary\n{evil}",
    )
    lesson = course.opened()
    expect(_bar(lesson)).to_contain_text("3 cells are not the course's own and did not run.")
    assert not mark.exists()
    assert [] == course.lines()


def test_a_typed_answer_leaves_the_lesson_awake_and_adds_nothing(course: Course) -> None:
    """The form of a typed answer shows; opening it again and again records nothing."""
    course.change(ask_torque_one_click=f'ask("{CHOICE}", "a")')
    lesson = course.opened()
    at = next(i for i, c in enumerate(lesson.cells()) if f'ask("{CHOICE}"' in "".join(c["source"]))
    expect(lesson.page.locator(".jp-Notebook .jp-Cell").nth(at).locator(".bp-form")).to_have_count(1)
    assert [] == course.lines()
    assert "" == lesson.page.locator(".bp-bar-news").inner_text()


def test_an_answer_shows_in_the_bar_and_in_the_card_at_the_end(course: Course) -> None:
    """One right answer by the form: the bar and the end of the lesson say so, without a cell being run."""
    lesson = course.opened()
    _answer(lesson)
    expect(_bar(lesson)).to_contain_text("1 of ", timeout=5_000)
    expect(lesson.page.locator(".jp-Notebook .jp-Cell").last).to_contain_text("1 of ", timeout=5_000)
    assert 1 == len(course.lines())


def test_nothing_stands_twice_on_the_screen_and_all_of_it_in_the_file(course: Course) -> None:
    """Where a form lives the card shows no option, verdict or hint; the saved card is whole."""
    lesson = course.opened()
    assert 0 == lesson.page.locator(".bp-twice:visible").count()
    assert 0 == lesson.page.locator(".bp-once:visible").count()
    expect(lesson.page.get_by_text(FRAME).filter(visible=True)).to_have_count(1)
    assert [] == lesson.page.evaluate(SAID_TWICE)
    lesson.save()
    saved = (course.folder / LESSON).read_text(encoding="utf-8")
    asked = sum("".join(c["source"]).startswith("ask(") for c in lesson.cells())
    assert asked == saved.count("not answered yet</p>")
    assert 0 == lesson.page.locator(".bp-ours > .jp-Cell-inputWrapper:visible").count()
    lesson.page.get_by_role("button", name="Show code").click()
    assert asked == lesson.page.locator(".bp-typed:visible").count()


def test_a_restarted_kernel_wakes_the_lesson_again(course: Course) -> None:
    """After Restart Kernel every form lives again, and nothing is recorded."""
    lesson = course.opened()
    forms = lesson.page.locator(".bp-root").count()
    lesson.page.evaluate("() => { delete document.querySelector('[data-bp-awake]').dataset.bpAwake; }")
    lesson.page.evaluate(f"async () => {{ await {lab.PANEL}.sessionContext.session.kernel.restart(); }}")
    lesson.page.wait_for_selector("[data-bp-awake]", timeout=60_000)
    expect(lesson.page.locator(".bp-root")).to_have_count(forms)
    assert [] == course.lines()


def test_the_bar_hands_in_and_gives_the_file(course: Course) -> None:
    """“Make my hand-in” in the bar: a sentence while nothing was answered, then a link that saves the file."""
    lesson = course.opened()
    button = lesson.page.locator(".bp-bar").get_by_role("button", name="Make my hand-in")
    button.click()
    expect(_bar(lesson)).to_contain_text("nothing")
    _answer(lesson)
    expect(_bar(lesson)).to_contain_text("1 of ")
    button.click()
    with lesson.page.expect_download() as saved:
        _bar(lesson).get_by_role("link", name="Save this file").click()
    assert saved.value.suggested_filename.endswith(".zip")
    assert 1000 < Path(saved.value.path()).stat().st_size


def test_another_notebook_is_left_alone(course: Course) -> None:
    """A notebook of the learner's own opens as ever: no bar, nothing run."""
    lab.write(course.folder / "mine.ipynb", "1 + 1")
    lesson = lab.Lesson(course.server, course.browser).open(f"{course.folder.name}/mine.ipynb", run=False)
    lesson.page.wait_for_timeout(1500)
    assert 0 == lesson.page.locator(".bp-bar").count()
    assert lesson.cells()[0]["execution_count"] is None


@pytest.mark.parametrize(
    ("source", "typed"),
    [
        ('ask("a.b", "84,2 Nm")', True),
        ('ask("a.b", 84.2)', True),
        ('ask("a.b", [1, 4, 2, "x"])', True),
        ('ask("a.b", (1, -2.5e3))', True),
        ("ask(\"a.b\", 'it\\'s')", True),
        ('ask("a.b", turn=2)', False),
        ('ask("c.d", 1)', False),
        ('ask("a.b", evil())', False),
        ('ask("a.b", f"{evil}")', False),
        ('ask("a.b", 1)(2)', False),
        ('ask("a.b", "x" "y")', False),
        ('ask("a.b", [1](2))', False),
        ('ask("a.b", 1); evil()', False),
        ('ask("a.b", "1\n2")', False),
        ('ask("a.b", 1\n)', True),
        ('ask("a.b", (1]))', False),
    ],
)
def test_a_typed_answer_is_one_literal(awake_page: lab.Lesson, source: str, typed: bool) -> None:
    """A shipped `ask(id)` with one text, number or list behind it, and nothing that could be called."""
    found = awake_page.page.evaluate(
        """async ([address, source]) => {
          const { isTyped } = await import(address);
          return isTyped(source, new Set(['ask("a.b")']));
        }""",
        [f"{awake_page.server.url}lab/extensions/bitepoint-awake/static/cells.js", source],
    )
    assert typed == found


@pytest.fixture(scope="module")
def awake_page(lesson: Any) -> lab.Lesson:
    """Any page of the server: its modules can be loaded from there."""
    opened: lab.Lesson = lesson("any", "1 + 1")
    return opened
