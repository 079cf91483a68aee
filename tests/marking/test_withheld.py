"""Feedback after the hand-in: nothing a learner has holds a score, a mistake or a right answer before marking."""

import json
from html import escape
from pathlib import Path
from typing import Any

import pytest
from test_flags import OAK, ONE

from bitepoint.bank import exercises
from bitepoint.logbook import Identity
from bitepoint.logbook.handin import make_hand_in
from bitepoint.logbook.identity import read_identity, write_identity
from bitepoint.marking import mark_hand_ins
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.cards import card_html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.questions.number import Number
from bitepoint.questions.question import Question


@pytest.fixture
def workbook(tmp_path: Path) -> Path:
    """Return a workbook of a class whose feedback comes after the hand-in."""
    folder = tmp_path / "work"
    folder.mkdir()
    write_identity(Identity(learner=ONE, class_word=OAK, feedback="after hand-in"), folder)
    return folder


def mistaken(question: Question) -> tuple[object, str, str]:
    """Return a wrong answer, the name of its mistake, and what the course would say to it."""
    answer, name = question.known_mistakes()[0]
    return answer, name, question.mark(answer).feedback


def held_by(control: Any) -> str:
    """Return everything of a live control that changes with the exercise, as text."""
    names = [n for n in ("spec", "told", "said", "pulls", "picked", "step") if control.widget.has_trait(n)]
    return json.dumps([getattr(control.widget, n) for n in names], ensure_ascii=False, default=str)


def test_neither_logbook_nor_card_nor_control_says_how_it_went(workbook: Path) -> None:
    """Every exercise answered wrong and then right: no score, no mistake, no reason, no solution anywhere."""
    identity = read_identity(workbook / "workbook.toml")
    secrets: dict[str, set[str]] = {}
    for id, exercise in exercises().items():
        session = ExerciseSession(exercise, identity)
        question = session.question()
        wrong, name, says = mistaken(question)
        before = card_html(session)
        told = (name, says, question.why, question.solution, question.step)
        # A mistake may be named by the words of an option that everyone sees.
        secrets[id] = {s for s in told if len(s) > 25 and escape(s) not in before}
        control = AnswerControl(session, lambda card: None)
        control._heard(None, {"do": "pick", "picked": wrong}, None)
        for answer in (wrong, question.right_answer()):
            session.answer(answer, how="form")
            control._say("")
            card, live = card_html(session), held_by(control)
            assert "The feedback comes after the hand-in." in card
            assert [s for s in secrets[id] if s in card + live] == [], id
            if isinstance(question, Number) and answer is wrong:
                right = question._shown()
                assert right in before or right not in card + live, id

    files = [p for p in workbook.rglob("*") if p.is_file()]
    lines = [json.loads(x) for p in files if p.suffix == ".jsonl" for x in p.read_text("utf-8").splitlines()]
    assert len(lines) == 2 * len(exercises())
    assert [x for x in lines if {"score", "mistake"} & set(x)] == []
    for path in files:
        text = path.read_text("utf-8")
        assert [s for found in secrets.values() for s in found if s in text] == [], path.name


def test_the_marks_of_such_a_class_are_the_same(workbook: Path, tmp_path: Path) -> None:
    """Scores appear when an assessor marks the hand-in, worked out afresh."""
    identity = read_identity(workbook / "workbook.toml")
    session = ExerciseSession(exercises()["start.number"], identity)
    for answer in (mistaken(session.question())[0], session.question().right_answer()):
        session.answer(answer, how="form")
    mark_hand_ins([make_hand_in(workbook)], out=tmp_path / "marks")

    assert f"{ONE},start.number,0,1,2,1,0,no," in (tmp_path / "marks" / "marks.csv").read_text("utf-8")
