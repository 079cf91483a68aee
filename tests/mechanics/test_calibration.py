"""Calibration of a torque wrench, judged relative to the test device."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.calibration import (
    CalibrationVerdict,
    deviation_pct,
    judge_calibration,
    permissible_deviation_pct,
    true_torque_limits_nm,
)

GOOD = [(20, [20.1] * 5), (60, [60.5] * 5), (100, [101] * 5)]


@pytest.mark.parametrize(
    ("allowed", "low", "high"), [(4, 96.153846, 104.166667), (6, 94.339623, 106.382979), (0, 100, 100)]
)
def test_limits_of_the_true_torque(allowed, low, high):
    """A wrench set to 100 N·m passes from 96.154 to 104.167 at 4 %, not from 96 to 104."""
    assert pytest.approx((low, high), abs=1e-6) == true_torque_limits_nm(100, allowed_pct=allowed)


@pytest.mark.parametrize(
    ("setting", "reference", "deviation"),
    [
        (100, 96.15, 4.004), (100, 96.16, 3.993), (100, 104.16, -3.994), (100, 104.17, -4.003),
        (8, 7.6, 5.263), (8, 8.52, -6.103),
    ],
)  # fmt: skip
def test_deviation(setting, reference, deviation):
    """The deviation is relative to the test device, high settings positive."""
    assert pytest.approx(deviation, abs=5e-4) == deviation_pct(setting, reference_nm=reference)


@settings(deadline=None)
@given(st.floats(min_value=1, max_value=1000), st.floats(min_value=0, max_value=50))
def test_deviation_at_the_limits_is_the_allowed_one(setting, allowed):
    """At the limits of the true torque the deviation is just the allowed one, plus and minus."""
    low, high = true_torque_limits_nm(setting, allowed_pct=allowed)
    assert pytest.approx(allowed, abs=1e-9) == deviation_pct(setting, reference_nm=low)
    assert pytest.approx(-allowed, abs=1e-9) == deviation_pct(setting, reference_nm=high)


@pytest.mark.parametrize(
    ("reading", "result"), [(96.15, "fail"), (96.16, "pass"), (104.16, "pass"), (104.17, "fail"), (96, "fail")]
)
def test_record_at_the_limit(reading, result):
    """One reading beyond the limit fails the record; 96 N·m at 100 N·m fails."""
    record = [*GOOD[:2], (100, [100, 100, reading, 100, 100])]
    assert result == judge_calibration(record, highest_nm=100).result


def test_small_wrench_has_six_percent():
    """Up to 10 N·m a deviation of 5.263 % passes, above it fails."""
    record = [(share * 10, [share * 10] * 4 + [share * 10 / 1.05263]) for share in (0.2, 0.6, 1)]
    doubled = [(x_a * 2, [x_r * 2 for x_r in readings]) for x_a, readings in record]
    results = [judge_calibration(r, highest_nm=highest).result for r, highest in ((record, 10), (doubled, 20))]
    expected = ["pass", "fail"]
    assert expected == results


@pytest.mark.parametrize(
    ("record", "reason"),
    [
        (GOOD[:2], "2 test points, but 3 are needed: 20, 60 and 100 % of the highest value."),
        ([], "0 test points, but 3 are needed: 20, 60 and 100 % of the highest value."),
        (GOOD[::-1], "The test points were not taken upward."),
        ([(20, [20] * 5), (60, [60] * 5), (80, [80] * 5)], "No test point at 100 N·m (100 %): the record has 80 N·m there."),
        ([*GOOD[:2], (100, [100] * 4)], "4 readings at 100 N·m, but 5 are needed."),
    ],
)  # fmt: skip
def test_record_with_something_missing_is_incomplete(record, reason):
    """A record that lacks a point or a reading neither passes nor fails."""
    verdict = judge_calibration(record, highest_nm=100)
    assert ("incomplete", reason) == (verdict.result, verdict.reason)


def test_point_at_the_mark_below():
    """A scale without a mark at 20 % is tested at the nearest mark below."""
    verdict = judge_calibration([(15, [15] * 5), *GOOD[1:]], highest_nm=100)
    expected = "pass"
    assert expected == verdict.result


def test_good_record_passes_and_says_how_well():
    """A good record passes, with its largest deviation and its sign."""
    expected = CalibrationVerdict("pass", 100 * (100 - 101) / 101, "Largest deviation -0.990 %, at most 4 % allowed.")
    assert expected == judge_calibration(GOOD, highest_nm=100)


@pytest.mark.parametrize("reading", [float("nan"), float("inf"), 0, -5])
def test_reading_that_is_none_is_told(reading):
    """A reading that is no torque is refused, not judged."""
    with pytest.raises(OutOfRange, match=r"reference_nm must be between 0\.1 and 5000 N·m, .* Read the test device"):
        judge_calibration([(20, [reading] * 5), *GOOD[1:]], highest_nm=100)


@settings(deadline=None)
@given(st.floats(min_value=0.2, max_value=5000))
def test_class_by_size(highest):
    """6 % up to and with 10 N·m, 4 % above, nothing between."""
    expected = 6 if highest <= 10 else 4
    assert expected == permissible_deviation_pct(highest)
