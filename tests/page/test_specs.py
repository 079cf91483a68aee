"""What a control is told: all a learner may see, nothing about what is right."""

import json
from typing import Any

import pytest

from bitepoint import pictures
from bitepoint.bank import exercises_of
from bitepoint.bank.registry import Exercise, Maker
from bitepoint.logbook import Identity
from bitepoint.page import answer_control, begun_rows
from bitepoint.page.answer_control import AnswerControl
from bitepoint.page.cards import card_html
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import view_of
from bitepoint.pictures.registry import Drawing, Shape
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect
from bitepoint.questions.order import Before
from bitepoint.questions.pulls import Stage
from bitepoint.questions.question import Picture, Question
from bitepoint.questions.region import Spot
from bitepoint.questions.spots import Spots
from bitepoint.questions.tightening import Tightening
from bitepoint.questions.work_order import WorkCard, WorkOrder, WorkStage

BENCH = WorkOrder(
    ask="Fit it.",
    why="WHY",
    source="invented",
    cards=(WorkCard("Centre"), WorkCard("Oil", False, "SLIPS", True), WorkCard("Clean")),
    rules=(Before("Clean", "Centre", "DIRT"),),
    example=("Clean", "Centre"),
    done=("Inspect",),
    stages=(WorkStage("Remove", "done"), WorkStage("Fit", "now")),
)
CASE = Enquiry(
    ask="It makes a noise.",
    why="WHY",
    source="invented",
    observations=(Observation("up", "Pedal up", "quiet"), Observation("down", "Pedal down", "HUM")),
    suspects=(
        Suspect("pilot", "pilot bearing", {"up": "quiet", "down": "HUM"}, True),
        Suspect("shaft", "input shaft", {"up": "quiet", "down": "ROAR"}, name="shaft", says="SAYS"),
    ),
    free=("up",),
)
PLACES = Spots(
    ask="Mark them.",
    why="WHY",
    source="invented",
    picture=Picture("bolt-ring", {}),
    spots=(Spot("1", "bolt 1", True), Spot("3", "bolt 3", name="three", says="SAYS")),
)
SECRETS = ("WHY", "SLIPS", "DIRT", "HUM", "ROAR", "SAYS", "belongs", "right", "example", "rules")


@pytest.fixture(autouse=True)
def no_row_begun() -> None:
    """Every test finds all cards on their benches."""
    begun_rows.forget()


def control(question: Question, feedback: str = "at once") -> Any:
    exercise = Exercise(
        id="work.one",
        lesson="work",
        title="One",
        outcome="Works",
        minutes=1,
        revision=1,
        beyond=False,
        makers={1: Maker(make=lambda draw: question)},
    )
    identity = Identity(learner="practice", class_word="practice", feedback=feedback)
    return AnswerControl(ExerciseSession(exercise, identity), lambda card: None)


def spec_of(question: Question, title: str = "t") -> dict[str, Any]:
    """Return what the control of a class is told that hears at each pick."""
    return view_of(question).spec(question, title, True)


def tell(one: Any, **message: object) -> None:
    one._heard(one.widget, message, [])


@pytest.mark.parametrize("question", [BENCH, CASE, PLACES], ids=lambda q: q.kind)
def test_neither_control_nor_card_holds_an_answer(question: Question) -> None:
    """No words of a verdict, no reading, no mark of what belongs."""
    one = control(question)
    state = {k: v for k, v in one.widget.get_state().items() if k in ("spec", "told", "picked", "said")}
    state["spec"] = {k: v for k, v in state["spec"].items() if k != "picture"}
    assert [word for word in SECRETS if word in str(state)] == []
    assert [word for word in SECRETS[:6] if word in card_html(one.session)] == []


def test_the_bench_is_told_its_cards_by_letter() -> None:
    """Cards in the drawn order, what is done, the parts of the job, whether it is told at once."""
    assert spec_of(BENCH, "One") == {
        "title": "One",
        "cards": [{"key": "a", "text": "Centre"}, {"key": "b", "text": "Oil"}, {"key": "c", "text": "Clean"}],
        "done": ["Inspect"],
        "stages": [{"title": "Remove", "state": "done"}, {"title": "Fit", "state": "now"}],
        "at_once": True,
        "frame": "",
    }


def test_spots_and_enquiry_are_forms() -> None:
    """Places with their shapes; what may be asked for without what it shows; the free observation with it."""
    assert [r["key"] for r in spec_of(PLACES)["picture"]["regions"]] == ["1", "3"]
    spec = spec_of(CASE)
    assert spec["options"] == [{"key": "down", "text": "Pedal down"}]
    assert spec["known"] == [{"text": "Pedal up", "shows": "quiet"}]
    assert spec["causes"] == [{"key": "pilot", "text": "pilot bearing"}, {"key": "shaft", "text": "input shaft"}]


def test_a_region_says_where_the_picture_has_its_letter(monkeypatch: pytest.MonkeyPatch) -> None:
    """`at` goes to the control where the drawing has written the letter; elsewhere there is none."""
    shapes = (Shape("1", "bolt 1", "rect", (1, 2, 3, 4), at=(9, 8)), Shape("3", "bolt 3", "circle", (5, 6, 7)))
    monkeypatch.setattr(pictures, "draw", lambda key, **_: Drawing("<svg/>", "alt", "caption", shapes))
    assert spec_of(PLACES)["picture"]["regions"] == [
        {"key": "1", "label": "bolt 1", "shape": "rect", "points": [1, 2, 3, 4], "at": [9, 8]},
        {"key": "3", "label": "bolt 3", "shape": "circle", "points": [5, 6, 7]},
    ]


