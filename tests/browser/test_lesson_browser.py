"""A lesson from the first look to the mark, in the real JupyterLab, as `bitepoint open` serves it."""

import csv
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any
from urllib.parse import quote

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, read_folder
from bitepoint.marking import mark_hand_ins
from bitepoint.mechanics.tightening import star_order
from bitepoint.questions.question import Question
from bitepoint.workbook.create import make_workbook

from . import lab

pytestmark = pytest.mark.browser
LEARNER, CLASS = "learner-one", "oak"
LESSON = "08-star-tightening.ipynb"
NUMBER, EIGHT, SIX = "star.stage-torque", "star.eight-bolts", "star.six-bolts"


class Course:
    """A workbook of one learner, served as a learner gets it, with the lesson open in the browser."""

    def __init__(self, folder: Path, server: lab.Served, browser: lab.Browser) -> None:
        self.folder, self.browser, self.server = folder, browser, server
        self.name = f"{folder.name}/{LESSON}"
        self.lesson = self.another_page()

    def another_page(self) -> lab.Lesson:
        return lab.Lesson(self.server, self.browser, width=1280, height=1000)

    def question(self, exercise: str) -> Question:
        return exercise_named(exercise).draw(class_word=CLASS, learner=LEARNER)

    def lines(self, exercise: str = "") -> list[Any]:
        found = [line.record for lines in read_folder(self.folder).values() for line in lines if line.record]
        return [record for record in found if exercise in ("", record.exercise)]

    def saved(self) -> dict[str, Any]:
        return json.loads((self.folder / LESSON).read_text(encoding="utf-8"))  # type: ignore[no-any-return]

    def cell(self, exercise: str) -> Locator:
        """The cell that asks an exercise, scrolled into view so that JupyterLab draws it."""
        at = next(i for i, c in enumerate(self.lesson.cells()) if f'ask("{exercise}"' in "".join(c["source"]))
        found = self.lesson.page.locator(".jp-Notebook .jp-Cell").nth(at)
        found.scroll_into_view_if_needed()
        expect(found).to_be_visible()
        return found

    def run_one(self, exercise: str) -> None:
        at = next(i for i, c in enumerate(self.lesson.cells()) if f'ask("{exercise}"' in "".join(c["source"]))
        self.lesson.page.evaluate(f"() => {{ {lab.PANEL}.content.activeCellIndex = {at}; }}")
        self.lesson.command("notebook:run-cell")

    def no_dialog(self) -> None:
        assert self.lesson.page.locator(".jp-Dialog").count() == 0


