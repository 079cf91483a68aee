"""Item statistics: against a printed class of ten, against independent formulas on invented classes, and small ones."""

import random

import numpy
import pytest
from scipy import stats

from bitepoint.bank import exercises
from bitepoint.marking.figures.items import ItemStatistics
from bitepoint.marking.figures.reliability import cronbach_alpha, kr20, reliability_words
from bitepoint.marking.figures.statistics import (
    agreement,
    correlation_if_any,
    item_rest,
    item_rest_between,
    judged,
    mean_first_score,
    share_between,
    time_on_task,
)
from bitepoint.marking.result import Row

# A published example of ten learners and ten items, read row by row.
PRINTED = (
    "1111110110 1011011101 1111011001 0010001000 0000010010 1110111111 1101110111 1111111101 0101111101 1101101110"
)
TABLE = [[float(c) for c in row] for row in PRINTED.split()]
TOTALS = [8, 7, 7, 2, 2, 9, 8, 9, 7, 7]
RIGHT_FIRST = [0.7, 0.7, 0.6, 0.7, 0.6, 0.8, 0.7, 0.7, 0.5, 0.6]
ITEM_TOTAL = [0.7946, 0.7946, 0.2027, 0.6140, 0.7095, 0.4345, 0.1625, 0.7946, 0.0828, 0.6251]
ITEM_REST = [0.7059, 0.7059, 0.0000, 0.4736, 0.5839, 0.2861, -0.0274, 0.7059, -0.1236, 0.4759]


def test_shares_and_totals_of_the_printed_class() -> None:
    """Totals, the share right of each item, and the sum of p times q, 2.18."""
    shares = [mean_first_score([row[i] for row in TABLE]) for i in range(10)]

    assert TOTALS == [sum(row) for row in TABLE]
    assert shares == pytest.approx(RIGHT_FIRST)
    assert sum(p * (1 - p) for p in RIGHT_FIRST) == pytest.approx(2.18)
    assert numpy.var(TOTALS) == pytest.approx(5.84)


def test_strong_from_weak_in_the_printed_class() -> None:
    """Item with total and item with rest; items 7 and 9 are below nought."""
    total = [correlation_if_any([row[i] for row in TABLE], [float(t) for t in TOTALS]) for i in range(10)]
    rest = [item_rest(TABLE, i) for i in range(10)]

    assert total == pytest.approx(ITEM_TOTAL, abs=5e-5)
    assert rest == pytest.approx(ITEM_REST, abs=5e-5)
    assert [7, 9] == [i + 1 for i, r in enumerate(rest) if r is not None and r < -0.001]


def test_reliability_of_the_printed_class() -> None:
    """0.6963 with the population variance; the mixing error would give 0.7378."""
    assert kr20(TABLE) == pytest.approx(0.6963, abs=5e-5)
    assert kr20(TABLE) != pytest.approx(0.7378, abs=1e-3)


def test_a_hundred_invented_classes_against_independent_formulas() -> None:
    """Point-biserial of scipy on item and rest; KR-20 as alpha from the covariances of numpy."""
    rng = random.Random(20)
    for _ in range(100):
        learners, items = rng.randrange(8, 60), rng.randrange(3, 20)
        able = [rng.gauss(0, 1) for _ in range(learners)]
        table = [[float(a + rng.gauss(0, 1) > rng.uniform(-1, 1)) for _ in range(items)] for a in able]
        data = numpy.array(table)
        cov = numpy.cov(data, rowvar=False, bias=True)
        for i in range(items):
            rest = data.sum(axis=1) - data[:, i]
            if data[:, i].std() > 0 and rest.std() > 0:
                assert item_rest(table, i) == pytest.approx(stats.pointbiserialr(data[:, i], rest).statistic)
            else:
                assert item_rest(table, i) is None
        if cov.sum() > 1e-9:
            alpha = items / (items - 1) * (1 - numpy.trace(cov) / cov.sum())
            assert kr20(table) == pytest.approx(alpha)


def test_alpha_of_part_marks_agrees_with_numpy_and_is_kr20_where_marks_are_right_or_wrong() -> None:
    """numpy's covariances give the same alpha for marks of any size; a scale changes nothing; 0 and 1 give KR-20."""
    rng = random.Random(51)
    for _ in range(50):
        learners, items = rng.randrange(8, 40), rng.randrange(2, 15)
        able = [rng.gauss(0, 1) for _ in range(learners)]
        table = [[round(max(0.0, a + rng.gauss(0, 1)), 2) for _ in range(items)] for a in able]
        cov = numpy.cov(numpy.array(table), rowvar=False)
        alpha = items / (items - 1) * (1 - numpy.trace(cov) / cov.sum())
        assert cronbach_alpha(table) == pytest.approx(alpha)
        assert cronbach_alpha([[7 * mark for mark in row] for row in table]) == pytest.approx(alpha)
    assert cronbach_alpha(TABLE) == pytest.approx(kr20(TABLE))
    assert cronbach_alpha(TABLE) == pytest.approx(0.6963, abs=5e-5)


