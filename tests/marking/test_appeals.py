"""What is printed for an appeal: question, answers, rule and key, mark and reason, and how it was decided."""

from html import unescape
from pathlib import Path
from typing import Any

import pytest
from test_appeal_cases import IN, ONE, WORD, Room, answer, chained, critical, right, wrong

from bitepoint.bank import exercises
from bitepoint.cli import main
from bitepoint.marking.as_asked import THESE_WORDS
from bitepoint.marking.registry.entries import Entry
from bitepoint.marking.scoring import _RULES, rule_of
from bitepoint.questions.choice import Several
from bitepoint.questions.kinds import KINDS
from bitepoint.questions.number import Number

HOME = "2026-06-20T16:00:00+00:00"


@pytest.fixture
def room(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Room:
    """Return an empty room in which the commands are given."""
    monkeypatch.chdir(tmp_path)
    return Room(tmp_path)


def printed(room: Room, *options: str) -> str:
    """Return the page for an appeal."""
    assert 0 == main(["as-asked", "hand-ins", "--learner", ONE, *options, "--out", "appeal.html"])
    return unescape((room.folder / "appeal.html").read_text("utf-8"))


def test_one_page_has_all_that_an_appeal_needs(room: Room) -> None:
    """Question with its figures, what was offered, answer, rule, key, mark and reason; the outcome with who and when."""
    bad = critical()[0]
    room.zip(ONE, chained(wrong(WORD), IN), chained([answer(bad, bad=True, device="bbbbbbbb")], HOME))
    room.sits()
    said: dict[str, Any] = {"kind": "appeal", "learner": ONE, "exercise": bad, "date": "2026-07-02"}
    room.book.add(Entry(**said, by="A. Assessor", text="read the figure otherwise"))
    room.book.add(Entry(**said, by="D. Head", text="the figure was plain", outcome="not upheld", decided="2026-07-05"))
    page = printed(room, "--exercise", bad)
    question = exercises()[bad].draw(class_word="oak-2026", learner=ONE, sitting=WORD)
    given = [a for a, _ in question.known_mistakes()][critical()[1]]

    for part in question.ask.split("\n\n"):
        assert part in page
    for cell in (c for row in question.table for c in row):
        assert cell in page
    assert question.mark(given).understood in page
    assert question.mark(given).reason in page
    assert question.mark(question.right_answer()).understood in page
    assert rule_of(question) in page
    assert f"Sitting {WORD}, supervised by A. Assessor: mark <strong>0</strong>, not right yet" in page
    assert "2 July 2026, D. Head" in page
    assert "Not upheld, decided 5 July 2026: “the figure was plain”" in page
    assert "(a decision of this person, not of the program)" in page
    assert "In the words that this bank has, too." in page
    assert 1 == page.count("<section")
    assert 2 == page.count("<b>counts</b>")


def test_each_exercise_begins_a_page_and_what_counts_is_first(room: Room) -> None:
    """All exercises when none is named; of several turns the one that counts stands first."""
    bad = critical()[0]
    room.zip(ONE, chained([answer(bad, bad=True), *right()], HOME))
    page = printed(room)

    assert page.count("<section") == 1 + page.count('<section style="break-before:page">')
    assert page.count("<section") == len(right())
    assert "None is recorded." in page


def test_an_override_stands_beside_the_computed_mark(room: Room) -> None:
    """With who, why and that it is a person's; taken back, it is gone."""
    bad = critical()[0]
    room.zip(ONE, chained([answer(bad, bad=True)], HOME))
    room.book.add(Entry(kind="override", learner=ONE, exercise=bad, score=1.0, by="B. Beside", text="seen"))
    page = printed(room, "--exercise", bad)

    assert "Practice: mark <strong>1</strong>, right later." in page
    assert "Override: 1</strong> instead of the computed 0, by B. Beside" in page
    room.book.add(Entry(kind="withdraw override", learner=ONE, exercise=bad, by="B. Beside", text="another one"))
    assert "Practice: mark <strong>0</strong>" in printed(room, "--exercise", bad)


def test_words_that_cannot_be_had_are_told_and_the_same_facts_stand_below(room: Room) -> None:
    """The release is not kept: said, with this bank's words under it, rule and key; other facts, and nothing stands there."""
    bad = critical()[0]
    room.zip(ONE, chained([answer(bad, bad=True, words="0" * 16, bank="0" * 12)], HOME))
    page = printed(room)
    assert "The words cannot be printed: its release, bank 000000000000, is not kept here" in page
    assert THESE_WORDS in page
    assert exercises()[bad].draw(class_word="oak-2026", learner=ONE).ask.split("\n\n")[0] in page
    assert "Right answer" in page

    room.zip(ONE, chained([answer(bad, bad=True, facts="0" * 16, words="0" * 16, bank="0" * 12)], HOME))
    page = printed(room)
    assert "no mark: the facts of the question have changed since" in page
    assert "Right answer" not in page


def test_every_kind_of_question_says_how_it_is_marked() -> None:
    """A new kind without a rule is found here."""
    assert {kind.__name__ for kind in KINDS} == {kind.__name__ for kind in _RULES}


def test_the_rules_say_what_is_done() -> None:
    """A figure just inside the tolerance is 1, just outside 0; of several, a wrong pick takes one away."""
    seen = set()
    for exercise in exercises().values():
        question = exercise.draw(class_word="oak-2026", learner=ONE)
        if isinstance(question, Number) and question.unit and "number" not in seen:
            seen.add("number")
            width = float(rule_of(question).split()[1])
            inside, outside = (question.answer + share * width for share in (0.97, 1.06))
            assert [1.0, 0.0] == [question.mark(f"{x:.6g} {question.unit}").score for x in (inside, outside)]
        if isinstance(question, Several) and len(question.right_answer()) > 1 and "several" not in seen:
            seen.add("several")
            every = list(question.right_answer())
            spare = next(k for k in "abcdefgh" if k not in every)
            assert question.mark([*every, spare]).score == pytest.approx((len(every) - 1) / len(every))
    assert {"number", "several"} == seen
