"""Whether a training vehicle has the part that a line of a list is for."""

from typing import Literal

from bitepoint.workshop.vehicles import Vehicle

Only = Literal["", "FWD", "RWD", "DMF", "ANGLE", "PILOT", "HYD", "RIGID", "CABLE", "SELF"]


def applies(only: Only, v: Vehicle) -> bool:
    """Whether the data sheet has it: front-wheel or rear-wheel drive, dual-mass flywheel, angle stage, pilot bearing, hydraulics,
    change to the rigid kit, cable, self-adjusting cover; an empty text applies to every vehicle."""
    return {
        "": True,
        "FWD": v.drive == "front",
        "RWD": v.drive == "rear",
        "DMF": v.flywheel.fitted_now == "dual-mass",
        "ANGLE": v.flywheel.tightening.angle_deg is not None,
        "PILOT": v.gearbox.pilot_bearing_depth_mm is not None,
        "HYD": v.release.master_bore_mm is not None,
        "RIGID": v.flywheel.fitted_now == "dual-mass" and "rigid" in v.flywheel.replacement_kinds,
        "CABLE": v.release.master_bore_mm is None,
        "SELF": v.clutch.cover.kind == "self-adjusting",
    }[only]
