"""The button at the end of a lesson gives a file and says what to do with it, also where the folder takes none."""

import base64
from pathlib import Path
from typing import Any

import pytest

from bitepoint.bank import exercise_named
from bitepoint.logbook import Identity, find_workbook, practice_learner
from bitepoint.logbook.identity import write_identity
from bitepoint.page import widgets
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.handing_in import fields_of, made_for, so_far


@pytest.fixture
def identity(tmp_path: Path) -> Identity:
    """A learner with one answer, in a folder as a share may name it."""
    folder = tmp_path / "Übung 1 ö"
    folder.mkdir()
    write_identity(Identity(learner="ann", class_word="oak"), folder)
    session = ExerciseSession(exercise_named("start.number"), find_workbook(folder))
    session.answer(session.question().right_answer(), how="form")
    return session.identity


def locked(identity: Identity) -> Identity:
    """The same where no folder for hand-ins can be made."""
    assert identity.folder is not None
    (identity.folder / "hand-in").write_text("in the way", encoding="utf-8")
    return identity


def test_a_hand_in_is_named_with_what_to_do_with_it(identity: Identity) -> None:
    """A file of the workbook; the sentence names file, folder and whom to give it."""
    told, made = made_for(identity)
    assert made is not None
    assert told == f"Made: {made.name}, in your folder hand-in. Give that one file to your instructor as you agreed."
    assert {"told": told, "name": made.name, "file": f"hand-in/{made.name}"} == fields_of(told, made)


def test_where_the_folder_takes_none_the_bytes_go_to_the_page(identity: Identity) -> None:
    """The sentence says that it lies nowhere yet; the bytes are those of a zip."""
    told, made = made_for(locked(identity))
    assert told.startswith("Your folder takes no file now (")
    assert b"PK" == base64.b64decode(fields_of(told, made)["data"])[:2]


def test_without_anything_to_hand_in_there_is_a_sentence_alone(tmp_path: Path) -> None:
    """The practice learner has no folder, a beginner no answer."""
    write_identity(Identity(learner="ben", class_word="oak"), tmp_path)
    for who, words in ((practice_learner(), "practice learner"), (find_workbook(tmp_path), "Nothing was answered yet")):
        told, made = made_for(who)
        assert words in told
        assert {"told": told} == fields_of(told, made)


def test_what_was_handed_in_when_is_said(identity: Identity) -> None:
    """None yet; one, with nothing after it; an answer later it says to make a new one."""
    assert identity.folder is not None
    assert "No hand-in was made in this folder yet." == so_far(identity.folder)
    _, made = made_for(identity)
    assert made is not None
    assert made.path is not None
    assert "Hand-ins made here: 1, the last on " in so_far(identity.folder)
    made.path.rename(made.path.with_name("ann-20200101-101500.zip"))
    assert so_far(identity.folder) == (
        "Hand-ins made here: 1, the last on 1 January 2020 at 10:15. 1 answer came after it: make a new one to hand it in."
    )


@pytest.mark.parametrize("writable", [True, False])
def test_the_button_sends_the_file_to_the_page(
    identity: Identity, monkeypatch: pytest.MonkeyPatch, writable: bool
) -> None:
    """One message with the bytes, then the sentence; anything else that is sent does nothing."""
    sent: list[Any] = []
    who = identity if writable else locked(identity)
    control = widgets.HandInControl(lambda: made_for(who))
    monkeypatch.setattr(control, "send", lambda content, buffers: sent.append((content, buffers)))
    for message in ({"do": "wait"}, "make", None):
        control._handle_custom_msg(message, [])
    assert ([], {}) == (sent, control.said)
    control._handle_custom_msg({"do": "make"}, [])
    [(content, [zipped])] = sent
    assert (True, b"PK") == (content["name"].startswith("ann-"), zipped[:2])
    assert ("right", 1) == (control.said["tone"], control.said["n"])
