"""Appeals after something changed: a question withdrawn, rules, a day, a class; and hand-ins late, cut or sent twice."""

from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest
from appeal_room import HOME, IN, SUPERVISED, WORD, Room, answer, asked, chained, critical, right, wrong
from test_flags import ONE

from bitepoint.bank import exercises
from bitepoint.bank.corrections import Withdrawal
from bitepoint.logbook import standing
from bitepoint.logbook.record import check_code, read_line
from bitepoint.marking import passing, rows
from bitepoint.marking.figures import teaching
from bitepoint.marking.flagging import history
from bitepoint.marking.flagging.answers import CHAIN, CLASS_WORD
from bitepoint.marking.flagging.sittings import CLAIM
from bitepoint.marking.passing import ALL_MET, COMPLETE, MORE_WORK
from bitepoint.marking.registry.register import Entry

WHY = "Two of the options say the same."


@pytest.fixture
def room(tmp_path: Path) -> Room:
    """Return an empty room."""
    return Room(tmp_path)


def withdraw(monkeypatch: pytest.MonkeyPatch, id: str) -> None:
    """Withdraw the question of an exercise."""
    found = Withdrawal(exercise=id, revisions=(exercises()[id].revision,), date=date(2027, 2, 1), why=WHY)

    def of(exercise: str, revision: int) -> Withdrawal | None:
        return found if exercise == id and revision in found.revisions else None

    for module in (rows, standing):
        monkeypatch.setattr(module, "withdrawal_of", of)
    for module in (passing, teaching):
        monkeypatch.setattr(module, "withdrawn_now", lambda: frozenset({id}))


