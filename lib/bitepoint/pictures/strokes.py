"""Strokes that the drawings of parts share: section hatching, call-outs, coils, curves, figures, tick and cross."""

from collections.abc import Iterable, Sequence
from math import cos, hypot, pi, radians, sin
from typing import Literal

from bitepoint.errors import OutOfRange
from bitepoint.pictures.canvas import GREEN, INK, METAL, SHADE, VERMILLION, WHITE, Canvas, Point

STEEL, IRON, FACING, SPRING = "#E6EAEE", "#D3D7DB", "#C8B59A", "#F3F6F8"
"""Fills of a section, told apart in grey by their hatching."""


def hatched(
    canvas: Canvas, points: Sequence[Point], *, gap: float = 10, slant_deg: float = 45, colour: str = SHADE
) -> None:
    """Fill any closed shape with parallel lines."""
    turn = radians(slant_deg)
    turned = [(x * cos(turn) + y * sin(turn), y * cos(turn) - x * sin(turn)) for x, y in points]
    low, high = min(y for _, y in turned), max(y for _, y in turned)
    level = low - low % gap + gap * 0.5
    while level < high:
        cuts = sorted(_cuts(turned, level))
        for left, right in zip(cuts[::2], cuts[1::2], strict=False):
            if right - left > 2:
                ends = [(x * cos(turn) - level * sin(turn), level * cos(turn) + x * sin(turn)) for x in (left, right)]
                canvas.line(ends[0], ends[1], colour, 2)
        level += gap


def _cuts(points: Sequence[Point], level: float) -> Iterable[float]:
    for (x1, y1), (x2, y2) in zip(points, [*points[1:], points[0]], strict=True):
        if (y1 > level) != (y2 > level):
            yield x1 + (level - y1) / (y2 - y1) * (x2 - x1)


def part(
    canvas: Canvas, points: Sequence[Point], fill: str = STEEL, *, slant_deg: float | None = 45, gap: float = 10,
    colour: str = SHADE, width: float = 2.5,
) -> None:  # fmt: skip
    """Draw a cut part: fill, hatching (none where `slant_deg` is None), outline."""
    canvas.polygon(points, fill, fill, 0)
    if slant_deg is not None:
        hatched(canvas, points, gap=gap, slant_deg=slant_deg, colour=colour)
    canvas.polygon(points, "none", INK, width)


def box(x: float, y: float, width: float, height: float) -> list[Point]:
    """Corners of an upright rectangle."""
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


def smooth(points: Sequence[Point], *, closed: bool = False, steps: int = 6) -> list[Point]:
    """Points on a soft curve through the given ones (Catmull-Rom)."""
    n = len(points)
    spans = n if closed else n - 1
    at = [points[i % n] if closed else points[min(max(i, 0), n - 1)] for i in range(-1, n + 2)]
    curve: list[Point] = []
    for i in range(spans):
        p0, p1, p2, p3 = at[i : i + 4]
        curve += [
            (_spline(p0[0], p1[0], p2[0], p3[0], k / steps), _spline(p0[1], p1[1], p2[1], p3[1], k / steps))
            for k in range(steps)
        ]
    return curve if closed else [*curve, points[-1]]


def _spline(a: float, b: float, c: float, d: float, t: float) -> float:
    return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)))


def arc(centre: Point, r: float, start_deg: float, end_deg: float, *, steps: int = 18, flat: float = 1) -> list[Point]:
    """Points on an arc, clockwise from 12 o'clock; `flat` squeezes it in height."""
    angles = [radians(start_deg + (end_deg - start_deg) * k / steps) for k in range(steps + 1)]
    return [(centre[0] + r * sin(a), centre[1] - r * flat * cos(a)) for a in angles]


def capsule(start: Point, end: Point, r: float) -> list[Point]:
    """Outline of a bar with round ends from one point to another."""
    length = hypot(end[0] - start[0], end[1] - start[1]) or 1
    x, y = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    ends = []
    for (cx, cy), sign in ((end, 1), (start, -1)):
        for k in range(7):
            a = pi * (k / 6 - 0.5)
            along, side = r * cos(a) * sign, r * sin(a) * sign
            ends.append((cx + along * x - side * y, cy + along * y + side * x))
    return ends


