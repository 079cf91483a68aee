"""Cases that end up in an appeal: marks and flags as a verifier would want them. Each docstring is a case."""

from datetime import datetime, timedelta
from hashlib import sha256
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from appeal_room import (
    HOME,
    IN,
    NEXT_DAY,
    RULES,
    SECOND,
    SUPERVISED,
    WORD,
    Room,
    answer,
    asked,
    chained,
    critical,
    right,
    wrong,
)
from test_flags import OAK, ONE, TWO

from bitepoint.bank import exercises
from bitepoint.bank.lessons import LESSONS
from bitepoint.logbook.asked import asked_fields
from bitepoint.logbook.identity import learner_id
from bitepoint.marking.arrived import HELD, NOTHING
from bitepoint.marking.flagging import history
from bitepoint.marking.flagging import sittings as sitting_flags
from bitepoint.marking.flagging.answers import CHAIN, CLASS_WORD, UNKNOWN
from bitepoint.marking.passing import ALL_MET, COMPLETE, MORE_WORK, TO_CONFIRM, UNSUPERVISED
from bitepoint.marking.registry.register import Entry
from bitepoint.marking.senders import FOREIGN


@pytest.fixture
def room(tmp_path: Path) -> Room:
    """Return an empty room."""
    return Room(tmp_path)


def test_right_answers_of_a_sitting_are_complete(room: Room) -> None:
    """The honest case: right in the sitting, declared the same day, practice before: complete, nothing to look at."""
    room.zip(f"{ONE}-20260620-160000", chained(wrong(), HOME))
    room.zip(f"{ONE}-20260630-110000", chained(right(WORD), IN))
    room.sits()
    room.declares()
    found = room.marked()

    assert (COMPLETE, SUPERVISED, set()) == (found.evidence, found.sitting, found.flags)
    assert ("0", "1", "yes", "no") == tuple(
        found.row[c] for c in ("last_score", "sitting_mark", "critical_open", "sitting_critical_open")
    )


def test_right_at_home_does_not_mend_a_sitting(room: Room) -> None:
    """Wrong in the sitting, right at home, both marked together: the mark of the sitting stays 0."""
    room.zip(f"{ONE}-a", chained(wrong(WORD), IN))
    room.zip(f"{ONE}-b", chained(right(), NEXT_DAY))
    room.sits()
    room.declares()
    found = room.marked()

    assert (MORE_WORK, "1", "0") == (found.evidence, found.row["mark"], found.row["sitting_mark"])


def test_wrong_at_home_and_a_solution_seen_touch_nothing_in_the_sitting(room: Room) -> None:
    """All right in the sitting; at home the solution was looked at: the sitting is as without practice."""
    room.zip(f"{ONE}-b", chained(right(WORD), IN))
    room.sits()
    room.declares()
    alone = room.marked(out="alone")
    room.zip(f"{ONE}-a", chained([*wrong(), *wrong(), *wrong(), *wrong(solution_shown=True)], HOME))
    found = room.marked(out="both")

    own = [c for c in found.row if c.startswith("sitting")]
    assert [alone.row[c] for c in own] == [found.row[c] for c in own]
    assert (COMPLETE, COMPLETE) == (alone.evidence, found.evidence)


def test_a_backdated_register_supervises_nothing(room: Room) -> None:
    """Sitting and declaration entered for 2020, every answer home work of 2026: never complete, and both flagged."""
    room.zip(ONE, chained(right(), HOME))
    window = {"begins": "2020-01-01T09:00Z", "ends": "2020-01-01T11:00Z"}
    room.sits(learner=ONE, **window)
    room.declares(date="2020-01-01", word=WORD)
    found = room.marked()

    assert UNSUPERVISED == found.sitting
    assert COMPLETE != found.evidence
    assert {sitting_flags.CLAIM} == found.flags


