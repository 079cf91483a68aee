"""Who works in a folder is changed only while no answers of somebody else are in it."""

from pathlib import Path

import msgspec
import pytest

from bitepoint.bank import exercise_named
from bitepoint.errors import BadInput
from bitepoint.logbook import Identity, find_workbook
from bitepoint.logbook.identity import write_identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.identifying import keep


def made(folder: Path, learner: str) -> Identity:
    """A workbook of this learner."""
    write_identity(Identity(learner=learner, class_word="oak"), folder)
    return find_workbook(folder)


def answered(identity: Identity) -> None:
    """Leave one answer in it."""
    session = ExerciseSession(exercise_named("start.number"), identity)
    session.answer(session.question().right_answer(), how="form")


@pytest.mark.parametrize(("learner", "with_answers"), [("ann", False), ("self-study", True), ("ben", True)])
def test_who_mistyped_or_said_nothing_yet_may_say_who_they_are(
    tmp_path: Path, learner: str, with_answers: bool
) -> None:
    """A wrong id without answers, nobody's folder, and one's own can be changed."""
    identity = made(tmp_path, learner)
    if with_answers:
        answered(identity)
    keep(msgspec.structs.replace(identity, learner="ben"))
    assert "ben" == find_workbook(tmp_path).learner


def test_a_folder_with_answers_stays_its_learners(tmp_path: Path) -> None:
    """The next learner on this computer is told the line for a folder of their own."""
    identity = made(tmp_path, "ann")
    answered(identity)
    with pytest.raises(BadInput) as refused:
        keep(msgspec.structs.replace(identity, learner="ben"))
    assert str(refused.value) == (
        "This folder holds the answers of ann in class oak and stays theirs. Close the course (Ctrl+C in its window), "
        "then type: bitepoint open --learner ben --class-word oak"
    )
    assert "ann" == find_workbook(tmp_path).learner
