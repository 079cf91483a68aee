"""Who works in a folder is changed only while no answers of somebody else are in it."""

from pathlib import Path

import msgspec
import pytest

from bitepoint.bank import exercise_named
from bitepoint.errors import BadInput
from bitepoint.logbook import Identity, find_workbook
from bitepoint.logbook.identity import learner_id, write_identity
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.identifying import _button, _Form, keep
from bitepoint.questions.draw import own_letter


def made(folder: Path, learner: str) -> Identity:
    """A workbook of this learner."""
    write_identity(Identity(learner=learner, class_word="oak"), folder)
    return find_workbook(folder)


def made_nobody(folder: Path) -> Identity:
    """A workbook of somebody who has not said who they are."""
    folder.mkdir(exist_ok=True)
    write_identity(Identity(learner="self-study", class_word="self-study"), folder)
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


def words_of(form: _Form) -> list[str]:
    """What stands on the fields and buttons that are to be seen."""
    seen = [box for thing in form.room.children for box in getattr(thing, "children", (thing,))]
    return [thing.description for thing in seen if getattr(thing, "description", "")]


def test_whoever_is_nobody_yet_is_asked_and_may_stay_so(tmp_path: Path) -> None:
    """Empty fields, a button for those without a slip, and a sentence that says what it means."""
    form = _Form(made_nobody(tmp_path), lambda card: None)
    assert ["Class word", "Number and letter", "This is me", "I learn on my own"] == words_of(form)
    assert ("", "") == (form.word.value, form.learner.value)
    form.say_nobody(None)
    assert "You learn on your own" in form.told.value
    assert "self-study" == find_workbook(tmp_path).learner


def test_who_is_known_is_not_asked_again(tmp_path: Path) -> None:
    """One button leads to the form; so it is for somebody without a name who has begun to answer."""
    form = _Form(made(tmp_path, "ann"), lambda card: None)
    assert ["Not you?"] == words_of(form)
    form.unfold(None)
    assert ["Class word", "Number and letter", "This is me"] == words_of(form)
    nobody = made_nobody(tmp_path / "other")
    answered(nobody)
    assert ["Not you?"] == words_of(_Form(nobody, lambda card: None))


def test_saying_who_one_is_is_kept_or_refused_in_one_sentence(tmp_path: Path) -> None:
    """A letter that does not fit changes nothing; one that fits is written and shown on the card."""
    shown: list[object] = []
    form = _Form(made_nobody(tmp_path), shown.append)
    right = learner_id("oak", 7)
    form.word.value, form.learner.value = "oak", "L07-" + ("A" if right != "L07-A" else "B")
    form.say(None)
    assert ([], "self-study") == (shown, find_workbook(tmp_path).learner)
    assert "number and letter do not belong together" in form.told.value
    form.learner.value = right
    form.say(None)
    assert (f"You are {right} in class oak.", right) == (repr(shown[0]), find_workbook(tmp_path).learner)
    assert f"Your training vehicle is {own_letter('oak', right)}." in shown[0]._repr_mimebundle_()["text/html"]  # type: ignore[attr-defined]
    assert "If one does not: menu Run, Run All Cells." in form.told.value


def test_a_button_is_as_wide_as_its_words() -> None:
    """A fixed width cut the words of the second one."""
    for words in ("This is me", "I learn on my own"):
        button = _button(words, lambda _: None)
        assert (words, "auto") == (button.description, button.layout.width)
