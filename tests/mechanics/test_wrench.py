"""Torque wrench: properties of the setting, range, date, calibration."""

import math
import re
from datetime import date, datetime

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bitepoint.errors import OutOfRange
from bitepoint.mechanics import calibration, wrench

TORQUE = st.floats(min_value=1, max_value=1000)
LEVER = st.floats(min_value=100, max_value=2000)
OFFSET = st.floats(min_value=0, max_value=80)
ANGLE = st.floats(min_value=0, max_value=180)
ANY = st.one_of(
    st.floats(), st.floats(min_value=0, max_value=400), st.sampled_from([0.1, 50, 400, 5000, 1e308, -0.0, 5e-324])
)


# Own derivation by the formula, straight out to back towards the hand.
@pytest.mark.parametrize(
    ("angle", "expected"), [(30, 69.7831), (45, 73.8796), (60, 80), (90, 100), (120, 400 / 3), (180, 200)]
)
def test_setting_at_an_angle(angle, expected):
    """The setting grows with the angle: 12 in lever, 6 in adaptor, 100 wanted."""
    setting = wrench.wrench_setting_nm(100, lever_mm=304.8, offset_mm=152.4, angle_deg=angle)
    assert pytest.approx(expected, rel=1e-6) == setting


@settings(deadline=None)
@given(TORQUE, LEVER, OFFSET, ANGLE)
def test_torque_at_bolt_is_the_inverse(target, lever, offset, angle):
    """What is set for a torque reaches the bolt as that torque."""
    setting = wrench.wrench_setting_nm(target, lever_mm=lever, offset_mm=offset, angle_deg=angle)
    assume(0.1 <= setting <= 5000)
    reached = wrench.torque_at_bolt_nm(setting, lever_mm=lever, offset_mm=offset, angle_deg=angle)
    assert pytest.approx(target, rel=1e-12) == reached


@settings(deadline=None)
@given(TORQUE, LEVER, ANGLE)
def test_no_offset_changes_nothing(target, lever, angle):
    """Without offset the setting is the target, at any angle."""
    assert target == wrench.wrench_setting_nm(target, lever_mm=lever, offset_mm=0, angle_deg=angle)


@settings(deadline=None)
@given(TORQUE, LEVER, st.floats(min_value=1, max_value=80), ANGLE, ANGLE)
def test_setting_grows_with_the_angle(target, lever, offset, a, b):
    """The further the adaptor points back, the higher the setting."""
    near, far = sorted((a, b))
    low, high = (
        wrench.wrench_setting_nm(target, lever_mm=lever, offset_mm=offset, angle_deg=angle) for angle in (near, far)
    )
    assert low <= high * (1 + 1e-12)
    assert near >= 90 or low <= target * (1 + 1e-12)


@settings(deadline=None)
@given(TORQUE, st.floats(min_value=100, max_value=900), OFFSET, ANGLE)
def test_only_the_ratio_of_lengths_counts(target, lever, offset, angle):
    """Twice the lever with twice the offset needs the same setting."""
    once = wrench.wrench_setting_nm(target, lever_mm=lever, offset_mm=offset, angle_deg=angle)
    twice = wrench.wrench_setting_nm(target, lever_mm=2 * lever, offset_mm=2 * offset, angle_deg=angle)
    assert pytest.approx(once, rel=1e-12) == twice


@settings(deadline=None)
@given(TORQUE, st.floats(min_value=0, max_value=1000))
def test_straight_bar_never_changes_the_setting(target, bar):
    """Whatever its length, a straight bar leaves the setting alone."""
    assert target == wrench.straight_bar_setting_nm(target, bar_mm=bar)


@pytest.mark.parametrize(
    ("given_", "told"),
    [
        (
            {"offset_mm": 4000},
            "offset_mm must be between 0 and 400 mm, but you gave 4000 mm. "
            "Measure from the centre of the square drive to the centre of the bolt.",
        ),
        (
            {"lever_mm": 0},
            "lever_mm must be between 50 and 2000 mm, but you gave 0 mm. "
            "Measure from the centre of the square drive to the mark on the grip.",
        ),
        (
            {"angle_deg": 200},
            "angle_deg must be between 0 and 180 °, but you gave 200 °. 0 is straight out, 90 square to the handle.",
        ),
        (
            {"lever_mm": 60, "offset_mm": 60, "angle_deg": 180},
            "lever_mm + offset_mm·cos(angle_deg) must be between 10 and 2400 mm, but you gave 0 mm. "
            "Take a longer wrench, or turn the adaptor outward.",
        ),
    ],
)
def test_setting_out_of_range_is_told(given_, told):
    """A lever that cannot be is refused with name, rule, value and advice, both ways."""
    lengths = {"lever_mm": 410, "offset_mm": 60, "angle_deg": 0} | given_
    for calculator in (wrench.wrench_setting_nm, wrench.torque_at_bolt_nm):
        with pytest.raises(OutOfRange) as caught:
            calculator(65, **lengths)
        assert told == str(caught.value)


