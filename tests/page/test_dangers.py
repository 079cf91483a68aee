"""A dangerous answer stays in sight until it is put right: on the card, in the bar, on the card at the end, and in marking alike."""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bitepoint.bank import exercise_named
from bitepoint.errors import NotUnderstood
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import write_identity
from bitepoint.marking.line_marking import MarkedLine
from bitepoint.marking.rows import rows_of
from bitepoint.page import output, progress, summing_up
from bitepoint.page.cards import card_html
from bitepoint.page.exercise_session import ExerciseSession

LEFT_OUT = [2, 4, 1, 3, 2]
"""Of five bolts, one is never pulled."""
DRILL = "start.tightening"


@pytest.fixture
def workbook(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A learner's workbook, in which the page was started."""
    write_identity(Identity(learner="L07-K", class_word="oak"), tmp_path)
    monkeypatch.setattr(output, "_STARTED", tmp_path)
    monkeypatch.setattr(summing_up, "_shown", {})
    monkeypatch.chdir(tmp_path)
    return tmp_path


def opened(exercise: str = DRILL) -> ExerciseSession:
    """Return the exercise as a page that was just opened has it."""
    return ExerciseSession(exercise_named(exercise), output.who_asks())


def of_kind(session: ExerciseSession, *, critical: bool) -> object:
    """Return a wrong answer to the open turn that is dangerous, or merely wrong."""
    question = session.question()
    return next(a for a, _ in question.known_mistakes() if question.mark(a).critical == critical)


def end_card(session: ExerciseSession) -> str:
    return str(summing_up._card([session], session.identity, session.exercise.lesson))


def test_a_wrong_answer_puts_no_danger_right(workbook: Path) -> None:
    """After a merely wrong answer the danger stands in bar, end card and question card, also opened anew; a right one ends it."""
    session = opened()
    session.answer(of_kind(session, critical=True), how="form")
    session.answer(of_kind(session, critical=False), how="form")
    (danger,) = session.dangers_open
    for again in (session, opened()):
        assert progress.standing("start").fields["critical"] == 1
        assert "⚠ Dangerous" in end_card(again)
        assert danger in end_card(again)
        assert f"⚠ Dangerous, and still to be put right: {danger}." in str(card_html(again))
    session.answer(session.question().right_answer(), how="form")
    assert progress.standing("start").fields["critical"] == 0
    assert "Dangerous" not in end_card(session) + str(card_html(session))


def test_a_new_turn_still_says_it(workbook: Path) -> None:
    """New figures do not put a danger right either: the unanswered question says what is still open."""
    session = opened()
    session.answer(of_kind(session, critical=True), how="form")
    session.again()
    assert "Dangerous, and still to be put right" in str(card_html(session))


def test_a_danger_after_a_right_answer_is_not_done(workbook: Path) -> None:
    """Who was right once and dangerous later has it to do again, in bar and end card."""
    session = opened()
    session.answer(session.question().right_answer(), how="form")
    session.again()
    session.answer(of_kind(session, critical=True), how="form")
    told = progress.standing("start").fields
    assert (0, 1) == (told["done"], told["critical"])
    assert DRILL in told["to_do"]


def test_a_danger_looks_like_no_ordinary_miss(workbook: Path) -> None:
    """It has a tone, a word and a sign of its own, on the card and under the control."""
    session = opened()
    session.answer(of_kind(session, critical=False), how="form")
    assert session.feedback()[:2] == ("not yet", "Not yet.")
    session.answer(of_kind(session, critical=True), how="form")
    assert session.feedback()[:2] == ("danger", "Dangerous:")
    assert "<b>⚠ Dangerous:</b>" in str(card_html(session))


def test_the_card_at_the_end_names_every_open_danger(workbook: Path) -> None:
    """Two dangers in one answer, and one more in the next: all are named, in the order in which they were made."""
    session = opened("star.flywheel-job")
    question = session.question()
    key = question.stages[0].key
    session.answer(f"{key} with impact: 1 2", how="form")
    names = session.dangers_open
    assert {"bolt missed", "impact tool", "stage missed"} <= set(names)
    assert "; ".join(names) in end_card(session)


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.lists(st.sampled_from(["danger", "wrong", "right", "again"]), max_size=9))
def test_page_and_marking_agree(steps: list[str]) -> None:
    """Whatever is answered in whatever order: the page shows a danger exactly when marking has one open."""
    session = ExerciseSession(exercise_named(DRILL), Identity(learner="L07-K", class_word="oak"))
    for step in steps:
        if step == "again":
            session.again()
            continue
        right = session.question().right_answer()
        answer = right if step == "right" else of_kind(session, critical=step == "danger")
        try:
            session.answer(answer, how="form")
        except NotUnderstood:
            continue
    lines = [
        MarkedLine(record=m.record, status="marked", verdict=m.verdict, tries_allowed=m.tries_allowed)
        for m in session.answers()
    ]
    rows = rows_of("L07-K", lines, "oak")
    assert bool(session.dangers_open) == any(row.critical_open for row in rows)
    assert bool(session.dangers_open) == (summing_up.state_of(session) == summing_up.DANGEROUS)
