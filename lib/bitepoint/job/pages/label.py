"""The label of a changed flywheel type: only where this job changed it, filled from the record, true to size."""

from datetime import date
from typing import Any

from bitepoint.job.events import Opened, PartFitted
from bitepoint.job.state import WorkshopJob

PLACES = (
    ("Bell housing", "seen at the gearbox"),
    ("Engine bay", "seen before ordering"),
    ("Service record", "a label can fall off"),
)
_OTHER = {"dual-mass": "rigid", "rigid": "dual-mass"}


def changed_to(job: WorkshopJob) -> str:
    """Return the kind of flywheel that was fitted in place of the other kind, "" where the kind stayed."""
    other = _OTHER[job.vehicle.flywheel.fitted_now]
    fitted = [part.name.casefold() for part in job.all_of(PartFitted)]
    return other if any(other in name and "flywheel" in name for name in fitted) else ""


def label_values(job: WorkshopJob) -> dict[str, Any] | None:
    """Return what the label says, None where no flywheel type was changed."""
    now = changed_to(job)
    if not now:
        return None
    parts = job.all_of(PartFitted)
    flywheel = next(part for part in parts if now in part.name.casefold() and "flywheel" in part.name.casefold())
    plate = next((part for part in parts if "plate" in part.name.casefold()), None)
    opened: Opened = job.opened
    return {
        "was": job.vehicle.flywheel.fitted_now,
        "now": now,
        "number": flywheel.number,
        "plate": plate.number if plate else "see the record",
        "km": f"{opened.mileage_km:,} km" if opened.mileage_km is not None else "",
        "date": _day(job),
        "places": PLACES,
    }


def _day(job: WorkshopJob) -> str:
    day = date.fromisoformat(job.entries[-1].at[:10])
    return f"{day.day} {day:%B %Y}"
