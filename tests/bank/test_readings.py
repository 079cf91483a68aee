"""Typical wrong readings: never the right figure, each with what goes wrong and what it leads to."""

from random import Random

import pytest

from bitepoint.bank.measure import readings, readings_dial, readings_wrench
from bitepoint.questions.number import plus_minus
from bitepoint.questions.question import Mistake
from bitepoint.workshop.tools import FEELER_LEAVES_MM

LEAVES = list(FEELER_LEAVES_MM)
FOUND = {
    "vernier": (37.46, readings.vernier(37.46, resolution=0.02), [37.0, 37.23, 38.46, 37.48]),
    "micrometer, half line": (12.66, readings.micrometer(12.66), [12.16, 12.82, 12.67]),
    "micrometer, no half line": (12.16, readings.micrometer(12.16), [12.66, 12.32, 12.17]),
    "dial gauge, in": (0.37, readings_dial.dial_gauge(0.37, preload_mm=1), [1.37, -0.37, 3.7]),
    "dial gauge, a turn more": (1.37, readings_dial.dial_gauge(1.37, preload_mm=1), [0.37, 2.37, -1.37, 13.7]),
    "dial gauge, out": (-0.15, readings_dial.dial_gauge(-0.15, preload_mm=1), [0.85, 0.15, -1.5]),
    "between stops": (0.22, readings_dial.between_stops(85, 7), [0.07, 0.78, 0.92]),
    "sweep": (0.1, readings_dial.sweep([0, 0.06, -0.04], loose_mm=[0.05, 0.06, -0.1]), [0.16, 0.06, 0.05, 0.02]),
    "feeler, at least": (0.06, readings.feeler(LEAVES, 0.06, upper=False), [0.07, 0.13, 0.03]),
    "feeler, below": (0.07, readings.feeler(LEAVES, 0.06, upper=True), [0.06, 0.13, 0.1]),
    "torque wrench": (65, readings_wrench.torque_wrench(65), [47.9415, 60, 75, 110]),
    "angle gauge": (48, readings_wrench.angle_gauge(48, start_deg=15), [63, 312, 58]),
    "pedal": (18, readings_wrench.pedal(18, rest_mm=12), [30, 28, 17]),
}  # fmt: skip


@pytest.mark.parametrize("name", FOUND)
def test_the_usual_misreadings_are_known(name: str) -> None:
    """Worked by hand: one turn missed, wrong zero, half line missed, sign, other scale."""
    right, found, wrong = FOUND[name]
    kept = readings.told_apart(right, found, plus_minus(0.0005))
    assert [m.value for m in kept] == wrong


@pytest.mark.parametrize("name", FOUND)
def test_each_says_what_went_wrong_and_what_it_leads_to(name: str) -> None:
    """At least two sentences: the misconception, then what happens; a wrong figure alone is never critical."""
    for mistake in FOUND[name][1]:
        assert mistake.says.count(".") >= 2, mistake.says
        assert not mistake.critical


def test_what_cannot_be_told_apart_is_left_out() -> None:
    """A figure within both tolerances of the right one, or of an earlier mistake, is no mistake of its own."""
    rng = Random("apart")
    for _ in range(200):
        right, width = rng.randrange(100) / 10, rng.randrange(1, 20) / 10
        found = [Mistake(rng.randrange(100) / 10, str(i), "") for i in range(8)]
        kept = [right, *(m.value for m in readings.told_apart(right, found, plus_minus(width)))]
        assert all(abs(a - b) > 2 * width for i, a in enumerate(kept) for b in kept[:i])
