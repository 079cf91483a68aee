"""Feedback after the hand-in, in the real JupyterLab: nothing on the page, in its controls or in the saved notebook."""

import json
from collections.abc import Iterator
from html import escape
from pathlib import Path

import pytest
from playwright.sync_api import expect

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import learner_id
from bitepoint.questions.number import Number
from bitepoint.questions.question import Question
from bitepoint.workbook.create import make_workbook
from workbook.small_course import notebook, ship

from . import lab

pytestmark = [pytest.mark.browser, pytest.mark.slow]
ASKED = ("start.number", "start.choice", "start.tightening")
STATES = (
    "[w.get_state() for w in __import__('ipywidgets').widgets.widget._instances.values()"
    " if type(w).__module__.startswith('bitepoint')]"
)


OAK = "oak-2026"
ONE = learner_id(OAK, 1)


def mistaken(question: Question) -> tuple[object, str, str]:
    """Return a wrong answer, the name of its mistake, and what the course would say to it."""
    answer, name = question.known_mistakes()[0]
    return answer, name, question.mark(answer).feedback


@pytest.fixture(scope="module")
def sat(
    tmp_path_factory: pytest.TempPathFactory, jupyterlab: lab.Served, folder: Path, chromium: lab.Browser
) -> Iterator[lab.Lesson]:
    """A lesson of such a class, opened and run: one answer typed, two forms and a drill to use."""
    wrong, _, _ = mistaken(exercise_named("start.choice").draw(class_word=OAK, learner=ONE))
    cells = ['from bitepoint import ask, summary\nask("start.number")', f'ask("start.choice", {wrong!r})']
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("BITEPOINT_STATE", str(jupyterlab.state))
        course = tmp_path_factory.mktemp("course")
        ship(course, patch, star=notebook(*cells, 'ask("start.tightening")', "summary()"))
        make_workbook(folder, Identity(learner=ONE, class_word=OAK, feedback="after hand-in"))
    page = lab.Lesson(jupyterlab, chromium)
    yield page.open(f"{folder.name}/star.ipynb")
    page.close()


def test_nothing_says_how_it_went_after_a_real_save(sat: lab.Lesson, folder: Path) -> None:
    """A known mistake in the form, one typed, all run again and saved: no score, mistake, reason or right answer."""
    question = exercise_named("start.number").draw(class_word=OAK, learner=ONE)
    assert isinstance(question, Number)
    form = sat.page.locator(".bp-form").first
    form.get_by_role("textbox").fill(str(mistaken(question)[0]))
    form.get_by_role("textbox").press("Enter")
    expect(form).to_contain_text("Recorded.")
    page, live = sat.page.locator(".jp-Notebook").inner_text(), json.dumps(sat.ask_kernel(STATES))
    sat.run_all()
    sat.save()
    saved = (folder / "star.ipynb").read_text(encoding="utf-8")
    logbook = "".join(path.read_text("utf-8") for path in folder.rglob("*.jsonl"))

    assert 2 == len(logbook.splitlines())
    assert "The feedback comes after the hand-in." in saved
    assert 3 <= live.count('"spec"')
    for id in ASKED:
        asked = exercise_named(id).draw(class_word=OAK, learner=ONE)
        _, name, says = mistaken(asked)
        told = [t for t in (name, says, asked.why, asked.solution, asked.step) if len(t) > 25]
        everyone_sees = " ".join(o.text for o in getattr(asked, "options", ()))
        secrets = [t for t in told if t not in everyone_sees]
        assert len(secrets) >= 2
        for text in secrets:
            for where in (page, live, saved, logbook):
                assert text not in where
                assert escape(text) not in where
    for where in (saved, logbook, live):
        assert [word for word in ('"score"', '\\"score\\"', '"mistake"', '\\"mistake\\"') if word in where] == []
    right = question._shown()
    assert right in question.ask or [where for where in (page, live, saved, logbook) if right in where] == []
