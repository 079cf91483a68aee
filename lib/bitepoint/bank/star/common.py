"""Lesson 8, star tightening: outcomes, stages and rings that its exercises share."""

from collections.abc import Sequence

from bitepoint.questions.pulls import Stage
from bitepoint.questions.question import Picture
from bitepoint.workshop.vehicles import Vehicle

ORDERS = "Tightens a ring of bolts in a star order"
FINISHES = "Works through every stage and the second round"
CALCULATES = "Works out stages, pulls and out-of-balance"
EXPLAINS = "Explains what the star does and what the stages do"
JUDGES = "Judges a tightening record and says what to do"

HAND = Stage("hand", "Hand · by finger until the head touches", "hand")


def torque_stages(torques_nm: Sequence[float]) -> tuple[Stage, ...]:
    """Return one stage a torque [N·m], keyed "stage 1", "stage 2", …"""
    return tuple(Stage(f"stage {i}", f"Stage {i} · {nm:g} N·m", "torque", nm) for i, nm in enumerate(torques_nm, 1))


def second_torque(final_nm: float) -> Stage:
    """Return the second round at the final torque [N·m]."""
    return Stage("second round", f"Second round · {final_nm:g} N·m", "second torque", final_nm)


def flywheel_stages(vehicle: Vehicle) -> tuple[Stage, ...]:
    """Return every stage of the vehicle's data sheet for the flywheel bolts, hand start first."""
    sheet = vehicle.flywheel.tightening
    stages = (HAND, *torque_stages(sheet.stages_nm))
    if sheet.angle_deg is None:
        return (*stages, second_torque(sheet.final_nm))
    look = Stage("second round", "Second round · look at the paint marks", "look")
    return (*stages, Stage("angle", f"Angle · {sheet.angle_deg:g}°", "angle", sheet.angle_deg), look)


def flywheel_name(vehicle: Vehicle) -> str:
    """Return how the flywheel is spoken of: where it may be changed, the kit brings a rigid one in place of a dual-mass one."""
    if vehicle.flywheel.bolt_dmf is not None:
        return "rigid kit flywheel"
    return "dual-mass flywheel" if vehicle.flywheel.fitted_now == "dual-mass" else "flywheel"


def dowel_deg(vehicle: Vehicle) -> float | None:
    """Return where the flywheel's dowel sits [degrees clockwise from the top], or None if it has none."""
    return vehicle.flywheel.dowel_deg


def turned(angles_deg: Sequence[float], by_deg: float, *, backwards: bool = False) -> tuple[float, ...]:
    """Return the ring turned by an angle; `backwards` numbers the same holes the other way round."""
    ring = (angles_deg[0], *reversed(angles_deg[1:])) if backwards else angles_deg
    return tuple(float((a + by_deg) % 360) for a in ring)


def ring_picture(angles_deg: Sequence[float], dowel: float | None = None) -> Picture:
    """Return the picture of the ring, degrees clockwise from the top."""
    place = {} if dowel is None else {"dowel_deg": dowel}
    return Picture("bolt-ring", {"angles_deg": list(angles_deg), **place})


def spaced(numbers: Sequence[float]) -> str:
    """Return bolt numbers as a learner types them, such as "1 4 2 5 3 6"."""
    return " ".join(f"{n:g}" for n in numbers)


def listed(items: Sequence[object]) -> str:
    """Return items as prose: "1", "1 and 2", "1, 2 and 3"."""
    words = [f"{i:g}" if isinstance(i, float) else str(i) for i in items]
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