def test_an_entry_of_the_old_form_supervises_nothing() -> None:
    """A sitting without a word is still read, and flagged."""
    (found,) = sitting_flags.claims(ONE, [Entry(kind="sitting", learner=ONE, by="A", date="2026-06-30")], [])

    assert sitting_flags.CLAIM == found.kind
    assert "it names no sitting word" in found.evidence


def test_a_sitting_of_a_room_in_which_nobody_answered(room: Room) -> None:
    """A class with a sitting in the register and not one line of it: nobody is supervised, the report says so."""
    room.zip(ONE, chained(right(), HOME))
    room.sits()
    found = room.marked()

    assert (ALL_MET, UNSUPERVISED) == (found.evidence, found.sitting)
    assert "no hand-in has an answer of it" in (room.folder / "marks" / "report.html").read_text("utf-8")


def test_lines_in_my_name_in_a_neighbours_file(room: Room) -> None:
    """Sabotage: a neighbour's zip holds wrong answers in my name: my marks stay, and both of us are flagged."""
    room.zip(f"{ONE}-1", chained(right(), HOME))
    alone = room.marked(out="alone")
    room.zip(f"{TWO}-1", chained(wrong(learner=TWO), HOME), chained(wrong(device="bbbbbbbb"), HOME), hint=TWO)
    found, other = room.marked(out="both"), room.marked(TWO, out="both")

    assert alone.row["mark"] == found.row["mark"] == "1"
    assert (alone.evidence, {FOREIGN}, {FOREIGN}) == (found.evidence, found.flags, other.flags)


def test_a_shared_laptop_counts_once_a_person_has_decided(room: Room) -> None:
    """Two learners in one folder: the sender's count; those of the other only after an entry “lines”."""
    path = room.zip(f"{TWO}-1", chained(right(learner=TWO), HOME), chained(right(device="bbbbbbbb"), HOME), hint=TWO)
    before = room.marked(out="before")
    digest = sha256(path.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="lines", hand_in=digest, learner=ONE, by="A. Assessor", text="they shared a laptop"))
    after = room.marked(out="after")

    assert (NOTHING, {FOREIGN}) == (before.evidence, before.flags)
    assert (ALL_MET, "1", set()) == (after.evidence, after.row["mark"], after.flags)


def test_where_name_and_folder_disagree_the_hand_in_is_held_and_one_entry_assigns_it(room: Room) -> None:
    """The file says one learner, workbook.toml another: counts for nobody, one line with the command; then it counts."""
    path = room.zip(f"{TWO}-1", chained(right(), HOME))
    before = room.marked(out="before")
    digest = sha256(path.read_bytes()).hexdigest()[:12]
    room.book.add(Entry(kind="sender", hand_in=digest, learner=ONE, by="A. Assessor"))
    after = room.marked(out="after")

    assert (HELD, NOTHING) == (before.evidence, room.marked(TWO, out="other").evidence)
    assert [f"--hand-in {digest} --learner" in p for p in before.problems] == [True]
    assert (ALL_MET, []) == (after.evidence, after.problems)


def test_two_learners_and_no_word_on_who_sent_it(room: Room) -> None:
    """No workbook.toml, a name that says nothing, answers of two: held, not shared out."""
    room.zip("homework", chained(right(), HOME), chained(right(learner=TWO), HOME), hint="")
    found = room.marked()

    assert NOTHING == found.evidence
    assert len(found.problems) == 1


def test_name_and_folder_disagree_and_both_have_answers_in_it(room: Room) -> None:
    """The file says one learner, workbook.toml the other, and both answered: held all the same."""
    room.zip(f"{TWO}-1", chained(right(), HOME), chained(right(learner=TWO), HOME))

    assert HELD == room.marked(out="one").evidence == room.marked(TWO, out="two").evidence


