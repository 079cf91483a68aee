"""Every kind of question shows on the page in every way that it must."""

import re
from collections.abc import Iterable, Mapping
from pathlib import Path

import pytest

from bitepoint.bank import exercises
from bitepoint.logbook import Identity
from bitepoint.page import widgets
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.cards import card_html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import VIEWS, view_of
from bitepoint.questions.kinds import KINDS
from bitepoint.questions.question import Question


def one_of(kind: type[Question]) -> ExerciseSession:
    """Return the first exercise of a kind in the bank, for the practice learner."""
    who = Identity(learner="practice", class_word="practice")
    sessions = (ExerciseSession(exercise, who) for exercise in exercises().values())
    return next(session for session in sessions if type(session.question()) is kind)


def without_view(kinds: Iterable[type[Question]], views: Mapping[type[Question], object]) -> list[str]:
    """Return one line for each kind with a row that the page cannot show."""
    return [
        f"{kind.__name__} ({kind.__module__}) has no view in bitepoint/page/kinds."
        for kind in kinds
        if kind not in views
    ]


def test_every_kind_has_a_view() -> None:
    """What has a row has a view and the other way round; tests of the questions hold that every class has a row."""
    assert without_view(KINDS, VIEWS) == []
    assert set(VIEWS) == set(KINDS)


def test_a_kind_without_a_view_is_named_in_one_line() -> None:
    """The check can fail: a made-up kind that has a row and no view is named."""
    riddle = type("Riddle", (Question,), {"__module__": "made_up"}, kw_only=True, frozen=True)
    assert without_view([*KINDS, riddle], VIEWS) == ["Riddle (made_up) has no view in bitepoint/page/kinds."]


@pytest.mark.parametrize("kind", VIEWS, ids=lambda kind: kind.__name__)
def test_a_view_works_for_a_question_of_the_bank(kind: type[Question]) -> None:
    """The card has the typed example; the control answers, is told so, and a new turn empties what the view names."""
    session = one_of(kind)
    view, question = view_of(session.question()), session.question()
    assert "You can also type an answer" in card_html(session)
    control = AnswerControl(session, lambda card: None)
    assert control.widget.spec == view.spec(question, session.exercise.title, True)
    before = {name: getattr(control.widget, name) for name in view.fresh}
    control._heard(
        control.widget, {"do": "answer", "answer": question.right_answer(), "pulls": question.right_answer()}, []
    )
    assert session.right
    assert control.widget.said["text"].startswith("Right.")
    assert view.record(question, session.answers()[0].verdict.understood)
    for name in view.fresh:
        setattr(control.widget, name, type(before[name])(["x"]) if isinstance(before[name], list) else {"x": 1})
    control._heard(control.widget, {"do": "again"}, [])
    assert {name: getattr(control.widget, name) for name in view.fresh} == before


def test_the_answer_form_knows_every_kind_that_it_is_told_of() -> None:
    """A kind whose spec names one that form.js has not would be an empty form in the browser, and no other test sees it."""
    script = (Path(widgets.__file__).parent / "form.js").read_text(encoding="utf-8")
    known = set(re.findall(r"^    (\w+): \(\) => \w+Kind\(", script, re.MULTILINE))
    told = {}
    for kind, view in VIEWS.items():
        session = one_of(kind)
        control = view.control(session, view.spec(session.question(), session.exercise.title, True))
        if isinstance(control, widgets.AnswerForm):
            told[kind.__name__] = control.spec["kind"]
    assert len(told) >= 8
    assert set(told.values()) == known, (
        "Write its function in form.js, or name in its spec the kind whose form will do."
    )


@pytest.mark.parametrize("kind", VIEWS, ids=lambda kind: kind.__name__)
def test_only_an_enquiry_shows_something_for_a_text_that_is_no_answer(kind: type[Question]) -> None:
    """A right answer typed is never taken for asking."""
    question = one_of(kind).question()
    assert view_of(question).look(question, question.right_answer()) == ""
