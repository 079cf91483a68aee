"""An order on the page: the row that broke the rule is marked with the rule, and only where the class is told at once."""

from typing import Any

import pytest

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.exercise_session import ExerciseSession


def _control(feedback: Any = "at once") -> Any:
    who = Identity(learner="L07-K", class_word="oak", vehicle="B", feedback=feedback)
    return AnswerControl(ExerciseSession(exercise_named("safe.dead-car"), who), lambda card: None)


def _answer(control: Any, row: list[str]) -> None:
    control._heard(control.widget, {"do": "answer", "answer": row}, [])


def test_the_row_named_by_the_verdict_is_marked_with_its_rule() -> None:
    """One row, the words of the verdict, and the step that had to come first; a right order takes the mark off."""
    control = _control()
    assert control.widget.told == {"broken": []}
    question = control.session.question()
    wrong, name = question.known_mistakes()[0]
    _answer(control, wrong)
    (row,) = control.widget.told["broken"]
    text = dict(zip("abcdefghijkl", question.steps, strict=False))
    assert f"“{text[row['key']]}” before “{text[row['first']]}”" == question.mark(wrong).mistake
    assert row["says"] in control.widget.said["text"]
    _answer(control, question.right_answer())
    assert control.widget.told == {"broken": []}


def test_a_class_told_later_sees_no_mark() -> None:
    """Before the hand-in nothing in the control says which row is wrong."""
    control = _control("after hand-in")
    _answer(control, control.session.question().known_mistakes()[0][0])
    assert control.widget.told == {"broken": []}


@pytest.mark.parametrize("row", [[], ["a"], ["zz"]])
def test_a_row_that_cannot_be_read_marks_nothing(row: list[str]) -> None:
    """It is said in words, and no line is written."""
    control = _control()
    _answer(control, row)
    assert control.widget.told == {"broken": []}
    assert control.session.lines == []
