"""A question that changes while a learner is on it: the turn keeps what was asked, and what was put right is said."""

from collections.abc import Callable
from datetime import date
from html import unescape
from pathlib import Path

import pytest

from bitepoint.bank.corrections import Correction, Withdrawal
from bitepoint.bank.registry import Exercise, Maker
from bitepoint.errors import NotUnderstood
from bitepoint.logbook import Identity
from bitepoint.logbook.identity import practice_learner, write_identity
from bitepoint.page import asking, exercise_session, output, summing_up
from bitepoint.page.cards import card_html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.questions.draw import Draw
from bitepoint.questions.number import Number, percent
from bitepoint.questions.question import Mistake


def asks(lever_mm: int, step: str = "Lever first.") -> Callable[[Draw], Number]:
    """Return the function of a revision that asks for this lever."""

    def make(draw: Draw) -> Number:
        return Number(
            ask=f"How long is the lever of {lever_mm} mm?",
            why="It stands there.",
            source="derived",
            answer=float(lever_mm),
            unit="mm",
            within=percent(1),
            mistakes=(Mistake(lever_mm / 2, "halves it", "Not half."),),
            step=step,
        )

    return make


def exercise(*levers: int, step: str = "Lever first.") -> Exercise:
    """Return an exercise whose revisions ask for these levers, the last one now."""
    makers = {n: Maker(make=asks(lever, step)) for n, lever in enumerate(levers, start=1)}
    return Exercise(
        id="torque.lever", lesson="torque", title="Lever", outcome="Reads", minutes=1, revision=len(levers),
        beyond=False, makers=makers,
    )  # fmt: skip


def session(folder: Path, *levers: int, step: str = "Lever first.") -> ExerciseSession:
    """Return the exercise as a learner opens it in this folder."""
    who = Identity(learner="L1", class_word="oak", folder=folder)
    write_identity(who, folder)
    return ExerciseSession(exercise(*levers, step=step), who)


@pytest.fixture
def corrected(monkeypatch: pytest.MonkeyPatch) -> Callable[[bool], None]:
    """Let the file of corrections say that revision 2 put something right."""

    def say(dangerous: bool) -> None:
        found = Correction(
            exercise="torque.lever",
            revision=2,
            date=date(2027, 2, 1),
            what="The lever was too long.",
            dangerous=dangerous,
        )
        monkeypatch.setattr(
            exercise_session, "correction_since", lambda _, revision: found if revision < found.revision else None
        )

    return say


def test_a_bettered_sentence_takes_no_answer_away(tmp_path: Path) -> None:
    """The next version says a step in other words: the right answer is still there and still right."""
    one = session(tmp_path, 410)
    one.answer("410 mm", how="form")
    assert session(tmp_path, 410, step="The lever comes first.").right


def test_a_turn_that_was_begun_keeps_its_revision(tmp_path: Path) -> None:
    """A new revision arrives in the middle of a turn: the old question stays, its answers are marked by it."""
    one = session(tmp_path, 410)
    one.answer("205 mm", how="form")
    later = session(tmp_path, 410, 380)
    assert "410 mm" in later.question().ask
    assert ["halves it"] == [a.verdict.mistake for a in later.answers()]
    later.answer("410 mm", how="form")
    assert later.right
    later.again()
    assert "380 mm" in later.question().ask
    assert [1, 1] == [r.revision for r in later._records()]


def test_a_turn_that_was_not_begun_takes_the_new_revision(tmp_path: Path) -> None:
    """Nobody is asked an old question anew."""
    assert "380 mm" in session(tmp_path, 410, 380).question().ask


def test_a_corrected_question_offers_the_new_one(tmp_path: Path, corrected: Callable[[bool], None]) -> None:
    """What was put right is known to the card; the answer stays as marked and the next turn is open to take."""
    session(tmp_path, 410).answer("205 mm", how="form")
    corrected(False)
    later = session(tmp_path, 410, 380)
    assert later.correction is not None
    assert (later.closed, later.may_go_on) == (False, True)
    later.answer("410 mm", how="form")
    assert later.right
    later.again()
    assert later.correction is None


