"""Spots: find every right place, take no wrong one."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec import structs

from bitepoint.errors import NotUnderstood
from bitepoint.questions.region import Spot
from bitepoint.questions.spots import Spots

QUESTION = Spots(
    ask="Mark what must be renewed.",
    why="Both are worn.",
    source="common-practice",
    spots=(
        Spot("plate", "the plate", True, name="misses the plate", says="The plate is thin."),
        Spot("bearing", "the bearing", True, name="misses the bearing", critical=True),
        Spot("fork", "the fork", name="changes a sound fork", says="The fork is sound."),
    ),
)


@pytest.mark.parametrize("answer", ["plate bearing", "bearing, plate", "Plate; BEARING", ["plate", "bearing", "plate"]])
def test_all_and_no_other_is_right(answer: object) -> None:
    """Order, case and doubles do not matter."""
    verdict = QUESTION.mark(answer)
    assert (verdict.score, verdict.feedback, verdict.mistakes) == (1.0, "Both are worn.", ())
    assert QUESTION.read(answer) == ["bearing", "plate"]


def test_what_was_overlooked_is_counted_but_not_pointed_out() -> None:
    """Looking again is the exercise; the name is there for the statistics, and critical stays critical."""
    verdict = QUESTION.mark("plate")
    assert verdict.feedback == "1 of 2 found. Look again: what can hurt somebody is still there."
    assert (verdict.score, verdict.mistakes, verdict.critical) == (0.5, ("misses the bearing",), True)
    harmless = QUESTION.mark("bearing")
    assert harmless.feedback == "1 of 2 found. Look again: something is still there."
    assert not harmless.critical


def test_the_danger_named_is_the_one_that_hurts() -> None:
    """A sound part marked beside a dangerous one overlooked: the danger comes first, the other is called not dangerous."""
    verdict = QUESTION.mark("plate fork")
    assert (verdict.critical, verdict.mistake) == (True, "misses the bearing")
    assert verdict.feedback == (
        "1 of 2 found. Look again: what can hurt somebody is still there.\n"
        "Not dangerous, but marked wrongly: The fork is sound."
    )
    spots = (*QUESTION.spots, Spot("belt", "the belt", name="cuts the belt", says="A cut belt kills.", critical=True))
    verdict = structs.replace(QUESTION, spots=spots).mark("plate fork belt")
    assert (verdict.feedback, verdict.critical) == ("A cut belt kills.", True)


def test_a_wrong_place_is_answered_with_its_words_and_takes_one_away() -> None:
    """Marking everything is no way round looking."""
    verdict = QUESTION.mark("plate bearing fork")
    assert (verdict.score, verdict.feedback, verdict.mistake) == (0.5, "The fork is sound.", "changes a sound fork")
    assert QUESTION.mark("fork").score == 0


def test_known_mistakes_are_wrong_and_found() -> None:
    """Each carries the name it is listed with."""
    found = QUESTION.known_mistakes()
    assert {"misses the plate", "misses the bearing", "changes a sound fork"} == {name for _, name in found}
    assert all(name in QUESTION.mark(answer).mistakes for answer, name in found)


@pytest.mark.parametrize("answer", ["", [], None, 3, "wheel", ["plate"] * 9, {"plate": 1}])
def test_what_is_no_list_of_places_is_refused_in_one_line(answer: object) -> None:
    """The line says what to write."""
    with pytest.raises(NotUnderstood, match="place"):
        QUESTION.read(answer)


@given(st.sets(st.sampled_from(["plate", "bearing", "fork"]), min_size=1))
@settings(deadline=None)
def test_only_the_whole_set_is_right(keys: set[str]) -> None:
    """Score 1 for it alone."""
    assert QUESTION.mark(sorted(keys)).right == (keys == {"plate", "bearing"})
