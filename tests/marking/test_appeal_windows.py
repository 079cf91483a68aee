"""Appeals about what an entry of the register reaches: hand-ins that were held, a learner's own time, which sitting counts."""

from datetime import date, timedelta
from hashlib import sha256
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from appeal_room import (
    HOME,
    IN,
    RULES,
    SECOND,
    SUPERVISED,
    WINDOW,
    WORD,
    Room,
    answer,
    asked,
    chained,
    critical,
    right,
    wrong,
)
from test_flags import ONE, TWO

from bitepoint.bank import exercises
from bitepoint.errors import BadInput
from bitepoint.marking.flagging.sittings import CLAIM, OUTSIDE
from bitepoint.marking.flagging.sittings import RETAKE as TOO_MANY
from bitepoint.marking.passing import ALL_MET, COMPLETE, MORE_WORK, TO_CONFIRM, UNSUPERVISED
from bitepoint.marking.registry.register import Entry


@pytest.fixture
def room(tmp_path: Path) -> Room:
    """Return an empty room."""
    return Room(tmp_path)


def test_assigning_a_copy_takes_nothing_from_whose_it_is(room: Room) -> None:
    """A neighbour hands in my file under a name of their own; the entry that assigns the copy leaves mine where it was."""
    mine = room.zip(f"{ONE}-1", chained(right(), HOME))
    copy = room.hand_ins / f"{TWO}-1.zip"
    copy.write_bytes(mine.read_bytes())
    before = room.marked(out="before")
    digest = sha256(mine.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="sender", hand_in=digest, learner=TWO, by="A. Assessor"))
    after, other = room.marked(out="after"), room.marked(TWO, out="after")

    assert [f"--hand-in {digest} --learner" in p for p in before.problems] == [True]
    assert (ALL_MET, "1", []) == (after.evidence, after.row["mark"], after.problems)
    assert "1" == before.row["mark"]
    assert ALL_MET != other.evidence


def test_an_entry_for_a_hand_in_that_is_not_held_changes_nothing_and_is_told(room: Room) -> None:
    """Name and workbook.toml agree on one learner, the entry says another: it stays where it was, with a line."""
    path = room.zip(f"{ONE}-1", chained(right(), HOME))
    digest = sha256(path.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="sender", hand_in=digest, learner=TWO, by="A. Assessor"))
    found = room.marked()

    assert (ALL_MET, "1") == (found.evidence, found.row["mark"])
    (said,) = found.problems
    assert f"says that {TWO} sent {ONE}-1.zip, but that hand-in is not held: it counts for {ONE}" in said


def test_one_entry_that_reaches_two_held_hand_ins_is_told(room: Room) -> None:
    """Two copies under two names, both held: the entry is about the bytes, so a line names both files."""
    one = room.zip("copy", chained(right(), HOME), chained(right(learner=TWO), HOME), hint="")
    (room.hand_ins / "other.zip").write_bytes(one.read_bytes())
    digest = sha256(one.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="sender", hand_in=digest, learner=ONE, by="A. Assessor"))
    found = room.marked()

    assert ALL_MET == found.evidence
    (said,) = found.problems
    assert "copy.zip, other.zip are the same to the byte" in said
    assert f"one entry says of all of them that {ONE} sent them" in said


(OWN,) = RULES["lessons"]
OTHER = "safe" if OWN != "safe" else "star"
BOTH = (OWN, OTHER)
LATER, AFTERNOON = "2026-06-30T11:45+02:00", {"begins": "2026-06-30T13:00+02:00", "ends": "2026-06-30T14:00+02:00"}
LATE = "2026-06-30T08:55:00+00:00"
"""Answers from here on run beyond the room's end."""


def of_other(sitting: str) -> list[dict[str, Any]]:
    """Return everything of the other lesson answered right."""
    return [answer(e.id, sitting) for e in exercises().values() if e.lesson == OTHER and not e.beyond]


@pytest.mark.parametrize("kind", ["sitting", "adjustment"])
def test_extra_time_is_about_the_lessons_of_the_room(room: Room, kind: str) -> None:
    """A second entry with a later end and no lessons: it is about those of the room, and nobody fails in the others."""
    room.zip(ONE, chained(right(WORD), LATE))
    room.sits(lessons=(OWN,))
    room.sits(kind=kind, learner=ONE, ends=LATER, room="", text="extra time")
    room.declares()
    found = room.marked(lessons=BOTH)

    assert ("met in the lessons sat, no sitting yet about 1 other lesson", SUPERVISED) == (
        found.evidence,
        found.sitting,
    )
    assert (str(len(asked())), set()) == (found.learner["sitting_of"], found.flags)
    assert COMPLETE == room.marked(lessons=(OWN,), out="one").evidence