def test_a_question_of_a_sitting_is_withdrawn(room: Room, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was critical there counts against nobody, in the sitting too: complete without it, and both ways are told."""
    room.zip(ONE, chained(wrong(WORD), IN))
    room.sits()
    room.declares()
    before = room.marked(out="before")
    withdraw(monkeypatch, critical()[0])
    after = room.marked(out="after")

    assert (MORE_WORK, "yes") == (before.evidence, before.row["sitting_critical_open"])
    assert (COMPLETE, "no", "0") == (after.evidence, after.row["sitting_critical_open"], after.row["sitting_mark"])
    assert f"Counted without the withdrawn {critical()[0]}, which is the better" in room.page("after")


def test_who_had_the_withdrawn_question_right_keeps_it(room: Room, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nobody's sitting falls because a question is withdrawn."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits()
    room.declares()
    before = room.marked(out="before")
    withdraw(monkeypatch, critical()[0])
    after = room.marked(out="after")

    assert (COMPLETE, COMPLETE) == (before.evidence, after.evidence)
    assert before.row["sitting_mark"] == after.row["sitting_mark"] == "1"


def one_wrong(sitting: str = "") -> list[dict[str, Any]]:
    """Return everything right but one exercise that hurts nobody."""
    answers = right(sitting)
    ordinary = next(
        i
        for i, e in enumerate(asked())
        if not any(v.critical for v in _verdicts(e, sitting))
        and exercises()[e].draw(class_word=answers[i]["class"], learner=ONE, sitting=sitting).known_mistakes()
    )
    bad = asked()[ordinary]
    question = exercises()[bad].draw(class_word=answers[ordinary]["class"], learner=ONE, sitting=sitting)
    answers[ordinary]["answer"] = question.known_mistakes()[0][0]
    if not sitting:
        answers[ordinary]["score"] = 0.0
    return answers


def _verdicts(exercise: str, sitting: str) -> list[Any]:
    question = exercises()[exercise].draw(class_word=right()[0]["class"], learner=ONE, sitting=sitting)
    return [question.mark(a) for a, _ in question.known_mistakes()]


def test_marked_again_under_other_rules(room: Room) -> None:
    """A share raised after the sitting: no mark changes, the words do, and it is told whose and from what to what."""
    room.zip(ONE, chained(one_wrong(WORD), IN))
    room.sits()
    room.declares()
    before = room.marked(pass_share=0.5)
    marks = (room.folder / "marks" / "marks.csv").read_bytes()
    after = room.marked(pass_share=1.0)
    report = (room.folder / "marks" / "report.html").read_text("utf-8")

    assert (COMPLETE, MORE_WORK) == (before.evidence, after.evidence)
    assert marks == (room.folder / "marks" / "marks.csv").read_bytes()
    assert marks == (room.folder / "marks" / "former" / "marks.csv").read_bytes()
    assert COMPLETE in report[report.index(ONE) :]
    room.marked(pass_share=0.5)
    assert COMPLETE == room.marked(pass_share=0.5).evidence


def test_late_practice_is_flagged_and_counts(room: Room) -> None:
    """Given after the due date: the marks are what the answers are worth, and a person sees that they were late."""
    room.zip(ONE, chained(right(), HOME))
    found = room.marked(due=datetime.fromisoformat("2026-06-01T00:00:00+00:00"))

    assert (ALL_MET, "1", {history.LATE}) == (found.evidence, found.row["mark"], found.flags)


def test_another_day_is_a_window_of_ones_own(room: Room) -> None:
    """Ill on the day, sat a week later with the same word: supervised once it is entered for this learner."""
    room.zip(ONE, chained(right(WORD), "2026-07-07T07:10:00+00:00"))
    room.sits()
    room.declares(date="2026-07-07")
    before = room.marked(out="before")
    room.sits(learner=ONE, by="B. Other", begins="2026-07-07T09:00+02:00", ends="2026-07-07T11:00+02:00")
    after = room.marked(out="after")

    assert COMPLETE != before.evidence
    assert (COMPLETE, "supervised by B. Other", set()) == (after.evidence, after.sitting, after.flags)


def test_a_declaration_of_the_rooms_day_is_none_for_another_day(room: Room) -> None:
    """Signed when the others sat, a week before these answers: it cannot be about them."""
    room.zip(ONE, chained(right(WORD), "2026-07-07T07:10:00+00:00"))
    room.sits()
    room.sits(learner=ONE, begins="2026-07-07T09:00+02:00", ends="2026-07-07T11:00+02:00")
    room.declares(date="2026-06-30")
    found = room.marked()

    assert ("all knowledge exercises met; no declaration recorded that counts", {CLAIM}) == (
        found.evidence,
        found.flags,
    )


def test_who_changed_class_keeps_the_history(room: Room) -> None:
    """Practice under the class word of before, the sitting under the new one: both stand, and a person sees the change."""
    first = [answer(e, **{"class": "elm-2026", "score": 0.0, **_elsewhere(e)}) for e in asked() if e == critical()[0]]
    room.zip(f"{ONE}-1", chained(first, HOME))
    room.zip(f"{ONE}-2", chained(right(WORD, device="bbbbbbbb"), IN))
    room.sits()
    room.declares()
    found = room.marked()

    assert ("1", "1", {CLASS_WORD}) == (found.row["mark"], found.row["sitting_mark"], found.flags)
    assert (COMPLETE, SUPERVISED) == (found.evidence, found.sitting)


def _elsewhere(exercise: str) -> dict[str, Any]:
    """Return what the same learner's question is under another class word, answered right."""
    question = exercises()[exercise].draw(class_word="elm-2026", learner=ONE)
    return {"facts": question.facts_digest(), "answer": question.right_answer(), "vehicle": question.own_vehicle}


def test_handed_in_twice_by_the_same_learner_counts_once(room: Room) -> None:
    """The same lines in two zips: as if they had been sent once."""
    lines = chained(wrong(WORD), IN)
    room.sits()
    room.zip(f"{ONE}-1", lines)
    once = room.marked(out="once")
    room.zip(f"{ONE}-2", lines)
    twice = room.marked(out="twice")

    assert (once.row, once.learner) == (twice.row, twice.learner)
    assert set() == twice.flags


def test_lines_cut_out_of_a_sitting(room: Room) -> None:
    """A zip without the line of the critical mistake: the gap is flagged."""
    lines = chained([*wrong(WORD), answer(critical()[0], WORD)], IN)
    bad = asked().index(critical()[0])
    room.sits()
    room.zip(ONE, [*lines[:bad], *lines[bad + 1 :]])

    assert {CHAIN} == room.marked().flags


@pytest.mark.parametrize("noted", [False, True])
def test_lines_cut_off_the_end_show_by_the_noted_code_alone(room: Room, noted: bool) -> None:
    """The last line, a critical mistake, is left out: nothing in the file shows it, the code noted in the room does."""
    order = [e for e in asked() if e != critical()[0]]
    lines = chained([*(answer(e, WORD) for e in order), answer(critical()[0], WORD, bad=True)], IN)
    record = read_line(lines[-1].encode("ascii")).record
    assert record is not None
    room.zip(ONE, lines[:-1])
    room.sits()
    if noted:
        room.book.add(Entry(kind="code", learner=ONE, lesson=record.lesson, code=check_code(record.hash)))

    assert ({history.CODE} if noted else set()) == room.marked().flags
