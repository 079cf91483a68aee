"""What a learner is told of the weeks to come, and after which answers a reason is asked for."""

from datetime import timedelta

import pytest
from lines import START

from bitepoint.recall.choosing import Item, items_of
from bitepoint.recall.outlook import come_back, firmness, unseen_for_long
from bitepoint.recall.reasons import reasons_asked
from bitepoint.recall.reviews import Review

DAY = timedelta(days=1)
CRITICAL, HARMLESS = "safe.dust", "carry.oil"


def items(days: dict[str, list[float]]) -> list[Item]:
    """Return the items of who answered right on these days after the start."""
    return items_of({id: [Review(START + DAY * day, "right", False) for day in seen] for id, seen in days.items()})


def test_firm_fading_faded() -> None:
    """Firm where it is not due within a week; faded where the chance is below seven in ten; else fading."""
    [item] = items({HARMLESS: [0, 3, 20]})
    days = (item.due - item.memory.last).days
    assert days > 20
    assert firmness(item, item.memory.last) == "firm"
    assert firmness(item, item.due - 8 * DAY) == "firm"
    assert firmness(item, item.due - 6 * DAY) == "fading"
    assert item.memory.chance(item.due + 2000 * DAY) < 0.7
    assert firmness(item, item.due + 2000 * DAY) == "faded"


def test_come_back_when_six_are_due_or_three_days_after_the_first() -> None:
    """Never sooner than tomorrow, nor for nothing learned."""
    assert come_back([], START) is None
    one = items({HARMLESS: [0]})
    assert come_back(one, START) == one[0].due + 3 * DAY
    assert come_back(one, START + 30 * DAY) == START + 31 * DAY
    six = items(
        dict.fromkeys(("carry.oil", "carry.wear", "safe.tags", "kit.find-kit", "fault.decide", "fault.slip"), [0.0])
    )
    assert len(six) == 6
    assert come_back(six, START) == six[5].due


def test_unseen_for_eight_weeks_counts_the_safety_critical_alone() -> None:
    """Those that are, and apart from them those that will be within a week."""
    both = items({CRITICAL: [0], HARMLESS: [0]})
    counts = {day: unseen_for_long(both, START + day * DAY) for day in (48, 49, 55, 56)}
    assert counts == {48: (0, 0), 49: (0, 1), 55: (0, 1), 56: (1, 0)}


@pytest.mark.parametrize(
    ("answers", "asked"),
    [
        ("", ""),
        ("RRRRRR", "..?..?"),
        ("RCRRRC", ".?..?."),
        ("CCCC", ".?.?"),
        ("wwww", "...."),
        ("RwRwwR", ".....?"),
        ("RwcC", "...?"),
    ],
)
def test_a_reason_after_every_third_right_decision_or_the_second_that_could_hurt(answers: str, asked: str) -> None:
    """R right, C right where a mistake could hurt someone, small letters wrong; a question mark where a reason is asked for."""
    found = reasons_asked([(letter.isupper(), letter in "cC") for letter in answers])
    assert asked == "".join("?" if one else "." for one in found)
