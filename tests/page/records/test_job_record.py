"""The job record: filled in from the learner's answers, open where nothing was answered right, with room for people."""

import pytest

from bitepoint.bank import exercises_of
from bitepoint.logbook import Identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.records.job import OBSERVE, page_html, record_lines, story_for
from bitepoint.workshop.vehicles import FRAME

WHO = Identity(learner="practice", class_word="practice")


def sessions(*, answered: bool = False) -> list[ExerciseSession]:
    """Return the capstone on the session, unanswered or all right."""
    made = [ExerciseSession(exercise, WHO) for exercise in exercises_of("job")]
    for session in made if answered else ():
        session.answer(session.question().right_answer(), how="typed")
    return made


def lines(made: list[ExerciseSession]) -> dict[str, tuple[str, str, str, str]]:
    """Return the lines of the record by what they are about."""
    return {line.what: line for line in record_lines(made, story_for(WHO))}


def test_every_exercise_has_its_line() -> None:
    """No part of the job is missing from the record."""
    assert len(exercises_of("job")) == len(lines(sessions()))


def test_nothing_answered_nothing_filled_in() -> None:
    """The empty record says to do, and what the sheet allows."""
    found = lines(sessions())
    assert {"to do"} == {line[3] for line in found.values()}
    assert {""} == {line[1] for line in found.values()}
    assert found["Run-out of the flywheel"][2].startswith("at")


def test_right_answers_stand_in_the_words_of_a_record() -> None:
    """Figures with units, options by their text, parts by their names, bolts by their count."""
    made = sessions(answered=True)
    found, story = lines(made), story_for(WHO)
    assert {"done"} == {line[3] for line in found.values()}
    assert all(line[1] for line in found.values())
    assert story.kit.kit == found["Kit"][1]
    assert found["Slip at full load"][1].endswith("%")
    assert "Old flywheel bolts" in found["Parts not put back"][1]
    assert "fitted again" in found["Run-out of the flywheel"][1]
    assert f"{story.after.rows[4].rpm} rpm" in found["Slip run after the running-in"][1]
    n = story.car.flywheel.bolt_count
    assert found["Flywheel bolts"][1].startswith(f"{n} of {n}")


def test_a_mistake_fills_nothing_in() -> None:
    """A wrong answer leaves its line open and says so."""
    made = sessions()
    session = next(d for d in made if d.exercise.id == "job.kit")
    session.answer(session.question().known_mistakes()[0][0], how="typed")
    assert ("", "not yet") == (lines(made)["Kit"][1], lines(made)["Kit"][3])


def test_a_later_turn_is_said() -> None:
    """Who got it right with new figures has a record that says the turn."""
    made = sessions()
    session = next(d for d in made if d.exercise.id == "job.run-out")
    session.again()
    session.answer(session.question().right_answer(), how="typed")
    assert "done, turn 2" == lines(made)["Run-out of the flywheel"][3]


def test_where_feedback_waits_the_record_does_not_tell() -> None:
    """In a class with feedback after the hand-in the answer stands there without a judgement."""
    who = Identity(learner="practice", class_word="practice", feedback="after hand-in")
    made = [ExerciseSession(exercise, who) for exercise in exercises_of("job")]
    kit = next(d for d in made if d.exercise.id == "job.kit")
    kit.answer(kit.question().known_mistakes()[0][0], how="typed")
    line = next(line for line in record_lines(made, story_for(who)) if line.what == "Kit")
    assert "recorded" == line.state
    assert line.done


@pytest.mark.parametrize("answered", [False, True])
def test_the_page_is_framed_and_left_open_for_people(answered: bool) -> None:
    """Frame, observation still required, room for a signature; never a word about the person."""
    page = page_html(sessions(answered=answered), WHO)
    assert FRAME in page
    assert OBSERVE in page
    assert "Signed, after the road test" in page
    assert "competent" not in page