def test_a_notebook_with_the_bad_lines_left_out(room: Room) -> None:
    """Only a notebook is handed in, its critical mistake cut out: the gap in the chain is flagged."""
    lines = chained([*wrong(), answer(critical()[0])], HOME)
    bad = asked().index(critical()[0])
    room.notebook(ONE, [*lines[:bad], *lines[bad + 1 :]])
    cut = room.marked(out="cut")
    room.notebook(ONE, lines)
    whole = room.marked(out="whole")

    assert ({CHAIN}, set()) == (cut.flags, whole.flags)


def test_a_gap_in_one_hand_in_that_another_fills(room: Room) -> None:
    """A notebook with some of the lines beside the zip with all of them: nothing is missing, nothing is flagged."""
    lines = chained(right(), HOME)
    room.zip(f"{ONE}-1", lines)
    room.notebook(ONE, lines[::2])

    assert set() == room.marked().flags


def test_a_clock_set_back_between_mistake_and_correction(room: Room) -> None:
    """The right answer has the higher number and an earlier time: the mistake is put right, the clock flagged."""
    back = [answer(critical()[0], at="2026-06-20T15:00:00+00:00")]
    room.zip(ONE, chained([*wrong(), *back], HOME))
    found = room.marked()

    assert ("no", "1", {history.CLOCK}) == (found.row["critical_open"], found.row["mark"], found.flags)


@pytest.mark.parametrize(
    "begin", ["2026-06-30T06:10:00+00:00", "2026-06-29T07:10:00+00:00", "2016-06-30T07:10:00+00:00"]
)
def test_a_wrong_clock_waits_and_one_entry_confirms_the_room(room: Room, begin: str) -> None:
    """An hour, a day, ten years: nobody loses, nobody gains; after the entry it is as with a right clock."""
    begin = (datetime.fromisoformat(begin) - timedelta(hours=1)).isoformat()
    room.zip(ONE, chained(right(WORD), begin))
    room.sits()
    room.declares()
    before = room.marked(out="before")
    room.confirms(room="12")
    after = room.marked(out="after")

    assert (f"all knowledge exercises met; {TO_CONFIRM}", TO_CONFIRM, {TO_CONFIRM}) == (
        before.evidence,
        before.sitting,
        before.flags,
    )
    assert (COMPLETE, set()) == (after.evidence, after.flags)
    assert after.sitting.startswith(f"{SUPERVISED} (time by the laptop another, confirmed by A. Assessor on ")


def test_a_slow_clock_that_reaches_into_the_sitting(room: Room) -> None:
    """Slow by half an hour, so that the last answers fall inside: the room's entry leaves it open, the learner's ends it."""
    room.zip(ONE, chained(right(WORD), "2026-06-30T06:57:00+00:00"))
    room.sits()
    room.declares()
    room.confirms(room="12")
    waits = room.marked(out="waits")
    room.confirms(learner=ONE)
    after = room.marked(out="after")

    assert (TO_CONFIRM, {TO_CONFIRM}) == (waits.sitting, waits.flags)
    assert (COMPLETE, set()) == (after.evidence, after.flags)
    assert after.sitting.startswith(f"{SUPERVISED} (time by the laptop another, confirmed by A. Assessor on ")


def test_a_confirmation_of_another_room_confirms_nothing(room: Room) -> None:
    """Room 14 was confirmed, the learner sat in room 12."""
    room.zip(ONE, chained(right(WORD), NEXT_DAY))
    room.sits()
    room.confirms(room="14")

    assert TO_CONFIRM == room.marked().sitting


def test_a_person_can_say_that_it_was_not_in_the_sitting(room: Room) -> None:
    """Answers with the right word, given at home: left out once a person says so."""
    room.zip(ONE, chained(right(WORD), NEXT_DAY))
    room.sits()
    room.declares()
    room.confirms(learner=ONE, result="not in the sitting")
    found = room.marked()

    assert (UNSUPERVISED, {sitting_flags.OUTSIDE}) == (found.sitting, found.flags)
    assert COMPLETE != found.evidence