@pytest.mark.parametrize("part", ["cover", "flywheel"])
def test_a_drill_is_told_which_part_it_tightens(part: Any) -> None:
    """The drawing follows the part."""
    stages = (Stage("pull", "One pull each", "order"),)
    question = Tightening(ask="?", why="", source="invented", angles_deg=(0, 120, 240), stages=stages, part=part)
    spec = spec_of(question)
    assert (spec["part"], len(spec["stages"]), len(spec["tools"])) == (part, 1, 1)


def test_a_pick_is_judged_with_refused_cards_back_on_the_bench() -> None:
    """Told at once: safe or not, and the reason of a refusal alone."""
    one = control(BENCH)
    tell(one, do="pick", picked=["a", "c", "a"])
    early = "“Centre” comes too early: first “Clean”, because DIRT"
    assert one.widget.told == {
        "picks": [
            {"letter": "a", "safe": False, "says": early},
            {"letter": "c", "safe": True, "says": ""},
            {"letter": "a", "safe": True, "says": ""},
        ]
    }
    tell(one, do="pick", picked=[])
    assert one.widget.told == {"picks": []}
    assert one.session.lines == []


def test_a_class_told_later_hears_nothing_at_a_pick() -> None:
    """The card stays and the traits say nothing."""
    one = control(BENCH, "after hand-in")
    tell(one, do="pick", picked=["b"])
    assert one.widget.told == {}
    tell(one, do="answer", answer=["b", "a"])
    assert one.widget.said["text"] == "Recorded. The feedback comes after the hand-in."
    assert [line.record.answer for line in one.session.lines] == ["b a"]


@pytest.mark.parametrize("feedback", ["at once", "after hand-in"])
def test_an_observation_is_shown_when_it_is_asked_for(feedback: str) -> None:
    """It is a fact of the case, so every class sees it; an unknown key shows nothing."""
    one = control(CASE, feedback)
    tell(one, do="ask", key="horn")
    assert one.widget.told == {}
    tell(one, do="ask", key="down")
    assert one.widget.told == {"shown": {"down": "HUM"}}
    tell(one, do="answer", answer="down > pilot")
    assert [line.record.answer for line in one.session.lines] == ["down > pilot"]


def test_new_figures_begin_with_an_empty_bench() -> None:
    """Nothing of the old turn stays in the control."""
    one = control(BENCH)
    tell(one, do="pick", picked=["c", "a"])
    tell(one, do="answer", answer=["c", "a"])
    assert one.widget.said["again"]
    tell(one, do="again")
    assert (one.widget.picked, one.widget.told, one.session.turn) == ([], {}, 2)


@pytest.mark.parametrize("message", [{}, {"do": "pick"}, {"do": "pick", "picked": 7}, {"do": "ask", "key": []}])
def test_an_odd_message_is_answered_in_words(message: dict[str, object]) -> None:
    """Nothing raises in a thread where nobody would see it."""
    for question in (BENCH, CASE):
        one = control(question)
        tell(one, **message)
        assert "Traceback" not in str(one.widget.said)
        assert one.session.lines == []


def test_what_is_asked_by_typing_is_shown_and_not_recorded() -> None:
    """Without a form a learner asks in a cell; the cause is named after a ">"."""
    session = control(CASE).session
    assert answer_control.take_answer(session, "down", "typed") == "Pedal down: HUM"
    assert "Ask for one or more of: up, down." in answer_control.take_answer(session, "horn", "typed")
    assert session.lines == []
    assert answer_control.take_answer(session, "down > pilot", "typed") == ""
    assert session.right


def test_cards_say_what_can_be_typed() -> None:
    """Letters of the bench, keys of places, what to ask for and the causes, each with an example."""
    bench, case, places = (card_html(control(q).session) for q in (BENCH, CASE, PLACES))
    assert "<b>c</b>&nbsp; Clean" in bench
    assert "✓ Inspect" in bench
    assert "a b c …" in bench
    assert "down &gt; pilot" in case
    assert "<td" in case.partition("pilot bearing")[0]
    assert "1 3" in places
    assert "bolt 3" in places


def test_a_question_with_a_sound_tells_its_beats_and_never_its_part() -> None:
    """The control hears when, how high and how loud, in a few kilobytes; which part it is stays in the kernel."""
    bank = {e.id: e for e in exercises_of("fault")}
    for id in ("fault.listen", "fault.listen-shaft"):
        question = bank[id].draw(class_word="amber", learner="x", vehicle="D")
        spec = view_of(question).spec(question, "Listen", True)
        told = json.dumps(spec["sound"])
        assert question.form not in told
        assert "bearing" not in told
        assert 300 < len(told) < 8_000
        assert all(len(beat) == 3 for beat in spec["sound"]["beats"])


def test_a_question_without_a_sound_tells_of_none() -> None:
    """No player stands over a silent picture."""
    assert "sound" not in view_of(CASE).spec(CASE, "Noise", True)
