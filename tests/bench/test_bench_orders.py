"""How long an order of work takes: a pick in the kernel, drawing a drill, proving its mistakes (never asserted)."""

import pytest

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity
from bitepoint.page import begun_rows
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.exercise_session import ExerciseSession

DRILLS = ("job.order", "strip.gearbox-out", "strip.clutch-off", "assembly.order-of-work", "refit.order-of-work")


@pytest.mark.benchmark(group="a pick in the kernel, the last of the row")
@pytest.mark.parametrize("id", DRILLS)
def test_a_pick_in_the_kernel(benchmark, id):
    """From the message of the page to what is told: the whole row is judged anew at each pick. Wanted: under 50 ms."""
    begun_rows.forget()
    control = AnswerControl(
        ExerciseSession(exercise_named(id), Identity(learner="practice", class_word="practice")), lambda card: None
    )
    row = str(control.session.question().right_answer()).split()
    benchmark(control._heard, control.widget, {"do": "pick", "picked": row}, [])
    assert all(pick["safe"] for pick in control.widget.told["picks"])


@pytest.mark.benchmark(group="drawing an order of work")
@pytest.mark.parametrize("id", DRILLS)
def test_a_draw(benchmark, id):
    """One question for one learner. Wanted: under 2 ms."""
    assert benchmark(exercise_named(id).draw, class_word="amber", learner="ada").vehicle


@pytest.mark.benchmark(group="marking a finished order of work")
@pytest.mark.parametrize("id", DRILLS)
def test_a_mark(benchmark, id):
    """The right answer marked."""
    question = exercise_named(id).draw(class_word="amber", learner="ada")
    assert benchmark(question.mark, question.right_answer()).right


@pytest.mark.benchmark(group="known mistakes of an order of work")
@pytest.mark.parametrize("id", DRILLS)
def test_known_mistakes(benchmark, id):
    """All of one question. Wanted: under 50 ms."""
    question = exercise_named(id).draw(class_word="amber", learner="ada")
    assert len(benchmark(question.known_mistakes)) >= 8
