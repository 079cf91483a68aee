"""Feedback after the hand-in: nothing a learner has holds a score, a mistake or a right answer before marking."""

import json
from pathlib import Path

import pytest
from test_flags import OAK, ONE

from bitepoint.bank import exercises
from bitepoint.errors import NotUnderstood
from bitepoint.logbook import Identity
from bitepoint.logbook.handin import make_hand_in
from bitepoint.logbook.identity import read_identity, write_identity
from bitepoint.marking import mark_hand_ins
from bitepoint.page import cards, specs
from bitepoint.page.desk import Desk
from bitepoint.questions.question import Question
from bitepoint.questions.tightening import Tightening


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


def test_neither_logbook_nor_card_nor_control_says_how_it_went(workbook: Path) -> None:
    """Every exercise answered wrong and then right: no score, no mistake, no reason, no solution anywhere."""
    identity = read_identity(workbook / "workbook.toml")
    told: list[str] = []
    secrets: dict[str, set[str]] = {}
    for id, exercise in exercises().items():
        desk = Desk(exercise, identity)
        question = desk.question()
        wrong, name, says = mistaken(question)
        secrets[id] = {name, says, question.why, question.solution, question.step} - {""}
        for answer in (wrong, question.right_answer()):
            desk.answer(answer, how="form")
            shown = cards.card_html(desk)
            assert "The feedback comes after the hand-in." in shown
            assert [s for s in secrets[id] if len(s) > 25 and s in shown and s not in question.ask] == [], id
            told.append(shown)
        spec = specs.drill_spec(question, id) if isinstance(question, Tightening) else specs.form_spec(question, id)
        held = json.dumps(spec, ensure_ascii=False, default=str)
        assert [s for s in secrets[id] if len(s) > 25 and s in held] == [], id
        with pytest.raises((AttributeError, NotUnderstood)):
            desk.answer(object(), how="form")

    files = [p for p in workbook.rglob("*") if p.is_file()]
    lines = [json.loads(x) for p in files if p.suffix == ".jsonl" for x in p.read_text("utf-8").splitlines()]
    assert len(lines) == 2 * len(exercises())
    assert [x for x in lines if {"score", "mistake"} & set(x)] == []
    for path in files:
        text = path.read_text("utf-8")
        assert [s for found in secrets.values() for s in found if len(s) > 25 and s in text] == [], path.name


def test_the_marks_of_such_a_class_are_the_same(workbook: Path, tmp_path: Path) -> None:
    """Scores appear when an assessor marks the hand-in, worked out afresh."""
    identity = read_identity(workbook / "workbook.toml")
    desk = Desk(exercises()["start.number"], identity)
    for answer in (mistaken(desk.question())[0], desk.question().right_answer()):
        desk.answer(answer, how="form")
    mark_hand_ins([make_hand_in(workbook)], out=tmp_path / "marks")

    assert f"{ONE},start.number,0,1,2,1,0,no," in (tmp_path / "marks" / "marks.csv").read_text("utf-8")
