"""Slip out of a log of one's own: the pull, a stretch with a light foot in the same gear, and what the figures are worth.

Without a column of the throttle the strongest pull in the gear is taken for full load, and it is said. The slip at full load is
held against the light foot in the same gear: a wrong tyre, ratio or speedometer shifts both alike.
"""

from math import hypot
from typing import TYPE_CHECKING, Any, Literal

from msgspec import Struct

from bitepoint.mechanics.driveline import gear_in_use
from bitepoint.mechanics.roadlog import slip_log_percent
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.own_logs.log_stretch import LogStretch, SlipColumns
from bitepoint.workshop.own_logs.reading import OwnLog
from bitepoint.workshop.roadtest_verdict import SHORTEST
from bitepoint.workshop.vehicles import Vehicle

if TYPE_CHECKING:
    from numpy.typing import NDArray

Outcome = Literal["slips", "no slip seen", "not told"]
SETTLE_S, SHORTEST_S, HALF_WINDOW_S = 0.5, 1.0, 0.5
SLOWEST_KMH, LOWEST_RPM = 10.0, 300.0
LEAST_PULL, LEAST_PULL_KMH_S, BRAKING_KMH_S = 0.6, 1.0, -0.7
"""What counts as a pull: a share of the strongest gain of speed, and at least so much (source: invented)."""
LATE_S = 0.5
"""How late a road speed may well be read where nobody stated it (from memory)."""
TOO_FAR_OFF, TOO_UNSURE = 15.0, 6.0
"""Where a light foot lies so far off [%] it was another gear or unit; where the uncertainty is so large nothing is told
(source: invented)."""


class SlipFinding(Struct, frozen=True):
    """What a log says of slip; `rise_percent` is how much more there is in the pull than with the light foot."""

    outcome: Outcome
    decides: str
    pull: LogStretch | None = None
    light: LogStretch | None = None
    gear_found: int | None = None
    rise_percent: float | None = None
    rise_uncertainty_percent: float | None = None


def slip_of(v: Vehicle, log: OwnLog, gear: int, part: tuple[float, float] | None = None) -> SlipFinding:
    """Return slip in a gear from a log or a part of it (from, to [s])."""
    import numpy as np

    t, rpm, speed = (np.frombuffer(column, dtype=np.float64) for column in (log.t_s, log.engine_rpm, log.speed_km_h))
    gains = _gains(t, speed, log.interval_s)
    usable = (rpm >= LOWEST_RPM) & (speed >= SLOWEST_KMH)
    if part:
        usable &= (t >= part[0]) & (t <= part[1])
    if not usable.any():
        return SlipFinding("not told", f"no row above {SLOWEST_KMH:g} km/h with the engine running")
    slips = np.full(t.size, np.nan)
    slips[usable] = slip_log_percent(
        rpm[usable], road_speed_kmh=speed[usable], gear_ratio=v.gearbox.ratios[gear - 1], final_ratio=v.gearbox.final,
        rolling_circumference_mm=rolling_circumference_mm(v),
    )  # fmt: skip
    in_gear = usable & _in_gear(v, log, gear, slips)
    full, light = _loads(log, gains, in_gear, _breaks(t, log))
    if not full:
        return SlipFinding(
            "not told",
            f"no pull of {SHORTEST_S:g} s and {SHORTEST} rows in gear {gear} after its first {SETTLE_S:g} s; drive a longer one, or log faster",
        )
    measured = SlipColumns(v, log, gear, t, rpm, speed, gains, slips)
    pull = max((measured.stretch(*run) for run in full), key=lambda s: s.slip_percent - s.uncertainty_percent)
    before = [measured.stretch(*run) for run in light]
    best = min(before, key=lambda s: s.uncertainty_percent + abs(s.start_s - pull.start_s) / 1000, default=None)
    return _found(v, gear, pull, best, delay_stated=log.map.speed_delay_s is not None)


def _gains(t: "NDArray[Any]", speed: "NDArray[Any]", interval_s: float) -> "NDArray[Any]":
    """Return the gain of road speed at each row [km/h a second], over about a second."""
    import numpy as np

    k = max(1, round(HALF_WINDOW_S / interval_s))
    i = np.arange(t.size)
    low, high = np.maximum(0, i - k), np.minimum(t.size - 1, i + k)
    return np.asarray((speed[high] - speed[low]) / (t[high] - t[low]))


def _in_gear(v: Vehicle, log: OwnLog, gear: int, slips: "NDArray[Any]") -> "NDArray[Any]":
    """Whether each row is in the gear: by its column, else where the slip is nearer to this gear than to its neighbours."""
    import numpy as np

    if log.gear:
        return np.asarray(np.frombuffer(log.gear, dtype=np.float64) == gear)
    if log.map.fixed_gear:
        return np.ones(slips.size, dtype=bool)
    ratios = v.gearbox.ratios
    lower = 100 * (1 - ratios[gear - 1] / ratios[gear - 2]) if gear > 1 else 60.0
    upper = 100 * (ratios[gear - 1] / ratios[gear] - 1) if gear < len(ratios) else 30.0
    with np.errstate(invalid="ignore"):
        return np.asarray((slips < 0.85 * lower) & (slips > -min(12.0, 0.5 * upper)))


