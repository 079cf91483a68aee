"""One question of recall: asked once, told at once, a line of a chain of its own."""

import json
import zipfile
from datetime import date
from pathlib import Path

import pytest

from bitepoint.bank import exercise_named
from bitepoint.bank.corrections import Correction
from bitepoint.errors import NotRecorded, NotUnderstood
from bitepoint.logbook import Identity
from bitepoint.logbook.handin import make_hand_in
from bitepoint.logbook.record import RECALL
from bitepoint.page import begun_rows, exercise_session
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.recall.recall_session import MOST_LETTERS, RecallSession

from .past_lines import OPTIONS, decide, kept, learn, workbook

ID = "safe.dust"


@pytest.fixture
def who(tmp_path: Path) -> Identity:
    """A learner who learned it five weeks ago."""
    found = workbook(tmp_path / "work")
    learn(found, ID)
    return found


def again(who: Identity, id: str = ID, turn: int = 1) -> RecallSession:
    return RecallSession(exercise_named(id), who, turn)


def folder_of(who: Identity) -> Path:
    assert who.folder is not None
    return who.folder


def test_an_answer_is_a_line_of_recalls_own_chain(who: Identity) -> None:
    """Its file, word and `how`; marked at once; the lesson's turn is as it was."""
    decide(again(who))
    [line] = kept(who)
    assert (line.sitting, line.how, line.turn, line.score, line.n) == (RECALL, "recall", 1, 1.0, 1)
    assert [p.name.partition(".")[0] for p in sorted((folder_of(who) / "logbook").glob("*.jsonl"))] == [
        "keep-it",
        "safe",
    ]
    lesson = ExerciseSession(exercise_named(ID), who)
    assert (len(lesson.lines), lesson.turn) == (1, 1)


def test_it_is_asked_once(who: Identity) -> None:
    """A second answer is refused, in this form and in another one that was open meanwhile; nothing is recorded."""
    one, other = again(who), again(who)
    decide(one, right=False)
    for session in (one, other):
        with pytest.raises(NotUnderstood, match="answered already"):
            decide(session)
    assert len(kept(who)) == 1
    assert other.answered
    assert not other.may_go_on


def test_a_miss_says_what_was_wrong_and_the_solution_at_once(who: Identity) -> None:
    """The mistake's own words, then the worked solution; a dangerous one says so first."""
    session = again(who)
    question = session.question()
    danger = next(a for a, _ in question.known_mistakes() if question.mark(a).critical)
    session.answer(danger, how="recall")
    tone, word, text = session.feedback()
    assert (tone, word) == ("danger", "Dangerous:")
    assert text.startswith("On a car this could hurt someone or let a part come loose.")
    for said in (question.mark(danger).feedback, f"The solution: {question.solution or question.why}"):
        assert said in text
    assert session.dangers_open


def test_what_cannot_be_read_is_no_answer(who: Identity) -> None:
    """One sentence; the question stays open."""
    session = again(who)
    for answer in ("?", "a" * 5000):
        with pytest.raises(NotUnderstood):
            session.answer(answer, how="recall")
    assert (kept(who), session.answered) == ([], False)


def test_a_workbook_that_is_gone_takes_no_answer(who: Identity) -> None:
    """As in a lesson: refused with what to do, and no ghost of the folder."""
    session = again(who)
    folder_of(who).rename(folder_of(who).with_name("elsewhere"))
    with pytest.raises(NotRecorded, match="moved, renamed or deleted"):
        decide(session)
    assert not folder_of(who).exists()


def test_lines_of_recall_that_are_gone_are_said_once(who: Identity) -> None:
    """A new chain is never begun without a word."""
    decide(again(who))
    session = again(who, OPTIONS[0])
    for path in (folder_of(who) / "logbook").glob("keep-it.*"):
        path.unlink()
    with pytest.raises(NotRecorded, match="1 line of this lesson is gone"):
        decide(session)
    assert kept(who) == []


