"""Every relation between figures of an own sheet that is looked at, in order."""

from collections.abc import Callable

from bitepoint.workshop.questioning import car, clutch
from bitepoint.workshop.questioning.clutch import Found
from bitepoint.workshop.sheets import Vehicle

RELATIONS: tuple[Callable[[Vehicle], Found], ...] = (
    clutch.ring_of_holes,
    clutch.dowels,
    clutch.plate,
    clutch.cover_circle,
    clutch.radius,
    clutch.thickness,
    clutch.rivets,
    clutch.wear_and_rivets,
    clutch.splines,
    clutch.capacity,
    clutch.release_load,
    car.end_float,
    car.speeds,
    car.standing_test,
    car.axles,
    car.gearbox_place,
    clutch.flywheels,
    clutch.free_angle,
    car.ratios,
    car.reverse,
    car.top_gear,
    car.slip_gear,
    car.tyre,
    car.free_play,
    car.slave,
    car.bearing_travel,
    clutch.lift,
    clutch.positions,
    clutch.tilt_of_damper,
    clutch.side_of_plate,
    car.wheel_bolts,
    clutch.cover_bolts,
)
