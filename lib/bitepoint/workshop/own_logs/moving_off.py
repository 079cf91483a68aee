"""The shake of moving off in a log of one's own: at one frequency, or once in each turn of slip."""

from collections.abc import Sequence
from math import sqrt
from typing import TYPE_CHECKING, Any, Literal

from msgspec import Struct

from bitepoint.mechanics.driveline import kmh_per_rpm
from bitepoint.mechanics.vibration import JUDDER_BAND_HZ
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.own_logs.reading import OwnLog
from bitepoint.workshop.roadtest_verdict import ROUGH_G, judder_kind, orders_of
from bitepoint.workshop.simulator import Shake
from bitepoint.workshop.vehicles import Vehicle

if TYPE_CHECKING:
    from numpy.typing import NDArray

Shaking = Literal["once a turn of slip", "one frequency", "smooth", "not told"]
ROWS_A_SHAKE, HIGHEST_ORDER, FASTEST_HZ = 2.5, 1.2, 400.0
SLIPPING_RPM, STANDING_KMH, SHORTEST_S, LONGEST_S, DRIFT_S = 30.0, 1.0, 1.0, 20.0, 1.0


class ShakeFinding(Struct, frozen=True):
    """What a log says of moving off; the points are (Hz or order of the slip, height [g])."""

    outcome: Shaking
    decides: str
    start_s: float | None = None
    end_s: float | None = None
    rate_hz: float | None = None
    level_g: float | None = None
    steady_hz: float | None = None
    steady_g: float | None = None
    order: float | None = None
    order_g: float | None = None
    resampled: bool = False
    frequencies: tuple[tuple[float, float], ...] = ()
    orders: tuple[tuple[float, float], ...] = ()


def moving_off(v: Vehicle, log: OwnLog) -> ShakeFinding | None:
    """Return what the log says of moving off in first gear; None without a column of vibration."""
    import numpy as np

    if not log.vibration_g:
        return None
    rate, needed = 1 / log.interval_s, ROWS_A_SHAKE * JUDDER_BAND_HZ[1]
    if rate < 0.99 * needed:
        return ShakeFinding("not told", _too_slow(rate, needed, f"{JUDDER_BAND_HZ[1]:g} shakes a second"))
    t, engine, speed, shake = (
        np.frombuffer(column, dtype=np.float64) for column in (log.t_s, log.engine_rpm, log.speed_km_h, log.vibration_g)
    )
    turning = speed / kmh_per_rpm(v.gearbox.ratios[0], v.gearbox.final, rolling_circumference_mm(v))
    part = _part(log, t, engine, turning, speed)
    if part is None:
        return ShakeFinding(
            "not told", f"no moving off in first gear of {SHORTEST_S:g} to {LONGEST_S:g} s without a gap"
        )
    rows = slice(*part)
    most_slip = float((engine[rows] - turning[rows]).max())
    needed = ROWS_A_SHAKE * HIGHEST_ORDER * most_slip / 60
    if rate < needed:
        return ShakeFinding("not told", _too_slow(rate, needed, f"once a turn at {most_slip:.0f} rpm of slip"))
    return _judged(t[rows], shake[rows], engine[rows], turning[rows], even=not log.uneven)


def _too_slow(rate: float, needed: float, what: str) -> str:
    return f"{rate:.3g} rows a second are too few for {what}: at least {needed:.0f} are needed"


def _part(
    log: OwnLog, t: "NDArray[Any]", engine: "NDArray[Any]", turning: "NDArray[Any]", speed: "NDArray[Any]"
) -> tuple[int, int] | None:
    """Return the longest run in which the car rolls and the engine is ahead of the gearbox input in first gear."""
    import numpy as np

    wanted = (engine > 300) & (engine - turning > SLIPPING_RPM) & (speed > STANDING_KMH)
    if log.gear:
        wanted &= np.frombuffer(log.gear, dtype=np.float64) == 1
    breaks = np.isin(t, [gap[0] for gap in log.gaps])
    runs, begin = [], None
    for i, (wants, broken) in enumerate(zip(wanted.tolist(), breaks.tolist(), strict=True)):
        if wants and begin is None:
            begin = i
        if begin is not None and (not wants or broken or i == len(wanted) - 1):
            runs.append((begin, i))
            begin = None
    fit = [run for run in runs if SHORTEST_S <= t[run[1]] - t[run[0]] <= LONGEST_S]
    return max(fit, key=lambda run: run[1] - run[0], default=None)


def _judged(t: "NDArray[Any]", *columns: "NDArray[Any]", even: bool) -> ShakeFinding:
    import numpy as np

    span = float(t[-1] - t[0])
    rate = (t.size - 1) / span
    resampled = not even or rate > FASTEST_HZ
    if resampled:
        # Faster logs are averaged first, so that nothing above half the new rate folds down into the band.
        each = max(1, int(rate // FASTEST_HZ))
        t, *columns = (_averaged(c, each) for c in (t, *columns))  # type: ignore[assignment]
        grid = np.linspace(t[0], t[-1], t.size)
        columns = tuple(np.interp(grid, t, c) for c in columns)
        t, rate = grid, (t.size - 1) / float(grid[-1] - grid[0])
    shake, engine, turning = columns
    signal = shake - _drift(shake, rate)
    lines = [Shake(*row) for row in zip(t.tolist(), signal.tolist(), engine.tolist(), turning.tolist(), strict=True)]
    return _finding(lines, rate, sqrt(float((signal**2).mean())), resampled)


def _averaged(values: "NDArray[Any]", each: int) -> "NDArray[Any]":
    import numpy as np

    return np.asarray(values[: values.size // each * each].reshape(-1, each).mean(axis=1))


def _drift(values: "NDArray[Any]", rate: float) -> "NDArray[Any]":
    """Return the mean over a second about each row: the car's own gain of speed, which is no shake."""
    import numpy as np

    wide = min(values.size, max(1, round(DRIFT_S * rate)))
    ones = np.ones(wide)
    counted = np.convolve(np.ones(values.size), ones, "same")
    return np.asarray(np.convolve(values, ones, "same") / counted)


def _finding(lines: Sequence[Shake], rate: float, level: float, resampled: bool) -> ShakeFinding:
    kind, told = judder_kind(lines, rate)
    low, high = JUDDER_BAND_HZ
    frequencies = orders_of(lines, "time", rate, low=2.0, high=20.0, step=0.25)
    orders = orders_of(lines, "slip", rate, low=0.2, high=2.0, step=0.02)
    steady = max((p for p in frequencies if low <= p[0] <= high), key=lambda p: p[1])
    turn = max((p for p in orders if 0.79 < p[0] < 1.21), key=lambda p: p[1])
    outcome: Shaking = "once a turn of slip" if kind == "judder from geometry" else "one frequency"
    decides = told
    if level <= ROUGH_G:
        outcome = "smooth"
        decides = f"{level:.3f} g, not above the {ROUGH_G:g} g of the training logs, which is no limit for a car"
    return ShakeFinding(
        outcome,
        decides,
        lines[0].t_s,
        lines[-1].t_s,
        rate,
        level,
        *steady,
        *turn,
        resampled,
        tuple(frequencies),
        tuple(orders),
    )
