"""Lesson 4, the right kit: outcomes, the kit list as a table, and the cars that come in."""

import msgspec

from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.kits import Found, Kit, all_kits, found_on
from bitepoint.workshop.vehicles import Vehicle, vehicle

IDENTIFIES = "Reads the codes and looks at the car before ordering"
MATCHES = "Picks the kit that agrees with the car in every column"
CHECKS = "Checks a delivered kit part by part"
REACHES = "Works out how far a flywheel bolt reaches"
CHANGES = "Agrees, equips and labels a change of flywheel type"


class IncomingCar(msgspec.Struct, frozen=True):
    """A car that comes in: its letter, what is found on it, and the option code that is read."""

    letter: str
    found: Found
    option: str


def _car(
    letter: str, *, plate_od_mm: float | None = None, splines: int | None = None, option: str = "none", **other: str
) -> IncomingCar:
    v = vehicle(letter)
    found = found_on(v, options={option}, **other)  # type: ignore[arg-type]
    found = msgspec.structs.replace(
        found, plate_od_mm=plate_od_mm or found.plate_od_mm, splines=splines or found.splines
    )
    return IncomingCar(letter, found, option)


@once_a_set
def cases(letter: str) -> tuple[IncomingCar, ...]:
    """Return three cars of the model of a training vehicle; exactly one kit of the list fits each."""
    if letter == "A":
        later = _car("A", build="2016-11", gearbox_code="5E", plate_od_mm=200, splines=20)
        return (_car("A"), later, _car("A", build="2016-08"))
    if letter == "B":
        changed = _car("B", build="2015-05", flywheel_now="rigid")
        return (_car("B"), _car("B", flywheel_wanted="rigid"), changed)
    if letter == "C":
        rigid = _car("C", option="S0", flywheel_wanted="rigid")
        return (_car("C", option="S7"), rigid, _car("C", option="S0"))
    return (_car("D"), _car("D", build="2016-02", splines=23), _car("D", build="2015-12"))


def built(kit: Kit) -> str:
    """Return the months of building that a kit is for, in words."""
    parts = [f"from {kit.build_from}" if kit.build_from else "", f"to {kit.build_to}" if kit.build_to else ""]
    return " ".join(filter(None, parts)) or "all"


def kit_table(kits: tuple[Kit, ...] | None = None) -> tuple[tuple[str, ...], ...]:
    """Return the kit list as a table, its headings first."""
    head = ("kit", "engine", "built", "gearbox", "option", "plate, mm", "splines", "flywheel", "release")
    rows = tuple(
        (
            kit.kit,
            kit.engine_code,
            built(kit),
            kit.gearbox_code or "all",
            kit.option or "all",
            f"{kit.plate_od_mm:g}",
            str(kit.splines),
            kit.flywheel,
            kit.release,
        )
        for kit in (all_kits() if kits is None else kits)
    )
    return (head, *rows)


def against_table(case: IncomingCar, kit: Kit) -> tuple[tuple[str, ...], ...]:
    """Return the columns in which a kit is held against a car."""
    found = case.found
    return (
        ("column", kit.kit, "car"),
        ("engine code", kit.engine_code, found.engine_code),
        ("build date", built(kit), found.build),
        ("gearbox", kit.gearbox_code or "all", found.gearbox_code),
        ("option code", kit.option or "all", case.option),
        ("plate", f"{kit.plate_od_mm:g} mm", f"{found.plate_od_mm:g} mm"),
        ("splines", str(kit.splines), str(found.splines)),
        ("flywheel", kit.flywheel, f"agreed: {found.flywheel_wanted}"),
    )


def can_change(v: Vehicle) -> bool:
    """Whether the sheet of a vehicle allows a dual-mass flywheel to be replaced by a rigid one."""
    return v.flywheel.bolt_dmf is not None
