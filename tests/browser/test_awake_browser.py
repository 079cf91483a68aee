"""A lesson wakes when it is opened, in the real JupyterLab: its own cells run, nobody else's, and nothing is recorded.

Most of it is seen on one page, test after test: each opening costs a page, a kernel and a waking.
"""

import json
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, expect
from playwright.sync_api import TimeoutError as TookTooLong

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, read_folder
from bitepoint.workbook.create import make_workbook
from bitepoint.workshop.vehicles import FRAME

from . import lab

pytestmark = pytest.mark.browser
LEARNER, CLASS = "learner-one", "oak"
LESSON = "00-start-here.ipynb"
NUMBER = "start.number"
FILES = "#filebrowser"
SCROLLED = "document.querySelector('.jp-WindowedPanel-outer').scrollTop"
SAID_TWICE = """() => [...document.querySelectorAll('.jp-Notebook .jp-OutputArea')].flatMap((area) => {
  const seen = [...area.querySelectorAll('h3, p, legend, td, .bp-tile-words, img')].filter(
    (element) => element.checkVisibility() && element.getBoundingClientRect().width > 2);
  const said = seen.map((element) => element.src ?? element.innerText.trim()).filter((words) => words.length > 25);
  return said.filter((words, at) => said.indexOf(words) < at).map((words) => words.slice(0, 80));
})"""
"""Words and pictures that one output shows more than once."""
DIRTY = f"{lab.PANEL}.context.model.dirty"
SLEEP_AGAIN = "() => { delete document.querySelector('[data-bp-awake]').dataset.bpAwake; }"
# By the server's own interface, as another page would: to this page nobody says that it was.
RESTARTED_FROM_ELSEWHERE = f"""async () => {{
  const {{ serverSettings }} = window.jupyterapp.serviceManager;
  const id = {lab.PANEL}.sessionContext.session.kernel.id;
  const headers = {{ Authorization: `token ${{serverSettings.token}}` }};
  await fetch(`${{serverSettings.baseUrl}}api/kernels/${{id}}/restart`, {{ method: "POST", headers }});
}}"""
EDGES = """() => [...document.querySelectorAll(".jp-RenderedMarkdown > :is(p, ul, ol), .bp-sheet")]
  .filter((element) => element.checkVisibility() && !element.closest(".jp-OutputArea:has(.bp-calculator, .bp-drill)"))
  .map((element) => element.getBoundingClientRect().right)"""
HEADS = """() => [...document.querySelectorAll(".bp-sheet > div:first-child + h3")].map((title) => {
  const [head, below] = [title.previousElementSibling.getBoundingClientRect(), title.getBoundingClientRect()];
  return head.top < below.bottom && Math.abs(head.top - below.top) < 12;
})"""


class Course:
    """A fresh workbook; nothing in it was ever run."""

    def __init__(self, folder: Path, server: lab.Served, browser: lab.Browser) -> None:
        self.folder, self.server, self.browser = folder, server, browser
        with pytest.MonkeyPatch.context() as patch:
            patch.setenv("BITEPOINT_STATE", str(server.state))
            make_workbook(folder, Identity(learner=LEARNER, class_word=CLASS))

    def opened(self, name: str = LESSON) -> lab.Lesson:
        """The lesson in a page of its own, awake."""
        page = lab.Lesson(self.server, self.browser, width=1280, height=800)
        page.open(f"{self.folder.name}/{name}", run=False)
        return _awake(page)

    def lines(self) -> list[Any]:
        return [x.record for found in read_folder(self.folder).values() for x in found if x.record]


@pytest.fixture(scope="module")
def course(jupyterlab: lab.Served, folder: Path, chromium: lab.Browser) -> Course:
    """The workbook of this module's learner."""
    return Course(folder, jupyterlab, chromium)


@pytest.fixture(scope="module")
def lesson(course: Course) -> Iterator[lab.Lesson]:
    """The one page of most tests."""
    page = course.opened()
    yield page
    assert page.errors == []
    page.close()


def _awake(lesson: lab.Lesson) -> lab.Lesson:
    lesson.page.wait_for_selector("[data-bp-awake]", timeout=60_000)
    return lesson


def _bar(lesson: lab.Lesson) -> Locator:
    return lesson.page.locator(".bp-bar-middle")


