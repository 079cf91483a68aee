"""The torque wrench: what to set, whether it suits the torque, whether its calibration holds.

Two rules are told apart throughout. A *straight extension bar* between wrench and socket, square to the
handle, changes nothing. A *crow-foot or offset adaptor* that moves the drive sideways changes the lever and
so the setting.
"""

from datetime import date, datetime
from math import cos, radians

from msgspec import Struct

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within

CYCLES_PER_CALIBRATION = 5000
"""Pulls after which a wrench is calibrated again, or 12 months if those end first (source: iso-6789)."""

# Our rule: with less, the hand pulls across the bolt and the formula says nothing useful.
_SHORTEST_LEVER_MM = 10.0
_TORQUE_ADVICE = "Take the torque from the data sheet."
_LEVER_ADVICE = "Measure from the centre of the square drive to the mark on the grip."
_OFFSET_ADVICE = "Measure from the centre of the square drive to the centre of the bolt."


class WrenchCheck(Struct, frozen=True):
    """Whether a wrench may be used, and why."""

    ok: bool
    reason: str


def _lever_ratio(lever_mm: float, offset_mm: float, angle_deg: float) -> float:
    within("lever_mm", lever_mm, 50, 2000, "mm", _LEVER_ADVICE)
    within("offset_mm", offset_mm, 0, 400, "mm", _OFFSET_ADVICE)
    within("angle_deg", angle_deg, 0, 180, "°", "0 is straight out, 90 square to the handle.")
    effective = lever_mm + offset_mm * cos(radians(angle_deg))
    advice = "Take a longer wrench, or turn the adaptor outward."
    within("lever_mm + offset_mm·cos(angle_deg)", effective, _SHORTEST_LEVER_MM, 2400, "mm", advice)
    return lever_mm / effective


def wrench_setting_nm(target_nm: float, *, lever_mm: float, offset_mm: float, angle_deg: float = 0.0) -> float:
    r"""Wrench setting when a crow-foot or offset adaptor moves the drive away from the handle.

    .. math:: M_s = M_t \, L / (L + E \cos a)

    Parameters
    ----------
    target_nm : float
        Torque wanted at the bolt, M_t [N·m], 0.1 to 5000.
    lever_mm : float
        L, centre of the square drive to the grip mark [mm], 50 to 2000. Not the overall length.
    offset_mm : float
        E, centre of the square drive to the centre of the bolt [mm], 0 to 400.
    angle_deg : float
        a, between adaptor and handle axis [degrees]: 0 straight out, 90 square, 180 back towards the hand.

    Validity
    --------
    L + E cos a at least 10 mm; pull at the grip mark, at right angles to the handle.

    Source
    ------
    navedtra-14315-fig-3-44

    Examples
    --------
    66.7 in the manual for 100, a 12 in lever and a 6 in adapter:

    >>> wrench_setting_nm(100, lever_mm=304.8, offset_mm=152.4)
    66.7
    """
    within("target_nm", target_nm, 0.1, 5000, "N·m", _TORQUE_ADVICE)
    return target_nm * _lever_ratio(lever_mm, offset_mm, angle_deg)


def torque_at_bolt_nm(setting_nm: float, *, lever_mm: float, offset_mm: float, angle_deg: float = 0.0) -> float:
    r"""Torque that reaches the bolt when the wrench clicks at its setting.

    .. math:: M_t = M_s \, (L + E \cos a) / L

    The inverse of `wrench_setting_nm`.

    Parameters
    ----------
    setting_nm : float
        Wrench setting, M_s [N·m], 0.1 to 5000.
    lever_mm, offset_mm, angle_deg : float
        As for `wrench_setting_nm`.

    Validity
    --------
    As for `wrench_setting_nm`.

    Source
    ------
    tm-9-254

    Examples
    --------
    The manual's 60 with a 12 in lever and a 2 in adapter gives 70:

    >>> torque_at_bolt_nm(60, lever_mm=304.8, offset_mm=50.8)
    70.0
    """
    within("setting_nm", setting_nm, 0.1, 5000, "N·m", "Read the setting from the scale of the wrench.")
    return setting_nm / _lever_ratio(lever_mm, offset_mm, angle_deg)


def straight_bar_setting_nm(target_nm: float, *, bar_mm: float) -> float:
    """Wrench setting with a straight extension bar between wrench and socket: the target itself.

    The bar lies along the axis of the bolt, so the lever from that axis to the hand stays the same, and so
    does the torque. Correcting for it is the mistake: it leaves every bolt too loose.

    Parameters
    ----------
    target_nm : float
        Torque wanted at the bolt [N·m], 0.1 to 5000.
    bar_mm : float
        Length of the bar [mm], 0 to 1000; it does not enter the result.

    Validity
    --------
    Bar square to the handle and in line with the bolt; a long thin bar that winds up is another matter.

    Source
    ------
    wrench-manual-straight-bar

    Examples
    --------
    >>> straight_bar_setting_nm(65, bar_mm=75)
    65.0
    """
    within("bar_mm", bar_mm, 0, 1000, "mm", "Measure the straight bar from end to end.")
    return float(within("target_nm", target_nm, 0.1, 5000, "N·m", _TORQUE_ADVICE))


