"""Lesson 7, torque and the torque wrench: outcomes and joints that its exercises share."""

from typing import NamedTuple

from bitepoint.workshop.vehicles import Bolts, Vehicle

CHOOSES = "Chooses a torque wrench that may be used"
SETS = "Sets and reads torque wrench and angle gauge"
WORKS_OUT = "Works out what a torque and an angle do to a bolt"
DECIDES = "Decides which bolts may be used, and how"
USES = "Uses the click wrench step by step"

BY_TORQUE, BY_ANGLE = ("torque stages only",), ("angle stage",)
"""What a question needs of the flywheel bolts of the car that it speaks of."""


class Joint(NamedTuple):
    """A bolted joint of a data sheet: what it is called, bolt, last torque [N·m] and nut factor."""

    name: str
    d_mm: float
    pitch_mm: float
    prop_class: str
    torque_nm: float
    nut_factor: float

    @property
    def thread(self) -> str:
        """The thread as printed, such as M10×1.25."""
        return f"M{self.d_mm:g}×{self.pitch_mm:g}"


def joint_of(car: Vehicle, which: int) -> Joint:
    """Return the flywheel (0), cover (1) or bell housing (2) joint of a vehicle, before any angle stage."""
    if which == 0:
        bolt, sheet = car.flywheel.bolt, car.flywheel.tightening
        return Joint("flywheel", bolt.d_mm, bolt.pitch_mm, bolt.prop_class, sheet.final_nm, sheet.nut_factor)
    bolts: Bolts = car.clutch.cover if which == 1 else car.gearbox.bell_bolts[0]
    name = ("", "clutch cover", "bell housing")[which]
    return Joint(name, bolts.d_mm, bolts.pitch_mm, bolts.prop_class, bolts.torque_nm, bolts.nut_factor)