def test_each_window_holds_in_its_own_lessons(room: Room) -> None:
    """One lesson in the room, the other in a window of one's own in the afternoon: both count, each where it was sat."""
    room.zip(ONE, chained(right(WORD), IN), chained(of_other(WORD), "2026-06-30T11:05:00+00:00", every=20))
    room.sits(lessons=(OWN,))
    room.sits(learner=ONE, lessons=(OTHER,), **AFTERNOON)
    room.declares()
    found = room.marked(lessons=BOTH)

    assert (COMPLETE, set()) == (found.evidence, found.flags)


def test_who_sat_in_a_window_of_other_lessons_sat_about_those(room: Room) -> None:
    """Two lessons in the room, one in the learner's own window, which alone was sat: the other one is still to sit."""
    room.zip(ONE, chained(right(WORD), "2026-06-30T11:05:00+00:00"))
    room.sits(lessons=BOTH)
    room.sits(learner=ONE, lessons=(OWN,), **AFTERNOON)
    room.declares()

    assert "met in the lessons sat, no sitting yet about 1 other lesson" == room.marked(lessons=BOTH).evidence


def test_a_lesson_does_not_run_on_in_the_window_of_another(room: Room) -> None:
    """Wrong in the room, put right in the window of another lesson: that answer does not count before a person says so."""
    late = [answer(critical()[0], WORD, at="2026-06-30T11:30:00+00:00")]
    room.zip(ONE, chained([*wrong(WORD), *late], "2026-06-30T07:10:00+00:00"))
    room.sits(lessons=(OWN,))
    room.sits(learner=ONE, lessons=(OTHER,), **AFTERNOON)
    found = room.marked()

    assert (MORE_WORK, {OUTSIDE}) == (found.evidence, found.flags)


def test_two_sittings_about_different_lessons_both_count(room: Room) -> None:
    """A word for each lesson, extra time without lessons in the later one, all right: each counts in its own lesson."""
    room.zip(ONE, chained(of_other(WORD), IN, every=20))
    room.zip(f"{ONE}-2", chained(right(SECOND, device="bbbbbbbb"), "2026-07-07T07:10:00+00:00"))
    later = {"word": SECOND, "begins": "2026-07-07T09:00+02:00"}
    room.sits(lessons=(OTHER,))
    room.sits(**later, ends="2026-07-07T11:00+02:00", lessons=(OWN,))
    room.sits(**later, ends="2026-07-07T12:00+02:00", learner=ONE)
    room.declares(date="2026-07-07")
    found = room.marked(lessons=BOTH)

    assert (COMPLETE, set()) == (found.evidence, found.flags)


def adjusts(room: Room, **more: Any) -> None:
    """Enter an adjustment of the first learner."""
    room.book.add(Entry(**{"kind": "adjustment", "learner": ONE, "by": "B. Other", "text": "another day", **more}))


def test_an_adjustment_moves_the_time_to_another_day(room: Room) -> None:
    """Sat a week later with the same word, entered as an adjustment: supervised by who entered it, not by the room's."""
    room.zip(ONE, chained(right(WORD), "2026-07-07T07:10:00+00:00"))
    room.sits()
    room.declares(date="2026-07-07")
    adjusts(room, word=WORD, begins="2026-07-07T09:00+02:00", ends="2026-07-07T11:00+02:00")
    found = room.marked()

    assert (COMPLETE, "supervised by B. Other", set()) == (found.evidence, found.sitting, found.flags)
    (entry,) = (e for e in room.book.entries() if e.kind == "adjustment")
    assert "2026-07-07" != entry.date


def test_an_adjustment_of_a_sitting_that_is_not_there_moves_nothing(room: Room) -> None:
    """The room was never entered: an adjustment supervises nobody by itself, and says so."""
    room.zip(ONE, chained(right(WORD), IN))
    adjusts(room, word=WORD, **WINDOW)
    found = room.marked()

    assert (UNSUPERVISED, {CLAIM}) == (found.sitting, found.flags)
    assert "the register has no sitting with that word, so it moves no time" in room.page("marks")