def _asked(lesson: lab.Lesson) -> int:
    return sum("".join(c["source"]).startswith("ask(") for c in lesson.cells())


def _cell(lesson: lab.Lesson, exercise: str) -> Locator:
    at = next(i for i, c in enumerate(lesson.cells()) if "".join(c["source"]).startswith(f'ask("{exercise}"'))
    return lesson.page.locator(".jp-Notebook .jp-Cell").nth(at)


def _answer(lesson: lab.Lesson) -> None:
    """Answer the number right, by its form."""
    question = exercise_named(NUMBER).draw(class_word=CLASS, learner=LEARNER)
    field = _cell(lesson, NUMBER).get_by_role("textbox")
    field.fill(str(question.right_answer()))
    field.press("Enter")


def test_a_lesson_is_awake_at_its_top(course: Course, lesson: lab.Lesson) -> None:
    """Every exercise has its form, the first screen stays in view; neither logbook nor file is changed by looking."""
    assert _asked(lesson) > 4
    assert _asked(lesson) <= lesson.page.locator(".bp-root").count()
    assert 0 == lesson.page.evaluate(SCROLLED)
    assert 0 == lesson.page.locator(".bp-asleep").count()
    assert "" == lesson.page.locator(".bp-bar-news").inner_text()
    assert ([], False) == (course.lines(), lesson.page.evaluate(DIRTY))


def test_words_and_cards_are_one_column_and_a_card_begins_with_one_line(lesson: lab.Lesson) -> None:
    """Paragraphs, lists and cards end at one edge; number and minutes of an exercise stand beside its title."""
    edges = lesson.page.evaluate(EDGES)
    assert max(edges) - min(edges) <= 2
    heads = lesson.page.evaluate(HEADS)
    assert _asked(lesson) <= len(heads)
    assert all(heads)


def test_nothing_stands_twice_on_the_screen_and_all_of_it_in_the_file(course: Course, lesson: lab.Lesson) -> None:
    """Where a form lives the card shows no option, verdict or hint; the saved card is whole. A drawing carries its own frame."""
    assert 0 == lesson.page.locator(".bp-twice:visible").count()
    assert 0 == lesson.page.locator(".bp-once:visible").count()
    on_the_page = lesson.page.locator(":not(svg *):not(.bp-unseen)")
    expect(lesson.page.get_by_text(FRAME).and_(on_the_page).filter(visible=True)).to_have_count(1)
    assert [] == lesson.page.evaluate(SAID_TWICE)
    lesson.save()
    saved = (course.folder / LESSON).read_text(encoding="utf-8")
    assert _asked(lesson) == saved.count("not answered yet</p>")
    assert 0 == lesson.page.locator(".bp-ours > .jp-Cell-inputWrapper:visible").count()
    code = lesson.page.get_by_role("button", name="Show code")
    code.click()
    assert _asked(lesson) == lesson.page.locator(".bp-typed:visible").count()
    letters = lesson.page.locator(".bp-typed-letter:visible")
    assert 0 < letters.count()
    assert 0 == lesson.page.get_by_text("No form below?").filter(visible=True).count()
    lesson.page.get_by_role("button", name="Hide code").click()
    assert 0 == letters.count()


def test_an_answer_shows_in_the_bar_and_at_the_end_and_the_bar_hands_in(course: Course, lesson: lab.Lesson) -> None:
    """Nothing to hand in yet; one right answer by the form, no cell run: bar, end and a link that saves the file."""
    button = lesson.page.locator(".bp-bar").get_by_role("button", name="Make my hand-in")
    button.click()
    expect(_bar(lesson)).to_contain_text("nothing")
    _answer(lesson)
    expect(_bar(lesson)).to_contain_text("1 of ")
    expect(lesson.page.locator(".jp-Notebook .jp-Cell").last).to_contain_text("1 of ")
    assert 1 == len(course.lines())
    button.click()
    with lesson.page.expect_download() as saved:
        _bar(lesson).get_by_role("link", name="Save this file").click()
    assert saved.value.suggested_filename.endswith(".zip")
    assert 1000 < Path(saved.value.path()).stat().st_size
    expect(_bar(lesson)).to_contain_text("Now look for ")
    expect(_bar(lesson)).to_contain_text("Check code to say or write down: ")