def range_check(
    torque_nm: float,
    *,
    lowest_mark_nm: float,
    highest_nm: float,
    lowest_pct: float = 20.0,
    highest_pct: float = 100.0,
) -> WrenchCheck:
    """Whether a torque lies in the part of the scale where the wrench may be used.

    Published limits differ, so they are parameters: 20 to 100 % (tm-1-1500-204-23-9), 20 to 80 %
    (msfc-std-486b).

    Parameters
    ----------
    torque_nm : float
        Torque to be set [N·m], 0.1 to 5000.
    lowest_mark_nm, highest_nm : float
        Lowest marked and highest value of the scale [N·m].
    lowest_pct, highest_pct : float
        Usable part of the scale [% of the highest value].

    Validity
    --------
    0.1 <= lowest_mark_nm < highest_nm <= 5000; limits included.

    Source
    ------
    tm-1-1500-204-23-9

    Examples
    --------
    >>> range_check(9, lowest_mark_nm=5, highest_nm=25).ok
    True
    >>> range_check(24, lowest_mark_nm=5, highest_nm=25, highest_pct=80).reason
    '24 N·m is above 20 N·m, the end of the usable range: take a larger wrench.'
    """
    within("torque_nm", torque_nm, 0.1, 5000, "N·m", _TORQUE_ADVICE)
    within("highest_nm", highest_nm, 0.2, 5000, "N·m", "Read the end of the scale.")
    within("lowest_mark_nm", lowest_mark_nm, 0.1, highest_nm, "N·m", "Read the lowest mark of the scale.")
    within("highest_pct", highest_pct, 1, 100, "%", "Take it from the rule you follow.")
    within("lowest_pct", lowest_pct, 0, highest_pct, "%", "Take it from the rule you follow.")
    low = max(lowest_mark_nm, highest_nm * lowest_pct / 100)
    high = highest_nm * highest_pct / 100
    # 1e-9: a limit that is not a whole number in binary must not shut out the value printed on the scale.
    if torque_nm < low * (1 - 1e-9):
        told = f"{torque_nm:g} N·m is below {low:g} N·m, where the usable range starts: take a smaller wrench."
        return WrenchCheck(False, told)
    if torque_nm > high * (1 + 1e-9):
        told = f"{torque_nm:g} N·m is above {high:g} N·m, the end of the usable range: take a larger wrench."
        return WrenchCheck(False, told)
    return WrenchCheck(True, f"{torque_nm:g} N·m lies within {low:g} to {high:g} N·m.")


def date_check(calibrated: date, *, due: date, on: date, pulls: int = 0) -> WrenchCheck:
    """Whether the calibration of a wrench holds on the day of the job; the due day itself still counts.

    Parameters
    ----------
    calibrated, due, on : datetime.date
        Day of calibration, day it runs out, day of the job.
    pulls : int
        Pulls since calibration, 0 to 10 000 000.

    Validity
    --------
    due after calibrated. The wrench was not dropped, bent or overloaded since: then it is checked first.

    Source
    ------
    iso-6789
    No published figure: a comparison of dates; the interval is the published figure.

    Examples
    --------
    >>> date_check(date(2024, 9, 20), due=date(2025, 9, 20), on=date(2026, 4, 14)).reason
    'Calibration ran out on 2025-09-20: do not use it, have it calibrated.'
    """
    for name, day in (("calibrated", calibrated), ("due", due), ("on", on)):
        if not isinstance(day, date) or isinstance(day, datetime):
            raise OutOfRange(
                name, "a date without a time of day", repr(day)[:60], "Write for example date(2026, 4, 14)."
            )
    if due <= calibrated:
        raise OutOfRange("due", f"after {calibrated}", str(due), "Read the calibration label again.")
    whole("pulls", pulls, 0, 10_000_000, "Count the pulls since calibration.")
    if on < calibrated:
        return WrenchCheck(False, f"Its calibration is dated {calibrated}, after the job: check the record.")
    if on > due:
        return WrenchCheck(False, f"Calibration ran out on {due}: do not use it, have it calibrated.")
    if pulls > CYCLES_PER_CALIBRATION:
        told = f"{pulls} pulls since calibration, more than {CYCLES_PER_CALIBRATION}: have it calibrated."
        return WrenchCheck(False, told)
    return WrenchCheck(True, f"In date until {due}.")
