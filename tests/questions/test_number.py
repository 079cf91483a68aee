"""Number: reading with units, tolerance, known mistakes, and what is recorded can be read again."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood
from bitepoint.questions.number import Number, percent, plus_minus
from bitepoint.questions.question import Mistake

QUESTION = Number(
    ask="What do you set?",
    answer=84.2,
    unit="N·m",
    within=percent(1),
    mistakes=(
        Mistake(62.1, "keeps the foreign unit", "Read the unit.", critical=False),
        Mistake(114.2, "converts twice", "Convert once.", critical=True),
    ),
    why="One conversion.",
    source="derived",
)


@pytest.mark.parametrize("answer", ["84.2 N·m", "84,2 Nm", (84, 2), 84.2, "62.1 lbf·ft", "84.9", "83.4 Nm"])
def test_number_takes_the_figure_in_any_unit_and_within_tolerance(answer):
    """A comma, a pair, a bare number, another unit: all mean the same figure."""
    verdict = QUESTION.mark(answer)
    assert (verdict.score, verdict.mistakes) == (1, ())
    assert verdict.feedback == "One conversion."


@pytest.mark.parametrize("answer", [85.05, 83.35])
def test_number_outside_the_tolerance_is_wrong(answer):
    """Just outside one per cent is wrong, and no mistake is invented."""
    verdict = QUESTION.mark(answer)
    assert (verdict.score, verdict.mistake, verdict.critical) == (0, None, False)
    assert "84.2" not in verdict.feedback


@pytest.mark.parametrize(
    ("answer", "name", "critical"), [(62.1, "keeps the foreign unit", False), (114, "converts twice", True)]
)
def test_number_names_a_known_mistake(answer, name, critical):
    """A known wrong figure is matched by name, with its own words and its own weight."""
    verdict = QUESTION.mark(answer)
    assert (verdict.score, verdict.mistakes, verdict.critical) == (0, (name,), critical)
    assert name in verdict.reason


@pytest.mark.parametrize(
    ("answer", "message"),
    [
        ("84.2 mm", "mm does not measure what is asked. Answer in N·m."),
        ("84.2 kg·m", "mass times a length"),
        ("about 84", "does not start with a number"),
        ("1,200", "can mean"),
        ("", "does not start with a number"),
        (True, "no number"),
        (None, "no number"),
        (float("nan"), "too large"),
        (10**400, "too large"),
        (-(10**12), "too large"),
        ([1, 2, 3], "no number"),
        ("9" * 5000, "too long"),
    ],
)
def test_number_says_in_one_line_what_it_cannot_read(answer, message):
    """Whatever is typed, the answer is a line that says how to write it."""
    with pytest.raises(NotUnderstood, match=message):
        QUESTION.mark(answer)


@given(st.text(max_size=100) | st.integers() | st.floats() | st.lists(st.integers(), max_size=3) | st.none())
@settings(deadline=None, max_examples=400)
def test_number_reads_or_refuses_anything(answer):
    """Random input never raises anything but NotUnderstood, and what was read is read the same again."""
    try:
        recorded = QUESTION.read(answer)
    except NotUnderstood:
        return
    assert isinstance(recorded, str)
    assert QUESTION.read(recorded) == recorded
    assert QUESTION.mark(recorded).score == QUESTION.mark(answer).score


@given(st.floats(0, 1e6), st.floats(0.0001, 0.2))
@settings(deadline=None)
def test_tolerance_width_takes_the_larger_share(value, share):
    """A relative tolerance grows with the figure, an absolute one does not."""
    assert percent(100 * share).width(value) == pytest.approx(value * share, abs=2e-9)
    assert plus_minus(share).width(value) == pytest.approx(share, abs=2e-9)


def test_number_knows_its_right_answer_and_mistakes():
    """Both come with the unit and mark as what they are."""
    assert QUESTION.right_answer() == "84.2 N·m"
    assert QUESTION.known_mistakes() == [
        ("62.1 N·m", "keeps the foreign unit"),
        ("114.2 N·m", "converts twice"),
    ]


def test_digest_ignores_the_last_bits_of_a_figure():
    """A figure that differs in the last bits, or a nought with a sign, gives the same digest on every machine."""
    import msgspec

    for a, b in [(84.2, 84.2 + 2e-14), (0.0, -0.0), (0.0, 6e-17)]:
        one = msgspec.structs.replace(QUESTION, answer=a)
        two = msgspec.structs.replace(QUESTION, answer=b)
        assert one.words_digest() == two.words_digest()
    assert msgspec.structs.replace(QUESTION, answer=84.3).words_digest() != QUESTION.words_digest()
