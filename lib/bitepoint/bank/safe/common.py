"""Lesson 2, working safely: outcomes and words that its exercises share."""

from bitepoint.workshop.vehicles import Vehicle

SECURES = "Secures the car before anyone touches it"
LIFTS = "Lifts car and parts so that nothing falls"
CLEAN = "Keeps dust and fluids away from people"
RUNS = "Makes a running engine and a road test safe"
STOPS = "Stops and asks where the rules end"


def opened(car: Vehicle) -> str:
    """Return the vehicle's name as it opens a sentence."""
    return f"{car.name[0].upper()}{car.name[1:]}"
