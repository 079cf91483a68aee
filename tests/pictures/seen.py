"""A drawing of an instrument taken apart: what it shows, recovered from nothing but its lines, shapes and figures."""

import re
from math import atan2, degrees
from typing import Any
from xml.etree import ElementTree

from bitepoint.pictures import draw
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, VERMILLION, WHITE
from bitepoint.pictures.measuring import calipers, dials, dual_mass, wrench_scales


class Seen:
    """A drawing taken apart: its lines, words and shapes as figures."""

    def __init__(self, key: str, **parameters: Any) -> None:
        self.marks = list(ElementTree.fromstring(str(draw(key, **parameters).content)))

    def of(self, tag: str, **wanted: str) -> list[dict[str, str]]:
        found = [m.attrib for m in self.marks if m.tag.endswith("}" + tag)]
        return [a for a in found if all(a.get(k.replace("_", "-")) == v for k, v in wanted.items())]

    def lines(self, **wanted: str) -> list[tuple[float, float, float, float]]:
        return [(float(a["x1"]), float(a["y1"]), float(a["x2"]), float(a["y2"])) for a in self.of("line", **wanted)]

    def figures(self, **wanted: str) -> list[tuple[float, float, float]]:
        """Return (value, x, y) of every word that is a number."""
        found = [m for m in self.marks if m.tag.endswith("}text") and re.fullmatch(r"[\d.]+", m.text or "")]
        kept = [m for m in found if all(m.attrib.get(k.replace("_", "-")) == v for k, v in wanted.items())]
        return [(float(m.text or ""), float(m.attrib["x"]), float(m.attrib["y"])) for m in kept]


def tip(polygon: dict[str, str]) -> tuple[float, float]:
    """First corner of a polygon."""
    x, y = polygon["points"].split()[0].split(",")
    return float(x), float(y)


def turned(centre: tuple[float, float], x: float, y: float) -> float:
    """Angle of a point round a centre, clockwise from the top [degrees]."""
    return degrees(atan2(x - centre[0], centre[1] - y)) % 360


def on_scale(figures: list[tuple[float, float]], place: float) -> float:
    """Read a place against the first and last figure of a straight scale."""
    (low, at), (high, end) = min(figures), max(figures)
    return low + (place - at) / (end - at) * (high - low)


def vernier(seen: Seen) -> float:
    """The vernier's zero against the figures of the main scale [mm]."""
    main = [(v, x) for v, x, y in seen.figures() if y == calipers.EDGE - 44]
    (zero,) = [x for x, y, _, y2 in seen.lines(stroke=INK) if y == calipers.EDGE and y2 == calipers.EDGE + 32]
    return on_scale(main, zero)


def micrometer(seen: Seen) -> float:
    """The thimble's edge against the last figure of the sleeve [mm]."""
    edge = tip(seen.of("polygon", fill=METAL)[0])[0]
    value, at = [(v, x) for v, x, y in seen.figures(font_size="22")][-1]
    return value + (edge - at) / calipers.SLEEVE_MM


def dial_gauge(seen: Seen) -> float:
    """Both hands less both blue marks [mm]; the movement must lie between -5 and 5 mm."""
    ((_, _, x, y),) = seen.lines(stroke=VERMILLION, stroke_width="5")
    ((_, _, sx, sy),) = seen.lines(stroke=VERMILLION, stroke_width="4")
    big, small = (tip(p) for p in seen.of("polygon", fill=BLUE))
    moved = (turned(dials.CENTRE, x, y) - turned(dials.CENTRE, *big)) / 360
    coarse = ((turned(dials.SMALL, sx, sy) - turned(dials.SMALL, *small)) / 36 + 5) % 10 - 5
    return round(coarse - moved) + moved


def sweep(seen: Seen) -> list[float]:
    """The hand's reading at each of the nine places [mm]."""
    hands = seen.lines(stroke=VERMILLION, stroke_width="4")
    return [(turned((x, y), tx, ty) / 360 + 0.5) % 1 - 0.5 for x, y, tx, ty in hands]


def torque_wrench(seen: Seen) -> float:
    """The grip's edge against the lines in N·m, each numbered by its figure."""
    return _on_shaft(seen, INK, [v for v, _, _ in seen.figures(font_weight="bold", font_size="20")])


def torque_wrench_feet(seen: Seen) -> float:
    """The grip's edge against the lines in lbf·ft."""
    return _on_shaft(seen, BLUE, [v for v, _, _ in seen.figures(fill=BLUE)])


def _on_shaft(seen: Seen, colour: str, figures: list[float]) -> float:
    edge = float(seen.of("rect", fill=WHITE, width="92")[0]["x"])
    upright = [line for line in seen.lines(stroke=colour, stroke_width="3") if line[0] == line[2]]
    marks = sorted(x for x, y, _, y2 in upright if y == wrench_scales.MIDDLE and abs(y2 - y) == 42)
    return on_scale(list(zip(sorted(figures), marks, strict=True)), edge)


def angle_gauge(seen: Seen) -> tuple[float, float]:
    """Both hands on the disc, before and after the turn [degrees]."""
    hands = [seen.lines(stroke=c, stroke_width=w)[0] for c, w in ((BLUE, "4"), (VERMILLION, "6"))]
    start, end = (turned(wrench_scales.DISC, *hand[2:]) for hand in hands)
    return start, end


def feeler(seen: Seen, leaves: list[float]) -> tuple[float, float]:
    """The thickest leaf that reaches under the edge and the thinnest that does not [mm]."""
    drawn = seen.of("rect", fill=ORANGE)
    widest = max(float(a["width"]) for a in drawn)
    inside = [leaf for leaf, a in zip(leaves, drawn, strict=True) if float(a["width"]) == widest]
    return max(inside), min(leaf for leaf in leaves if leaf not in inside)


def teeth(seen: Seen) -> float:
    """The angle between mark A and mark B over the angle of a tooth."""
    a, b = (turned(dual_mass.WHEEL, *seen.lines(stroke=c, stroke_width="9")[0][:2]) for c in (VERMILLION, BLUE))
    return ((b - a + 180) % 360 - 180) / degrees(dual_mass.TOOTH / dual_mass.WHEEL_RADIUS)


def pedal(seen: Seen) -> tuple[float, float, float]:
    """The three pointers, each against the figures of its own strip [mm]."""
    found = []
    for i, pointer in enumerate((tip(p) for p in seen.of("polygon", fill=INK)), start=1):
        strip = [(v, x) for v, x, y in seen.figures(font_size="18") if y == 162 + 128 * i + 20]
        found.append(on_scale(strip, pointer[0]))
    rest, play, down = found
    return rest, play, down