def test_going_on_at_home_after_the_sitting(room: Room) -> None:
    """Wrong in the sitting, put right with the same word the next day: left out, also when the room is confirmed."""
    late = [answer(critical()[0], WORD, at=NEXT_DAY)]
    room.zip(ONE, chained([*wrong(WORD), *late], IN))
    room.sits()
    room.declares()
    room.confirms()
    found = room.marked()

    assert (MORE_WORK, "0", {sitting_flags.OUTSIDE}) == (found.evidence, found.row["sitting_mark"], found.flags)


def test_going_on_at_home_within_the_length_of_the_sitting(room: Room) -> None:
    """Wrong in the room, put right half an hour after it ended: the room's confirmation is for clocks that were wrong.

    This clock had the room's time, so what lies outside waits for an entry about this learner.
    """
    late = [answer(critical()[0], WORD, at="2026-06-30T09:05:00+00:00")]
    room.zip(ONE, chained([*wrong(WORD), *late], "2026-06-30T08:10:00+00:00"))
    room.sits()
    room.declares()
    room.confirms(room="12")
    found = room.marked(out="room")
    room.confirms(learner=ONE, result="not in the sitting")
    refused = room.marked(out="refused")

    waits = (f"all knowledge exercises met; {TO_CONFIRM}", TO_CONFIRM, {TO_CONFIRM})
    assert waits == (found.evidence, found.sitting, found.flags)
    assert "“red-kite”: 1 answer lies outside its time by this laptop's clock (2026-06-30 09:05 UTC)" in room.page(
        "room"
    )
    assert "confirm the learner or" not in room.page("room")
    assert (MORE_WORK, "0", {sitting_flags.OUTSIDE}) == (refused.evidence, refused.row["sitting_mark"], refused.flags)


def test_a_second_laptop_at_home_is_not_the_room(room: Room) -> None:
    """Wrong in the room with one laptop, right at home with another: confirming the room brings in nothing of the second."""
    home = chained(right(WORD, device="bbbbbbbb"), NEXT_DAY)
    room.zip(ONE, chained(wrong(WORD), IN), home)
    room.sits()
    room.declares()
    room.confirms(room="12")
    found = room.marked()

    assert (TO_CONFIRM, {TO_CONFIRM}) == (found.sitting, found.flags)
    assert COMPLETE != found.evidence


def test_two_laptops_outside_the_time_are_not_both_the_room(room: Room) -> None:
    """Wrong in the room with a slow clock, right at home with another laptop: the room's entry decides for neither."""
    slow = (datetime.fromisoformat(IN) - timedelta(days=1)).isoformat()
    room.zip(ONE, chained(wrong(WORD), slow), chained(right(WORD, device="bbbbbbbb"), NEXT_DAY))
    room.sits()
    room.declares()
    room.confirms()

    assert TO_CONFIRM == room.marked().sitting


def test_extra_time_is_a_window_of_ones_own(room: Room) -> None:
    """Half an hour more for one learner, entered for that learner: supervised to the end."""
    room.zip(ONE, chained(right(WORD), "2026-06-30T08:55:00+00:00"))
    room.sits()
    room.declares()
    without = room.marked(out="without")
    room.sits(learner=ONE, ends="2026-06-30T11:45+02:00")

    assert COMPLETE != without.evidence
    assert COMPLETE == room.marked(out="with").evidence