def callout(
    canvas: Canvas, words: str | Sequence[str], at: Point, to: Point, *, anchor: Literal["start", "middle", "end"] = "start",
    size: float = 17, bold: bool = False,
) -> None:  # fmt: skip
    """Name a part: words at one place, a thin line from them to a dot on the part."""
    rows = [words] if isinstance(words, str) else list(words)
    for i, row in enumerate(rows):
        canvas.text(at[0], at[1] + i * size * 1.2, row, size, anchor=anchor, bold=bold)
    if anchor == "middle":
        above = to[1] < at[1]
        begin = (at[0], at[1] - size if above else at[1] + (len(rows) - 1) * size * 1.2 + 7)
    else:
        begin = (at[0] + (6 if anchor == "end" else -6), at[1] - size * 0.35 + (len(rows) - 1) * size * 0.6)
    canvas.line(begin, to, WHITE, 5)
    canvas.line(begin, to, INK, 2)
    canvas.circle(to, 3.5, INK, WHITE, 1)


def coil(
    canvas: Canvas, start: Point, end: Point, r: float, turns: int, *, colour: str = INK, width: float = 3
) -> None:
    """Draw a coil spring from the side."""
    length = hypot(end[0] - start[0], end[1] - start[1]) or 1
    x, y = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    points = [start]
    for k in range(2 * turns):
        along, side = length * (k + 0.5) / (2 * turns), r if k % 2 else -r
        points.append((start[0] + along * x - side * y, start[1] + along * y + side * x))
    canvas.polyline([*points, end], colour, width)


def bend(canvas: Canvas, points: Sequence[Point], *, fill: str = METAL, width: float = 12, outline: float = 2) -> None:
    """Draw a pipe, hose, rod or bent sheet along a line: dark edge, lighter middle."""
    canvas.polyline(points, INK, width + 2 * outline)
    canvas.polyline(points, fill, width)


def verdict(canvas: Canvas, x: float, y: float, right: bool, words: str, *, size: float = 22) -> None:
    """Head a panel with RIGHT and a tick, or WRONG and a cross, and words; (x, y) is the left end of the base line."""
    colour = GREEN if right else VERMILLION
    middle = y - size * 0.36
    canvas.circle((x + 14, middle), 14, WHITE, colour, 4)
    if right:
        canvas.polyline([(x + 7, middle), (x + 12, middle + 6), (x + 22, middle - 7)], colour, 4)
    else:
        canvas.line((x + 8, middle - 6), (x + 20, middle + 6), colour, 4)
        canvas.line((x + 8, middle + 6), (x + 20, middle - 6), colour, 4)
    canvas.text(x + 38, y, ("RIGHT: " if right else "WRONG: ") + words, size, anchor="start", bold=True)


def cross_out(canvas: Canvas, x: float, y: float, width: float, height: float) -> None:
    """Cross a wrong picture out."""
    canvas.line((x, y), (x + width, y + height), VERMILLION, 5, dash="16 9")
    canvas.line((x, y + height), (x + width, y), VERMILLION, 5, dash="16 9")


def side_bolt(
    canvas: Canvas, head: Point, length: float, r: float, *, towards: Literal["left", "right", "down"] = "left"
) -> None:
    """Draw a bolt from the side: head at `head` (middle of its seat), shank `length` long, thread lines over the end."""
    turn = {"left": (-1, 0), "right": (1, 0), "down": (0, 1)}[towards]

    def at(along: float, across: float) -> Point:
        return head[0] + along * turn[0] - across * turn[1], head[1] + along * turn[1] + across * turn[0]

    canvas.polygon(
        [
            at(0, -r),
            at(length - r * 0.4, -r),
            at(length, -r * 0.6),
            at(length, r * 0.6),
            at(length - r * 0.4, r),
            at(0, r),
        ],
        WHITE,
    )
    step = max(4.5, r * 0.6)
    along = length * 0.4
    while along < length - r * 0.4:
        canvas.line(at(along, -r), at(along + step * 0.4, r), INK, 2)
        along += step
    canvas.polygon(
        [
            at(0, -r * 1.9),
            at(0, r * 1.9),
            at(-r * 0.4, r * 1.9),
            at(-r * 0.4, r * 1.6),
            at(-r * 1.4, r * 1.5),
            at(-r * 1.4, -r * 1.5),
            at(-r * 0.4, -r * 1.6),
            at(-r * 0.4, -r * 1.9),
        ],
        METAL,
    )
    canvas.line(at(-r * 0.4, -r * 0.6), at(-r * 1.4, -r * 0.6), INK, 2)


def share(name: str, value: float) -> float:
    """Return a pedal travel between 0 (up) and 1 (down), or refuse it in one line."""
    if not 0 <= value <= 1:
        raise OutOfRange(
            name, "between 0 (pedal up) and 1 (pedal down)", f"{value:g}", "Give a share of the pedal's travel."
        )
    return value


def choice(name: str, value: object, allowed: Sequence[object]) -> None:
    """Refuse what is none of the allowed choices in one line."""
    if value not in allowed:
        raise OutOfRange(name, "one of " + ", ".join(map(str, allowed)), str(value)[:40], "Give one of these.")
