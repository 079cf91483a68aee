"""Calibration of a torque wrench: permissible deviation, limits of the true torque, and judging a record.

The deviation is relative to what the *test device* reads, so a wrench set to 100 N·m at 4 % passes from
96.154 to 104.167 N·m, not from 96 to 104.
"""

from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

from bitepoint.mechanics.limits import within

SMALL_WRENCH_MAX_NM = 10.0
"""A wrench whose highest value is at most this is allowed 6 %, a larger one 4 % (source: iso-6789)."""

READINGS_PER_POINT = 5
"""Readings at each point for an adjustable click wrench with a scale (source: iso-6789, from memory)."""

TEST_POINTS_PCT = (20.0, 60.0, 100.0)
"""Points of a calibration, in percent of the highest value, taken upward (source: iso-6789)."""

Points = Sequence[tuple[float, Sequence[float]]]
"""Settings in the order taken, and what the test device read at each [N·m]."""


class CalibrationVerdict(Struct, frozen=True):
    """What a calibration record says: the result, the largest deviation [%] and why."""

    result: Literal["pass", "fail", "incomplete"]
    worst_pct: float
    reason: str


def permissible_deviation_pct(highest_nm: float) -> float:
    """Deviation allowed for a click wrench with a scale, by the highest value of that scale.

    Parameters
    ----------
    highest_nm : float
        Highest value of the scale [N·m], 0.2 to 5000.

    Source
    ------
    iso-6789

    Examples
    --------
    >>> permissible_deviation_pct(10), permissible_deviation_pct(25)
    (6.0, 4.0)
    """
    within("highest_nm", highest_nm, 0.2, 5000, "N·m", "Read the end of the scale.")
    return 6.0 if highest_nm <= SMALL_WRENCH_MAX_NM else 4.0


def deviation_pct(setting_nm: float, *, reference_nm: float) -> float:
    r"""Deviation of a wrench from the test device, relative to the test device.

    .. math:: a_s = 100 \, (x_a - x_r) / x_r

    Parameters
    ----------
    setting_nm, reference_nm : float
        Wrench setting x_a and reading of the test device x_r [N·m], 0.1 to 5000.

    Source
    ------
    iso-6789
    No published figure: the definition itself; the permissible deviations are the published figures.

    Examples
    --------
    >>> deviation_pct(100, reference_nm=96.16)
    3.993344
    """
    within("setting_nm", setting_nm, 0.1, 5000, "N·m", "Read the setting from the scale of the wrench.")
    within("reference_nm", reference_nm, 0.1, 5000, "N·m", "Read the test device again.")
    return 100 * (setting_nm - reference_nm) / reference_nm


def true_torque_limits_nm(setting_nm: float, *, allowed_pct: float = 4.0) -> tuple[float, float]:
    r"""Least and greatest torque that a wrench within its tolerance gives.

    .. math:: M_{min} = M_s / (1 + p), \quad M_{max} = M_s / (1 - p)

    Parameters
    ----------
    setting_nm : float
        Wrench setting [N·m], 0.1 to 5000.
    allowed_pct : float
        Permissible deviation [% of the test device], 0 to 50.

    Source
    ------
    iso-6789
    No published figure: follows from the published deviation by division.

    Examples
    --------
    >>> true_torque_limits_nm(100)
    (96.153846, 104.166667)
    """
    within("setting_nm", setting_nm, 0.1, 5000, "N·m", "Read the setting from the scale of the wrench.")
    within("allowed_pct", allowed_pct, 0, 50, "%", "4 for most wrenches, 6 for those up to 10 N·m.")
    return setting_nm / (1 + allowed_pct / 100), setting_nm / (1 - allowed_pct / 100)


def judge_calibration(points: Points, *, highest_nm: float) -> CalibrationVerdict:
    """Judge a calibration record: every reading within the permissible deviation, nothing missing.

    Parameters
    ----------
    points : sequence of (setting_nm, readings_nm)
        Settings in the order taken, and what the test device read at each [N·m].
    highest_nm : float
        Highest value of the scale [N·m], 0.2 to 5000.

    Validity
    --------
    Click wrench with a scale: 20, 60 and 100 % of the highest value (or the nearest mark below), taken
    upward, five readings each.

    Source
    ------
    iso-6789
    No published figure: the rule's parts are checked one by one.

    Examples
    --------
    >>> judge_calibration([(20, [20] * 5), (60, [60] * 5), (100, [96.15] * 5)], highest_nm=100).reason
    'At 100 N·m the test device read 96.15 N·m: a deviation of +4.004 %, more than 4 %.'
    """
    allowed = permissible_deviation_pct(highest_nm)
    readings = [(x_a, x_r) for x_a, taken in points for x_r in taken]
    deviations = [deviation_pct(x_a, reference_nm=x_r) for x_a, x_r in readings]
    worst = max(deviations, key=abs, default=0.0)
    if abs(worst) > allowed * (1 + 1e-9):
        x_a, x_r = readings[deviations.index(worst)]
        told = f"At {x_a:g} N·m the test device read {x_r:g} N·m: "
        told += f"a deviation of {worst:+.3f} %, more than {allowed:g} %."
        return CalibrationVerdict("fail", worst, told)
    missing = _missing(points, highest_nm)
    if missing:
        return CalibrationVerdict("incomplete", worst, missing)
    told = f"Largest deviation {worst:+.3f} %, at most {allowed:g} % allowed."
    return CalibrationVerdict("pass", worst, told)


def _missing(points: Points, highest_nm: float) -> str:
    """What a record lacks, in one sentence, or nothing."""
    settings = [x_a for x_a, _ in points]
    if len(settings) != len(TEST_POINTS_PCT):
        return f"{len(settings)} test points, but 3 are needed: 20, 60 and 100 % of the highest value."
    if settings != sorted(settings):
        return "The test points were not taken upward."
    for pct, (x_a, taken) in zip(TEST_POINTS_PCT, points, strict=True):
        wanted = highest_nm * pct / 100
        # "or the nearest mark below": at most a tenth of the range lower (our reading of the rule).
        if not wanted - highest_nm / 10 <= x_a <= wanted * (1 + 1e-9):
            return f"No test point at {wanted:g} N·m ({pct:g} %): the record has {x_a:g} N·m there."
        if len(taken) != READINGS_PER_POINT:
            return f"{len(taken)} readings at {x_a:g} N·m, but {READINGS_PER_POINT} are needed."
    return ""
