"""Lesson 12, the whole job: its outcomes, and whose car a turn is about."""

from bitepoint.bank.forms import Form, forms_of
from bitepoint.questions.draw import Draw
from bitepoint.workshop.vehicles import Vehicle

FINDS = "Finds fault and kit from words, codes and a log"
ORDERS = "Orders the whole job so that it is safe"
INSPECTS = "Inspects, measures and decides every part"
BUILDS = "Sets the wrench and tightens each joint"
HANDS_OVER = "Proves the work, labels it and writes it down"
OWN_KIT = ("rigid kit fits",)
"""What the car of the job needs: the story is about one car, and a kit is ordered for it."""


def own_first(draw: Draw, count: int) -> int:
    """Return which of `count` forms to use: the learner's own job at the first turn, the others after it."""
    return (draw.turn - 1) % count


def own_form(draw: Draw) -> Form:
    """Return the form of words of this turn: the first one, about the learner's own job, at the first turn."""
    forms = forms_of(draw).forms
    return forms[own_first(draw, len(forms))]


def other_car(turn: int, car: Vehicle) -> str:
    """Return how the car is spoken of: your own job at the first turn, then another one of its model."""
    return f"your {car.name}" if turn == 1 else f"another car of the model of {car.name}"
