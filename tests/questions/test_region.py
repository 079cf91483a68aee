"""Region: point at one place of a picture."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import NotUnderstood
from bitepoint.questions.region import Region, Spot

QUESTION = Region(
    ask="Where does the hand pull?",
    spots=(
        Spot("grip", "the grip", right=True),
        Spot("shaft", "the shaft", name="holds the shaft", says="The lever is shorter."),
        Spot("head", "the head", name="pushes on the head", says="It tips off.", critical=True),
    ),
    why="There it is calibrated.",
    source="common-practice",
)


@pytest.mark.parametrize(
    ("answer", "score", "mistakes", "critical", "feedback"),
    [
        ("grip", 1, (), False, "There it is calibrated."),
        (" GRIP ", 1, (), False, "There it is calibrated."),
        ("shaft", 0, ("holds the shaft",), False, "The lever is shorter."),
        ("head", 0, ("pushes on the head",), True, "It tips off."),
    ],
)
def test_region_marks_the_place_pointed_at(answer, score, mistakes, critical, feedback):
    """The right place scores 1; a wrong one is answered with its own words."""
    verdict = QUESTION.mark(answer)
    assert (verdict.score, verdict.mistakes, verdict.critical, verdict.feedback) == (
        score,
        mistakes,
        critical,
        feedback,
    )


def test_region_knows_its_answers():
    """One right place, the others as known mistakes, two tries."""
    assert QUESTION.right_answer() == "grip"
    assert QUESTION.known_mistakes() == [("shaft", "holds the shaft"), ("head", "pushes on the head")]
    assert QUESTION.tries_allowed == 2


@given(
    st.sampled_from(["grip", " Head ", "SHAFT"])
    | st.text(max_size=80)
    | st.none()
    | st.integers()
    | st.lists(st.text(max_size=5))
)
@settings(deadline=None)
def test_region_reads_or_refuses_anything(answer):
    """Random input is a region's key or is refused in one line that lists the keys."""
    known = isinstance(answer, str) and answer.strip().casefold() in ("grip", "shaft", "head")
    if known:
        assert QUESTION.read(answer) == answer.strip().casefold()
    else:
        with pytest.raises(NotUnderstood, match=r"^Point at one of: grip, shaft, head\.$"):
            QUESTION.read(answer)
