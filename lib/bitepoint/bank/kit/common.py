"""Lesson 4, the right kit: outcomes, the kit list as a table, and the cars that come in."""

from bitepoint.workshop.kit_list import Kit
from bitepoint.workshop.kits import Found

IDENTIFIES = "Reads the codes and looks at the car before ordering"
MATCHES = "Picks the kit that agrees with the car in every column"
CHECKS = "Checks a delivered kit part by part"
REACHES = "Works out how far a flywheel bolt reaches"
CHANGES = "Agrees, equips and labels a change of flywheel type"


def built(kit: Kit) -> str:
    """Return the months of building that a kit is for, in words."""
    parts = [f"from {kit.build_from}" if kit.build_from else "", f"to {kit.build_to}" if kit.build_to else ""]
    return " ".join(filter(None, parts)) or "all"


def kit_table(kits: tuple[Kit, ...]) -> tuple[tuple[str, ...], ...]:
    """Return a kit list as a table, its headings first."""
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
        for kit in kits
    )
    return (head, *rows)


def option_read(found: Found) -> str:
    """Return the option codes that were read on a car, as the table shows them."""
    return ", ".join(sorted(found.options or ()))


def against_table(found: Found, kit: Kit) -> tuple[tuple[str, ...], ...]:
    """Return the columns in which a kit is held against a car."""
    return (
        ("column", kit.kit, "car"),
        ("engine code", kit.engine_code, found.engine_code),
        ("build date", built(kit), found.build),
        ("gearbox", kit.gearbox_code or "all", found.gearbox_code),
        ("option code", kit.option or "all", option_read(found)),
        ("plate", f"{kit.plate_od_mm:g} mm", f"{found.plate_od_mm:g} mm"),
        ("splines", str(kit.splines), str(found.splines)),
        ("flywheel", kit.flywheel, f"agreed: {found.flywheel_wanted}"),
    )