def test_a_lesson_that_was_not_in_the_sitting(room: Room) -> None:
    """The sitting was about another lesson: its word supervises nothing here."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits(lessons=(next(e.lesson for e in exercises().values() if e.lesson not in RULES["lessons"]),))
    found = room.marked()

    assert (UNSUPERVISED, {sitting_flags.OUTSIDE}) == (found.sitting, found.flags)


def test_a_sitting_that_showed_scores(room: Room) -> None:
    """A line of a sitting with a score in it: flagged, since right and wrong was shown before the hand-in."""
    room.zip(ONE, chained(right(WORD, score=1.0), IN))
    room.sits()

    assert {sitting_flags.SCORED} == room.marked().flags


def sit_again(room: Room, first: list[dict[str, Any]], second: list[dict[str, Any]]) -> None:
    """Sit twice, with two words on two days."""
    room.zip(f"{ONE}-1", chained(first, IN))
    room.zip(f"{ONE}-2", chained(second, "2026-07-07T07:10:00+00:00"))
    room.sits()
    room.sits(word=SECOND, begins="2026-07-07T09:00+02:00", ends="2026-07-07T11:00+02:00")
    room.declares(date="2026-07-07")


@pytest.mark.parametrize(("counts", "evidence", "word"), [("last", MORE_WORK, SECOND), ("best", COMPLETE, WORD)])
def test_which_of_two_sittings_counts_is_what_the_class_said(room: Room, counts: str, evidence: str, word: str) -> None:
    """Right the first time, wrong in the retake: the last or the best, never both pooled, and the page says which."""
    sit_again(room, right(WORD), wrong(SECOND))
    found = room.marked(counts=counts)

    assert (evidence, word, set()) == (found.evidence, found.row["sitting"], found.flags)
    assert f"the {counts} one counts" in (room.folder / "marks" / "learners" / f"{ONE}.html").read_text("utf-8")


def test_a_retake_more_than_the_class_allows(room: Room) -> None:
    """Wrong, then right, in a class without retakes: the first one counts, the second is flagged."""
    sit_again(room, wrong(WORD), right(SECOND))
    found = room.marked(retakes=0)

    assert (MORE_WORK, WORD, {sitting_flags.RETAKE}) == (found.evidence, found.row["sitting"], found.flags)


def test_a_sitting_after_the_due_date_is_not_late(room: Room) -> None:
    """The due date is that of practice."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits()

    assert set() == room.marked(due=datetime.fromisoformat("2026-06-25T00:00:00+00:00")).flags


def test_an_override_is_of_practice_or_of_the_sitting_it_names(room: Room) -> None:
    """One for practice leaves the sitting as it was; one with the sitting's word changes it, with who and why."""
    room.zip(ONE, chained(wrong(WORD), IN))
    room.sits()
    said = {"kind": "override", "learner": ONE, "exercise": critical()[0], "score": 1.0, "by": "B", "text": "seen"}
    room.book.add(Entry(**said))
    practice = room.marked(out="practice")
    room.book.add(Entry(**said, word=WORD))
    both = room.marked(out="both")

    assert ("1", "0") == (practice.row["mark"], practice.row["sitting_mark"])
    assert ("1", "B", "0") == tuple(both.row[f"sitting_{c}"] for c in ("mark", "override_by", "last_score"))


