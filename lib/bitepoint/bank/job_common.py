"""Lesson 12, the whole job: outcomes that its exercises share."""

from bitepoint.workshop.vehicles import Vehicle

FINDS = "Finds the fault from words, answers and a log"
PLANS = "Picks the kit and keeps a safe order of the whole job"
INSPECTS = "Inspects, measures and decides every part"
BUILDS = "Sets the wrench, tightens and refits without force"
HANDS_OVER = "Proves the work, labels it and writes it down"


def other_car(draw_turn: int, car: Vehicle) -> str:
    """Return how the car is spoken of: your own job at the first turn, then another one of its model."""
    return f"your {car.name}" if draw_turn == 1 else f"another car of the model of {car.name}"
