"""Copied from a neighbour who is not to be seen: found all the same, and one who is honest is not flagged by it."""

from functools import cache
from pathlib import Path
from typing import Any

import pytest
from appeal_room import HOME, IN, WORD, Room, chained
from test_flags import OAK, ONE

from bitepoint.bank import exercises
from bitepoint.logbook.asked import asked_fields
from bitepoint.logbook.identity import learner_id
from bitepoint.marking.flagging.answers import UNKNOWN
from bitepoint.marking.flagging.neighbours import OTHER_FIGURES
from bitepoint.questions.kinds import kind_of

CLASS = [learner_id(OAK, n) for n in range(1, 13)]
HIDDEN = learner_id(OAK, 40)


@cache
def copied(owner: str, sitting: str = "") -> list[dict[str, Any]]:
    """Return ten figures that are right for somebody else and plainly wrong for the first learner."""
    found = []
    for exercise in exercises().values():
        mine, theirs = (exercise.draw(class_word=OAK, learner=who, sitting=sitting) for who in (ONE, owner))
        here, there = (kind_of(question).figure(question) for question in (mine, theirs))
        if not here or not there or here.unit != there.unit:
            continue
        figures = [here.answer, *(m.value for m in here.mistakes)]
        if all(abs(there.answer - figure) > 4 * here.within.width(figure) for figure in figures):
            said = {"learner": ONE, "class": OAK, "device": "aaaaaaaa", **asked_fields(mine, 1), "how": "typed"}
            told = {"sitting": sitting} if sitting else {"score": 0.0}
            found.append({**said, **told, "answer": theirs.right_answer()})
    assert len(found) >= 10
    return found[:10]


def theirs(owner: str) -> list[str]:
    """Return a logbook of somebody who answered one exercise right."""
    question = exercises()["start.number"].draw(class_word=OAK, learner=owner)
    said = {"learner": owner, "class": OAK, "device": "bbbbbbbb", **asked_fields(question, 1), "how": "typed"}
    return chained([{**said, "answer": question.right_answer(), "score": 1.0}], HOME)


@pytest.fixture
def room(tmp_path: Path) -> Room:
    """Return a room of twelve, with the roster that “class new” makes: without class words."""
    made = Room(tmp_path)
    (tmp_path / "roster.csv").write_text("learner,name\n" + "".join(f"{who},\n" for who in CLASS), "utf-8")
    return made


def lessons() -> tuple[str, ...]:
    """Return all lessons, since the figures come from many."""
    return ()


def test_from_one_who_handed_in(room: Room) -> None:
    """The plain case: the flag is on the copier, not on the neighbour."""
    room.zip(ONE, chained(copied(CLASS[4]), HOME))
    room.zip(CLASS[4], theirs(CLASS[4]), hint=CLASS[4])

    assert {OTHER_FIGURES} == room.marked(lessons=lessons()).flags
    assert set() == room.marked(CLASS[4], out="other", lessons=lessons()).flags


def test_from_one_who_handed_nothing_in(room: Room) -> None:
    """The neighbour is on the roster and never handed in: the figures are known all the same."""
    room.zip(ONE, chained(copied(CLASS[4]), HOME))

    assert {OTHER_FIGURES} == room.marked(lessons=lessons()).flags
    assert f"right for {CLASS[4]}" in room.page("marks")


def test_from_one_whose_hand_in_is_held(room: Room) -> None:
    """Nobody can tell who sent the neighbour's file, and the neighbour is on no roster: held, but not hidden."""
    room.zip(ONE, chained(copied(HIDDEN), HOME))
    room.zip(f"{CLASS[5]}-1", theirs(HIDDEN), hint=CLASS[6])
    found = room.marked(lessons=lessons())

    assert {OTHER_FIGURES} == found.flags
    assert ["held" in problem for problem in found.problems] == [True]


def test_from_one_who_is_on_no_roster(room: Room) -> None:
    """Somebody unlisted handed in: flagged as unknown, and compared with."""
    room.zip(ONE, chained(copied(HIDDEN), HOME))
    room.zip(HIDDEN, theirs(HIDDEN), hint=HIDDEN)

    assert {OTHER_FIGURES} == room.marked(lessons=lessons()).flags
    assert {UNKNOWN} == room.marked(HIDDEN, out="other", lessons=lessons()).flags


def test_in_a_sitting(room: Room) -> None:
    """The figures of a sitting are other ones, and compared as such."""
    room.zip(ONE, chained(copied(CLASS[4], WORD), IN))
    room.sits()

    assert {OTHER_FIGURES} == room.marked(lessons=lessons()).flags