TOLD = re.compile(r".+ must be between .+ and .+, but you gave .+\. .+\.")


def outcome(calculator, first, rest):
    """What a person gets: a figure, or the sentence of the error."""
    try:
        return calculator(first, **rest)
    except OutOfRange as error:
        return str(error)


SCALARS = [
    (wrench.wrench_setting_nm, ("lever_mm", "offset_mm", "angle_deg")),
    (wrench.torque_at_bolt_nm, ("lever_mm", "offset_mm", "angle_deg")),
    (wrench.straight_bar_setting_nm, ("bar_mm",)),
    (calibration.permissible_deviation_pct, ()),
    (calibration.deviation_pct, ("reference_nm",)),
]


@pytest.mark.parametrize(("calculator", "names"), SCALARS)
@settings(deadline=None, max_examples=200)
@given(data=st.data())
def test_any_figures_give_a_finite_one_or_a_sentence(calculator, names, data):
    """Extreme and non-finite figures give a finite result or a told range, never NaN, never a complex number."""
    result = outcome(calculator, data.draw(ANY), {name: data.draw(ANY) for name in names})
    if isinstance(result, str):
        assert TOLD.fullmatch(result)
    else:
        assert type(result) is float
        assert math.isfinite(result)


@pytest.mark.parametrize(
    ("torque", "lowest", "highest", "ok", "reason"),
    [
        (9, 5, 25, True, "9 N·m lies within 5 to 25 N·m."),
        (24, 5, 25, True, "24 N·m lies within 5 to 25 N·m."),
        (65, 20, 100, True, "65 N·m lies within 20 to 100 N·m."),
        (9, 20, 100, False, "9 N·m is below 20 N·m, where the usable range starts: take a smaller wrench."),
        (24, 60, 300, False, "24 N·m is below 60 N·m, where the usable range starts: take a smaller wrench."),
        (65, 5, 25, False, "65 N·m is above 25 N·m, the end of the usable range: take a larger wrench."),
    ],
)
def test_range_of_the_wrenches_of_the_workshop(torque, lowest, highest, ok, reason):
    """The range check says whether the wrench suits, and why."""
    expected = wrench.WrenchCheck(ok, reason)
    assert expected == wrench.range_check(torque, lowest_mark_nm=lowest, highest_nm=highest)


def test_lowest_mark_counts_when_it_is_higher():
    """A scale that starts above 20 % starts the usable range."""
    verdict = wrench.range_check(25, lowest_mark_nm=30, highest_nm=100)
    reason = "25 N·m is below 30 N·m, where the usable range starts: take a smaller wrench."
    assert reason == verdict.reason


CALIBRATED, DUE = date(2025, 11, 3), date(2026, 11, 3)


@pytest.mark.parametrize(
    ("on", "pulls", "ok", "reason"),
    [
        (date(2026, 4, 14), 0, True, "In date until 2026-11-03."),
        (date(2026, 11, 3), 5000, True, "In date until 2026-11-03."),
        (date(2025, 11, 3), 0, True, "In date until 2026-11-03."),
        (date(2026, 11, 4), 0, False, "Calibration ran out on 2026-11-03: do not use it, have it calibrated."),
        (date(2025, 11, 2), 0, False, "Its calibration is dated 2025-11-03, after the job: check the record."),
        (date(2026, 4, 14), 5001, False, "5001 pulls since calibration, more than 5000: have it calibrated."),
    ],
)
def test_date_on_the_day_of_the_job(on, pulls, ok, reason):
    """A wrench is in date from its calibration to the due day, both included, and up to 5000 pulls."""
    expected = wrench.WrenchCheck(ok, reason)
    assert expected == wrench.date_check(CALIBRATED, due=DUE, on=on, pulls=pulls)


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"due": CALIBRATED}, "due must be after 2025-11-03, but you gave 2025-11-03. Read the calibration label again."),
        (
            {"on": datetime(2026, 4, 14, 8, 0)},
            "on must be a date without a time of day, but you gave datetime.datetime(2026, 4, 14, 8, 0). "
            "Write for example date(2026, 4, 14).",
        ),
        (
            {"on": "2026-04-14"},
            "on must be a date without a time of day, but you gave '2026-04-14'. "
            "Write for example date(2026, 4, 14).",
        ),
        (
            {"pulls": -1},
            "pulls must be a whole number from 0 to 10000000, but you gave -1. Count the pulls since calibration.",
        ),
    ],
)  # fmt: skip
def test_dates_that_cannot_be_are_told(changed, told):
    """A label read wrongly is refused in one sentence."""
    with pytest.raises(OutOfRange) as caught:
        wrench.date_check(CALIBRATED, **({"due": DUE, "on": date(2026, 4, 14)} | changed))
    assert told == str(caught.value)


def test_verdicts_are_frozen():
    """A verdict cannot be changed afterwards."""
    verdict = wrench.range_check(9, lowest_mark_nm=5, highest_nm=25)
    with pytest.raises(AttributeError):
        verdict.ok = False
