"""Whether a training vehicle has the part that a line of a list is for."""

from collections.abc import Callable, Mapping
from typing import Literal

from bitepoint.workshop.vehicles import Vehicle

Only = Literal["", "FWD", "RWD", "DMF", "ANGLE", "PILOT", "HYD", "RIGID", "CABLE", "SELF"]


_RULES: Mapping[Only, Callable[[Vehicle], bool]] = {
    "": lambda v: True,
    "FWD": lambda v: v.drive == "front",
    "RWD": lambda v: v.drive == "rear",
    "DMF": lambda v: v.flywheel.fitted_now == "dual-mass",
    "ANGLE": lambda v: v.flywheel.tightening.angle_deg is not None,
    "PILOT": lambda v: v.gearbox.pilot_bearing_depth_mm is not None,
    "HYD": lambda v: v.release.master_bore_mm is not None,
    "RIGID": lambda v: v.flywheel.fitted_now == "dual-mass" and "rigid" in v.flywheel.replacement_kinds,
    "CABLE": lambda v: v.release.master_bore_mm is None,
    "SELF": lambda v: v.clutch.cover.kind == "self-adjusting",
}


def applies(only: Only, v: Vehicle) -> bool:
    """Whether the data sheet has it: front-wheel or rear-wheel drive, dual-mass flywheel, angle stage, pilot bearing, hydraulics,
    change to the rigid kit, cable, self-adjusting cover; an empty text applies to every vehicle."""
    return _RULES[only](v)
