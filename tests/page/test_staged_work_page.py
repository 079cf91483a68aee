"""The whole job on the page: what the control is told stage by stage, the card, rows begun, and the marks of it."""

import csv
import json
from itertools import count
from pathlib import Path
from typing import Any

import pytest

from bitepoint import cli
from bitepoint.bank import exercise_named
from bitepoint.bank.registry import Exercise, Maker
from bitepoint.logbook import Identity, read_folder
from bitepoint.logbook.handin import make_hand_in
from bitepoint.logbook.identity import write_identity
from bitepoint.page import answer_control, begun_rows
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.cards import card_html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import view_of
from bitepoint.questions.bench import WorkCard
from bitepoint.questions.order import Before
from bitepoint.questions.staged_work import StagedWork, WorkPart

JOB = StagedWork(
    ask="Do it.",
    why="WHY",
    source="invented",
    parts=(
        WorkPart("Remove", (WorkCard("Out"), WorkCard("Oil", False, "SLIPS", True), WorkCard("Jack")), ("Jack", "Out")),
        WorkPart("Check", (WorkCard("Test"), WorkCard("Lock", False, "UNDOES")), ("Test",)),
    ),
    rules=(Before("Jack", "Out", "DROPS", "safety", critical=True),),
)
SECRETS = ("WHY", "SLIPS", "UNDOES", "DROPS", "belongs", "right", "example", "rules")


@pytest.fixture(autouse=True)
def no_row_begun() -> None:
    """Every test finds all cards on their benches."""
    begun_rows.forget()


def control(feedback: Any = "at once") -> Any:
    makers = {1: Maker(make=lambda draw: JOB)}
    exercise = Exercise(
        id="work.one", lesson="work", title="One", outcome="Works", minutes=1, revision=1, beyond=False, makers=makers
    )
    identity = Identity(learner="practice", class_word="practice", feedback=feedback)
    return AnswerControl(ExerciseSession(exercise, identity), lambda card: None)


def tell(one: Any, **message: object) -> None:
    one._heard(one.widget, message, [])


def test_the_control_is_told_each_bench_by_letter() -> None:
    """The benches in order, how many cards belong, nothing about which."""
    assert view_of(JOB).spec(JOB, "One", True) == {
        "title": "One",
        "benches": [
            {
                "title": "Remove",
                "cards": [{"key": k, "text": t} for k, t in (("a", "Out"), ("b", "Oil"), ("c", "Jack"))],
                "own": 2,
                "routine": "",
            },
            {
                "title": "Check",
                "cards": [{"key": "a", "text": "Test"}, {"key": "b", "text": "Lock"}],
                "own": 1,
                "routine": "",
            },
        ],
        "at_once": True,
        "frame": "",
    }


def test_neither_control_nor_card_holds_an_answer() -> None:
    """No words of a verdict, no mark of what belongs."""
    one = control()
    state = {k: v for k, v in one.widget.get_state().items() if k in ("spec", "told", "picked", "said")}
    assert [word for word in SECRETS if word in str(state)] == []
    assert [word for word in SECRETS[:4] if word in card_html(one.session)] == []


def test_the_stage_is_finished_when_its_own_cards_are_done() -> None:
    """Then, and only then, the control hears why the others do not belong; a refused card is back on the bench."""
    one = control()
    tell(one, do="pick", picked=["a", "c"])
    early = "“Out” comes too early: first “Jack”, because DROPS"
    assert one.widget.told == {
        "picks": [
            {"letter": "a", "safe": False, "says": early, "critical": True},
            {"letter": "c", "safe": True, "says": ""},
        ],
        "finished": False,
        "strangers": [],
    }
    tell(one, do="pick", picked=["a", "c", "a"])
    assert one.widget.told["finished"]
    assert one.widget.told["strangers"] == [{"letter": "b", "safe": False, "says": "SLIPS", "critical": True}]
    tell(one, do="pick", picked=["a", "c", "a", "/"])
    assert [p["letter"] for p in one.widget.told["picks"]] == ["a", "c", "a", "/"]
    assert one.widget.told["finished"] is False
    tell(one, do="pick", picked=[])
    assert one.widget.told == {"picks": []}
    assert one.session.lines == []


def test_the_row_is_the_answer() -> None:
    """What was picked stage by stage is recorded as drilled; without a fault it is right."""
    one = control()
    tell(one, do="pick", picked=["c", "a", "/", "a"])
    tell(one, do="answer", answer=["c", "a", "/", "a"])
    (line,) = one.session.lines
    assert (line.record.answer, line.record.how, line.record.score) == ("c a / a", "drill", 1.0)
    assert one.widget.said["text"].startswith("Right. WHY")


def test_a_class_told_later_hears_nothing_at_any_stage() -> None:
    """Cards stay where they were put; going on is the learner's own choice; the answer is only recorded."""
    one = control("after hand-in")
    for row in (["b"], ["b", "a", "c"], ["b", "a", "c", "/"], ["b", "a", "c", "/", "a"]):
        tell(one, do="pick", picked=row)
        assert one.widget.told == {}
    tell(one, do="answer", answer=["b", "a", "c", "/", "a"])
    assert one.widget.said["text"] == "Recorded. The feedback comes after the hand-in."
    assert [word for word in SECRETS[:4] if word in str(one.widget.get_state())] == []
    assert [line.record.answer for line in one.session.lines] == ["b a c / a"]


