"""What a class is forgetting: bands, shares, intervals that count learners, and when there is too little to say."""

from collections import defaultdict
from statistics import median

import pytest
from hypothesis import given
from hypothesis import strategies as st
from invented_recall import invented_recall

from bitepoint.bank import exercises
from bitepoint.marking.figures.clustered import clustered_between, design_effect
from bitepoint.marking.figures.counts import ExerciseCount
from bitepoint.marking.figures.forgetting import (
    BANDS,
    FEWEST,
    TOO_FEW,
    Forgetting,
    RecallCount,
    RecallShare,
    band_of,
    share_of,
)

CROWFOOT, IMPACT = "torque.crow-foot", "star.impact"
Cell = tuple[str, int | None]


def test_bands_follow_each_other_without_a_gap_and_are_said_in_words() -> None:
    """A day falls into one band at most, and the words say which."""
    assert [(b.begins, b.ends) for b in BANDS] == [(4, 11), (11, 21), (21, 42), (42, 85)]
    assert [band_of(d) for d in (3.99, 4, 10.9, 11, 20.9, 21, 41, 42, 84.9, 85, None)] == [
        *(None, 0, 0, 1, 1, 2, 2, 3, 3, None, None)
    ]
    assert BANDS[0].says == "4 to 10 days"


def test_fewer_than_five_learners_are_too_few_to_say() -> None:
    """However often four of them answer, no figure is given; with a fifth it is."""
    four = share_of([(9, 10)] * (FEWEST - 1))
    assert (four.right, four.told, four.answers, four.learners) == (None, TOO_FEW, 40, 4)
    assert share_of([(9, 10)] * FEWEST).right == pytest.approx(0.9)


def test_answers_of_one_learner_count_for_less() -> None:
    """The same answers say less where each learner is all right or all wrong."""
    mixed, apart = [(5, 10)] * 8, [(10, 10), (0, 10)] * 4
    assert design_effect(mixed) < 1 < design_effect(apart)
    low, high = clustered_between(mixed)
    wide = clustered_between(apart)
    assert wide[0] < low < high < wide[1]


@given(
    st.lists(st.integers(1, 20).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))), min_size=5, max_size=40)
)
def test_an_interval_holds_its_share_and_stays_between_nothing_and_all(pairs: list[tuple[int, int]]) -> None:
    """Whatever was answered."""
    found = share_of(pairs)
    assert found.right is not None
    assert 0 <= found.least <= found.right + 1e-9
    assert found.right - 1e-9 <= found.most <= 1
    assert found.most - found.least > 0


def test_what_surely_fell_most_since_the_lesson_stands_first_with_its_mistake() -> None:
    """An outcome that everybody has forgotten comes before one that is still there; one with too few answers comes last."""
    found = Forgetting()
    for number in range(8):
        slip = RecallCount(CROWFOOT, 30.0, number == 0, "" if number == 0 else "sets the sheet's torque")
        found.add([slip, RecallCount(IMPACT, 30.0, True, "")])
    found.add([RecallCount("strip.half-turns", 30.0, False, "")])
    found.add([RecallCount(IMPACT, 2.0, False, "x"), RecallCount(IMPACT, None, False, "x")])
    lessons = []
    for id in (CROWFOOT, IMPACT, "strip.half-turns"):
        count = ExerciseCount(id=id, title="", outcome=exercises()[id].outcome)
        count.counts["right later"] = 8
        lessons.append(count)
    told = found.outcomes(lessons)
    assert [f.exercises for f in told] == [(CROWFOOT,), (IMPACT,), ("strip.half-turns",)]
    assert (told[0].in_lesson, told[0].together.right, told[0].times) == (1.0, 1 / 8, 7)
    assert "Tempting, made 7 times: sets the sheet's torque" in told[0].words
    assert told[1].together.right == 1
    assert (told[2].fell, told[2].together) == (None, RecallShare(answers=1, learners=1))
    assert (found.answers, found.learners, found.in_no_band) == (19, 9, 2)
    assert [id for id, _, _ in found.weakest()][0] == CROWFOOT


def test_an_exercise_that_is_gone_stands_in_no_column() -> None:
    """It is counted and nothing more."""
    found = Forgetting()
    found.add([RecallCount("torque.nobody-knows-it", 30.0, True, "")])
    assert (found.answers, found.in_no_band, found.outcomes([])) == (1, 1, [])


def test_95_percent_intervals_hold_the_truth_in_18_of_20_seeds() -> None:
    """Over all outcomes in each band; of single outcomes at least 95 in 100 do. The median half-width is at most 0.15."""
    held, halves, outcomes, narrow = defaultdict(list), [], [], []
    for seed in range(20):
        found, truth = Forgetting(), defaultdict(list)
        for answers in invented_recall(seed):
            found.add(answer.count for answer in answers)
            for answer in answers:
                if (band := band_of(answer.count.days)) is not None:
                    truth["", band].append(answer.chance)
                    truth[exercises()[answer.count.exercise].outcome, None].append(answer.chance)
        for band, share in enumerate(found.over_all()[:-1]):
            held[band].append(_holds(share, truth["", band]))
            halves.append((share.most - share.least) / 2)
        for forgotten in found.outcomes([]):
            if forgotten.together.right is not None:
                outcomes.append(_holds(forgotten.together, truth[forgotten.outcome, None]))
                narrow.append((forgotten.together.most - forgotten.together.least) / 2)
    assert all(sum(seeds) >= 18 for seeds in held.values())
    assert sum(outcomes) / len(outcomes) >= 0.95
    assert max(median(halves), median(narrow)) <= 0.15


def _holds(share: RecallShare, chances: list[float]) -> bool:
    return share.least <= sum(chances) / len(chances) <= share.most