def test_a_dangerous_question_takes_no_more_answers(tmp_path: Path, corrected: Callable[[bool], None]) -> None:
    """Its turn closes, its solution is not shown as right any more, and the corrected one is offered by name."""
    session(tmp_path, 410).answer("205 mm", how="form")
    corrected(True)
    later = session(tmp_path, 410, 380)
    assert (later.closed, later.may_go_on) == (True, True)
    tone, word, text = later.feedback()
    assert ("note", "Kept as asked.") == (tone, word)
    assert "410" not in text
    with pytest.raises(NotUnderstood, match=r"corrected on 2027-02-01.*too long.*ask\('torque.lever', turn=2\)"):
        later.answer("410 mm", how="form")
    later.again()
    later.answer("380 mm", how="form")
    assert later.right


def test_a_withdrawn_question_says_so(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The reason is known to the card."""
    gone = Withdrawal(exercise="torque.lever", revisions=(1,), date=date(2027, 2, 1), why="Two answers are right.")
    monkeypatch.setattr(exercise_session, "withdrawal_of", lambda _, revision: gone if revision == 1 else None)
    assert gone == session(tmp_path, 410).withdrawal
    assert session(tmp_path, 410, 380).withdrawal is None


def test_an_answer_to_a_question_that_nobody_draws_any_more_is_told(tmp_path: Path) -> None:
    """Facts changed without a new revision: the line stays, counts for nothing here, and its number is known."""
    session(tmp_path, 410).answer("410 mm", how="form")
    later = session(tmp_path, 400)
    assert (0, 1) == (len(later.answers()), later.of_other_questions)


def test_the_card_of_a_dangerous_question_names_the_way_to_the_corrected_one(
    tmp_path: Path, corrected: Callable[[bool], None]
) -> None:
    """Where there is no form, the line to type opens the corrected question, not the one that takes no answer."""
    session(tmp_path, 410).answer("205 mm", how="form")
    corrected(True)
    later = session(tmp_path, 410, 380)
    page = unescape(str(card_html(later)))
    assert "ask('torque.lever', turn=2)" in page
    assert "mm')" not in page
    assert page.count("#d55e00") >= 2, "the warning and the edge are those of what must not be done"


def test_a_withdrawn_question_is_not_asked_in_new_figures(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Who answered it need not answer it again, is told so, and gets no further turn of it."""
    gone = Withdrawal(exercise="torque.lever", revisions=(1,), date=date(2027, 2, 1), why="Nobody can read it.")
    one = session(tmp_path, 410)
    one.answer("410 mm", how="form")
    monkeypatch.setattr(exercise_session, "withdrawal_of", lambda _, revision: gone if revision == 1 else None)
    assert not session(tmp_path, 410).may_go_on
    assert "You need not answer it any more." in str(card_html(session(tmp_path, 410)))
    assert session(tmp_path, 410, 380).may_go_on
    assert "withdrawn" == summing_up.state_of(session(tmp_path, 410))
    assert [] == session(tmp_path, 410).dangers_open
    assert "right" == summing_up.state_of(session(tmp_path, 410, 380))


def test_the_summary_does_not_ask_for_what_is_withdrawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """A withdrawn question that a learner never answered is not to do, and is not counted."""
    gone = Withdrawal(exercise="start.choice", revisions=(1,), date=date(2027, 2, 1), why="Nobody can read it.")
    monkeypatch.setattr(output, "who_asks", practice_learner)
    shown: list[str] = []
    monkeypatch.setattr(output, "show_static", lambda card: shown.append(repr(card)))
    summing_up.summary("start")
    monkeypatch.setattr(asking, "withdrawal_of", lambda id, _: gone if id == gone.exercise else None)
    summing_up.summary("start")
    before, after = (int(text.split()[2]) for text in shown)
    assert before - 1 == after