@pytest.mark.parametrize("feedback", ["at once", "after hand-in"])
def test_a_row_begun_lies_there_when_the_cell_runs_again(feedback: str) -> None:
    """The same kernel, a new control: the cards lie where they lay, and what was said of them is said again."""
    one = control(feedback)
    one.widget._msg_callbacks(one.widget, {"do": "pick", "picked": ["c", "a", "/"]}, [])
    other = control(feedback)
    assert other.widget.picked == ["c", "a", "/"]
    assert other.widget.told == one.widget.told
    other.session.again()
    assert begun_rows.begun(other.session) is None


def test_new_figures_begin_with_empty_rows() -> None:
    """Nothing of the old turn stays in the control."""
    one = control()
    tell(one, do="pick", picked=["c", "a", "/", "a"])
    tell(one, do="answer", answer=["c", "a", "/", "a"])
    tell(one, do="again")
    assert (one.widget.picked, one.widget.told, one.session.turn) == ([], {}, 2)


@pytest.mark.parametrize("row", [None, 7, ["z"], ["/", "/", "/"], [["a"]], ["/"]])
def test_an_odd_row_is_answered_in_words(row: object) -> None:
    """Nothing raises in a thread where nobody would see it."""
    one = control()
    tell(one, do="pick", picked=row)
    assert "Traceback" not in str(one.widget.said)
    assert one.session.lines == []


def test_the_card_shows_each_bench_and_how_to_type() -> None:
    """All benches folded away, and an example with / between the stages."""
    one = control()
    html = card_html(one.session)
    assert "<summary>1. Remove, 3 cards</summary>" in html
    assert "<b>c</b>&nbsp; Jack" in html
    assert "a b / a b / …" in html
    assert answer_control.take_answer(one.session, "c a / a", "typed") == ""
    assert one.session.right


JOB_ORDER = exercise_named("job.order")


def of_vehicle(letter: str, folder: Path, **changes: object) -> ExerciseSession:
    """Return the session of the first learner of this class who has this vehicle."""
    for n in count(1):
        fields = {"learner": f"learner-{n}", "class_word": "amber", "folder": folder, **changes}
        session = ExerciseSession(JOB_ORDER, Identity(**fields))  # type: ignore[arg-type]
        if session.question().vehicle == letter:
            return session
    raise AssertionError


def worked(session: ExerciseSession, rows: list[list[str]]) -> Any:
    """Work the drill pick by pick as the page does, then hand the row over for checking."""
    one, row = AnswerControl(session, lambda card: None), list[str]()
    for at, letters in enumerate(rows):
        for letter in [*(["/"] if at else []), *letters]:
            row.append(letter)
            tell(one, do="pick", picked=list(row))
    tell(one, do="answer", answer=row)
    return one


def rows_of(session: ExerciseSession) -> list[list[str]]:
    return [row.split() for row in str(session.question().right_answer()).split("/")]


def hurt(session: ExerciseSession) -> list[list[str]]:
    """Return the rows of one who takes the gearbox mount off first, is refused, and then does everything right."""
    rows = rows_of(session)
    question = session.question()
    assert isinstance(question, StagedWork)
    remove = next(at for at, part in enumerate(question.parts) if part.title == "Gearbox out")
    cards = [card.text for card in question.parts[remove].cards]
    rows[remove].insert(0, "abcdefghijkl"[cards.index("Unbolt the gearbox mount")])
    return rows


@pytest.mark.parametrize("feedback", ["at once", "after hand-in"])
@pytest.mark.parametrize("work", [rows_of, hurt])
def test_the_logbook_of_a_drill_is_marked_as_the_page_marked_it(tmp_path: Path, feedback: str, work: Any) -> None:
    """Vehicle B to the end, safe or breaking a safety rule: hand-in, marking, the same score, mistake and critical."""
    book = tmp_path / "work"
    book.mkdir()
    session = of_vehicle("B", book, feedback=feedback)
    write_identity(session.identity, book)
    one = worked(session, work(session))
    verdict = session.answers()[-1].verdict
    assert (verdict.score, verdict.critical) == ((1.0, False) if work is rows_of else (0.0, True))
    if work is hurt and feedback == "at once":
        assert "could hurt someone" in one.widget.said["text"]
        assert "without a support the engine drops" in one.widget.said["text"]
    (line,) = [json.loads(found.text) for lines in read_folder(book).values() for found in lines]
    assert ("score" in line) == (feedback == "at once")

    out = tmp_path / "marks"
    assert cli.main(["mark", str(make_hand_in(book)), "--out", str(out)]) in (0, 1)
    with open(out / "marks.csv", encoding="utf-8", newline="") as file:
        (row,) = csv.DictReader(file)
    assert (row["exercise"], float(row["last_score"])) == ("job.order", verdict.score)
    assert row["critical_open"] == ("yes" if verdict.critical else "no")
    assert row["mistake"] == (verdict.mistake or "")
    assert row["reason"] == verdict.reason
