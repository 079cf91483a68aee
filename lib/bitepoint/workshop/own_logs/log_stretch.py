"""One stretch of a log of one's own: its slip, and what makes up the uncertainty."""

from math import hypot, sqrt
from typing import TYPE_CHECKING, Any

from msgspec import Struct

from bitepoint.workshop.own_logs.reading import OwnLog
from bitepoint.workshop.roadtest_verdict import CIRCUMFERENCE_U, COVERAGE, slip_in_gear
from bitepoint.workshop.vehicles import Vehicle

if TYPE_CHECKING:
    from numpy.typing import NDArray


class LogStretch(Struct, frozen=True):
    """A part of a log in the gear of the test: means, slip with its expanded uncertainty [%], and that by its causes [points]."""

    start_s: float
    end_s: float
    rows: int
    engine_rpm: float
    speed_km_h: float
    top_rpm: float
    gain_km_h_s: float
    slip_percent: float
    uncertainty_percent: float
    causes: tuple[tuple[str, float], ...]


class SlipColumns:
    """Works a stretch out of the columns."""

    def __init__(self, v: Vehicle, log: OwnLog, gear: int, *columns: "NDArray[Any]") -> None:
        self.v, self.log, self.gear = v, log, gear
        self.t, self.rpm, self.speed, self.gains, self.slips = columns
        self.rpm_step, self.speed_step = _step(self.rpm), _step(self.speed)

    def stretch(self, begin: int, end: int) -> LogStretch:
        rows = slice(begin, end)
        rpm, speed = float(self.rpm[rows].mean()), float(self.speed[rows].mean())
        causes = self._relative(rows, rpm, speed)
        engine = hypot(causes["scatter"], causes["steps of the figures"], causes["engine speed"])
        road = hypot(causes["delay between the columns"], causes["road speed"])
        slip, expanded = slip_in_gear(self.v, self.gear, rpm=rpm, driven_km_h=speed, rpm_u=engine, km_h_u=road)
        size = COVERAGE * (100 - slip)
        listed = tuple((cause, size * u) for cause, u in causes.items() if u)
        return LogStretch(
            float(self.t[begin]), float(self.t[end - 1]), end - begin, rpm, speed, float(self.rpm[rows].max()), float(self.gains[rows].mean()), slip,
            expanded, (*listed, ("tyre", size * CIRCUMFERENCE_U)),
        )  # fmt: skip

    def _relative(self, rows: slice, rpm: float, speed: float) -> dict[str, float]:
        """Return the relative standard uncertainty by cause.

        Delay: the two speeds of a row may have been read up to one row apart, which matters while the car gains speed.
        """
        m = self.log.map
        late_s = max(self.log.interval_s, m.speed_delay_s or 0.0)
        delay = abs(float(self.gains[rows].mean())) * late_s / speed / sqrt(3)
        return {
            "scatter": _scatter(self.t[rows], self.slips[rows]) / 100,
            "steps of the figures": hypot(self.rpm_step / rpm, self.speed_step / speed) / sqrt(12),
            "delay between the columns": delay,
            "engine speed": (m.engine_u_percent or 0) / 100 / COVERAGE,
            "road speed": (m.speed_u_percent or 0) / 100 / COVERAGE,
        }


def _step(values: "NDArray[Any]") -> float:
    """Return the step in which a column was written: the smallest change from row to row, rounding of units left out."""
    import numpy as np

    changes = np.abs(np.diff(values))
    changes = changes[changes > 1e-6 * max(1.0, float(np.abs(values).max()))]
    return float(changes.min()) if changes.size else 0.0


def _scatter(t: "NDArray[Any]", slips: "NDArray[Any]") -> float:
    """Return the standard uncertainty of the mean slip, from the scatter about a straight line."""
    import numpy as np

    away = slips - np.polyval(np.polyfit(t - t.mean(), slips, 1), t - t.mean())
    return float(np.sqrt((away**2).sum() / (t.size - 2) / t.size))