@pytest.mark.parametrize("leave", ["Escape", "What is done and to do", "Show code", "Hide code", "Make my hand-in"])
def test_help_closes_and_gives_the_focus_back(lesson: lab.Lesson, leave: str) -> None:
    """By its key, after a choice, when the code is shown and at hand-in."""
    bar = lesson.page.locator(".bp-bar")
    button = bar.get_by_role("button", name="Help", exact=True)
    button.click()
    expect(lesson.page.locator(".bp-help")).to_be_visible()
    if leave == "Escape":
        lesson.page.keyboard.press(leave)
    else:
        bar.get_by_role("button", name=leave).first.click()
    expect(lesson.page.locator(".bp-help")).to_be_hidden()
    expect(button).to_be_focused()


def test_a_reload_keeps_the_place_and_adds_no_line(course: Course, lesson: lab.Lesson) -> None:
    """Loaded again the lesson stands where it was, awake, with one line that says so; Run All three times adds no line."""
    lesson.save()
    lesson.page.evaluate(f"{SCROLLED} = 0")
    lesson.page.evaluate("window.jupyterapp.shell.expandLeft()")
    expect(lesson.page.locator(FILES)).to_be_visible()
    lesson.page.locator(".jp-WindowedPanel-outer").hover()
    lesson.page.mouse.wheel(0, 1200)
    kept = "Object.entries(localStorage).find(([key]) => key.startsWith('bitepoint-place'))?.[1]"
    before = lesson.page.evaluate(kept)
    lesson.page.wait_for_function(f"(before) => {SCROLLED} > 1100 && {kept} !== before", arg=before)
    place = lesson.page.evaluate(SCROLLED)
    lesson.reload()
    _awake(lesson)
    expect(_bar(lesson)).to_contain_text("You are where you stopped.")
    expect(lesson.page.locator(FILES)).to_be_hidden()
    assert abs(lesson.page.evaluate(SCROLLED) - place) < 40
    lesson.page.keyboard.press("Shift")
    expect(_bar(lesson)).not_to_contain_text("You are where you stopped.")
    for _ in range(3):
        lesson.run_all()
    assert 1 == len(course.lines())


def test_two_pages_on_one_lesson_do_not_fight_over_its_file(course: Course, lesson: lab.Lesson) -> None:
    """Opened in a second page both are awake, and the second has nothing to save."""
    other = course.opened()
    forms = lesson.page.locator(".bp-root").count()
    expect(other.page.locator(".bp-root")).to_have_count(forms)
    expect(_bar(other)).to_contain_text("1 of ")
    assert (False, 1) == (other.page.evaluate(DIRTY), len(course.lines()))
    other.page.context.close()


def _acted_on(lesson: lab.Lesson) -> None:
    """Touch a key now and then: the kernel's first word may be lost, and then the next act of the reader tells."""
    for _ in range(20):
        with suppress(TookTooLong):
            lesson.page.wait_for_selector("[data-bp-awake]", timeout=3_000)
            return
        lesson.page.keyboard.press("Shift")
    _awake(lesson)


def test_a_kernel_restarted_from_elsewhere_wakes_the_lesson_again(course: Course, lesson: lab.Lesson) -> None:
    """Every form lives again, and nothing is recorded."""
    forms = lesson.page.locator(".bp-root").count()
    lesson.page.evaluate(SLEEP_AGAIN)
    lesson.page.evaluate(RESTARTED_FROM_ELSEWHERE)
    _acted_on(lesson)
    expect(lesson.page.locator(".bp-root")).to_have_count(forms)
    assert 1 == len(course.lines())


def test_a_kernel_that_died_wakes_the_lesson_again(lesson: lab.Lesson) -> None:
    """The server starts another, and every form lives again."""
    forms = lesson.page.locator(".bp-root").count()
    lesson.page.evaluate(SLEEP_AGAIN)
    lesson.page.evaluate(
        f"""() => {{
          const code = "import os; os._exit(1)";
          {lab.PANEL}.sessionContext.session.kernel.requestExecute({{ code }}).done.catch(() => null);
        }}"""
    )
    _awake(lesson)
    expect(lesson.page.locator(".bp-root")).to_have_count(forms)


