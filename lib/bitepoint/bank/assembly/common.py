"""Lesson 9, assembly: outcomes and words that its exercises share."""

from bitepoint.workshop.vehicles import Vehicle

FLYWHEEL = "Fits the flywheel in its one position with bolts that fit"
GREASE = "Keeps faces clean and puts grease in the right places only"
CLUTCH = "Fits plate and cover the right way"
ORDERS = "Keeps a safe order of assembly"
JUDGES = "Judges a half-built clutch and says what to do"


def greased_tube(car: Vehicle) -> bool:
    """Whether the data sheet wants grease on the guide tube of the release bearing."""
    return "thin film" in car.release.guide_tube


def mark_of(car: Vehicle) -> str:
    """Return the words printed on the driven plate, such as "ENGINE SIDE"."""
    return " ".join(word for word in car.clutch.marking.split() if word.isupper())
