"""The sweep of a dial gauge: its control knows what the gauge shows and nothing more, its card stands alone."""

import re

import pytest

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.widgets import SweepForm
from bitepoint.questions.sweep import Sweep


def session(feedback: str = "at once") -> ExerciseSession:
    """Return the exercise on the practice learner's session."""
    return ExerciseSession(
        exercise_named("measure.run-out"), Identity(learner="practice", class_word="practice", feedback=feedback)
    )


def asked(one: ExerciseSession) -> Sweep:
    """Return its question."""
    question = one.question()
    assert isinstance(question, Sweep)
    return question


@pytest.mark.parametrize("feedback", ["at once", "after hand-in"])
def test_no_trait_holds_more_than_the_gauge_shows(feedback: str) -> None:
    """The rows of the gauge, the learner's steps, and nothing of figure, mistake or solution."""
    one = session(feedback)
    question, control = asked(one), AnswerControl(one, lambda card: None)
    assert isinstance(control.widget, SweepForm)
    state = control.widget.get_state()
    assert state["spec"]["sweep"] == {"held": list(question.held), "loose": list(question.loose)}
    kept = str(
        {k: state[k] for k in ("said", "told", "step")} | {k: v for k, v in state["spec"].items() if k != "sweep"}
    )
    secrets = [
        f"{question.answer:.2f}",
        question.solution,
        *(m.says for m in question.mistakes),
        *(m.name for m in question.mistakes),
    ]
    assert [word for word in secrets if word in kept] == []


def test_new_figures_begin_at_place_1_with_nothing_noted() -> None:
    """After "Try again with new figures" the learner's steps are gone and the rows are those of the new turn."""
    one = session()
    control = AnswerControl(one, lambda card: None)
    first = control.widget.spec["sweep"]
    control.widget.step = {"at": 4, "held": True, "notes": ["3"]}
    control._heard(control.widget, {"do": "answer", "answer": asked(one).right_answer()}, [])
    control._heard(control.widget, {"do": "again"}, [])
    assert control.widget.step == {}
    assert control.widget.spec["sweep"] != first


def test_a_sweep_is_a_number_to_whoever_counts_kinds() -> None:
    """Marks, flags and exports treat it as a number, and any unit of length is read."""
    question = asked(session())
    assert question.kind == "number"
    assert question.mark(f"{question.answer / 10:.3f} cm").score == 1


def test_the_script_is_whole_in_itself_and_writes_only_text() -> None:
    """No import, no other address, no markup from words."""
    code = str(SweepForm._esm)
    assert (
        re.findall(r"^\s*import\b|\bimport\s*\(|innerHTML|outerHTML|insertAdjacentHTML|document\.write", code, re.M)
        == []
    )
    assert set(re.findall(r"https?://[^\"']*", code + str(SweepForm._css))) == {"http://www.w3.org/2000/svg"}
