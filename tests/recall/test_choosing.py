"""Which questions a round of recall asks."""

from collections import Counter
from datetime import datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from lines import START

from bitepoint.bank import exercises
from bitepoint.bank.coverage import can_hurt
from bitepoint.recall.choosing import (
    FEWEST,
    LONGEST_EXERCISE,
    MOST,
    UNSEEN_AT_MOST,
    Item,
    is_asked_again,
    items_of,
    round_of,
)
from bitepoint.recall.reviews import Review

ASKED = [id for id, e in exercises().items() if is_asked_again(e)]


def learned(days: dict[str, float]) -> list[Item]:
    """Return the items of who answered these exercises right in their lessons, so many days after the start."""
    return items_of({id: [Review(START + timedelta(days=day), "right", False)] for id, day in days.items()})


def test_what_is_asked_again() -> None:
    """Short exercises of the pass rule; neither the job's one story nor the forms themselves. Of 11 lessons each has some."""
    assert {exercises()[id].lesson for id in ASKED} == {e.lesson for e in exercises().values()} - {"start", "job"}
    assert max(exercises()[id].minutes for id in ASKED) <= LONGEST_EXERCISE
    assert not any(exercises()[id].beyond for id in ASKED)


def test_nothing_due_nothing_asked() -> None:
    """On the day after the lesson nothing is due yet."""
    assert round_of(learned(dict.fromkeys(ASKED, 0.0)), START + timedelta(days=1)) == []


@settings(max_examples=60, deadline=None)
@given(
    days=st.dictionaries(st.sampled_from(ASKED), st.floats(0, 60), min_size=1, max_size=len(ASKED)),
    at=st.floats(1, 200),
)
def test_a_round(days: dict[str, float], at: float) -> None:
    """At most ten; at least six where six may be asked; at most half critical; each once; none twice in a row of a lesson."""
    items, now = learned(days), START + timedelta(days=at)
    chosen = round_of(items, now)
    if not any(item.due <= now for item in items):
        assert chosen == []
        return
    critical = sum(item.critical for item in chosen)
    assert 1 <= len(chosen) <= MOST
    assert len({item.exercise for item in chosen}) == len(chosen)
    assert len(chosen) == 1 or critical <= len(chosen) / 2
    harmless = sum(not item.critical for item in items)
    assert len(chosen) >= min(FEWEST, harmless)
    most = max(Counter(item.lesson for item in chosen).values())
    neighbours = sum(a.lesson == b.lesson for a, b in zip(chosen, chosen[1:], strict=False))
    assert neighbours == max(0, 2 * most - len(chosen) - 1)


def test_the_longest_overdue_comes_first() -> None:
    """What has waited longest is in the round, what is not due is not, where there are enough."""
    items = learned({id: float(n // 4) for n, id in enumerate(ASKED)})
    now = START + timedelta(days=20)
    chosen = round_of(items, now)
    for lesson in {item.lesson for item in chosen}:
        waiting = [i for i in items if i.due <= now and i.critical and i.lesson == lesson]
        assert [i for i in waiting if i in chosen] == waiting[: sum(i.critical and i.lesson == lesson for i in chosen)]
    assert all(item.due <= now for item in chosen)


def test_three_rounds_a_week_keep_every_critical_exercise_within_eight_weeks() -> None:
    """Who learned all in six weeks and then does three rounds a week, always right, has none unseen for more than 8 weeks."""
    seen: dict[str, list[Review]] = {
        id: [Review(START + timedelta(days=42 * n / len(ASKED)), "right", False)] for n, id in enumerate(ASKED)
    }
    last: dict[str, datetime] = {id: reviews[-1].at for id, reviews in seen.items()}
    longest = timedelta()
    for round_number in range(75):
        now = START + timedelta(days=42 + 7 / 3 * round_number)
        for item in round_of(items_of(seen), now):
            longest = max(longest, now - last[item.exercise]) if item.critical else longest
            seen[item.exercise].append(Review(now, "right", True))
            last[item.exercise] = now
        longest = max([longest, *(now - at for id, at in last.items() if can_hurt(id))])
    assert longest <= UNSEEN_AT_MOST


def test_one_lesson_a_day_makes_no_round_of_one_lesson() -> None:
    """Who learned a lesson a day gets at most three questions of the oldest one, and the rest of the others that are due."""
    lessons = list(dict.fromkeys(exercises()[id].lesson for id in ASKED))
    chosen = round_of(
        learned({id: float(lessons.index(exercises()[id].lesson)) for id in ASKED}), START + timedelta(days=9)
    )
    assert max(Counter(item.lesson for item in chosen).values()) <= 3
    assert len({item.lesson for item in chosen}) >= 3


def test_who_learned_one_lesson_alone_gets_a_round_of_it() -> None:
    """Where nothing else is due the round is filled from the one lesson."""
    one = [id for id in ASKED if exercises()[id].lesson == "torque"]
    assert len(round_of(learned(dict.fromkeys(one, 0.0)), START + timedelta(days=9))) >= FEWEST
