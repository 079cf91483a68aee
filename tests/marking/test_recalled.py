"""What is answered in recall, weeks after a lesson: no part of any mark, and read by itself."""

from pathlib import Path
from typing import Any

import msgspec
import pytest
from appeal_room import Room, answer, chained, critical, right, wrong
from hypothesis import given, settings
from hypothesis import strategies as st
from test_flags import ONE

from bitepoint.bank import exercises
from bitepoint.logbook.record import OWN_WORDS, RECALL, read_line
from bitepoint.marking.line_marking import mark_line
from bitepoint.marking.recalled import recalled_of

LESSON, LATER = "2026-06-01T08:00:00+00:00", "2026-06-22T08:00:00+00:00"
DANGER = critical()[0]


def recall(bad: bool = False, turn: int = 1, **more: Any) -> dict[str, Any]:
    """Return the fields of one answer in recall to the exercise with the critical mistake."""
    question = exercises()[DANGER].draw(class_word="oak-2026", learner=ONE, sitting=RECALL, turn=turn)
    given = (
        next(a for a, _ in question.known_mistakes() if question.mark(a).critical) if bad else question.right_answer()
    )
    fields = answer(DANGER, how="recall")
    asked = {"facts": question.facts_digest(), "words": question.words_digest(), "turn": turn, "sitting": RECALL}
    return {**fields, **asked, "answer": given, "score": question.mark(given).score, **more}


@pytest.mark.parametrize("bad", [False, True])
def test_recall_changes_no_mark_and_raises_no_flag(tmp_path: Path, bad: bool) -> None:
    """A learner's row, evidence and flags are the same with and without a chain of recall, right or dangerous."""
    room = Room(tmp_path)
    room.zip("lesson", chained(right(), LESSON))
    before = room.marked(out="before", due=None)
    room.zip("lesson", chained(right(), LESSON), chained([recall(bad), recall(turn=2)], LATER))
    after = room.marked(out="after", due=None)
    assert before.problems == after.problems == []
    assert (before.row, before.flags, before.evidence) == (after.row, after.flags, after.evidence)


def test_a_recall_answer_says_after_how_long() -> None:
    """Days count from the last answer before, in the lesson or in recall; a reason in own words stands with its answer."""
    reason = recall(how=OWN_WORDS, answer="because the spring is free")
    lines = [*chained([answer(DANGER)], LESSON, every=0), *chained([recall(), reason], LATER, every=0)]
    lines += chained([recall(bad=True, turn=2)], "2026-07-06T08:00:00+00:00", every=0)
    found = recalled_of([mark_line(read_line(x.encode())) for x in lines])
    assert [(r.days, r.right, r.critical, r.own_words) for r in found] == [
        (21, True, False, "because the spring is free"),
        (14, False, True, ""),
    ]
    assert found[1].danger_open
    assert found[1].says


def test_a_danger_in_recall_is_put_right_by_a_later_right_answer() -> None:
    """It stays open until then, also when the lesson was right long before."""
    lines = [*chained([answer(DANGER)], LESSON), *chained([recall(bad=True), recall(turn=2)], LATER)]
    found = recalled_of([mark_line(read_line(x.encode())) for x in lines])
    assert [(r.critical, r.put_right) for r in found] == [(True, True), (False, False)]


def test_own_words_get_no_mark_and_only_recall_has_them() -> None:
    """A reason in own words has no verdict; a line of a lesson that calls its answer so is marked as ever."""
    reason = chained([recall(how=OWN_WORDS, answer="so that it holds")], LATER)[0]
    lesson = chained([answer(DANGER, how=OWN_WORDS)], LESSON)[0]
    first, second = (mark_line(read_line(x.encode())) for x in (reason, lesson))
    assert (first.status, first.verdict) == ("own words", None)
    assert second.status == "marked"
    assert second.verdict is not None


@settings(max_examples=30, deadline=None)
@given(st.lists(st.sampled_from(["right", "danger", "words"]), max_size=8), st.booleans())
def test_recall_lines_are_all_read_and_none_counts(kinds: list[str], first_wrong: bool) -> None:
    """Whatever lies in recall, each answer is there once and a danger is open exactly where no right one follows."""
    given = [
        recall(k == "danger", turn=n + 1, **({"how": OWN_WORDS} if k == "words" else {})) for n, k in enumerate(kinds)
    ]
    lines = chained(wrong() if first_wrong else right(), LESSON) + chained(given, LATER)
    found = recalled_of([mark_line(msgspec.structs.replace(read_line(x.encode()))) for x in lines])
    answers = [k for k in kinds if k != "words"]
    assert [r.critical for r in found] == [k == "danger" for k in answers]
    expected = [k == "danger" and "right" not in answers[n + 1 :] for n, k in enumerate(answers)]
    assert [r.danger_open for r in found] == expected


def test_a_line_of_a_lesson_renamed_to_recall_is_flagged(tmp_path: Path) -> None:
    """A dangerous answer made into one of recall, with its chain made anew, is not the question that recall asks: a person looks."""
    room = Room(tmp_path)
    moved = [a | {"sitting": RECALL, "how": "recall"} for a in wrong() if a["exercise"] == DANGER]
    room.zip("lesson", chained([a for a in wrong() if a["exercise"] != DANGER], LESSON), chained(moved, LATER))
    found = room.marked(due=None)
    assert "question changed" in " ".join(found.flags)