def test_a_declaration_from_before_the_sitting(room: Room) -> None:
    """Dated a day before: it cannot be about these answers, so it does not count and is flagged."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits()
    room.declares(date="2026-06-29")
    found = room.marked()

    assert ("all knowledge exercises met; no declaration recorded that counts", {sitting_flags.CLAIM}) == (
        found.evidence,
        found.flags,
    )


def test_a_declaration_recorded_as_not_signed(room: Room) -> None:
    """It does not count and is flagged; entered again as signed it does."""
    room.zip(ONE, chained(right(WORD), IN))
    room.sits()
    room.declares(signed="no")
    unsigned = room.marked(out="unsigned")
    room.declares(signed="yes")
    signed = room.marked(out="signed")

    assert ("all knowledge exercises met; no declaration recorded that counts", {sitting_flags.CLAIM}) == (
        unsigned.evidence,
        unsigned.flags,
    )
    assert (COMPLETE, set()) == (signed.evidence, signed.flags)


def test_a_sitting_about_one_lesson_of_two(room: Room) -> None:
    """It is counted in its own lesson, is not complete, and the pages say about which lesson there was no sitting yet."""
    (own,), other = RULES["lessons"], "safe"
    room.zip(ONE, chained(right(WORD), IN))
    room.sits(lessons=(own,))
    room.declares()
    found = room.marked(lessons=(other, own))
    pages = [
        unescape((room.folder / "marks" / f / f"{ONE}.html").read_text("utf-8"))
        for f in ("learners", "assessor", "evidence")
    ]

    assert "met in the lessons sat, no sitting yet about 1 other lesson" == found.evidence
    assert (str(len(asked())), found.learner["sitting_right"]) == (found.learner["sitting_of"], str(len(asked())))
    for page in pages:
        assert f"No sitting yet about: {LESSONS[other].title}." in page


@pytest.mark.parametrize(
    ("said", "evidence"),
    [
        ({"word": WORD, "date": "2026-06-30"}, "all knowledge exercises met; no declaration recorded that counts"),
        ({"date": "2026-06-30"}, "all knowledge exercises met; no declaration recorded that counts"),
        ({"word": SECOND, "date": "2026-07-07"}, COMPLETE),
    ],
)
def test_a_declaration_is_for_the_sitting_that_counts(room: Room, said: dict[str, str], evidence: str) -> None:
    """Declared for the first sitting, and the retake counts: that needs a declaration of its own."""
    room.zip(f"{ONE}-1", chained(wrong(WORD), IN))
    room.zip(f"{ONE}-2", chained(right(SECOND), "2026-07-07T07:10:00+00:00"))
    room.sits()
    room.sits(word=SECOND, begins="2026-07-07T09:00+02:00", ends="2026-07-07T11:00+02:00")
    room.declares(**said)

    assert evidence == room.marked().evidence


@pytest.mark.parametrize(
    "said",
    [
        {"kind": "override", "exercise": critical()[0], "score": 1.0, "text": "seen"},
        {"kind": "confirmation", "text": "was there"},
    ],
)
def test_an_entry_for_a_sitting_without_an_answer_is_not_lost(room: Room, said: dict[str, Any]) -> None:
    """An override or a confirmation with a sitting word under which nothing was answered changes nothing and is told."""
    room.zip(ONE, chained(right(), HOME))
    room.book.add(Entry(learner=ONE, by="B", word="red-kit", **said))
    found = room.marked()

    assert {sitting_flags.CLAIM} == found.flags
    assert "drawn with the sitting word “red-kit”" in room.page("marks")


def test_marked_again_it_is_the_same(room: Room) -> None:
    """The same hand-ins and register give the same bytes."""
    room.zip(ONE, chained(wrong(WORD), IN), chained(right(device="bbbbbbbb"), HOME))
    room.sits()
    room.marked(out="one")
    room.marked(out="two")

    for name in ("marks.csv", "learners.csv", "marks.jsonl"):
        assert (room.folder / "one" / name).read_bytes() == (room.folder / "two" / name).read_bytes()


ELM = "elm-2026"
MOVED = learner_id(ELM, 17)
LAST_DAY = "2026-06-20"


def changed_class(room: Room, **more: Any) -> None:
    """Put the first learner into another class, where the id is another one."""
    (room.folder / "roster.csv").write_text(f"learner,class_word\n{MOVED},{ELM}\n", "utf-8")
    said = {
        "kind": "adjustment",
        "learner": MOVED,
        "earlier_class": OAK,
        "earlier": ONE,
        "by": "B. Head",
        "text": "moved house",
    }
    room.book.add(Entry(**{**said, "date": LAST_DAY, **more}))


def test_a_change_of_class_carries_the_history(room: Room) -> None:
    """Everything right in the earlier class, nothing yet in the new one: it counts for the new id, with no flag."""
    room.zip(ONE, chained(right(), HOME))
    changed_class(room)
    found = room.marked(MOVED)

    assert (ALL_MET, "1", set(), []) == (found.evidence, found.row["mark"], found.flags, found.problems)


def test_without_an_entry_another_class_counts_for_nobody_here(room: Room) -> None:
    """The same hand-in with no register entry: an unknown learner, and nothing handed in by the one on the list."""
    room.zip(ONE, chained(right(), HOME))
    (room.folder / "roster.csv").write_text(f"learner,class_word\n{MOVED},{ELM}\n", "utf-8")

    assert NOTHING == room.marked(MOVED).evidence
    assert {UNKNOWN, CLASS_WORD} == room.marked(ONE, out="other").flags


def test_going_on_in_the_earlier_class_after_the_change(room: Room) -> None:
    """A critical mistake put right under the earlier word a day late: not counted, and flagged."""
    late = [answer(critical()[0], at=NEXT_DAY)]
    room.zip(ONE, chained([*wrong(), *late], HOME))
    changed_class(room)
    found = room.marked(MOVED)

    assert (MORE_WORK, "yes", {CLASS_WORD}) == (found.evidence, found.row["critical_open"], found.flags)


def test_answers_of_both_classes(room: Room) -> None:
    """Wrong in the earlier class, right in the new one: the new one counts where it answered, neither is pooled."""
    room.zip(ONE, chained(wrong(), HOME))
    drawn = exercises()[critical()[0]].draw(class_word=ELM, learner=MOVED)
    now = {**answer(critical()[0]), "learner": MOVED, "class": ELM, "answer": drawn.right_answer()}
    now |= {**asked_fields(drawn, 1), "device": "bbbbbbbb"}
    room.zip(MOVED, chained([now], NEXT_DAY), hint=MOVED)
    changed_class(room)
    found = room.marked(MOVED)

    assert (ALL_MET, "1", "no", set()) == (found.evidence, found.row["mark"], found.row["critical_open"], found.flags)


def test_a_late_joiner_is_one_of_the_class_with_who_decided(room: Room) -> None:
    """On the list by a command, with reason and name in the register: marked as anybody, nothing to look at."""
    late = learner_id(OAK, 25)
    room.zip(late, chained(right(learner=late), HOME), hint=late)
    before = room.marked(late, out="before")
    with (room.folder / "roster.csv").open("a", encoding="utf-8") as file:
        file.write(f"{late},{OAK}\n")
    room.book.add(
        Entry(kind="adjustment", learner=late, by="B. Head", text="Late joiner: came in week three", date="2026-06-01")
    )
    found = room.marked(late)

    assert ({UNKNOWN}, ALL_MET, set()) == (before.flags, found.evidence, found.flags)
    assert "came in week three" in (room.folder / "marks" / "learners" / f"{late}.html").read_text("utf-8")


def test_what_was_typed_of_the_rooms_clock_stands_beside_the_time_to_confirm(room: Room) -> None:
    """The laptop an hour ahead, told so when the sitting was opened: it still waits, and the page says by how much."""
    room.zip(ONE, chained(right(WORD, clock_ahead_s=3720), NEXT_DAY))
    room.sits()
    found = room.marked()

    assert (TO_CONFIRM, {TO_CONFIRM}) == (found.sitting, found.flags)
    pages = [p.read_text("utf-8") for p in (room.folder / "marks").rglob("*.html")]
    assert any("1 h 2 min ahead of the room" in page for page in pages)


def test_a_second_mark_of_an_answer_that_is_not_there(room: Room) -> None:
    """Entered for an exercise that was not answered, and for a sitting nobody sat: flagged, and compared with nothing."""
    room.zip(ONE, chained([answer(critical()[0])], HOME))
    other = next(e for e in asked() if e != critical()[0])
    said = {"kind": "second mark", "learner": ONE, "by": "B. Beside", "score": 1, "text": "as shown"}
    room.book.add(Entry(**said, exercise=critical()[0]))
    right_one = room.marked(out="right")
    room.book.add(Entry(**said, exercise=other))
    room.book.add(Entry(**said, exercise=critical()[0], word="blue-jay"))
    found = room.marked()

    assert (set(), {sitting_flags.CLAIM}) == (right_one.flags, found.flags)
