"""Sizes of a clutch in section, read or reckoned from the data sheet, and what a part of it is."""

from msgspec import Struct
from msgspec.structs import replace

from bitepoint.pictures.canvas import Point
from bitepoint.workshop.pedal_motion import Moved
from bitepoint.workshop.vehicles import Vehicle

GAP_SCALE = 3
"""How many times too large the opening gap is drawn."""
RIM = 15
"""From the circle of the cover bolts to the tips of the ring gear [mm]: rim, then teeth."""


class SectionPart(Struct, frozen=True):
    """One part of the section: its key, its name and its outlines with their fill and hatching."""

    key: str
    label: str
    outlines: tuple[tuple[Point, ...], ...]
    fill: str
    slant_deg: float | None = 45
    gap: float = 10


class Sizes(Struct, frozen=True):
    """What the outlines are built from [mm], read or reckoned from the data sheet."""

    outer: float
    inner: float
    thick: float
    ring: float
    cover: float
    pivot: float
    push: float
    finger: float
    hub: float
    shaft: float
    bolts: float
    bolt_r: float
    bolt_length: float
    recess: float
    clamped: float
    opened: float
    travel: float
    clear: float = 0.0


def sizes(v: Vehicle, pedal: float) -> Sizes:
    """Sizes of one vehicle's clutch with the pedal at a share of its travel."""
    clutch, bolt = v.clutch, v.flywheel.bolt
    outer, shaft = clutch.plate_od_mm / 2, clutch.spline_major_mm / 2
    push, finger = 0.94 * outer, shaft + 11
    pivot = (finger + clutch.lever_ratio * push) / (1 + clutch.lever_ratio)
    return Sizes(
        outer=outer, inner=clutch.plate_id_mm / 2, thick=clutch.plate_thickness_new_mm,
        ring=clutch.cover.pcd_mm / 2 + RIM, cover=clutch.cover.pcd_mm / 2, pivot=pivot, push=push, finger=finger,
        hub=shaft + 5.5, shaft=shaft, bolts=v.flywheel.pcd_mm / 2, bolt_r=bolt.d_mm / 2, bolt_length=bolt.length_mm,
        recess=12, clamped=bolt.hub_clamped_mm, opened=pedal * clutch.plate_lift_required_mm * GAP_SCALE,
        travel=pedal * clutch.plate_lift_required_mm * clutch.lever_ratio,
    )  # fmt: skip


def true_sizes(v: Vehicle, at: Moved) -> Sizes:
    """Sizes of one vehicle's clutch with the pedal somewhere on its way, nothing drawn too large."""
    return replace(sizes(v, 0), opened=at.lift, travel=at.bearing, clear=at.clear)
