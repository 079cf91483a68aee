"""Enquiry: the cause is right only when what was asked for leaves no other."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec import structs

from bitepoint.errors import NotUnderstood
from bitepoint.questions.enquiry import Enquiry, Observation, Suspect

QUESTION = Enquiry(
    ask="It makes a noise.",
    why="Only the pilot bearing fits.",
    source="invented",
    observations=(
        Observation("up", "Pedal up", "quiet"),
        Observation("down", "Pedal down", "hum"),
        Observation("rest", "Foot resting", "quiet"),
        Observation("gear", "In gear", "quiet"),
    ),
    suspects=(
        Suspect("release", "release bearing", {"up": "quiet", "down": "hum", "rest": "roar", "gear": "quiet"},
                name="release bearing", says="It would roar."),
        Suspect("pilot", "pilot bearing", {"up": "quiet", "down": "hum", "rest": "quiet", "gear": "quiet"}, True),
        Suspect("shaft", "input shaft", {"up": "roar", "down": "quiet", "rest": "roar", "gear": "roar"},
                name="input shaft", says="It roars with the pedal up.", critical=True),
    ),
    free=("up",),
)  # fmt: skip


def test_right_and_sure_is_right() -> None:
    """One question is enough here, and more are no mistake."""
    assert QUESTION.mark("rest > pilot").right
    assert QUESTION.mark("down rest gear > pilot").right
    assert QUESTION.fewest() == 1


def test_many_questions_bring_advice_only() -> None:
    """The fewest are best, said beside a right answer."""
    assert QUESTION.mark("down rest gear > pilot").advice == ("Sure after 1 questions; you took 3.",)
    assert QUESTION.mark("down rest > pilot").advice == ()


def test_right_but_guessed_is_half() -> None:
    """What was asked for must rule out every other cause, and the free observation counts as seen."""
    verdict = QUESTION.mark("> pilot")
    assert (verdict.score, verdict.mistake) == (0.5, "guessed too early")
    assert "release bearing" in verdict.feedback
    assert "input shaft" not in verdict.feedback


WHOLE = structs.replace(QUESTION, whole=True)


def test_what_must_be_confirmed_takes_every_observation() -> None:
    """One finding rules others out; the right one is only half right until all was asked for, and what is open is named."""
    verdict = WHOLE.mark("rest > pilot")
    assert (verdict.score, verdict.mistake) == (0.5, "confirms on part of the facts")
    assert "Pedal down, In gear" in verdict.feedback
    assert "guessed too early" == WHOLE.mark("down > pilot").mistake
    full = WHOLE.mark("down rest gear > pilot")
    assert (full.score, full.advice) == (1.0, ())


def test_confirming_is_a_fact_of_the_question() -> None:
    """An answer that was right without it may be half right with it, so their facts differ."""
    assert WHOLE.own_facts() != QUESTION.own_facts()
    assert ("rest gear > pilot", "confirms on part of the facts") in WHOLE.known_mistakes()


def test_a_wrong_cause_is_answered_with_its_own_words() -> None:
    """Critical where it says so."""
    verdict = QUESTION.mark("rest > shaft")
    assert (verdict.score, verdict.critical, verdict.feedback) == (0.0, True, "It roars with the pedal up.")


def test_a_wrong_cause_is_answered_by_what_was_asked_for() -> None:
    """The first thing asked for that rules it out is named; where nothing asked for does, one thing more is to be asked."""
    release, *others = QUESTION.suspects
    told = structs.replace(
        QUESTION, suspects=(structs.replace(release, against={"rest": "At rest it would roar."}), *others)
    )
    assert told.mark("down rest > release").feedback == "At rest it would roar."
    assert QUESTION.mark("down rest > release").feedback == "It would roar."
    assert QUESTION.mark("down > release").feedback == (
        "What you asked for fits release bearing, and other causes too. Ask for one thing more that tells them apart."
    )


def test_the_suspects_left_agree_with_all_that_was_seen() -> None:
    """Asked or free."""
    assert [s.key for s in QUESTION.left([])] == ["release", "pilot"]
    assert [s.key for s in QUESTION.left(["rest"])] == ["pilot"]


def test_known_mistakes_are_wrong_and_found() -> None:
    """Each carries the name it is listed with; the right answer is right."""
    found = QUESTION.known_mistakes()
    assert {"release bearing", "input shaft", "guessed too early"} == {name for _, name in found}
    assert all(name in QUESTION.mark(answer).mistakes for answer, name in found)
    assert QUESTION.mark(QUESTION.right_answer()).right


@pytest.mark.parametrize(
    "answer", ["", "rest", "rest > pilot > pilot", "horn > pilot", "rest > gearbox", ["rest"], None, "x" * 500 + ">"]
)
def test_what_cannot_be_read_is_refused_in_one_line(answer: object) -> None:
    """It says what to write."""
    with pytest.raises(NotUnderstood, match=r"Write|Use:"):
        QUESTION.read(answer)


@given(st.lists(st.sampled_from(["up", "down", "rest", "gear"]), max_size=6), st.sampled_from(["pilot", "release"]))
@settings(deadline=None)
def test_reading_twice_changes_nothing(asked: list[str], cause: str) -> None:
    """What the logbook holds reads as itself, each question once."""
    read = QUESTION.read(f"{' '.join(asked)} > {cause}")
    assert QUESTION.read(read) == read
    assert str(read).split(" > ")[0].lstrip("> ").split() == list(dict.fromkeys(asked)) or not asked


def test_the_words_of_an_enquiry_are_its_own_where_it_gives_them() -> None:
    """Heads and the word for what is named default to a noise; what cannot be read is answered in the question's own word."""
    assert (QUESTION.heads, QUESTION.cause) == (("Condition", "What you see or hear"), "cause")
    kit = structs.replace(QUESTION, heads=("Fact", "What the car shows"), cause="kit")
    with pytest.raises(NotUnderstood, match=r"then >, then the kit, such as: down rest > release\."):
        kit.read("down")
    with pytest.raises(NotUnderstood, match=r"'sk-9' is no kit here\. Use: release, pilot, shaft\."):
        kit.read("down > sk-9")
    assert kit.read(kit.right_form()) == "down rest > release"
