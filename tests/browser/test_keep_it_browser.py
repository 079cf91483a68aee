"""A round of recall in the real JupyterLab, by mouse: it wakes, goes on in place, outlives a reload, and ends with a date."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Locator, expect

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, Logbook, Record, find_workbook, read_folder
from bitepoint.logbook.asked import asked_fields
from bitepoint.page.recall.stages import Asking, stage_of
from bitepoint.workbook.create import make_workbook

from . import lab

pytestmark = pytest.mark.browser
WHO = Identity(learner="learner-one", class_word="oak")
LEARNED = ("safe.dust", "safe.tags", "fault.decide", "carry.wear", "carry.flywheel-change", "kit.agree")
DANGEROUS, RELOADED = "safe.dust", 2


def learn(folder: Path) -> None:
    """Answer six exercises right, five weeks ago."""
    at = (datetime.now(UTC) - timedelta(weeks=5)).isoformat(timespec="milliseconds").replace("+00:00", "Z")
    for id in LEARNED:
        exercise = exercise_named(id)
        question = exercise.draw(class_word=WHO.class_word, learner=WHO.learner)
        who = {"learner": WHO.learner, "class": WHO.class_word, "device": "0a1b2c3d"}
        said = {"how": "form", "answer": question.right_answer(), "score": 1.0}
        line = {"at": at, **who, **asked_fields(question, 1), **said}
        Logbook(folder, lesson=exercise.lesson, device="0a1b2c3d").append(line)


def kept(folder: Path) -> list[Record]:
    return [line.record for found in read_folder(folder, "keep-it").values() for line in found if line.record]


def answer(page: lab.Lesson, folder: Path) -> None:
    """Answer the question in view: one of them by a dangerous mistake, the others right."""
    stage = stage_of(find_workbook(folder), datetime.now(UTC))
    assert isinstance(stage, Asking)
    question = stage.session.question()
    given = question.right_answer()
    if stage.session.exercise.id == DANGEROUS:
        given = next(a for a, _ in question.known_mistakes() if question.mark(a).critical)
    expect(sheet(page)).to_contain_text(f"Question {stage.number} of {len(LEARNED)}")
    form = page.page.locator(".bp-form")
    for key in given if isinstance(given, list) else [given]:
        form.locator(f"input[value='{key}']").check()
    form.get_by_role("button", name="Check").click()


def sheet(page: lab.Lesson) -> Locator:
    return page.page.locator(".bp-sheet").first


def after(page: lab.Lesson) -> Locator:
    return page.page.locator(".bp-after")


@pytest.fixture(scope="module")
def work(jupyterlab: lab.Served, folder: Path) -> Path:
    """A workbook of somebody who learned six exercises five weeks ago."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(jupyterlab.state))
        make_workbook(folder, WHO)
    learn(folder)
    return folder


def test_a_round_by_mouse(jupyterlab: lab.Served, chromium: lab.Browser, work: Path) -> None:
    """Six questions in place, each a line at once; a reload keeps the place, Run All three times adds nothing; then the date."""
    page = lab.Lesson(jupyterlab, chromium, width=1280, height=800)
    page.open(f"{work.name}/14-keep-it.ipynb", run=False)
    page.page.wait_for_selector("[data-bp-awake]", timeout=60_000)
    for number in range(1, len(LEARNED) + 1):
        answer(page, work)
        expect(page.page.locator(".bp-said").first).to_be_visible()
        expect(after(page)).to_be_in_viewport()
        if number == RELOADED:
            page.reload()
            page.page.wait_for_selector("[data-bp-awake]", timeout=60_000)
            expect(sheet(page)).to_contain_text(f"Question {RELOADED} of {len(LEARNED)}")
            expect(page.page.locator(".bp-form input").first).to_be_disabled()
        if after(page).locator("textarea").count():
            after(page).locator("textarea").fill("So that nobody is hurt. dd")
            after(page).get_by_role("button", name="Keep it").click()
        assert number == sum(not record.in_own_words for record in kept(work))
        after(page).get_by_role("button", name="To the end" if number == len(LEARNED) else "Next question").click()
        expect(sheet(page)).to_be_focused()
    expect(sheet(page)).to_contain_text(f"Done: {len(LEARNED) - 1} of {len(LEARNED)} right.")
    expect(sheet(page)).to_contain_text("⚠ Dangerous:")
    assert sheet(page).get_by_role("link").first.get_attribute("href")
    with page.page.expect_download() as saved:
        after(page).get_by_role("link", name="Save the date").click()
    assert (work / "keep-it.ics").read_bytes() == Path(saved.value.path()).read_bytes()
    lines, words = len(kept(work)), sheet(page).inner_text()
    for _ in range(3):
        page.run_all()
    expect(sheet(page)).to_have_text(words, use_inner_text=True)
    assert lines == len(kept(work))
    assert page.errors == []
    page.close()