def test_a_question_corrected_for_a_danger_takes_no_answer(who: Identity, monkeypatch: pytest.MonkeyPatch) -> None:
    """As in a lesson."""
    session = again(who)
    danger = Correction(exercise=ID, revision=2, date=date(2026, 12, 1), what="It was wrong.", dangerous=True)
    monkeypatch.setattr(exercise_session, "correction_since", lambda *_: danger)
    with pytest.raises(NotUnderstood, match="could hurt someone"):
        decide(session)


def test_the_reason_waits_for_the_learners_own(who: Identity) -> None:
    """“Right.” alone until one is written or passed; both then stand on the card."""
    session = again(who)
    decide(session)
    why = session.question().why
    assert why in session.feedback()[2]
    session.reason_waits = True
    assert session.feedback() == ("right", "Right.", "")
    session.keep_reason("  Water binds\n the dust.  ")
    assert session.own_words == "Water binds the dust."
    assert again(who).own_words == session.own_words


def test_own_words_are_a_line_without_a_score(who: Identity) -> None:
    """Same exercise, turn and sitting as the decision; nothing of them is marked."""
    session = again(who)
    decide(session)
    session.keep_reason("Water binds the dust.")
    decision, words = kept(who)
    assert (words.how, words.answer, words.score, words.mistake) == ("own words", "Water binds the dust.", None, None)
    assert [(r.exercise, r.turn, r.sitting, r.facts) for r in (decision, words)] == [
        (ID, 1, RECALL, decision.facts)
    ] * 2
    assert (words.in_own_words, words.n) == (True, 2)
    assert len(session.answers()) == 1


@pytest.mark.parametrize("text", ["", " \n ", "a" * (MOST_LETTERS + 1)])
def test_no_words_or_too_many_are_asked_back(who: Identity, text: str) -> None:
    """Nothing is recorded."""
    session = again(who)
    decide(session)
    with pytest.raises(NotUnderstood):
        session.keep_reason(text)
    assert len(kept(who)) == 1


def test_a_reason_is_kept_once_and_only_behind_a_decision(who: Identity) -> None:
    """Not before the answer, and not twice from two pages."""
    one, other = again(who), again(who)
    with pytest.raises(NotUnderstood):
        one.keep_reason("Too early.")
    decide(one)
    one.keep_reason("Water binds the dust.")
    with pytest.raises(NotUnderstood, match="already"):
        other.keep_reason("Once more.")
    assert len(kept(who)) == 2


def test_what_is_begun_in_recall_leaves_the_lessons_draft_alone(who: Identity) -> None:
    """The same exercise may lie begun in its lesson."""
    id = "safe.dead-car"
    lesson, recall = ExerciseSession(exercise_named(id), who), again(who, id)
    begun_rows.keep(lesson, {"row": ["a"]})
    begun_rows.keep(recall, {"row": ["b"]})
    assert (begun_rows.begun(lesson), begun_rows.begun(recall)) == ({"row": ["a"]}, {"row": ["b"]})


def test_a_hand_in_carries_the_chain_and_not_the_page(who: Identity) -> None:
    """The logbook goes whole, with decisions and own words; the notebook of recall stays."""
    session = again(who)
    decide(session)
    session.keep_reason("Water binds the dust.")
    for name in ("14-keep-it.ipynb", "01-how-a-clutch-carries-torque.ipynb"):
        (folder_of(who) / name).write_text("{}", encoding="utf-8")
    packed = zipfile.ZipFile(make_hand_in(folder_of(who)))
    [chain] = [name for name in packed.namelist() if name.startswith("logbook/keep-it.")]
    assert [json.loads(line)["how"] for line in packed.read(chain).splitlines()] == ["recall", "own words"]
    assert [name for name in packed.namelist() if name.endswith(".ipynb")] == ["01-how-a-clutch-carries-torque.ipynb"]
