"""A round of recall: what it asks, that it goes on where it was, and when another begins."""

import json
from datetime import timedelta
from pathlib import Path

import pytest

from bitepoint.bank.coverage import can_hurt
from bitepoint.bank.lessons import LESSONS
from bitepoint.logbook import Identity
from bitepoint.page.recall import going_round
from bitepoint.page.recall.stages import Asking, Ended, NotAsked, NothingDue, another_round, go_on, stage_of

from .past_lines import NOW, OPTIONS, Clock, asking, decide, do_round, kept, learn, learned, workbook


@pytest.fixture
def who(tmp_path: Path) -> Identity:
    """A learner who learned twelve exercises five weeks ago."""
    return learned(tmp_path / "work")


def draft(who: Identity) -> Path:
    assert who.folder is not None
    return who.folder / ".drafts" / "keep-it.json"


def questions(stage: Asking) -> list[tuple[str, int]]:
    return [(one.exercise, one.turn) for one in stage.round.kept.asked]


def test_a_round_asks_what_is_due(who: Identity) -> None:
    """Six to ten, at most half of them safety-critical, from several lessons, the first in view, none answered."""
    stage = asking(who)
    ids = [id for id, _ in questions(stage)]
    assert 6 <= len(ids) == len(set(ids)) <= 10
    assert sum(map(can_hurt, ids)) <= len(ids) / 2
    assert (stage.number, stage.of, stage.session.answered) == (1, len(ids), False)
    assert {id.partition(".")[0] for id in ids} <= set(LESSONS)


def test_it_goes_on_where_it_was(who: Identity) -> None:
    """Answered and not gone on: the verdict is in view again; gone on: the next; never one that was answered."""
    first = asking(who)
    decide(first.session)
    again = asking(who)
    assert (again.number, again.session.answered, questions(again)) == (1, True, questions(first))
    go_on(who, Clock.now)
    third = asking(who)
    assert (third.number, third.session.answered, questions(third)) == (2, False, questions(first))
    assert third.of == first.of


def test_a_closed_laptop_in_the_middle_changes_nothing(who: Identity, clock: type[Clock]) -> None:
    """Three days later the round goes on, with its number; what was answered is not asked again."""
    first = asking(who)
    decide(first.session)
    go_on(who, clock.now)
    clock.now = NOW + timedelta(days=3)
    later = asking(who)
    assert (later.number, questions(later)) == (2, questions(first))


def test_looking_three_times_adds_no_line(who: Identity) -> None:
    """Shown again and again, before and after an answer and at the end: the same, and not a line more."""
    assert len({asking(who).number for _ in range(3)}) == 1
    assert kept(who) == []
    decide(asking(who).session)
    assert [asking(who).session.feedback() for _ in range(3)] == [asking(who).session.feedback()] * 3
    assert len(kept(who)) == 1
    end = do_round(who)
    assert isinstance(end, Ended)
    lines = len(kept(who))
    for _ in range(3):
        same = stage_of(who, Clock.now)
        assert isinstance(same, Ended)
        assert same.round.kept == end.round.kept
    assert lines == len(kept(who)) == len(end.round.answered)


def test_without_its_file_a_new_round_asks_what_is_still_due(who: Identity) -> None:
    """The logbook tells what was answered; a lost or damaged file costs the number alone."""
    first = asking(who)
    decide(first.session)
    for content in (None, b"{}", b"not json"):
        draft(who).unlink() if content is None else draft(who).write_bytes(content)
        new = asking(who)
        assert first.session.exercise.id not in [id for id, _ in questions(new)]


@pytest.mark.parametrize(
    "begun",
    [
        {"asked": [["no.such", 1]], "day": "2026-12-01", "at": 0},
        {"asked": [["safe.dust", 0]], "day": "2026-12-01", "at": 0},
        {"asked": [["safe.dust", 1]], "day": "today", "at": 0},
        {"asked": [["safe.dust", 1]], "day": "2026-12-01", "at": 7},
        {"asked": [["safe.dust", 1]] * 11, "day": "2026-12-01", "at": 0},
        {"asked": [], "day": "2026-12-01", "at": 0},
        ["asked"],
    ],
)
def test_a_round_that_cannot_be_is_none(who: Identity, begun: object, monkeypatch: pytest.MonkeyPatch) -> None:
    """What a file says is data: another round is made."""
    from bitepoint.page.recall import kept_round

    monkeypatch.setattr(kept_round, "read_draft", lambda *_: begun)
    assert len(asking(who).round.kept.asked) > 1


