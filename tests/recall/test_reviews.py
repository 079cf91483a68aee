"""What the lines of a logbook say of each exercise."""

from datetime import timedelta

import pytest
from lines import START, line

from bitepoint.logbook.record import OWN_WORDS, Record
from bitepoint.recall.reviews import Review, reviews_of

NOW = START + timedelta(days=30)


@pytest.mark.parametrize(
    ("lines", "expected"),
    [
        ([line("torque.units")], [("right", False)]),
        ([line("torque.units", 0, 0), line("torque.units", 0.01)], [("right later", False)]),
        ([line("torque.units", 0, 0.5), line("torque.units", 0.01, 0)], [("not right", False)]),
        ([line("torque.units"), line("torque.units", 0.01, 0)], [("right", False)]),
        ([line("torque.units"), line("torque.units", 3, 0)], [("right", False), ("not right", False)]),
        ([line("torque.units"), line("torque.units", 3, 0, recall=True)], [("right", False), ("not right", True)]),
        ([line("torque.units", score=None)], []),
        ([line("torque.units", sitting="exam-1")], []),
        ([line("torque.units", 2, recall=True, how=OWN_WORDS)], []),
    ],
)
def test_reviews(lines: list[Record], expected: list[tuple[str, bool]]) -> None:
    """In its lesson once a day, in recall each answer; neither sittings nor own words nor answers without a score."""
    found = reviews_of(lines, NOW).get("torque.units", [])
    assert [(review.outcome, review.recalled) for review in found] == expected


def test_two_devices_make_one_history() -> None:
    """Lines of two devices are put in order by their times."""
    lines = [line("torque.units", 8, 0, device="b"), line("torque.units", 1), line("kit.find-kit", 2)]
    found = reviews_of(lines, NOW)
    assert found == {
        "torque.units": [
            Review(START + timedelta(days=1), "right", False),
            Review(START + timedelta(days=8), "not right", False),
        ],
        "kit.find-kit": [Review(START + timedelta(days=2), "right", False)],
    }
