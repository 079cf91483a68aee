"""How an invented learner forgets: by a law of its own, so that what a scheduler believes is put to the test.

The chance of being right falls exponentially to a floor, at a pace of learner and exercise; a right answer after a long
pause slows it most. The scheduler's own model falls by a power of time. Both paces are invented.
"""

from datetime import datetime, timedelta
from math import exp
from random import Random

from msgspec import Struct

BEST, FLOOR = 0.97, 0.12
_PACE_DAYS = 90.0
"""Days until an exercise of middling hardness has lost two thirds for a middling learner (invented)."""
_DAY = timedelta(days=1)


class MemoryTrace(Struct):
    """What is left of one exercise: when it was last answered, and the days until two thirds are lost."""

    last: datetime
    days: float

    def chance(self, at: datetime) -> float:
        """Return the chance of being right at that time, 0 to 1."""
        return FLOOR + (BEST - FLOOR) * exp(-max(0.0, (at - self.last) / _DAY) / self.days)


class InventedMemory:
    """What one invented learner remembers; the same for the same name, whoever else is in the class."""

    def __init__(self, name: str, hardness: dict[str, float]) -> None:
        self._rng = Random(f"bitepoint/memory/{name}")
        self._pace = exp(self._rng.gauss(0.0, 0.45))
        self._hardness = hardness
        self.traces: dict[str, MemoryTrace] = {}

    def learned(self, exercise: str, at: datetime, share: float) -> None:
        """Begin to remember an exercise; `share` of the full pace, less where it was not right at once."""
        days = _PACE_DAYS * self._pace * share * exp(self._rng.gauss(0.0, 0.3) - 2.0 * self._hardness[exercise])
        self.traces[exercise] = MemoryTrace(at, max(3.0, days))

    def answered(self, exercise: str, at: datetime, right: bool) -> None:
        """Change what is remembered after an answer: its reason was read, right or wrong."""
        trace = self.traces[exercise]
        lost = 1 - exp(-((at - trace.last) / _DAY) / trace.days)
        trace.days = min(400.0, trace.days * (1 + 1.6 * lost)) if right else max(4.0, 0.7 * trace.days)
        trace.last = at
