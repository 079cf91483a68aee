"""Order of work: any safe order is right; a wrong pick is named, whether it came back to the bench or not."""

from itertools import permutations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before
from bitepoint.questions.work_order import WorkCard, WorkOrder, WorkStage

CLEAN, CENTRE, COVER = "Clean", "Centre", "Cover"
CARDS = (WorkCard(COVER), WorkCard("Oil", False, "Oil makes it slip.", True), WorkCard(CENTRE), WorkCard(CLEAN))
RULES = (
    Before(CLEAN, CENTRE, "dirt stays under it."),
    Before(CENTRE, COVER, "it is clamped afterwards.", critical=True),
    Before(CLEAN, COVER, "less to walk.", kind="economy"),
)


def question(**changes: object) -> WorkOrder:
    common = {"ask": "Fit it.", "why": "So.", "source": "common-practice", "cards": CARDS, "rules": RULES}
    return WorkOrder(**{**common, "example": (CLEAN, CENTRE, COVER), **changes})  # type: ignore[arg-type]


def test_the_example_is_right_and_any_other_order_breaks_a_rule() -> None:
    """Three cards in a chain have one safe order."""
    right = [row for row in permutations("acd") if question().mark(" ".join(row)).right]
    assert [("d", "c", "a")] == right
    assert question().right_answer() == "d c a"


@pytest.mark.parametrize("answer", ["dca", "d c a", "D, C, A", "d → c → a", ["d", "c", "a"]])
def test_a_row_is_read_however_it_is_written(answer: object) -> None:
    """Letters together, apart, as a list."""
    assert question().read(answer) == "d c a"


def test_a_card_put_down_too_early_is_named_with_its_reason() -> None:
    """Not told, the card lies where it was put, so it does not spoil the next one."""
    verdict = question().mark("c d a")
    assert verdict.mistakes == ("“Centre” before “Clean”",)
    assert verdict.feedback == "“Centre” comes too early: first “Clean”, because dirt stays under it."
    assert not verdict.critical
    assert 0 < verdict.score < 1


def test_a_stranger_is_critical_where_it_is_never_done() -> None:
    """Its own words, score nothing."""
    verdict = question().mark("d b c a")
    assert (verdict.score, verdict.critical, verdict.feedback) == (0.0, True, "Oil makes it slip.")


def test_of_several_faults_the_dangerous_one_comes_first_with_a_sign() -> None:
    """What could hurt is told from what is only wrong, whatever was picked first."""
    verdict = question().mark("c b d a")
    assert verdict.critical
    assert verdict.mistake == "picked “Oil”"
    assert verdict.feedback == (
        "⚠ Oil makes it slip.\n“Centre” comes too early: first “Clean”, because dirt stays under it."
    )


def test_cards_left_on_the_bench_are_said() -> None:
    """An unfinished row is not right."""
    assert question().mark("d c").feedback == "Still on the bench: a."


def test_economy_only_advises() -> None:
    """Work done before counts; an economy rule changes no score."""
    q = question(rules=(RULES[2],))
    verdict = q.mark("a c d")
    assert verdict.right
    assert verdict.advice == ("Better: “Clean” before “Cover”, because less to walk.",)


def test_work_done_before_is_done() -> None:
    """A rule about something done already holds back nothing."""
    q = question(done=(CLEAN,), cards=CARDS[:3], example=(CENTRE, COVER))
    assert q.mark("c a").right


def test_a_refused_card_that_is_picked_again_lay_on_the_bench_meanwhile() -> None:
    """In a finished row the second letter tells that the first was sent back."""
    assert [p.safe for p in question().picks("c a d c a")] == [False, False, True, True, True]


def test_in_an_unfinished_row_every_refused_card_is_back() -> None:
    """Told at once, the card after a refused one is judged with that one on the bench."""
    assert [p.safe for p in question().picks("c a")] == [False, True]
    assert [p.safe for p in question().picks("c a", sent_back=True)] == [False, False]


def test_known_mistakes_are_found_by_the_marker() -> None:
    """Each is wrong and carries the name it is listed with."""
    q = question()
    found = q.known_mistakes()
    assert {"“Centre” before “Clean”", "“Cover” before “Centre”", "picked “Oil”"} == {name for _, name in found}
    assert all(name in q.mark(answer).mistakes and not q.mark(answer).right for answer, name in found)


def test_cards_are_shuffled_by_the_draw_and_stages_stand() -> None:
    """Two learners see two benches; the strip of stages travels with the question."""
    texts = [f"step {n}" for n in range(8)]

    def drawn(learner: str) -> WorkOrder:
        draw = Draw(class_word="oak", learner=learner, exercise="a.b", turn=1)
        stages = (WorkStage("Fit", "now"),)
        return WorkOrder.of(draw, example=texts, rules=(), ask="?", why="", source="invented", stages=stages)

    one, other = drawn("L1"), drawn("L2")
    assert sorted(c.text for c in one.cards) == texts
    assert one.cards != other.cards
    assert one.stages == (WorkStage("Fit", "now"),)
    assert one.mark(one.right_answer()).right


@pytest.mark.parametrize(
    ("answer", "says"),
    [
        ("", "No card was picked"),
        ([], "No card was picked"),
        ("d c z", "'z' is not on the bench. Use letters from a to d."),
        (7, "That is no row of letters"),
        ("a " * 201, "more than 200 picks"),
        ("a" + " " * 4000 + "b", "longer than 4000 characters"),
    ],
)
def test_what_is_no_row_is_refused_in_one_line(answer: object, says: str) -> None:
    """Nothing is cut off silently."""
    with pytest.raises(NotUnderstood, match=says.split(".")[0]) as refused:
        question().read(answer)
    assert "\n" not in str(refused.value)


@given(st.lists(st.sampled_from("abcd"), min_size=1, max_size=12))
@settings(deadline=None)
def test_a_row_is_right_only_without_a_wrong_pick_and_with_every_card(row: list[str]) -> None:
    """Score 1 and a safe, complete row are the same thing; every other score is below."""
    q = question()
    safe = all(p.safe for p in q.picks(row))
    assert q.mark(row).right == (safe and {"a", "c", "d"} <= set(row))
    assert 0 <= q.mark(row).score <= 1
    assert q.read(q.read(row)) == " ".join(row)
