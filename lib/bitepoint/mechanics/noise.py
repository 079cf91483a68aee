"""Noise over a working day: how much of the day's allowance it uses, and the steady level that would do the same.

Two rules stand side by side. The recommended limit and European law count energy: 3 dB more is twice as much. United
States law halves the time for each 5 dB. The employer's own rules and local law come first, and ears need protection
long before a dose is full.
"""

from collections.abc import Sequence
from math import log2, log10

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within

RECOMMENDED = {"criterion_db": 85.0, "exchange_db": 3.0}
"""Limit for eight hours and step that halves the time (source: niosh-98-126)."""
US_LAW = {"criterion_db": 90.0, "exchange_db": 5.0}
"""The same of United States law (source: cfr-29-1910-95)."""
_DAY_H = 8.0


def allowed_hours(level_db: float, *, criterion_db: float = 85.0, exchange_db: float = 3.0) -> float:
    r"""Hours a day after which a steady level has used up the allowance, :math:`T = 8 / 2^{(L - L_c)/q}`.

    Parameters
    ----------
    level_db : float
        Level at the ear L [dB(A)], 60 to 140.
    criterion_db : float
        Level allowed for eight hours L_c [dB(A)], 75 to 95.
    exchange_db : float
        Step that halves the time q [dB], 3 to 6.

    Source
    ------
    niosh-98-126, cfr-29-1910-95

    Examples
    --------
    An impact wrench at 100 dB(A) has used up the day in a quarter of an hour:

    >>> allowed_hours(100)
    0.25
    """
    within("level_db", level_db, 60, 140, "dB(A)", "Give the level at the ear.")
    within("criterion_db", criterion_db, 75, 95, "dB(A)", "85 is the recommended limit.")
    within("exchange_db", exchange_db, 3, 6, "dB", "3 counts energy, 5 is the rule of United States law.")
    return float(_DAY_H / 2 ** ((level_db - criterion_db) / exchange_db))


def noise_dose_pct(
    levels_db: Sequence[float],
    *,
    hours: Sequence[float],
    criterion_db: float = 85.0,
    exchange_db: float = 3.0,
) -> float:
    r"""Share of the day's allowance that the noise has used, :math:`D = 100 \sum C_i / T_i`.

    Parameters
    ----------
    levels_db, hours : sequence of float
        Level at the ear of each piece of work [dB(A)], 60 to 140, and how long it lasts [h], 0 to 24.
    criterion_db, exchange_db
        As for `allowed_hours`.

    Source
    ------
    niosh-98-126, cfr-29-1910-95

    Examples
    --------
    >>> noise_dose_pct([100, 85], hours=[0.125, 4])
    100.0
    """
    if len(levels_db) != len(hours):
        rule = f"{len(levels_db)} times, as many as levels_db"
        raise OutOfRange("hours", rule, f"{len(hours)}", "Give a time for each level.")
    times = [within(f"time {i}", h, 0, 24, "h", "Give the time of one working day.") for i, h in enumerate(hours, 1)]
    within("time in all", sum(times), 0, 24, "h", "A day has 24 hours.")
    rule_of = {"criterion_db": criterion_db, "exchange_db": exchange_db}
    return 100 * sum(h / allowed_hours(level, **rule_of) for level, h in zip(levels_db, times, strict=True))


def eight_hour_level_db(dose_pct: float, *, criterion_db: float = 85.0, exchange_db: float = 3.0) -> float:
    r"""Steady level that gives this dose in eight hours, :math:`L = L_c + q \log_2(D/100)`.

    With 3 dB the formula is mostly printed with 10 log10, which is 3.01 dB for twice the dose; so it is here.

    Parameters
    ----------
    dose_pct : float
        Dose D [%], 0.001 to 1e8.
    criterion_db, exchange_db
        As for `allowed_hours`.

    Source
    ------
    niosh-98-126, cfr-29-1910-95

    Examples
    --------
    >>> eight_hour_level_db(200), eight_hour_level_db(400, **US_LAW)
    (88.01, 100.0)
    """
    within("dose_pct", dose_pct, 0.001, 1e8, "%", "Work out the dose first.")
    within("criterion_db", criterion_db, 75, 95, "dB(A)", "85 is the recommended limit.")
    within("exchange_db", exchange_db, 3, 6, "dB", "3 counts energy, 5 is the rule of United States law.")
    rise = 10 * log10(dose_pct / 100) if exchange_db == 3 else exchange_db * log2(dose_pct / 100)
    return criterion_db + rise
