"""A whole road log at once: clutch slip of every sample, and the gear a stretch was driven in.

The formulas are those of the module driveline; numpy does the work and is imported only when called.
"""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.driveline import gear_in_use, kmh_per_rpm
from bitepoint.mechanics.limits import within

if TYPE_CHECKING:
    from numpy.typing import ArrayLike, NDArray


def slip_log_percent(
    engine_rpm: "ArrayLike",
    *,
    road_speed_kmh: "ArrayLike",
    gear_ratio: float,
    final_ratio: float,
    rolling_circumference_mm: float,
) -> "NDArray[Any]":
    r"""Clutch slip of a whole log at once, in per cent; the same formula as `slip_percent`.

    Parameters
    ----------
    engine_rpm, road_speed_kmh : array_like, shape (n,)
        Samples of one stretch in one gear: 300 to 12 000 rpm, 0 to 350 km/h, at most 10 million.
    gear_ratio, final_ratio, rolling_circumference_mm : float
        As for `road_speed_kmh`.

    Returns
    -------
    ndarray of float64, shape (n,)

    Raises
    ------
    OutOfRange
        Names the first sample that cannot be used; nothing is left out silently.

    Source
    ------
    derived

    Examples
    --------
    >>> [float(s) for s in slip_log_percent(
    ...     [3000, 2731.81], road_speed_kmh=[90, 90], gear_ratio=0.9, final_ratio=3.9,
    ...     rolling_circumference_mm=1927.295)]
    [8.940, 0.000]
    """
    import numpy as np

    n, v = _pair(engine_rpm, road_speed_kmh, lowest_kmh=0)
    slip: NDArray[Any] = np.subtract(1, v / (kmh_per_rpm(gear_ratio, final_ratio, rolling_circumference_mm) * n))
    return 100 * slip


def gear_of_log(
    engine_rpm: "ArrayLike",
    *,
    road_speed_kmh: "ArrayLike",
    gear_ratios: Sequence[float],
    final_ratio: float,
    rolling_circumference_mm: float,
    within_percent: float = 4.0,
) -> int | None:
    """Gear of one stretch of a log, from the median of road speed over engine speed; None when none fits.

    Use a stretch in one gear with a light foot: at full load a slipping clutch looks like a lower gear.

    Parameters
    ----------
    engine_rpm, road_speed_kmh : array_like, shape (n,)
        300 to 12 000 rpm, 1 to 350 km/h.
    gear_ratios, final_ratio, rolling_circumference_mm, within_percent
        As for driveline.gear_in_use.

    Source
    ------
    derived
    No published figure: repeats the gear in use over a log.

    Examples
    --------
    >>> gear_of_log([2000, 2100, 2200], road_speed_kmh=[38.0, 39.9, 41.9], gear_ratios=(3.64, 2.05, 1.33),
    ...             final_ratio=4.12, rolling_circumference_mm=1739)
    3
    """
    import numpy as np

    n, v = _pair(engine_rpm, road_speed_kmh, lowest_kmh=1)
    return gear_in_use(
        1000.0,
        road_speed_kmh=float(np.median(v / n)) * 1000,
        gear_ratios=gear_ratios,
        final_ratio=final_ratio,
        rolling_circumference_mm=rolling_circumference_mm,
        within_percent=within_percent,
    )


def _pair(
    engine_rpm: "ArrayLike", road_speed_kmh: "ArrayLike", lowest_kmh: float
) -> tuple["NDArray[Any]", "NDArray[Any]"]:
    n = _samples("engine_rpm", engine_rpm, 300, 12_000, "rpm")
    v = _samples("road_speed_kmh", road_speed_kmh, lowest_kmh, 350, "km/h")
    if n.shape != v.shape:
        rule = f"{n.size} samples, as many as engine_rpm"
        raise OutOfRange("road_speed_kmh", rule, f"{v.size}", "Read both from one log.")
    return n, v


def _samples(name: str, values: "ArrayLike", low: float, high: float, unit: str) -> "NDArray[Any]":
    import numpy as np

    try:
        samples = np.asarray(values, dtype=np.float64)
    except (TypeError, ValueError, OverflowError):
        raise OutOfRange(name, "a list of numbers", repr(values)[:60], "Read the columns of the log again.") from None
    if samples.ndim != 1 or not 1 <= samples.size <= 10_000_000:
        raise OutOfRange(name, "one row of 1 to 10 million samples", f"shape {samples.shape}", "Give one column.")
    bad = ~((samples >= low) & (samples <= high))
    if bad.any():
        first = int(bad.argmax())
        within(
            f"{name} (sample {first + 1})",
            float(samples[first]),
            low,
            high,
            unit,
            "Cut this part of the log out.",
        )
    return samples
