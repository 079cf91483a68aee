"""Lesson 10, the release system: outcomes, and the vehicle whose hydraulics a question is about."""

from bitepoint.questions.draw import Draw
from bitepoint.workshop.vehicles import Vehicle, vehicle

FOLLOWS = "Follows travel and effort from the pedal to the release bearing"
AIR = "Works out what air in the line costs"
BLEEDS = "Fills and bleeds the release system safely"
FINDS = "Finds why a clutch does not release fully"
DECIDES = "Decides whether the release system is ready"

Rows = tuple[tuple[str, str], ...]


def hydraulic_car(draw: Draw) -> Vehicle:
    """Return the learner's own vehicle, or one with hydraulics where their own has a cable."""
    car = draw.vehicle()
    return car if car.release.master_bore_mm else vehicle("D")


def is_concentric(car: Vehicle) -> bool:
    """Whether the slave cylinder sits round the input shaft."""
    return car.release.slave_inner_mm is not None


def fresh(draw: Draw, count: int) -> int:
    """Return a number from 0 to count - 1 that is another one at each next turn, up to three turns in a row."""
    number: int = draw.pick(*range(draw.form(3), count, 3))
    return number
