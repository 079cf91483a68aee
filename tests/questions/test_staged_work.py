"""The whole job stage by stage: rows joined by /, rules across stages, the sum of the stages."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood
from bitepoint.questions.bench import WorkCard
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before
from bitepoint.questions.staged_work import StagedWork, WorkPart

JACK, OUT, DUST, LOCK, TEST = "Jack under it", "Gearbox out", "Catch the dust", "Lock it", "Test it"
OUT_PART = WorkPart(
    "Remove", (WorkCard(OUT), WorkCard(JACK), WorkCard(TEST, False), WorkCard("Hang it", False, "It falls.", True)),
    (JACK, OUT),
)  # fmt: skip
STRIP = WorkPart("Strip", (WorkCard(DUST), WorkCard(LOCK), WorkCard(JACK, False, "Done long ago.")), (DUST, LOCK))
CHECK = WorkPart("Check", (WorkCard(TEST), WorkCard("Oil", False, "It slips.", True)), (TEST,))
RULES = (
    Before(JACK, OUT, "it drops.", "safety", critical=True),
    Before(OUT, DUST, "it is closed before.", "physical"),
    Before(DUST, LOCK, "you breathe it.", "safety", critical=True),
    Before(LOCK, TEST, "it turns.", "quality"),
    Before(JACK, LOCK, "less to walk.", "economy"),
)


def question(**changes: object) -> StagedWork:
    common = {"ask": "Do it.", "why": "So.", "source": "common-practice", "parts": (OUT_PART, STRIP, CHECK)}
    return StagedWork(**{**common, "rules": RULES, **changes})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    "answer",
    ["b a / a b / a", "ba/ab/a", "B, A / a → b / a", ["b a", "a b", "a"], ["b", "a", "/", "a", "b", "/", "a"]],
)
def test_rows_are_read_however_they_are_written(answer: object) -> None:
    """One row a stage, letters together or apart, as text or as a list."""
    assert question().read(answer) == "b a / a b / a"
    assert question().mark(answer).right


def test_the_example_is_right() -> None:
    """Every stage in its safe order scores 1."""
    assert question().right_answer() == "b a / a b / a"
    assert question().mark("b a / a b / a").feedback == "So."


def test_the_score_is_the_sum_of_the_stages() -> None:
    """One fault in a card of five takes a fifth, whatever the stage; the stage is named."""
    verdict = question().mark("b a / a b c / a")
    assert (verdict.score, verdict.critical) == (0.8, False)
    assert verdict.feedback == "Strip: Done long ago."
    assert verdict.mistakes == ("“Jack under it” does not belong here",)


def test_a_safety_rule_broken_and_a_thing_never_done_are_critical() -> None:
    """Both score nothing, and the words say what would happen."""
    early, never = question().mark("a b / a b / a"), question().mark("b a / a b / b a")
    assert (early.score, early.critical, never.score, never.critical) == (0.0, True, 0.0, True)
    assert early.feedback == "Remove: “Gearbox out” comes too early: first “Jack under it”, because it drops."
    assert never.feedback == "Check: It slips."


def test_a_card_of_a_later_stage_comes_too_early_by_its_own_rule() -> None:
    """It is named by the rule of the job that it breaks, in whatever stage it is picked."""
    verdict = question().mark("b a c / a b / a")
    assert verdict.mistakes == ("“Test it” before “Lock it”",)
    assert verdict.feedback == "Remove: “Test it” comes too early: first “Lock it”, because it turns."


def test_a_card_left_out_holds_back_what_needs_it_in_a_later_stage() -> None:
    """Rules count across the stages: the dust of a gearbox that is still in."""
    verdict = question().mark("b / a b / a")
    assert verdict.mistakes == ("“Catch the dust” before “Gearbox out”",)
    assert "Remove: still on the bench: a." in verdict.feedback
    assert verdict.score == pytest.approx(0.6)


def test_stages_not_begun_are_left() -> None:
    """An unfinished job is not right, and what is left of each stage is said."""
    verdict = question().mark("b a")
    assert verdict.score == pytest.approx(0.4)
    assert verdict.feedback.splitlines() == ["Strip: still on the bench: a, b.", "Check: still on the bench: a."]
    assert verdict.mistakes == ("cards left on the bench",)


def test_a_stage_may_be_empty() -> None:
    """A row without letters is a stage left as it lay."""
    assert question().read("b a / / a") == "b a / / a"


def test_every_rule_that_a_pick_breaks_is_named_the_gravest_first() -> None:
    """Quality first in the list, safety first in the verdict."""
    rules = (Before(JACK, LOCK, "clean.", "quality"), Before(DUST, LOCK, "breath.", "safety", critical=True))
    verdict = question(rules=rules).mark("a / b a / a")
    assert verdict.mistakes == ("“Lock it” before “Catch the dust”", "“Lock it” before “Jack under it”")
    assert verdict.critical


def test_advice_never_counts() -> None:
    """Economy and evidence are said beside a right answer."""
    parts = (WorkPart("All", (WorkCard(LOCK), WorkCard(JACK)), (JACK, LOCK)),)
    verdict = question(parts=parts, rules=RULES[-1:]).mark("a b")
    assert verdict.right
    assert verdict.advice == ("Better: “Jack under it” before “Lock it”, because less to walk.",)


def test_told_at_once_a_refused_card_of_the_open_stage_is_back_on_its_bench() -> None:
    """What is left counts it; in a stage that was left behind it lies where it was put."""
    work = question().work("a b", sent_back=True)
    assert [p.safe for p in work.picks[0]] == [False, True]
    assert work.left[0] == ("a",)
    assert question().work("a b /", sent_back=True).left[0] == ()


def test_strangers_say_why_they_do_not_belong() -> None:
    """With all the stage's own cards done they are still wrong, each for its reason."""
    said = {pick.letter: pick.says for pick in question().strangers(0)}
    assert said == {"c": "“Test it” comes too early: first “Lock it”, because it turns.", "d": "It falls."}


