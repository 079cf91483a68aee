"""Eight ways to listen to a car: what the pedal and the gear do, and how fast engine, input shaft and wheels turn there.

Speeds follow from the data sheet: idle, ratios, final drive, tyre. The raised speed, the road speed and the seconds
are made up.
"""

from bisect import bisect_right

from msgspec import Struct

from bitepoint.mechanics.driveline import input_speed_rpm
from bitepoint.workshop.figures import rolling_circumference_mm
from bitepoint.workshop.noises import Shaft
from bitepoint.workshop.vehicles import Vehicle

GAP_S = 0.5
RUN_DOWN_S = 3.0
"""Made up, inside the five seconds that the drag test waits."""
_RAISED_RPM = 2000
_KMH, _SLOWED_KMH = 40.0, 28.0

Points = tuple[tuple[float, float], ...]
"""Seconds and value, joined by straight lines."""


class Piece(Struct, frozen=True):
    """One way of listening: its position in the noise table, and what turns how fast; speeds in rpm over its seconds."""

    position: str
    head: str
    text: str
    pedal: str
    seconds: float
    engine: Points
    shaft: Points
    wheels: Points

    def turning(self, shaft: Shaft, at: float) -> float:
        """Speed of what a noise may follow, so many seconds into the piece [rpm]."""
        if shaft == "difference":
            return along(self.engine, at) - along(self.shaft, at)
        return along({"engine": self.engine, "input shaft": self.shaft, "wheels": self.wheels}[shaft], at)


def along(points: Points, at: float) -> float:
    """Value at a moment of a chain of straight lines, level before its first and after its last point."""
    after = bisect_right([t for t, _ in points], at)
    if after in (0, len(points)):
        return points[min(after, len(points) - 1)][1]
    (t0, v0), (t1, v1) = points[after - 1], points[after]
    return v0 + (v1 - v0) * (at - t0) / (t1 - t0)


def pieces(v: Vehicle) -> tuple[Piece, ...]:
    """Eight ways to listen to one car, in the order in which they are heard.

    With the engine speed raised the table's position stays: what is heard at idle is heard there, faster.
    """
    idle = float(v.engine.idle_rpm)
    level, still = _level(idle), _level(0.0)
    wheels = _wheel_rpm(v, _KMH)
    second, third = (_gear_rpm(v, gear) for gear in (2, 3))
    raised = ((0.0, idle), (2.0, float(_RAISED_RPM)))
    down = ((0.0, idle), (RUN_DOWN_S, 0.0))
    slowing = ((0.0, wheels), (3.0, _wheel_rpm(v, _SLOWED_KMH)))
    rolling = f"at {_KMH:g} km/h, pedal up"
    return (
        Piece("up", "idle", "Standing in neutral, engine idling, pedal up", "up", 2.5, level, level, still),
        Piece("up", "revs up", "Standing in neutral, engine speed raised, pedal up", "up", 2.5, raised, raised, still),
        Piece("resting", "touch", "Standing in neutral, foot resting lightly", "touch", 2.0, level, level, still),
        Piece("down", "pedal down", "Standing in neutral, pedal right down", "down", 4.0, level, down, still),
        Piece("down-in-gear", "in first", "Standing in first gear, pedal right down", "down", 2.0, level, still, still),
        Piece("driving", "second", f"Driving in second {rolling}", "up", 2.5, second, second, _level(wheels)),
        Piece("driving", "third", f"Driving in third {rolling}", "up", 2.5, third, third, _level(wheels)),
        Piece("coasting", "coasting", "Coasting in neutral, slowing down, pedal up", "up", 3.0, level, level, slowing),
    )


def begins(run: tuple[Piece, ...]) -> tuple[float, ...]:
    """When each piece begins [s]."""
    return tuple(sum(piece.seconds + GAP_S for piece in run[:i]) for i in range(len(run)))


def length_s(run: tuple[Piece, ...]) -> float:
    """How long the whole sound is [s]."""
    return begins(run)[-1] + run[-1].seconds


def _level(value: float) -> Points:
    return ((0.0, value),)


def _wheel_rpm(v: Vehicle, kmh: float) -> float:
    return kmh / 3.6 / (rolling_circumference_mm(v) / 1000) * 60


def _gear_rpm(v: Vehicle, gear: int) -> Points:
    """Engine speed in a gear with the clutch closed."""
    ratio, final, around = v.gearbox.ratios[gear - 1], v.gearbox.final, rolling_circumference_mm(v)
    return _level(input_speed_rpm(_KMH, gear_ratio=ratio, final_ratio=final, rolling_circumference_mm=around))