def _breaks(t: "NDArray[Any]", log: OwnLog) -> "NDArray[Any]":
    """Whether a gap lies before each row."""
    import numpy as np

    starts = {gap[0] for gap in log.gaps}
    return np.concatenate(([True], np.isin(t[:-1], list(starts))))


def _loads(
    log: OwnLog, gains: "NDArray[Any]", in_gear: "NDArray[Any]", breaks: "NDArray[Any]"
) -> tuple[list[tuple[int, int]], list[tuple[int, int]]]:
    """Return the runs at full load and those with a light foot, as (first row, row after the last)."""
    import numpy as np

    if log.throttle_pct:
        throttle = np.frombuffer(log.throttle_pct, dtype=np.float64)
        full, light = in_gear & (throttle >= 90), in_gear & (throttle >= 20) & (throttle < 90)
    else:
        strongest = float(np.quantile(gains[in_gear], 0.98)) if in_gear.any() else 0.0
        limit = max(LEAST_PULL * strongest, LEAST_PULL_KMH_S)
        full = in_gear & (gains >= limit)
        light = in_gear & (gains > BRAKING_KMH_S) & (gains < 0.75 * limit)
    return _runs(log, full, breaks), _runs(log, light, breaks)


def _runs(log: OwnLog, wanted: "NDArray[Any]", breaks: "NDArray[Any]") -> list[tuple[int, int]]:
    """Return the runs that are long enough after their first half second, in which engine and gearbox settle."""
    import numpy as np

    begins = np.flatnonzero(wanted & (breaks | ~np.concatenate(([False], wanted[:-1]))))
    ends = np.flatnonzero(wanted & np.concatenate((breaks[1:] | ~wanted[1:], [True]))) + 1
    found = []
    for begin, end in zip(begins.tolist(), ends.tolist(), strict=True):
        start = next((i for i in range(begin, end) if log.t_s[i] - log.t_s[begin] >= SETTLE_S - 1e-6), end)
        if end - start >= SHORTEST and log.t_s[end - 1] - log.t_s[start] >= SHORTEST_S - log.interval_s - 1e-6:
            found.append((start, end))
    return found


def _found(v: Vehicle, gear: int, pull: LogStretch, light: LogStretch | None, *, delay_stated: bool) -> SlipFinding:
    if light is None:
        return _alone(gear, pull)
    fits = gear_in_use(
        light.engine_rpm, road_speed_kmh=light.speed_km_h, gear_ratios=v.gearbox.ratios, final_ratio=v.gearbox.final,
        rolling_circumference_mm=rolling_circumference_mm(v),
    )  # fmt: skip
    rise = pull.slip_percent - light.slip_percent
    instruments = ("engine speed", "road speed")
    own = [(cause, size) for cause, size in pull.causes if cause not in instruments]
    # The tyre is kept whole: a driven tyre rolls a little differently under load (from memory).
    rest = [(f"{cause}, light foot", size) for cause, size in light.causes if cause not in (*instruments, "tyre")]
    uncertainty = hypot(*(size for _, size in own + rest))
    largest = max(own + rest, key=lambda cause: cause[1])[0]

    def found(outcome: Outcome, decides: str) -> SlipFinding:
        return SlipFinding(outcome, decides, pull, light, fits, rise, uncertainty)

    told = f"{rise:.1f} % ± {uncertainty:.1f} % more than with a light foot"
    if abs(light.slip_percent) > TOO_FAR_OFF:
        return found(
            "not told",
            f"with a light foot the figures lie {light.slip_percent:.1f} % off gear {gear}: gear, unit, ratio or tyre",
        )
    late = 100 * LATE_S * pull.gain_km_h_s / pull.speed_km_h
    if uncertainty < rise <= uncertainty + late and not delay_stated:
        return found(
            "not told",
            f"{told}; a road speed read {LATE_S:g} s late would look like {late:.1f} % too: state speed_delay_s in the map",
        )
    if rise > uncertainty:
        return found("slips", f"{told}; most of the uncertainty: {largest}")
    if uncertainty > TOO_UNSURE:
        return found("not told", f"{told}: slip of that size could hide; most of the uncertainty: {largest}")
    if rise < -uncertainty:
        return found(
            "not told", f"{told}: less slip under load cannot be; look for wheel spin, delay or a wrong column"
        )
    return found("no slip seen", f"{told}; less than {uncertainty:.1f} % would not be seen; most of it: {largest}")


def _alone(gear: int, pull: LogStretch) -> SlipFinding:
    largest = max(pull.causes, key=lambda cause: cause[1])[0]
    told = f"{pull.slip_percent:.1f} % ± {pull.uncertainty_percent:.1f} %, no stretch with a light foot in gear {gear}"
    if pull.uncertainty_percent <= TOO_UNSURE and abs(pull.slip_percent) <= pull.uncertainty_percent:
        return SlipFinding("no slip seen", f"{told}; most of the uncertainty: {largest}", pull)
    return SlipFinding("not told", f"{told}: a wrong tyre, ratio or gear would look the same; drive one", pull)
