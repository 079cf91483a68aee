"""The label of a changed flywheel, filled in and true to size: for bell housing and engine bay, and the entry in the record."""

from datetime import date
from typing import Any

from bitepoint.workshop.kit_list import Kit, all_kits
from bitepoint.workshop.kits import fitting, found_on
from bitepoint.workshop.vehicles import Vehicle, vehicles

PLACES = (
    ("Bell housing", "seen at the gearbox"),
    ("Engine bay", "seen before ordering"),
    ("Service record", "a label can fall off"),
)
_KM = 118_000
"""Invented: what the example's odometer shows."""


def values() -> dict[str, Any]:
    """Return the first training vehicle on which a rigid flywheel can replace a dual-mass one, and its kit."""
    v, kit = changed()
    return {"v": v, "kit": kit, "places": PLACES, "km": f"{_KM:,}", "date": _day(v.job_date)}


def changed() -> tuple[Vehicle, Kit]:
    """Return the training vehicle of the example, and the kit that changes its flywheel."""
    by_number = {kit.kit: kit for kit in all_kits()}
    for v in vehicles().values():
        if v.flywheel.fitted_now == "dual-mass" and "rigid" in v.flywheel.replacement_kinds:
            for number in fitting(found_on(v, flywheel_wanted="rigid")):
                return v, by_number[number]
    raise LookupError("No training vehicle may change to a rigid flywheel; the label needs one.")


def _day(written: str) -> str:
    """Return a date as a workshop writes it, such as 14 April 2026."""
    day = date.fromisoformat(written)
    return f"{day.day} {day:%B %Y}"
