"""What one car's clutch does while the pedal goes down: free play, bending, lift, gap, all from its data sheet."""

from msgspec import Struct

from bitepoint.mechanics import release
from bitepoint.mechanics.limits import within
from bitepoint.workshop.figures import release_ratio
from bitepoint.workshop.vehicles import Vehicle

LOST_MM = 0.8
"""Travel at the bearing that only bends cover and fingers [mm] (source: invented)."""

CLAMPED, PLAY, BENDING, OPENING, FREE = (
    "plate clamped",
    "free play, plate clamped",
    "parts bend, plate still clamped",
    "gap opens, plate may still drag",
    "plate free",
)


class Moved(Struct, frozen=True):
    """Where everything is at one travel of the pad [mm]; `clear` is the room between bearing and fingers."""

    pedal: float
    bearing: float
    clear: float
    lift: float
    state: str

    @property
    def gap(self) -> float:
        """Gap on each side of the plate, when it sits in the middle [mm]."""
        return self.lift / 2


def moved(v: Vehicle, pedal_mm: float, *, lost_mm: float = LOST_MM) -> Moved:
    """Return where bearing, plate and gap are with the pad at `pedal_mm`.

    The cushion springs between the facings are left out. A cable leaves the bearing clear of the fingers until the
    free play is taken up; a hydraulic bearing rides on them all the time.

    Source: derived.

    >>> from bitepoint.workshop.vehicles import vehicle
    >>> round(moved(vehicle("A"), 140).lift, 2)
    1.96
    """
    sheet = v.release
    within("pedal_mm", pedal_mm, 0, sheet.pedal_travel_mm, "mm", "The sheet gives the travel of the pedal.")
    ratio, free = release_ratio(v), sheet.free_play_set_mm
    travel = max(0.0, pedal_mm - free) * sheet.efficiency_travel / ratio
    clear = release.clearance_at_bearing_mm(max(0.0, free - pedal_mm), ratio=ratio) if _by_cable(v) else 0.0
    lift = max(0.0, travel - lost_mm) / v.clutch.lever_ratio
    return Moved(pedal_mm, travel, clear, lift, _state(v, pedal_mm, lift))


def _by_cable(v: Vehicle) -> bool:
    return v.release.master_bore_mm is None


def _state(v: Vehicle, pedal_mm: float, lift_mm: float) -> str:
    if not pedal_mm:
        return CLAMPED
    if pedal_mm <= v.release.free_play_set_mm:
        return PLAY
    if not lift_mm:
        return BENDING
    return FREE if lift_mm >= v.clutch.plate_lift_required_mm else OPENING


def pedal_for_lift_mm(v: Vehicle, lift_mm: float, *, lost_mm: float = LOST_MM) -> float:
    """Travel of the pad that gives this lift [mm]; a lift of nothing is where the gap begins to open.

    Source: derived.

    >>> from bitepoint.workshop.vehicles import vehicle
    >>> round(pedal_for_lift_mm(vehicle("A"), 1.5), 1)
    114.3
    """
    travel = lift_mm * v.clutch.lever_ratio + lost_mm
    return v.release.free_play_set_mm + travel * release_ratio(v) / v.release.efficiency_travel
