"""What the bar above a lesson is told: how far one is, what to put right first, and the hand-in."""

from collections import deque
from pathlib import Path

import pytest

from bitepoint.bank import exercise_named, exercises_of
from bitepoint.logbook import Identity, check_code
from bitepoint.logbook.identity import write_identity
from bitepoint.page import output, progress, summing_up
from bitepoint.page.exercise_session import ExerciseSession

CHOICE = "star.impact"


@pytest.fixture
def session(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> ExerciseSession:
    """One exercise of a learner whose workbook lies in a folder of its own."""
    write_identity(Identity(learner="L07-K", class_word="oak"), tmp_path)
    monkeypatch.setattr(output, "_STARTED", tmp_path)
    monkeypatch.chdir(tmp_path)
    return ExerciseSession(exercise_named(CHOICE), output.who_asks())


def test_an_exercise_is_to_do_until_it_is_right(session: ExerciseSession) -> None:
    """Unanswered it stands with its minutes; right it is done; a mistake that could hurt is counted until put right."""
    before = progress.standing("star").fields
    assert 0 == before["done"]
    assert len(exercises_of("star")) == before["of"]
    assert exercise_named(CHOICE).minutes == before["to_do"][CHOICE]
    question = session.question()
    bad = next(answer for answer, _ in question.known_mistakes() if question.mark(answer).critical)
    session.answer(bad, how="form")
    assert 1 == progress.standing("star").fields["critical"]
    session.answer(question.right_answer(), how="form")
    after = progress.standing("star").fields
    assert (1, 0) == (after["done"], after["critical"])
    assert CHOICE not in after["to_do"]


def test_the_card_at_the_end_is_brought_up_to_date(session: ExerciseSession, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the end of the lesson is shown it is redrawn with what stands now."""
    drawn: list[object] = []
    monkeypatch.setitem(summing_up._shown, "star", deque([drawn.append]))
    session.answer(session.question().right_answer(), how="form")
    progress.standing("star")
    assert "1 of" in repr(drawn[-1])


def test_the_hand_in_is_made_and_named(session: ExerciseSession, tmp_path: Path) -> None:
    """With an answer there is a file below the workbook and the lesson's check code; without one a sentence says why not."""
    nothing = progress.hand_in("star").fields
    assert "file" not in nothing
    assert nothing["told"]
    session.answer(session.question().right_answer(), how="form")
    made = progress.hand_in("star").fields
    assert (tmp_path / made["file"]).is_file()
    [line] = session.lines
    assert line.record
    assert made["code"].startswith(
        f"Check code to say or write down: {check_code(line.record.hash)}. It belongs to this lesson"
    )
    assert "Give that one file to your instructor" in made["next"]
    assert "" == progress.hand_in("fault").fields["code"]


def test_a_lesson_nobody_can_tell_of_is_no_error(session: ExerciseSession) -> None:
    """An unknown lesson gives an empty answer, which the page leaves aside."""
    assert {} == progress.standing("no-such-lesson").fields


def test_the_place_of_a_reader_is_kept_and_told_for_its_own_lesson(session: ExerciseSession) -> None:
    """What the page keeps comes back with where one stands, in that lesson alone."""
    assert progress.standing("star").fields["place"] is None
    progress.keep_place("star", "recap", -30)
    place = progress.standing("star").fields["place"]
    assert ("recap", -30) == (place["id"], place["by"])
    assert progress.standing("fault").fields["place"] is None
