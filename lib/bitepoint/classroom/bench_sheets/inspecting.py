"""What the inspection and the measuring sheet ask for on one training vehicle, with the limits of its data sheet."""

from collections.abc import Callable

from msgspec import Struct

from bitepoint.missing import LOOK_UP
from bitepoint.workshop.criteria import Measured, criteria, limits_of, measured_on
from bitepoint.workshop.fitted import applies
from bitepoint.workshop.vehicles import Vehicle

READINGS: dict[str, tuple[str, ...]] = {
    "flywheel-runout": tuple(f"{angle}°" for angle in range(0, 360, 45)),
    "flywheel-flatness": ("line 1", "line 2", "line 3"),
    "flywheel-scoring": ("deepest",),
    "dmf-free-angle": ("1st time", "2nd time", "3rd time"),
    "dmf-rock": ("1st time", "2nd time", "3rd time"),
    "crank-end-float": ("1st time", "2nd time", "3rd time"),
    "input-shaft-play": ("up and down", "side to side"),
    "plate-thickness": ("place 1", "place 2", "place 3"),
    "rivet-depth": ("side 1", "side 1", "side 2", "side 2"),
    "plate-runout": ("highest", "lowest"),
    "hub-play": ("1st time", "2nd time"),
    "finger-height": ("highest", "lowest"),
}
"""The boxes for readings of each criterion, as they are labelled."""

HOW: dict[str, str] = {
    "flywheel-runout": "Flywheel lock out. Crankshaft pushed to one side before every reading. Zero at 0°, back to zero at the end.",
    "flywheel-flatness": "Straight edge across the middle, turned by a third each time; thickest feeler that goes in.",
    "dmf-free-angle": "Ring gear locked; friction face turned gently both ways; teeth between the two ends.",
    "dmf-rock": "Gauge square on the friction face near its rim; push and pull at the opposite edge; whole swing.",
    "crank-end-float": "Dial gauge along the crankshaft; push and pull, do not strike.",
    "rivet-depth": "The rivet nearest to the surface counts, not the mean.",
    "plate-thickness": "Facing pressed flat; the least of the three counts.",
    "finger-height": "Cover tightened to the sheet.",
}

_ONLY_WHERE: dict[str, Callable[[Vehicle], bool]] = {
    "dual-mass flywheel": lambda v: applies("DMF", v),
    "pilot bearing": lambda v: applies("PILOT", v),
    "self-adjusting cover": lambda v: applies("SELF", v),
    "clutch cable": lambda v: applies("CABLE", v),
    "concentric slave cylinder": lambda v: "concentric" in v.release.kind,
    "external slave cylinder": lambda v: "external" in v.release.kind,
    "release fork": lambda v: "concentric" not in v.release.kind,
    "pipe or hose": lambda v: applies("HYD", v),
    "pipe connector": lambda v: applies("HYD", v),
    "fluid and seals": lambda v: applies("HYD", v),
    "flywheel dowel": lambda v: v.flywheel.dowel_deg is not None,
}


class MeasuringRow(Struct, frozen=True, kw_only=True):
    """One thing to measure: part, what, the limit in words, how, and the labels of its boxes."""

    id: str
    part: str
    what: str
    limit: str
    unit: str
    how: str
    boxes: tuple[str, ...]


def measuring_rows(v: Vehicle) -> tuple[MeasuringRow, ...]:
    """Return what is measured on a vehicle: each criterion for which its data sheet has a limit, or ought to have one."""
    return tuple(
        MeasuringRow(
            id=item.id,
            part=item.part,
            what=item.what,
            limit=limit_in_words(item, v),
            unit=item.unit,
            how=HOW.get(item.id, ""),
            boxes=READINGS.get(item.id, ("reading",)),
        )
        for item in measured_on(v, ought=True)
    )


def limit_in_words(item: Measured, v: Vehicle) -> str:
    """Return the limit of a criterion as a fitter reads it, such as “at most 0.08 mm”; the value itself is within."""
    lower, upper = limits_of(item, v)
    if (lower, upper) == (None, None):
        return LOOK_UP
    told = [f"{word} {value:g}" for word, value in (("at least", lower), ("at most", upper)) if value is not None]
    return f"{', '.join(told)} {item.unit}"


def looked_at(v: Vehicle) -> tuple[str, ...]:
    """Return the parts of a vehicle that are judged by sight or feel, each once, in the order of the list."""
    parts = dict.fromkeys(item.part for item in criteria().seen)
    return tuple(part for part in parts if part not in _ONLY_WHERE or _ONLY_WHERE[part](v))