def test_an_adjustment_with_times_names_the_sitting(room: Room) -> None:
    """Times without the sitting's word would do nothing, so they are refused."""
    with pytest.raises(BadInput, match="An adjustment that moves a learner's time needs --word, the sitting's"):
        adjusts(room, **WINDOW)


RETAKE = {"word": SECOND, "begins": "2026-07-07T09:00+02:00", "ends": "2026-07-07T11:00+02:00"}
"""The room's second sitting, a week after the first."""


@pytest.mark.parametrize("counts", ["last", "best"])
def test_a_retake_whose_time_waits_pushes_nothing_aside(room: Room, counts: str) -> None:
    """Complete in the sitting, a retake by a laptop with a wrong clock: the first counts until a person has confirmed."""
    room.zip(f"{ONE}-1", chained(right(WORD), IN))
    room.zip(f"{ONE}-2", chained(wrong(SECOND), "2026-07-09T07:10:00+00:00"))
    room.sits()
    room.sits(**RETAKE)
    room.declares(date="2026-06-30")
    waits = room.marked(out="waits", counts=counts)
    room.confirms(word=SECOND, learner=ONE)
    room.declares(date="2026-07-07")
    after = room.marked(out="after", counts=counts)

    assert (COMPLETE, SUPERVISED, WORD, {TO_CONFIRM}) == (
        waits.evidence,
        waits.sitting,
        waits.row["sitting"],
        waits.flags,
    )
    last = counts == "last"
    assert (MORE_WORK if last else COMPLETE, SECOND if last else WORD) == (after.evidence, after.row["sitting"])


def test_a_sitting_whose_time_waits_uses_up_no_retake(room: Room) -> None:
    """No retakes, the first sitting's time unconfirmed: the supervised one counts, unflagged; confirmed, the first does."""
    room.zip(f"{ONE}-1", chained(wrong(WORD), "2026-06-29T07:10:00+00:00"))
    room.zip(f"{ONE}-2", chained(right(SECOND), "2026-07-07T07:10:00+00:00"))
    room.sits()
    room.sits(**RETAKE)
    room.declares(date="2026-07-07")
    waits = room.marked(out="waits", retakes=0)
    room.confirms()
    after = room.marked(out="after", retakes=0)

    assert (COMPLETE, SECOND, {TO_CONFIRM}) == (waits.evidence, waits.row["sitting"], waits.flags)
    assert (MORE_WORK, WORD, {TOO_MANY}) == (after.evidence, after.row["sitting"], after.flags)


NOT_DECLARED = "all knowledge exercises met; no declaration recorded that counts"


def record(room: Room, out: str = "marks") -> str:
    """Return what the record to sign says about the declaration."""
    page = unescape((room.folder / out / "evidence" / f"{ONE}.html").read_text("utf-8"))
    return page.partition("Declaration of the learner's own work: ")[2].partition("</p>")[0]


@pytest.mark.parametrize("word", ["", WORD])
def test_a_declaration_found_unsigned_afterwards_counts_no_more(room: Room, word: str) -> None:
    """Entered as signed, then as not signed: the newest about the sitting counts, is flagged, and no record names one."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits()
    room.declares(signed="yes", word=WORD)
    signed = room.marked(out="signed")
    room.declares(signed="no", word=word)
    found = room.marked(out="unsigned")
    room.declares(signed="yes")
    again = room.marked(out="again")

    assert (COMPLETE, NOT_DECLARED, COMPLETE) == (signed.evidence, found.evidence, again.evidence)
    assert (set(), {CLAIM}, set()) == (signed.flags, found.flags, again.flags)
    assert f"sitting {WORD}, 30 June 2026, recorded by {ONE}." == record(room, "signed")
    assert f"sitting {WORD}, none that counts." == record(room, "unsigned")


def test_not_signed_for_a_retake_takes_nothing_from_the_sitting_before(room: Room) -> None:
    """Two lessons, a sitting each; the second declaration was not signed and names no word: the first one stands."""
    room.zip(ONE, chained(of_other(WORD), IN, every=20))
    room.zip(f"{ONE}-2", chained(right(SECOND, device="bbbbbbbb"), "2026-07-07T07:10:00+00:00"))
    room.sits(lessons=(OTHER,))
    room.sits(**RETAKE, lessons=(OWN,))
    room.declares(signed="yes")
    room.declares(date="2026-07-07", signed="no")
    found = room.marked(lessons=BOTH)

    assert (NOT_DECLARED, {CLAIM}) == (found.evidence, found.flags)
    assert f"sitting {WORD}, 30 June 2026, recorded by {ONE}; sitting {SECOND}, none that counts." == record(room)


def test_the_record_names_the_declaration_that_counts(room: Room) -> None:
    """A newer one of a day before the sitting is there too: the record names the one that counts, with its sitting."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits()
    none = room.marked(out="none")
    room.declares(date="2026-07-01")
    room.declares(date="2026-06-29")
    found = room.marked()

    assert (NOT_DECLARED, COMPLETE, {CLAIM}) == (none.evidence, found.evidence, found.flags)
    assert (f"sitting {WORD}, none recorded.", f"sitting {WORD}, 1 July 2026, recorded by {ONE}.") == (
        record(room, "none"),
        record(room),
    )