@pytest.fixture(scope="module")
def changed(jupyterlab: lab.Served, folder: Path, chromium: lab.Browser) -> Iterator[tuple[Course, lab.Lesson]]:
    """Another learner's workbook, the lesson in it renamed, with cells of somebody else's and a module planted beside it."""
    course = Course(folder.with_name("changed"), jupyterlab, chromium)
    path = course.folder / LESSON
    evil = f"open({str(course.folder / 'ran')!r}, 'a').close()"
    (course.folder / "bitepoint.py").write_text(evil, encoding="utf-8")
    notebook = json.loads(path.read_text(encoding="utf-8"))
    asks = [c for c in notebook["cells"] if "".join(c["source"]).startswith("ask(")]
    asks[0]["source"] = f"{''.join(asks[0]['source'])[:-1]}, {evil})"
    for cell, literal in zip(asks[1:], ('"a"', "12.5", "[1, 2, 3]"), strict=False):
        cell["source"] = f"{''.join(cell['source'])[:-1]}, {literal})"
    next(c for c in notebook["cells"] if c["id"] == "setup")["source"] = f"from bitepoint import ask\n{evil}"
    notebook["cells"].append(lab.notebook(evil)["cells"][0] | {"id": "stranger"})
    path.write_text(json.dumps(notebook), encoding="utf-8")
    path.rename(path.with_name("mine.ipynb"))
    page = course.opened("mine.ipynb")
    yield course, page
    page.close()


def test_only_what_is_the_courses_own_runs_and_a_typed_answer_is_not_taken(changed: tuple[Course, lab.Lesson]) -> None:
    """A foreign cell, a changed cell, one that calls something, a planted module: none runs. Typed answers show forms."""
    course, lesson = changed
    expect(_bar(lesson)).to_contain_text("3 cells are not the course's own and did not run.")
    assert not (course.folder / "ran").exists()
    assert [] == course.lines()
    cells = lesson.page.locator(".jp-Notebook .jp-Cell")
    asks = [i for i, c in enumerate(lesson.cells()) if "".join(c["source"]).startswith("ask(")]
    assert [0, *[1] * (len(asks) - 1)] == [cells.nth(i).locator(".bp-root").count() for i in asks]


def test_another_notebook_is_left_alone(changed: tuple[Course, lab.Lesson]) -> None:
    """A notebook of the learner's own opens as ever: no bar, nothing run."""
    course, lesson = changed
    lab.write(course.folder / "sums.ipynb", "1 + 1")
    lesson.page.goto(f"{course.server.url}doc/tree/{course.folder.name}/sums.ipynb?token={course.server.token}&reset")
    lesson.wait_ready()
    assert 2 == lesson.ask_kernel("1 + 1")
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
def test_a_typed_answer_is_one_literal(lesson: lab.Lesson, source: str, typed: bool) -> None:
    """A shipped `ask(id)` with one text, number or list behind it, and nothing that could be called."""
    found = lesson.page.evaluate(
        """async ([address, source]) => {
          const { isTyped } = await import(address);
          return isTyped(source, new Set(['ask("a.b")']));
        }""",
        [f"{lesson.server.url}lab/extensions/bitepoint-awake/static/cells.js", source],
    )
    assert typed == found


def test_a_lesson_s_own_cells_run_in_that_lesson_alone(lesson: lab.Lesson) -> None:
    """What a college's lesson asks is nobody's cell in a lesson of the course, and a lesson is known by the cell at its end."""
    found = lesson.page.evaluate(
        """async ([address]) => {
          const { sorted, lessonAt } = await import(address);
          const course = {
            known: ['summary("star")', 'ask("a.b")'],
            lessons: [{ key: "star", file: "08.ipynb" }, { key: "own", file: "15.ipynb", known: ['summary("own")', 'ask("own.x")'] }],
          };
          const panel = (...sources) => ({
            context: { path: "renamed.ipynb" },
            content: { widgets: sources.map((source, at) => ({
              model: { id: at + 1 < sources.length ? `c${at}` : "summary", type: "code", sharedModel: { source } },
            })) },
          });
          const own = panel('ask("own.x", 3)', 'ask("own.y")', 'summary("own")');
          const star = panel('ask("own.x", 3)', 'ask("a.b")', 'summary("star")');
          const count = (one) => [lessonAt(one, course), sorted(one, course, lessonAt(one, course)).ours.length];
          return [count(own), count(star), lessonAt(panel('summary("other")'), course)];
        }""",
        [f"{lesson.server.url}lab/extensions/bitepoint-awake/static/cells.js"],
    )
    assert [[1, 2], [0, 2], -1] == found