def test_alpha_that_cannot_be_worked_out() -> None:
    """One exercise or totals that do not vary: none; no learner, ragged rows, no number: refused."""
    assert cronbach_alpha([[0.5], [1.0]]) is None
    assert cronbach_alpha([[0.5, 1.0], [1.0, 0.5]]) is None
    for table in ([], [[1.0], [1.0, 0.0]], [[float("nan"), 1.0], [1.0, 0.0]]):
        with pytest.raises(ValueError, match="cronbach_alpha needs"):
            cronbach_alpha(table)


def test_who_did_not_answer_does_not_count() -> None:
    """Share and correlation leave gaps out instead of calling them wrong."""
    gaps = [[1.0, 1.0, None], [0.0, 0.0, None], [None, 1.0, 1.0], [1.0, 1.0, 1.0]]

    assert mean_first_score([1.0, None, 0.0]) == 0.5
    assert mean_first_score([None]) is None
    assert item_rest(gaps, 0) == pytest.approx(1.0)


def test_reliability_of_a_small_class_is_not_given() -> None:
    """Below 30 learners the words say so, at 30 the figure stands."""
    assert reliability_words(TABLE).startswith("class too small: 10 learners")
    assert reliability_words(TABLE * 3) == "0.70 (30 learners)"
    assert reliability_words([[1.0, 1.0]] * 30) == "cannot be worked out: the totals do not vary"


@pytest.mark.parametrize("table", [[], [[1.0], [1.0, 0.0]], [[0.5, 1.0]]])
def test_reliability_takes_right_and_wrong_only(table: list[list[float]]) -> None:
    """No learner, ragged rows, half marks: refused."""
    with pytest.raises(ValueError, match="kr20 needs"):
        kr20(table)


def test_time_on_task_is_a_median_of_capped_times() -> None:
    """A lunch break counts as the cap and is told; negative times are left out."""
    assert time_on_task([60, 120, 7200, -5]) == (120, 1)
    assert time_on_task([7200]) == (1200, 1)
    assert time_on_task([]) == (None, 0)


def test_agreement_is_told_as_n_of_m() -> None:
    """Marks that differ by less than a hundredth agree."""
    assert agreement([(1, 1), (0.667, 0.6667), (1, 0.5)]) == "2 of 3"


@pytest.mark.parametrize(
    ("answered", "share", "against_rest", "said"),
    [
        (9, 0.5, 0.5, "too few data"),
        (10, 0.5, -0.7, "those who do well elsewhere do worse here"),
        (100, 0.5, -0.25, "those who do well elsewhere do worse here"),
        (400, 0.5, 0.05, "hardly tells"),
        (100, 1.0, 0.5, "nearly everyone is right"),
        (60, 0.0, 0.5, "hardly anyone is right"),
    ],
)
def test_what_is_odd_about_an_exercise(answered: int, share: float, against_rest: float, said: str) -> None:
    """In words, where the whole interval lies beyond the limit."""
    assert judged(answered, share, against_rest).startswith(said)


@pytest.mark.parametrize(("share", "against_rest"), [(0.5, -0.5), (0.5, 0.0), (1.0, None), (0.0, None), (0.5, 0.2)])
def test_a_class_of_23_names_no_exercise(share: float, against_rest: float | None) -> None:
    """What chance alone brings in some of 207 exercises is said of none of them."""
    assert judged(23, share, against_rest, compared=207) == ""


def test_intervals_are_those_of_independent_formulas() -> None:
    """Fisher's and Wilson's intervals as scipy works them out."""
    for r, n in [(-0.3, 12), (0.0, 23), (0.55, 40)]:
        xs = numpy.array(random.Random(n).choices(range(100), k=n), dtype=float)
        found = stats.pearsonr(xs, xs[::-1])
        between = found.confidence_interval(0.95)
        assert item_rest_between(float(found.statistic), n) == pytest.approx((between.low, between.high), abs=1e-6), r
    for right, n in [(23, 23), (0, 10), (7, 30)]:
        between = stats.binomtest(right, n).proportion_ci(0.95, method="wilson")
        assert share_between(right / n, n) == pytest.approx((between.low, between.high), abs=1e-6)


def test_an_interval_over_many_exercises_is_wider() -> None:
    """Looking through 207 at once widens it; three learners say nothing."""
    one, many = item_rest_between(0.1, 23), item_rest_between(0.1, 23, compared=207)

    assert many[0] < one[0] < 0.1 < one[1] < many[1]
    assert item_rest_between(0.9, 3) == (-1, 1)


def test_statistics_gathered_from_results_are_those_of_the_formulas() -> None:
    """Share, correlation with the rest and median time of results; two markers agree where they do; KR-20 by lesson."""
    ids = [e.id for e in exercises().values() if e.lesson == "star"][:10]
    gathered = ItemStatistics()
    for scores in TABLE * 3:
        rows = [
            Row(learner="L", exercise=e, first_score=s, last_score=s, seconds=60)
            for e, s in zip(ids, scores, strict=True)
        ]
        gathered.add(rows, [(scores[0], 1.0)])
    lines = gathered.lines()

    assert [x.right_first for x in lines] == pytest.approx(RIGHT_FIRST)
    assert [x.item_rest for x in lines] == pytest.approx(ITEM_REST, abs=5e-5)
    assert {60} == {x.seconds for x in lines}
    assert [("star", "0.70 (30 learners)")] == gathered.reliability()
    assert gathered.agreement() == "21 of 30"
    assert [] == [x.id for x in lines if x.stands_out]
