"""Lesson 3, finding the fault: outcomes and words its exercises share."""

from bitepoint.questions.draw import Draw
from bitepoint.workshop.roadtests import log_with
from bitepoint.workshop.simulator import Fault
from bitepoint.workshop.vehicles import Vehicle

ASKS = "Takes the complaint down and decides whether the car may be driven"
CHECKS = "Checks without dismantling, in a safe order"
TESTS = "Plans the slip test and the drag test safely"
LOGS = "Works out slip from a road-test log and says how sure it is"
DECIDES = "Names the cause by evidence: clutch, not the clutch, or stop and ask"

ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth")


def gear_word(gear: int) -> str:
    """Return the gear as a fitter says it: 3 is "third gear"."""
    return f"{ORDINALS[gear - 1]} gear"


def log_of(draw: Draw, car: Vehicle, fault: Fault) -> str:
    """Return the name of a drawn road-test log of this car with this fault."""
    return log_with(car.id, fault, draw.integer(0, 7))
