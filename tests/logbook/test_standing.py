"""What a learner's answers amount to."""

from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bitepoint.logbook.record import Record
from bitepoint.logbook.standing import Marked, critical_left, in_order, is_closed, standing
from bitepoint.questions.question import Verdict


def answer(
    got: float, /, *, turn: int = 1, minute: int = 0, device: str = "a", critical: bool = False, **more: Any
) -> Marked:
    """Return one marked answer."""
    fields = {
        "n": minute + 1,
        "at": f"2026-04-14T08:{minute:02d}:00.000Z",
        "learner": "L01-X",
        "class": "oak-2026",
        "device": device,
        "exercise": "start.number",
        "revision": 1,
        "turn": turn,
        "facts": "q",
        "how": "form",
        "answer": "1",
        "prev": "",
        "hash": f"{device}{minute}",
        "score": got,
        **more,
    }
    return Marked(msgspec.convert(fields, Record), Verdict(got, "", "", "", critical=critical), 3)


@pytest.mark.parametrize(
    ("answers", "expected"),
    [
        ([answer(1)], (1, 1, 1, 1, 0)),
        ([answer(0), answer(1, minute=1)], (0, 1, 2, 1, 0)),
        ([answer(0), answer(0.5, minute=1)], (0, 0.5, 2, 1, 0)),
        ([answer(0, minute=m) for m in range(3)], (0, 0, 3, 1, 1)),
        ([*(answer(0, minute=m) for m in range(3)), answer(1, minute=3)], (0, 0, 4, 1, 1)),
        ([*(answer(0, minute=m) for m in range(3)), answer(1, turn=2, minute=3)], (0, 1, 4, 2, 1)),
        ([answer(1), answer(0, turn=2, minute=1)], (1, 1, 2, 2, 0)),
        ([answer(0), answer(1, minute=1, solution_shown=True)], (0, 0, 2, 1, 1)),
        ([answer(1, solution_shown=True)], (1, 0, 1, 1, 1)),
        ([answer(0, score=None), answer(1, minute=1, score=None)], (0, 1, 2, 1, 0)),
        ([answer(1, score=None), answer(0, minute=1, score=None)], (1, 0, 2, 1, 0)),
        ([answer(0, device="b", minute=1), answer(1, device="a", minute=0)], (1, 1, 2, 1, 0)),
        # The solution seen on one machine is seen: the same turn, right on another machine later, does not count …
        ([*(answer(0, minute=m) for m in range(3)), answer(1, minute=4, device="b")], (0, 0, 4, 1, 1)),
        # … but right on another machine before it was shown does, and so do misses shared out between two machines.
        ([*(answer(0, minute=m) for m in (0, 1, 3)), answer(1, minute=2, device="b")], (0, 1, 4, 1, 1)),
        ([*(answer(0, minute=m, device="ab"[m % 2]) for m in range(4)), answer(1, minute=5)], (0, 1, 5, 1, 0)),
    ],
)
def test_first_and_counting_score(answers: list[Marked], expected: tuple[float, ...]) -> None:
    """The first answer is the first score; what counts is the last turn right before its own solution was shown."""
    found = standing(answers)

    assert expected == (found.first_score, found.last_score, found.tries, found.turns, found.solutions_seen)


def test_the_order_in_which_files_are_read_changes_nothing() -> None:
    """Lines of several devices are put in order by time."""
    answers = [answer(0), answer(1, minute=1, device="b"), answer(0, turn=2, minute=2)]

    assert standing(answers) == standing(answers[::-1])


def test_a_clock_set_back_makes_no_later_answer_an_earlier_one() -> None:
    """Wrong at nine, the clock set back an hour, right by number two: first wrong, then put right; nothing stays open."""
    wrong = answer(0, minute=50, critical=True, n=1, hash="a1")
    right = answer(1, minute=5, n=2, hash="a2")
    found = standing([right, wrong])
    assert (0, 1) == (found.first_score, found.last_score)
    assert not critical_left([right, wrong])
    assert critical_left([right, msgspec.structs.replace(wrong, record=msgspec.structs.replace(wrong.record, n=3))])


def test_between_devices_the_time_decides_and_within_one_the_number() -> None:
    """A device whose clock ran ahead keeps its own order; the other device's answers lie where their time puts them."""
    ahead = [answer(0, minute=40, n=1, hash="a1"), answer(0, minute=10, n=2, hash="a2")]
    other = answer(1, minute=20, device="b", hash="b1")
    assert ["b1", "a1", "a2"] == [a.record.hash for a in in_order([ahead[1], other, ahead[0]])]


@pytest.mark.parametrize(
    "wrong_by", ["2016-04-14T08:00:00.000Z", "2036-04-14T08:00:00.000Z", "2026-04-13T08:00:00.000Z"]
)
def test_a_clock_wrong_by_years_changes_nothing_on_one_device(wrong_by: str) -> None:
    """Every third line of a device may have any time: the marks are those of a right clock."""
    plan = [(0, 1), (0, 1), (1, 1), (0, 2), (1, 2)]
    good = [answer(s, turn=t, minute=m, n=m + 1, hash=f"a{m}") for m, (s, t) in enumerate(plan)]
    odd = [
        msgspec.structs.replace(a, record=msgspec.structs.replace(a.record, at=wrong_by)) if m % 3 == 1 else a
        for m, a in enumerate(good)
    ]
    one, two = standing(good), standing(odd)
    assert (one.first_score, one.last_score, one.counted.record.n, one.solutions_seen) == (
        two.first_score, two.last_score, two.counted.record.n, two.solutions_seen,
    )  # fmt: skip


@given(
    st.lists(
        st.tuples(st.sampled_from([0.0, 0.5, 1.0]), st.integers(1, 2), st.sampled_from("ab"), st.sampled_from("sscn")),
        min_size=1,
        max_size=8,
    )
)
def test_a_solution_is_seen_where_the_page_would_have_shown_it(plan: list[tuple[float, int, str, str]]) -> None:
    """Answer by answer: a turn of a device is closed once `is_closed` says so, or once a line says that it was shown."""
    told = {"s": {}, "c": {"solution_shown": True}, "n": {"score": None}}
    answers = [answer(s, turn=t, device=d, minute=m, **told[how]) for m, (s, t, d, how) in enumerate(plan)]
    seen = set()
    for place, each in enumerate(answers):
        record = each.record
        own = [a for a in answers[: place + 1] if (a.record.turn, a.record.device) == (record.turn, record.device)]
        if record.solution_shown or is_closed(own):
            seen.add((record.turn, record.device))

    assert len(seen) == standing(answers).solutions_seen
    assert standing(answers).first == in_order(answers)[0]
