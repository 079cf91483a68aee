"""Where the names of the section stand, and what each points at."""

from typing import Literal

from msgspec import Struct

from bitepoint.pictures.canvas import Point
from bitepoint.pictures.clutch.sizes import Sizes
from bitepoint.pictures.clutch.view import SectionView
from bitepoint.workshop.vehicles import Vehicle

LEFT = (88, 116, 148, 191, 258, 312)
RIGHT = (66, 94, 122, 150, 178, 210, 244, 280, 314, 358)


class Name(Struct, frozen=True):
    """A name beside the section: the part's key ("" for a face), its words, where they stand, what they point at."""

    key: str
    words: tuple[str, ...]
    at: Point
    to: Point
    anchor: Literal["start", "middle", "end"]


def names(view: SectionView, v: Vehicle, s: Sizes) -> list[Name]:
    """Return every name of the section of one vehicle."""
    x, tip = s.opened, s.thick + 22 - s.travel
    concentric = v.release.kind == "hydraulic concentric slave"
    left = (
        ("ring-gear", ("ring gear",), (-18, s.ring - 4)),
        ("cover-bolt", ("cover bolt",), (-4, s.cover)),
        ("flywheel", ("flywheel",), (-18, s.outer - 10)),
        ("", ("friction face",), (0, s.inner + 6)),
        ("flywheel-bolt", ("flywheel", "bolt"), (-s.recess - s.clamped - 3, s.bolts + s.bolt_r * 0.4)),
        ("crankshaft", ("crankshaft", "flange"), (-s.recess - s.clamped - 11, s.bolts - 11)),
    )
    lever = (
        ("piston", "ring piston", (tip + 28, s.shaft + 7.6))
        if concentric
        else ("fork", "release fork", (tip + 26, s.shaft + 36)),
        ("release-bearing", "release bearing", (tip + 12, s.shaft + 20)),
    )
    right = (
        ("facings", "facings", (s.thick * 0.82 + x / 2, s.outer - 3)),
        ("pressure-plate", "pressure plate", (s.thick + x + 5, s.outer - 3)),
        ("strap", "strap (leaf spring)", (s.thick + 12 + x * 0.6, s.outer + 0.4)),
        ("cover", "cover", (s.thick + 23.4, s.outer - 4)),
        ("pivot", "pivot rings", (s.thick + 19.4, s.pivot)),
        ("diaphragm", "diaphragm spring", _on_finger(s, 0.3)),
        ("damper", "torsion damper", (s.thick / 2 + x / 2 + 8, s.hub + (s.inner - s.hub) * 0.56 + 3)),
        *(lever if not concentric else reversed(lever)),
        ("concentric-slave", "concentric slave", (s.thick + 62, s.shaft + 12))
        if concentric
        else ("guide-tube", "guide tube", (s.thick + 62, s.shaft + 4.5)),
    )
    below = [
        ("hub", "splined hub", 250.0, (s.thick / 2 + x / 2 + 10, s.shaft + 2.5)),
        ("input-shaft", "gearbox input shaft", 470.0, (s.thick + 42, s.shaft * 0.4)),
    ]
    if v.gearbox.pilot_bearing_depth_mm:
        below.append(("pilot-bearing", "pilot bearing", 70.0, (-s.recess - s.clamped - 8, s.shaft * 0.62 + 2)))
    return [
        *(Name(k, w, (112, y), view.at(*to), "end") for (k, w, to), y in zip(left, LEFT, strict=True)),
        *(Name(k, (w,), (548, y), view.at(*to), "start") for (k, w, to), y in zip(right, RIGHT, strict=True)),
        *(Name(k, (w,), (at, 490), view.at(*to), "middle") for k, w, at, to in below),
    ]


def _on_finger(s: Sizes, down: float) -> Point:
    """A point on a finger: 0 at the pivot, 1 at its tip."""
    rest = s.thick + 16.5
    return rest + down * (4.5 - s.travel), s.pivot + down * (s.finger + 3 - s.pivot)