def test_two_pages_of_one_round(who: Identity) -> None:
    """What one page answered the other cannot answer again; going on there leads to the question in view here."""
    one, other = asking(who), asking(who)
    decide(one.session)
    go_on(who, Clock.now)
    go_on(who, Clock.now)
    assert (asking(who).number, other.session.answered) == (2, False)
    decide(asking(who).session)
    go_on(who, Clock.now)
    assert asking(who).number == 3


def test_a_withdrawn_question_is_passed_over(who: Identity, monkeypatch: pytest.MonkeyPatch) -> None:
    """Withdrawn while the round was on: it is not asked, and the others keep their numbers."""
    first = asking(who)
    gone = questions(first)[1][0]
    decide(first.session)
    asked_again = going_round.is_asked_again
    monkeypatch.setattr(going_round, "is_asked_again", lambda e, cars: e.id != gone and asked_again(e, cars))
    go_on(who, Clock.now)
    assert (asking(who).number, asking(who).of) == (3, first.of)


@pytest.mark.parametrize("written", [False, True])
def test_a_reason_is_asked_for_after_right_decisions(who: Identity, written: bool) -> None:
    """After the third right decision, the second where a mistake could hurt someone; passed over or written it waits no more."""
    waited = []
    while isinstance(stage := stage_of(who, Clock.now), Asking):
        if not stage.session.answered:
            decide(stage.session)
            continue
        if stage.session.reason_waits:
            waited.append(stage.session.exercise.id)
            assert stage.session.feedback() == ("right", "Right.", "")
            if written:
                stage.session.keep_reason("So that nobody is hurt.")
            else:
                stage.round.pass_reason()
            assert not asking(who).session.reason_waits
        go_on(who, Clock.now)
    assert waited
    assert sum(record.in_own_words for record in kept(who)) == written * len(waited)


def test_no_reason_is_asked_for_where_nothing_was_decided_right(who: Identity) -> None:
    """All wrong: nobody is asked why."""
    end = do_round(who, wrong=tuple(range(1, 11)))
    assert isinstance(end, Ended)
    assert not any(session.reason_waits for session in end.round.answered)


def test_the_end_stands_for_the_day_and_a_new_round_comes_when_something_is_due(
    who: Identity, clock: type[Clock]
) -> None:
    """The same day shows what the round came to; the next one asks what is due then."""
    end = do_round(who, wrong=(1,))
    assert isinstance(end, Ended)
    first = [one.exercise for one in end.round.kept.asked]
    clock.now = NOW + timedelta(hours=2)
    assert isinstance(stage_of(who, clock.now), Ended)
    clock.now = NOW + timedelta(days=2)
    new = asking(who)
    assert new.number == 1
    assert (first[0], 2) in questions(new)


def test_another_round_on_the_same_day(tmp_path: Path) -> None:
    """Where more is due than one round takes it can be begun at once, and not in the middle of one."""
    who = learned(tmp_path / "work", 24)
    first = asking(who)
    another_round(who, Clock.now)
    assert questions(asking(who)) == questions(first)
    do_round(who)
    another_round(who, Clock.now)
    assert set(questions(asking(who))).isdisjoint(questions(first))


def test_nothing_due_and_nothing_learned(tmp_path: Path, clock: type[Clock]) -> None:
    """Nobody is asked on the day of the lesson, nor who has learned nothing; no round is begun."""
    who = workbook(tmp_path / "work")
    assert isinstance(stage_of(who, clock.now), NothingDue)
    learn(who, *OPTIONS[:8], weeks=0)
    assert isinstance(stage_of(who, clock.now), NothingDue)
    assert not draft(who).exists()


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ({"sitting": "june-hall", "feedback": "after hand-in"}, "This is a sitting."),
        ({"feedback": "after hand-in"}, "after the hand-in"),
    ],
)
def test_not_in_a_sitting_nor_before_the_hand_in(tmp_path: Path, more: dict[str, str], why: str) -> None:
    """One sentence, whatever is due; no round is begun."""
    who = learned(tmp_path / "work", **more)
    stage = stage_of(who, Clock.now)
    assert isinstance(stage, NotAsked)
    assert why in stage.why
    assert not draft(who).exists()


def test_the_file_of_a_round_says_nothing_of_answers(who: Identity) -> None:
    """It names questions, the place and reasons passed over."""
    decide(asking(who).session, right=False)
    go_on(who, Clock.now)
    begun = json.loads(draft(who).read_text(encoding="utf-8"))["begun"]
    assert set(begun) == {"asked", "day", "at", "passed"}