@pytest.fixture(scope="module")
def course(jupyterlab: lab.Served, folder: Path, chromium: lab.Browser) -> Iterator[Course]:
    """The lesson in a folder with a space and an accent, as it is put there, then served."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(jupyterlab.state))
        make_workbook(folder, Identity(learner=LEARNER, class_word=CLASS))
    made = Course(folder, jupyterlab, chromium)
    yield made
    made.lesson.close()


def test_the_lesson_is_there_before_any_key_is_pressed(course: Course) -> None:
    """Opened fresh, figures, cards and forms of this very learner stand there; nobody ran anything in this page."""
    course.lesson.open(course.name, run=False)
    card = course.cell(EIGHT)
    expect(card).to_contain_text("not answered yet")
    expect(card.locator(".bp-root")).to_be_visible()
    expect(course.cell(NUMBER)).to_contain_text(course.question(NUMBER).ask.split("\n")[0][:40])
    expect(course.cell(NUMBER).locator(".bp-root")).to_be_visible()
    course.no_dialog()


def test_a_number_first_wrong_then_right_in_the_form(course: Course) -> None:
    """The form takes a known mistake, says its words, then takes the right figure; the card follows in place."""
    course.lesson.run_all()
    question = course.question(NUMBER)
    wrong, name = question.known_mistakes()[0]
    cell = course.cell(NUMBER)
    field = cell.get_by_role("textbox", name=re.compile("Your answer"))
    field.fill(str(wrong))
    field.press("Enter")
    feedback = question.mark(wrong).feedback
    expect(cell.locator(".bp-form")).to_contain_text(feedback[:60])
    expect(cell.locator(".jp-RenderedHTMLCommon")).to_contain_text("Not yet.")
    field.fill(str(question.right_answer()))
    cell.get_by_role("button", name="Check").click()
    expect(cell.locator(".jp-RenderedHTMLCommon")).to_contain_text("Right.")
    assert [(0.0, name), (1.0, None)] == [(r.score, r.mistake) for r in course.lines(NUMBER)]


def test_axe_finds_no_fault_in_the_lesson(course: Course, axe: Path) -> None:
    """Cards, pictures, calculators, forms and drills of the whole lesson, in both themes."""
    page = course.lesson.page
    page.add_script_tag(path=axe)
    for dark in (True, False):
        course.lesson.theme(dark)
        roots, passed, found = page.evaluate(lab.AXE)
        assert roots > 30
        assert passed > 20
        assert found == []


def test_eight_bolts_by_keyboard_alone(course: Course) -> None:
    """Tab into the circle, arrows to move, Enter to pull; d d, m, a and b change nothing in the notebook."""
    page, question = course.lesson.page, course.question(EIGHT)
    before = [c["source"] for c in course.lesson.cells()]
    cell = course.cell(EIGHT)
    for radio in cell.get_by_role("radio").all():
        radio.press("Space")
    cell.get_by_role("button", name=re.compile(r"^Bolt \d+,")).first.focus()
    names = [b.get_attribute("aria-label") for b in cell.get_by_role("button", name=re.compile(r"^Bolt \d+,")).all()]
    assert len(names) == 8
    for bolt in star_order(question.angles_deg):  # type: ignore[attr-defined]
        for _ in range(8):
            label = page.evaluate("document.activeElement.getAttribute('aria-label')")
            if label.startswith(f"Bolt {bolt},"):
                break
            page.keyboard.press("ArrowRight")
        for key in ("d", "d", "m", "a", "b"):
            page.keyboard.press(key)
        page.keyboard.press("Enter")
    done = cell.get_by_role("button", name="Done: check my work")
    done.focus()
    page.keyboard.press("Enter")
    expect(cell.locator(".jp-RenderedHTMLCommon").first).to_contain_text("Right.")
    assert before == [c["source"] for c in course.lesson.cells()]
    assert [r.score for r in course.lines(EIGHT)] == [1.0]


def test_six_bolts_by_mouse(course: Course) -> None:
    """A click pulls a bolt; half-way the picture shows what is tight; round the circle is told what it did."""
    cell = course.cell(SIX)
    for radio in cell.get_by_role("radio").all():
        radio.check()
    for bolt in range(1, 7):
        cell.get_by_role("button", name=re.compile(rf"^Bolt {bolt},")).click()
    cell.get_by_role("button", name="Done: check my work").click()
    expect(cell.locator(".jp-RenderedHTMLCommon").first).to_contain_text("go across to 4")
    assert [(r.score, r.mistake) for r in course.lines(SIX)] == [(0.0, "round the circle")]


def test_two_saves_in_a_row_and_no_live_view_on_disk(course: Course) -> None:
    """Saving twice asks nothing; the file holds cards with the latest verdict and no view that would come back dead."""
    course.lesson.save()
    course.lesson.save()
    course.no_dialog()
    text = json.dumps(course.saved())
    assert "widget-view" not in text
    assert "Right." in text


def test_reload_then_one_cell_then_an_answer(course: Course) -> None:
    """After a reload one cell is enough to go on where the learner stopped, and a bare notebook gives the same marks."""
    course.lesson.reload()
    course.no_dialog()
    course.run_one(SIX)
    cell = course.cell(SIX)
    expect(cell.locator(".jp-RenderedHTMLCommon").first).to_contain_text("Not yet.")
    for radio in cell.get_by_role("radio").all():
        radio.check()
    for bolt in star_order(course.question(SIX).angles_deg):  # type: ignore[attr-defined]
        cell.get_by_role("button", name=re.compile(rf"^Bolt {bolt},")).click()
    cell.get_by_role("button", name="Done: check my work").click()
    expect(cell.locator(".jp-RenderedHTMLCommon").first).to_contain_text("Right.")
    course.lesson.save()
    course.no_dialog()
    assert _marks(course, course.folder / LESSON) == {NUMBER: (0.0, 1.0), EIGHT: (1.0, 1.0), SIX: (0.0, 1.0)}


def test_running_all_three_times_changes_nothing(course: Course) -> None:
    """No new line, no mark changed."""
    lines, marks = len(course.lines()), _marks(course, course.folder / LESSON)
    for _ in range(3):
        course.lesson.run_all()
    course.lesson.save()
    course.no_dialog()
    assert (lines, marks) == (len(course.lines()), _marks(course, course.folder / LESSON))


def test_reopened_with_no_kernel_shows_cards_and_no_error(course: Course) -> None:
    """With the kernel gone the saved lesson shows its cards; no “model not found”."""
    course.lesson.page.evaluate(f"async () => {{ await {lab.PANEL}.sessionContext.shutdown(); }}")
    page = course.another_page().page
    page.goto(f"{course.server.url}doc/tree/{quote(course.name)}?token={course.server.token}&reset")
    page.wait_for_selector(".jp-Cell")
    page.evaluate(
        "async () => { while (!window.jupyterapp) await new Promise((r) => setTimeout(r, 50)); "
        "await window.jupyterapp.restored; }"
    )
    expect(page.locator(".jp-Notebook")).to_contain_text("Right.", timeout=30_000)
    assert "model not found" not in page.locator(".jp-Notebook").inner_text()
    page.context.close()


def test_the_button_makes_a_hand_in_that_is_marked_like_the_cards(course: Course) -> None:
    """“Make my hand-in” writes one zip; marking it gives what the cards said."""
    lesson = course.lesson = course.another_page()
    lesson.open(course.name)
    lesson.page.locator(".jp-Notebook").get_by_role("button", name="Make my hand-in").click()
    expect(lesson.page.get_by_text("Give that one file to your instructor")).to_be_visible()
    made = sorted((course.folder / "hand-in").glob("*.zip"))
    assert len(made) == 1
    assert _marks(course, made[0]) == {NUMBER: (0.0, 1.0), EIGHT: (1.0, 1.0), SIX: (0.0, 1.0)}
    assert lesson.errors == []


def _marks(course: Course, hand_in: Path) -> dict[str, tuple[float, float]]:
    """First and last score of each exercise as the marker gives them."""
    out = course.server.runtime.parent / f"marks-{hand_in.stem}"
    mark_hand_ins([hand_in], roster=None, out=out)
    with open(out / "marks.csv", encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {LEARNER} == {row["learner"] for row in rows}
    return {row["exercise"]: (float(row["first_score"]), float(row["last_score"])) for row in rows}