def test_many_faults_are_cut_short_in_words_alone() -> None:
    """At most eight lines are said, and how many more there are; every mistake is counted."""
    verdict = question().mark("d a d b / c c b a / b a")
    texts = [f"step {n}" for n in range(12)]
    long = WorkPart("Long", tuple(WorkCard(text) for text in texts), tuple(texts))
    rules = tuple(Before(texts[n], texts[n + 1], f"reason {n}.") for n in range(11))
    backwards = question(parts=(long,), rules=rules).mark("l k j i h g f e d c b a")
    assert verdict.critical
    assert len(backwards.feedback.splitlines()) == 9
    assert backwards.feedback.endswith("And 3 more.")
    assert len(backwards.mistakes) == 11


@pytest.mark.parametrize(
    ("answer", "says"),
    [
        ("", "No card was picked"),
        (" / / ", "No card was picked"),
        ([], "No card was picked"),
        ("b a / a z / a", "'z' is not on the bench of “Strip”. Use letters from a to c."),
        ("a / a / a / a", "There are 3 stages, but you gave 4 rows."),
        (7, "That is no row of letters"),
        ("a " * 201, "more than 200 picks"),
        ("a" + " " * 4000 + "b", "longer than 4000 characters"),
    ],
)
def test_what_is_no_row_is_refused_in_one_line(answer: object, says: str) -> None:
    """Nothing is cut off silently, and the stage is named."""
    with pytest.raises(NotUnderstood) as refused:
        question().read(answer)
    assert says in str(refused.value)
    assert "\n" not in str(refused.value)


def test_known_mistakes_are_found_by_the_marker() -> None:
    """Each rule within a stage and each stranger, once."""
    found = question().known_mistakes()
    assert len(found) == len({name for _, name in found}) == 6
    assert all(name in question().mark(a).mistakes and not question().mark(a).right for a, name in found)


def test_two_draws_shuffle_differently() -> None:
    """A bench is shuffled by the draw."""
    texts = [f"step {n}" for n in range(8)]
    benches = [
        WorkPart.of(Draw(class_word="oak", learner=who, exercise="a.b", turn=1), "One", texts, [WorkCard("X", False)])
        for who in ("L1", "L2")
    ]
    assert benches[0].cards != benches[1].cards
    assert sorted(c.text for c in benches[0].cards if c.belongs) == texts


@given(st.lists(st.lists(st.sampled_from("abc"), max_size=6), min_size=1, max_size=3))
@settings(deadline=None)
def test_a_row_is_right_only_without_a_wrong_pick_and_with_every_card(rows: list[list[str]]) -> None:
    """Score 1 and a safe, complete work are the same thing; reading what was read changes nothing."""
    q, text = question(), " / ".join(" ".join(row) for row in rows)
    if "c" in (rows[2] if len(rows) > 2 else []) or not any(rows):
        with pytest.raises(NotUnderstood):
            q.mark(text)
        return
    work = q.work(text)
    whole = all(p.safe for picks in work.picks for p in picks) and not any(work.left)
    assert q.mark(text).right == whole
    assert 0 <= q.mark(text).score <= 1
    assert q.read(q.read(text)) == q.read(text)
