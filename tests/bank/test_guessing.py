"""What can be guessed without knowing the trade: the goals of the lessons that are balanced, and the measure itself."""

import subprocess
import sys
from random import Random

import pytest

from bitepoint.bank.guessing.guesser import guessed_right, scores_of
from bitepoint.bank.guessing.offers import Offer, asks, offers
from bitepoint.bank.guessing.rules import always_longest, asking_right, chance, longest_right, offering_to_ask
from bitepoint.bank.lessons import LESSONS

BALANCED: tuple[str, ...] = (
    "start",
    "carry",
    "kit",
    "safe",
    "fault",
    "strip",
    "measure",
    "torque",
    "star",
    "assembly",
    "release",
    "refit",
    "job",
)
"""Lessons whose options were balanced. The list only grows; with every lesson in it, the goals hold for the whole bank."""

LONGEST, OVER_CHANCE = 0.35, 0.10


def balanced():
    """Return the choices of the balanced lessons."""
    return [offer for offer in offers() if offer.lesson in BALANCED]


def test_the_longest_option_is_right_in_at_most_35_per_cent():
    """In each balanced lesson that has choices, so that “always the longest” is no way to pass."""
    found = {key: [o for o in balanced() if o.lesson == key] for key in BALANCED}
    shares = {key: longest_right(group) for key, group in found.items() if group}
    assert {} == {key: share for key, share in shares.items() if share > LONGEST}


def test_no_exercise_has_its_right_option_always_longest():
    """In one exercise of a balanced lesson the right option may be the longest now and then, never always."""
    assert [] == always_longest(balanced())


def test_stop_and_ask_is_right_about_as_often_as_chance():
    """Over the balanced lessons, where it is offered: at most 10 points more than blind guessing gets."""
    asked = offering_to_ask(balanced())
    assert asking_right(asked) <= chance(asked) + OVER_CHANCE


def test_a_guesser_fitted_on_other_lessons_gets_little_more_than_chance():
    """Who knows lengths, hedging words, place and “stop and ask” gets at most 10 points more over the balanced lessons."""
    group = balanced()
    assert guessed_right(group) <= chance(group) + OVER_CHANCE


def test_the_balanced_lessons_are_lessons():
    """A misspelt key would be held to nothing."""
    assert set(BALANCED) <= set(LESSONS)


A = Offer("one.a", ("short", "the longest of them", "middling"), 1)
B = Offer("one.a", ("short", "stop and ask somebody", "middling"), 0)
C = Offer("one.b", ("alike", "aloud", "no"), 0)


def test_the_rules_of_thumb_on_choices_made_by_hand():
    """The longest is right in A, wrong in B, shares its length in C; stop and ask is offered in B alone, and wrong."""
    assert 0.5 == longest_right([A, B, C])
    assert ["one.a"] == always_longest([A, A])
    assert [] == always_longest([A, B, C])
    assert [B] == offering_to_ask([A, B, C])
    assert 0 == asking_right([A, B, C])
    assert pytest.approx(1 / 3) == chance([A, B, C])


@pytest.mark.parametrize(
    ("text", "is_so"),
    [
        ("Stop and ask: the kit is not complete", True),
        ("Stop, step back, and ask", True),
        ("Measure more finely, and ask", True),
        ("Hand it over and ask the customer to watch it", False),
        ("Until it stops", False),
    ],
)
def test_what_counts_as_stop_and_ask(text, is_so):
    """The decision goes to somebody else; to ask the customer is part of the work."""
    assert is_so == asks(text)


def made_up(lessons, *, sign):
    """Return choices of options of random length; with a sign the right one is the longest in four of five."""
    rng = Random(7)
    made = []
    for lesson in range(lessons):
        for number in range(60):
            texts = tuple("x" * length for length in rng.sample(range(10, 80), 4))
            longest = max(range(4), key=lambda i: len(texts[i]))
            right = longest if sign and rng.random() < 0.8 else rng.randrange(4)
            made.append(Offer(f"l{lesson}.e{number}", texts, right))
    return made


def test_the_guesser_finds_a_sign_and_none_where_there_is_none():
    """Fitted on four made-up lessons it uses the length on the fifth, and gets about chance where length says nothing."""
    with_sign, without = (list(scores_of(made_up(5, sign=sign)).values()) for sign in (True, False))
    assert sum(with_sign) / len(with_sign) > 0.75
    assert sum(without) / len(without) < 0.25 + OVER_CHANCE


@pytest.mark.parametrize("given", [["torc"], ["torque", "star"]])
def test_a_lesson_that_is_not_there_is_one_line(given):
    """Exit status 2 and one line, no traceback."""
    run = subprocess.run([sys.executable, "-m", "bitepoint.bank.guessing", *given], capture_output=True, text=True)
    assert 2 == run.returncode
    assert 1 == len(run.stderr.splitlines())
