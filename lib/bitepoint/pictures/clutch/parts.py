"""The parts of a clutch as outlines in millimetres: x along the axis towards the gearbox, r out from the axis.

Diameters, thicknesses, bolt lengths and the lever ratio come from the data sheet; the shape of castings and pressings
is the ordinary one (source: common-practice). x = 0 is the friction face of the flywheel.
"""

from bitepoint.pictures.canvas import ORANGE, SKY, WHITE, Point
from bitepoint.pictures.clutch.bearings import concentric, sleeve
from bitepoint.pictures.clutch.sizes import SectionPart, Sizes, sizes
from bitepoint.pictures.strokes import FACING, IRON, SPRING, STEEL, arc, box
from bitepoint.workshop.vehicles import Vehicle


def parts(v: Vehicle, pedal: float) -> list[SectionPart]:
    """Every part of the section, in the order in which it is drawn; the gap too wide, as `sizes` says."""
    return parts_at(v, sizes(v, pedal))


def parts_at(v: Vehicle, s: Sizes) -> list[SectionPart]:
    """Every part of the section with these sizes, in the order in which it is drawn."""
    bearing = concentric(s) if v.release.kind == "hydraulic concentric slave" else sleeve(s)
    pilot = [_pilot(s)] if v.gearbox.pilot_bearing_depth_mm else []
    return [_crank(v, s), *_flywheel(s), *_plate(s), *_pressure(s), *bearing, _input_shaft(v, s), *pilot]


def _crank(v: Vehicle, s: Sizes) -> SectionPart:
    back = -s.recess - s.clamped
    nose = s.shaft * (0.62 if v.gearbox.pilot_bearing_depth_mm else 0.8)
    seat = nose + (5 if v.gearbox.pilot_bearing_depth_mm else 2)
    depth = back - 24
    outline = [
        (back, s.bolts + 9),
        (back, seat),
        (depth, seat),
        (depth, 0),
        (back - 52, 0),
        (back - 52, 25),
        (back - 21, 25),
        (back - 21, s.bolts + 9),
    ]
    return SectionPart("crankshaft", "crankshaft flange", (tuple(outline),), IRON, 135, 12)


def _flywheel(s: Sizes) -> list[SectionPart]:
    back, rim = -s.recess - s.clamped, s.ring - 7
    web = -s.recess - s.clamped * 0.2
    body = [
        (0, rim), (0, s.inner - 5), (-s.recess, s.inner - 9), (-s.recess, s.shaft + 6), (back, s.shaft + 6),
        (back, s.bolts + 11), (web - 9, s.bolts + 17), (-20, s.inner + 6), (-24, s.inner + 16), (-24, rim),
    ]  # fmt: skip
    gear = box(-24, rim, 11, 7)
    bolt = _bolt(-s.recess, s.bolts, s.bolt_r, s.bolt_length, head=s.bolt_r * 1.6)
    return [
        SectionPart("flywheel", "flywheel", (tuple(body),), IRON, 45, 12),
        SectionPart("ring-gear", "ring gear", (tuple(gear),), STEEL, 135, 6),
        SectionPart("flywheel-bolt", "flywheel bolt", (tuple(bolt),), ORANGE, None),
    ]


def _bolt(seat: float, middle: float, r: float, length: float, *, head: float) -> list[Point]:
    """A bolt along the axis with a flanged head: a straight shank with a chamfer at its end."""
    half = [
        (seat + head * 0.9, head * 0.72), (seat + head * 0.25, head * 0.8), (seat + head * 0.25, head), (seat, head), (seat, r),
        (seat - length + 1.5, r), (seat - length, r - 1.5),
    ]  # fmt: skip
    return [(x, middle + y) for x, y in half] + [(x, middle - y) for x, y in reversed(half)]


def _plate(s: Sizes) -> list[SectionPart]:
    x = s.opened / 2
    lining = s.thick * 0.36
    mid = x + s.thick / 2
    facings = (
        tuple(box(x, s.inner, lining, s.outer - s.inner)),
        tuple(box(x + s.thick - lining, s.inner, lining, s.outer - s.inner)),
    )
    coil_r = 8.0
    spring = s.hub + (s.inner - s.hub) * 0.56
    centre = mid + 3
    cushion = box(mid - 0.9, s.inner - 13, 1.8, s.outer - s.inner + 12)
    left = [
        (mid - 0.9, s.inner - 5),
        (mid - 0.9, spring + coil_r + 3),
        (centre - 8.4, spring + 5),
        (centre - 8.4, spring - 5),
        (centre - 4.6, spring - coil_r - 3),
        (centre - 4.6, s.hub + 2),
        (centre - 2.6, s.hub + 2),
        (centre - 2.6, s.inner - 5),
    ]
    right = [(2 * centre - a, b) for a, b in left]
    hub = [
        (mid - 8, s.shaft),
        (mid - 8, s.hub),
        (centre - 1.7, s.hub),
        (centre - 1.7, spring + 6),
        (centre + 1.7, spring + 6),
        (centre + 1.7, s.hub),
        (mid + 15, s.hub),
        (mid + 15, s.shaft),
    ]
    return [
        SectionPart("cushion", "cushion springs", (tuple(cushion),), STEEL, None),
        SectionPart("facings", "facings", facings, FACING, 90, 6),
        SectionPart("hub", "splined hub", (tuple(hub),), STEEL, 135, 9),
        SectionPart(
            "damper",
            "torsion damper",
            (tuple(left), tuple(right), tuple(arc((centre, spring), coil_r, 0, 360, steps=24))),
            SPRING,
            None,
        ),
    ]