@pytest.mark.parametrize(
    "said",
    [
        {"kind": "declaration", "learner": ONE, "by": ONE, "date": "3026-06-30"},
        {
            "kind": "observation",
            "learner": ONE,
            "by": "B",
            "criterion": "x",
            "result": "done right",
            "date": "3026-06-30",
        },
        {"kind": "sitting", "word": WORD, "by": "B", "begins": "3026-06-30T09:00Z", "ends": "3026-06-30T10:00Z"},
    ],
)
def test_nothing_is_recorded_of_a_day_to_come(room: Room, said: dict[str, Any]) -> None:
    """The year mistyped: refused in one line that says which day this computer takes today for."""
    with pytest.raises(BadInput, match="3026-06-30 is still to come: by this computer today is "):
        room.book.add(Entry(**said))
    assert [] == room.book.entries()


def test_tomorrow_is_no_day_to_come(room: Room) -> None:
    """Where the assessor sits it may be a day later than where the computer was set up."""
    room.declares(date=(date.today() + timedelta(days=1)).isoformat())


def test_a_declaration_of_a_day_to_come_in_an_older_register(room: Room) -> None:
    """Written before such days were refused: it is read, does not count, and says why."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits()
    room.book.write(Entry(kind="declaration", learner=ONE, by=ONE, date="3026-06-30"))
    found = room.marked()

    assert (NOT_DECLARED, {CLAIM}) == (found.evidence, found.flags)
    assert "it is dated 3026-06-30, a day to come when it was entered on " in room.page("marks")


def appeals(room: Room, **more: Any) -> None:
    """Enter an appeal of the first learner about the exercise with the critical mistake."""
    said = {"kind": "appeal", "learner": ONE, "exercise": critical()[0], "by": "A. Assessor", "text": "as written"}
    room.book.add(Entry(**{**said, "date": "2026-07-02", **more}))


def test_an_appeal_is_decided_once_it_has_come(room: Room) -> None:
    """No outcome without an appeal received about it, and none of a day before it came."""
    decided = {"by": "D. Head", "outcome": "upheld", "decided": "2026-07-05"}
    appeals(room, learner=TWO)
    with pytest.raises(BadInput, match=f"No appeal of {ONE} about {critical()[0]} was received"):
        appeals(room, **decided)
    appeals(room)
    with pytest.raises(BadInput, match="--decided 2026-07-01 is before 2026-07-02"):
        appeals(room, **{**decided, "decided": "2026-07-01"})
    appeals(room, **decided)

    assert 3 == len(room.book.entries())


def test_an_appeal_about_everything_is_decided_exercise_by_exercise(room: Room) -> None:
    """What came in names no exercise; the outcome may name one."""
    appeals(room, exercise="")
    appeals(room, by="D. Head", outcome="not upheld", decided="2026-07-05")


@pytest.mark.parametrize(("word", "flags"), [("", set()), (WORD, {CLAIM})])
def test_an_appeal_about_what_was_never_answered(room: Room, word: str, flags: set[str]) -> None:
    """Answered in practice alone: an appeal about practice has its mark, one about the sitting has none and is flagged."""
    room.zip(ONE, chained(right(), HOME))
    appeals(room, word=word)

    assert flags == room.marked().flags
