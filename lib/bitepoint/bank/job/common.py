"""Lesson 12, the whole job: outcomes and small things that its exercises share."""

from bitepoint.questions.draw import Draw
from bitepoint.workshop.vehicles import Vehicle

FINDS = "Finds fault and kit from words, codes and a log"
ORDERS = "Orders the whole job so that it is safe"
INSPECTS = "Inspects, measures and decides every part"
BUILDS = "Sets the wrench and tightens each joint"
HANDS_OVER = "Proves the work, labels it and writes it down"


def own_first(draw: Draw, count: int) -> int:
    """Return which of `count` forms to use: the learner's own job at the first turn, the others after it."""
    return (draw.turn - 1) % count


def other_car(turn: int, car: Vehicle) -> str:
    """Return how the car is spoken of: your own job at the first turn, then another one of its model."""
    return f"your {car.name}" if turn == 1 else f"another car of the model of {car.name}"


def spoken(reason: str) -> str:
    """Return a reason in short sentences: what stands behind a colon or a semicolon becomes one of its own."""
    parts = [part.strip() for part in reason.rstrip(".").replace(": ", "; ").split("; ")]
    return " ".join(f"{part[0].upper()}{part[1:]}." for part in parts if part)
