"""What the kit list holds for a training vehicle: for the cars of its model that come in, and for its engine."""

from bitepoint.missing import MissingFigure
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.kit_list import Kind, Kit, kits_for
from bitepoint.workshop.kits import Found, fitting, found_on
from bitepoint.workshop.sheets import Variant
from bitepoint.workshop.vehicles import Vehicle, vehicle


@once_a_set
def variants_found(letter: str) -> tuple[Found, ...]:
    """What is found on each car of a vehicle's model that comes in: its variants, or the car of the sheet where it has none."""
    v = vehicle(letter)
    return tuple(
        found_on(
            v,
            options={row.option},
            flywheel_now=row.flywheel_now,
            flywheel_wanted=row.flywheel_wanted,
            gearbox_code=row.gearbox_code,
            build=row.build,
            plate_od_mm=row.plate_od_mm,
            splines=row.splines,
        )
        for row in v.variants or (Variant(),)
    )


@once_a_set
def one_kit_fits(letter: str) -> bool:
    """Whether exactly one kit of its list fits each car of a vehicle's model that comes in."""
    return all(len(fitting(found, kits_for(letter))) == 1 for found in variants_found(letter))


@once_a_set
def rigid_kits(letter: str) -> tuple[str, ...]:
    """Return the numbers of the kits that fit a vehicle with its sheet's option code, a rigid flywheel being agreed."""
    v = vehicle(letter)
    return fitting(found_on(v, options={option_of(v)}, flywheel_wanted="rigid"), kits_for(letter))


def number_of(letter: str, row: int) -> str:
    """Return the identification number of a car of the model that comes in; row 0 is the car of the sheet, the others are of its series."""
    number = vehicle(letter).build.vin_sample
    if "build.vin_sample" in vehicle(letter).missing or not number[-6:].isdigit():
        raise MissingFigure(letter, "build.vin_sample")
    return f"{number[:-6]}{int(number[-6:]) + 137 * row:06d}"


def option_of(v: Vehicle) -> str:
    """Return the option code that a vehicle has where a rigid flywheel is agreed."""
    return v.flywheel.rigid_option or "none"


@once_a_set
def kinds_for(letter: str) -> dict[Kind, str]:
    """Return the kinds of flywheel for which the list has a kit with a vehicle's engine code, each with its number."""
    return {kit.flywheel: kit.kit for kit in reversed(kits_of_engine(letter))}


@once_a_set
def kits_of_engine(letter: str) -> tuple[Kit, ...]:
    """Return the kits of the list for a vehicle's engine code, whatever their other columns say."""
    return tuple(kit for kit in kits_for(letter) if kit.engine_code == vehicle(letter).engine.code)