def _pressure(s: Sizes) -> list[SectionPart]:
    face = s.thick + s.opened
    body = [
        (face, s.outer + 1),
        (face, s.inner - 3),
        (face + 9, s.inner - 3),
        (face + 12, s.inner + 4),
        (face + 12, s.push - 5),
        (face + 15, s.push - 2),
        (face + 15, s.push + 2),
        (face + 12, s.push + 4),
        (face + 12, s.outer + 1),
    ]
    rest = s.thick + 16.5
    edge, tip = face + 16, rest + 6 - s.travel
    spring = [
        (edge - 1.2, s.push + 4),
        (rest - 1.3, s.pivot),
        (tip - 3, s.finger + 6),
        (tip - 1.3, s.finger - 1),
        (tip + 1.3, s.finger - 1),
        (tip - 0.4, s.finger + 6),
        (rest + 1.3, s.pivot),
        (edge + 1.2, s.push + 4),
    ]
    top = rest + 11
    cover = [
        (0, s.ring - 2), (0, s.cover - 7), (rest, s.outer + 6), (rest + 5, s.outer + 2), (rest + 5.6, s.pivot + 5), (rest + 3.4, s.pivot + 2),
        (rest + 3.4, s.pivot - 4), (rest + 7, s.pivot - 7), (rest + 10, s.pivot - 7), (rest + 6.4, s.pivot - 1), (rest + 6.4, s.pivot + 4), (rest + 8.6, s.pivot + 6), (rest + 8, s.outer + 4), (rest + 2, s.outer + 9),
        (5, s.cover - 4), (3, s.cover - 4), (3, s.ring - 2),
    ]  # fmt: skip
    rivet = [(rest - 4.5, s.pivot - 3), (rest - 4.5, s.pivot + 3), (rest + 8.5, s.pivot + 3), (rest + 8.5, s.pivot - 3)]
    rings = (
        tuple(rivet),
        tuple(arc((rest - 2.9, s.pivot), 1.7, 0, 360)),
        tuple(arc((rest + 2.9, s.pivot), 1.7, 0, 360)),
    )
    strap = [(face + 7, s.outer - 2), (top - 7, s.outer + 5), (top - 5.5, s.outer + 3), (face + 9, s.outer - 4)]
    bolt = _bolt(3, s.cover, 4, 17, head=6.5)
    return [
        SectionPart("pressure-plate", "pressure plate", (tuple(body),), IRON, 135, 12),
        SectionPart("cover", "cover", (tuple(cover),), STEEL, 45, 7),
        SectionPart("strap", "strap (leaf spring)", (tuple(strap),), WHITE, None),
        SectionPart("diaphragm", "diaphragm spring", (tuple(spring),), SKY, None),
        SectionPart("pivot", "pivot rings and rivet", rings, WHITE, None),
        SectionPart("cover-bolt", "cover bolt", (tuple(bolt),), ORANGE, None),
    ]


def _input_shaft(v: Vehicle, s: Sizes) -> SectionPart:
    back = -s.recess - s.clamped
    pilot = bool(v.gearbox.pilot_bearing_depth_mm)
    start, nose = (back - 20, s.shaft * 0.6) if pilot else (-s.recess + 1, s.shaft * 0.8)
    outline = [
        (start, 0),
        (start, nose - 1.5),
        (start + 2, nose),
        (-s.recess + 3, nose),
        (-s.recess + 5, s.shaft),
        (s.thick + 30, s.shaft),
        (s.thick + 33, s.shaft - 1),
        (s.thick + 96, s.shaft - 1),
        (s.thick + 96, 0),
    ]
    return SectionPart("input-shaft", "gearbox input shaft", (tuple(outline),), WHITE, None)


def _pilot(s: Sizes) -> SectionPart:
    """The sealed pilot bearing between crankshaft and shaft end."""
    back = -s.recess - s.clamped
    outline = box(back - 16, s.shaft * 0.62, 13, 4.6)
    return SectionPart("pilot-bearing", "pilot bearing", (tuple(outline),), WHITE, None)
