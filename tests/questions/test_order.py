"""Order: any order that keeps the rules is right; a broken rule is found and named."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood
from bitepoint.questions.draw import Draw
from bitepoint.questions.order import Before, Order

STEPS = tuple(f"step {n}" for n in range(6))


def question(edges, kinds=None):
    """Return an order question with these edges (pairs of step numbers, low before high)."""
    kinds = kinds or {}
    rules = tuple(
        Before(STEPS[a], STEPS[b], f"{a} holds {b}.", kinds.get((a, b), "safety"), (a, b) == (0, 5)) for a, b in edges
    )
    draw = Draw(class_word="amber", learner="ada", exercise="x.order", turn=1)
    return Order.of(draw, example=STEPS, rules=rules, ask="?", why="It holds.", source="common-practice")


def letters(order, q):
    return ["abcdef"[q.steps.index(STEPS[n])] for n in order]


EDGES = st.sets(
    st.tuples(st.integers(0, 5), st.integers(0, 5)).filter(lambda e: e[0] < e[1]), min_size=1, max_size=8
).map(sorted)


@given(edges=EDGES, order=st.permutations(range(6)))
@settings(deadline=None, max_examples=300)
def test_order_is_right_exactly_when_every_rule_is_kept(edges, order):
    """Judged by hand: the rules broken by a random order are the ones that are named, each with its reason first."""
    q = question(edges)
    verdict = q.mark(letters(order, q))
    broken = {(a, b) for a, b in edges if order.index(a) > order.index(b)}
    assert verdict.score == (0 if broken else 1)
    assert set(verdict.mistakes) == {f"“{STEPS[b]}” before “{STEPS[a]}”" for a, b in broken}
    assert verdict.critical == ((0, 5) in broken)
    if broken:
        early = 5 if (0, 5) in broken else min((b for _, b in broken), key=order.index)
        assert verdict.feedback.startswith(f"“{STEPS[early]}” comes too early: first “")
        more = len({b for _, b in broken}) - 1
        assert verdict.feedback.endswith("too early.") == (more > 0)


def test_order_names_the_danger_that_hurts():
    """A harmless rule broken earlier in the row does not stand under the words that say somebody could be hurt."""
    q = question([(1, 2), (0, 5)])
    verdict = q.mark(letters([2, 1, 5, 0, 3, 4], q))
    assert verdict.critical
    assert verdict.feedback == (
        "“step 5” comes too early: first “step 0”, because 0 holds 5.\nOne more step stands too early."
    )
    assert [r.name for r in q.broken(letters([2, 1, 5, 0, 3, 4], q))] == list(verdict.mistakes)


@given(edges=EDGES, keys=st.lists(st.integers(0, 1000), min_size=6, max_size=6, unique=True))
@settings(deadline=None, max_examples=200)
def test_order_takes_every_valid_order(edges, keys):
    """A random order made step by step from those that are free is right."""
    left, order = set(range(6)), []
    while left:
        free = [n for n in left if not any(a in left for a, b in edges if b == n)]
        order.append(min(free, key=lambda n: keys[n]))
        left.remove(order[-1])
    q = question(edges)
    assert q.mark(letters(order, q)).score == 1


@given(edges=EDGES)
@settings(deadline=None)
def test_order_knows_its_mistakes(edges):
    """Each known mistake breaks the rule that it names; the example is right; the offered order is not."""
    q = question(edges)
    assert q.mark(q.right_answer()).score == 1
    assert q.mark(list("abcdef")).score == 0
    assert len(q.known_mistakes()) == len(edges)
    for answer, name in q.known_mistakes():
        assert name in q.mark(answer).mistakes


def test_order_economy_and_evidence_only_advise():
    """Breaking a rule of economy costs no mark, and the better way is told."""
    q = question([(0, 1), (2, 3)], {(2, 3): "economy"})
    verdict = q.mark(letters([0, 1, 3, 2, 4, 5], q))
    assert verdict.score == 1
    assert verdict.advice == ("Better: “step 2” before “step 3”: 2 holds 3.",)
    assert [name for _, name in q.known_mistakes()] == ["“step 1” before “step 0”"]


@pytest.mark.parametrize(
    ("answer", "message"),
    [
        ("abc", "d, e, f are missing"),
        ("abcde", "f is missing"),
        ("abcdea", "twice"),
        ("abcdez", "not on offer"),
        (7, "letter"),
    ],
)
def test_order_says_what_it_cannot_read(answer, message):
    """A letter left out, doubled or unknown is told in one line."""
    with pytest.raises(NotUnderstood, match=message):
        question([(0, 1)]).mark(answer)


@given(st.text(max_size=150) | st.permutations("abcdef").map("".join) | st.lists(st.text(max_size=3), max_size=9))
@settings(deadline=None, max_examples=300)
def test_order_reads_or_refuses_anything(answer):
    """Random input never raises anything but NotUnderstood, and what was read marks the same again."""
    q = question([(0, 1), (1, 4)])
    try:
        recorded = q.read(answer)
    except NotUnderstood:
        return
    assert q.read(recorded) == recorded
    assert q.mark(recorded) == q.mark(answer)
