"""Choice and Several: letters in, scores and named mistakes out."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood
from bitepoint.questions.choice import Choice, Several, needed, right, wrong
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Mistake


def draw(turn=1):
    return Draw(class_word="amber", learner="ada", exercise="x.choice", turn=turn)


ONE = Choice.of(
    draw(),
    right="Stop and ask",
    wrong=[
        Mistake("Go on", "goes on unsure", "It can hurt you.", True),
        Mistake("Guess", "guesses", "It may be wrong."),
    ],
    ask="What now?",
    why="It costs a minute.",
    source="common-practice",
)
MANY = Several.of(
    draw(),
    options=[
        needed("Shoes", "no shoes", "Toes."),
        needed("Glasses", "no glasses", "Eyes.", critical=True),
        right("Sleeves closed"),
        wrong("Ring on", "ring on", "It catches.", critical=True),
        wrong("Scarf", "scarf", "It is drawn in."),
    ],
    ask="What do you wear?",
    why="Each keeps an injury away.",
    source="common-practice",
)
LETTER = {option.text: letter for letter, option in zip("abcde", MANY.options, strict=True)}
ALL_RIGHT = {LETTER["Shoes"], LETTER["Glasses"], LETTER["Sleeves closed"]}


def test_choice_right_letter_is_right():
    """The right letter scores 1 and the reason why is told."""
    verdict = ONE.mark(ONE.right_answer())
    assert (verdict.score, verdict.feedback) == (1, "It costs a minute.")


def test_choice_wrong_letter_names_its_mistake():
    """Each wrong letter is matched by its own name, words and weight."""
    marked = {name: ONE.mark(letter) for letter, name in ONE.known_mistakes()}
    assert {n: (v.score, v.mistake, v.critical) for n, v in marked.items()} == {
        "goes on unsure": (0, "goes on unsure", True),
        "guesses": (0, "guesses", False),
    }
    assert marked["guesses"].feedback == "It may be wrong."


@pytest.mark.parametrize("written", ["{}", " {} ", "{})", "({})", "{}."])
def test_choice_reads_a_letter_however_it_is_written(written):
    """Small or capital, with a bracket or a point."""
    letter = ONE.right_answer()
    assert ONE.read(written.format(letter)) == letter
    assert ONE.read(written.format(letter.upper())) == letter
    assert ONE.read([letter]) == letter


@pytest.mark.parametrize("answer", ["", "z", "a b", "aa", 3, None, ["a", "b"], "x" * 500, b"a"])
def test_choice_says_what_it_cannot_read(answer):
    """Not one letter on offer: one line says so."""
    with pytest.raises(NotUnderstood, match=r"."):
        ONE.mark(answer)


def test_choice_options_are_in_drawn_order():
    """Turns bring the options in different orders."""
    orders = {
        Choice.of(
            draw(t),
            right="r",
            wrong=ONE.known_mistakes() and [Mistake("x", "n", "s"), Mistake("y", "m", "s")],
            ask="?",
            why="w",
            source="derived",
        ).right_answer()
        for t in range(1, 20)
    }
    assert orders == {"a", "b", "c"}


def expected_score(picked):
    hits, extra = len(picked & ALL_RIGHT), len(picked - ALL_RIGHT)
    return 1.0 if picked == ALL_RIGHT else min(0.99, max(0.0, (hits - extra) / 3))


@given(st.sets(st.sampled_from("abcde"), min_size=1))
@settings(deadline=None)
def test_several_counts_right_picks_and_takes_wrong_ones_off(picked):
    """Each right pick counts a third, each wrong pick takes one away, and never below nothing."""
    verdict = MANY.mark(sorted(picked))
    assert verdict.score == expected_score(picked)
    wanted_critical = LETTER["Ring on"] in picked or LETTER["Glasses"] not in picked
    assert verdict.critical == (wanted_critical and picked != ALL_RIGHT)
    if wanted_critical:
        assert verdict.mistake in ("ring on", "no glasses")


def test_several_says_that_something_is_missing():
    """A right one without words of its own that was left out still gets a line."""
    verdict = MANY.mark(sorted(ALL_RIGHT - {LETTER["Sleeves closed"]}))
    assert (verdict.mistakes, verdict.feedback) == ((), "2 of 3 found. Something is still missing.")


def test_several_known_mistakes_are_found():
    """Every wrong option added and every needed one left out is matched by name."""
    assert len(MANY.known_mistakes()) == 4
    for answer, name in MANY.known_mistakes():
        assert MANY.mark(answer).mistakes == (name,)


@given(st.text(max_size=150) | st.lists(st.text(max_size=4), max_size=8) | st.integers() | st.none())
@settings(deadline=None, max_examples=300)
def test_choices_read_or_refuse_anything(answer):
    """Random input never raises anything but NotUnderstood, and what was read marks the same again."""
    for question in (ONE, MANY):
        try:
            recorded = question.read(answer)
        except NotUnderstood:
            continue
        assert question.read(recorded) == recorded
        assert question.mark(recorded) == question.mark(answer)
