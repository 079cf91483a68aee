"""Rings of bolts: a flywheel's bolts, star orders, an order round the circle against a star, paint marks."""

from collections.abc import Sequence
from math import pi, sin

from bitepoint.mechanics.limits import one_of, whole
from bitepoint.mechanics.tightening import (
    BALANCE_ALLOWANCE,
    best_peak_out_of_balance,
    even_circle_deg,
    out_of_balance,
    peak_out_of_balance,
    star_order,
)
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    YELLOW,
    Canvas,
    Point,
    on_circle,
)
from bitepoint.pictures.registry import Drawing, Shape, picture

SIX = even_circle_deg(6)


@picture("bolt-ring")
def bolt_ring(
    *,
    angles_deg: Sequence[float] = SIX,
    dowel_deg: float | None = None,
    order: Sequence[int] = (),
    numbers: bool = True,
    part: str = "round part",
    measured: int = 0,
) -> Drawing:
    """A round part from the front with its bolts (degrees clockwise from the top) and, if given, an order.

    `part` is "round part", or "flywheel" for one with its ring gear, seen from the gearbox side. `measured` is a bolt
    whose angle from bolt 1 is written in, beside the even share of the circle; 0 for none.
    """
    one_of("part", part, tuple(_PARTS), "Leave it out for a plain round part.")
    out_of_balance(angles_deg, order)  # says in one line what is wrong with the angles or the order
    n = len(angles_deg)
    canvas, centre = Canvas(384), (360.0, 192.0)
    pitch = 86.0 if n <= 9 else 132.0
    r = min(24.0, 0.42 * 2 * pitch * sin(pi / n))
    _body(canvas, centre, pitch, toothed=part == "flywheel")
    spots = [on_circle(*centre, pitch, a) for a in angles_deg]
    if dowel_deg is not None:
        _dowel(canvas, centre, pitch, dowel_deg)
    _arrows(canvas, spots, order, r + 3)
    odd = _measured(canvas, centre, angles_deg, measured) if measured else ""
    for i, spot in enumerate(spots):
        canvas.bolt(spot, r, str(i + 1) if numbers else "", fill=YELLOW if order and order[0] == i + 1 else WHITE)
    for place, bolt in enumerate(order, start=1):
        x, y = on_circle(*centre, pitch + r + 24, angles_deg[bolt - 1])
        canvas.text(x, y + 7, _ordinal(place), 20, bold=True, colour=BLUE)
    return canvas.drawing(
        alt=_ring_alt(part, angles_deg, dowel_deg, order) + (f" {odd}" if odd else ""),
        caption=(odd or f"{n} bolts, numbered {_direction(angles_deg)}.")
        + (" Yellow: the bolt to start with." if order else ""),
        regions=tuple(Shape(str(i + 1), f"bolt {i + 1}", "circle", (x, y, r)) for i, (x, y) in enumerate(spots)),
    )


def _measured(canvas: Canvas, centre: Point, angles_deg: Sequence[float], bolt: int) -> str:
    """Write the angle of a bolt from bolt 1 into the ring, its even place dashed, and return it in words."""
    whole("measured", bolt, 2, len(angles_deg), "Name a bolt of the ring other than bolt 1.")
    even = 360 * (bolt - 1) / len(angles_deg)
    is_at = angles_deg[bolt - 1] - angles_deg[0]
    for angle in (0.0, is_at):
        canvas.line(
            on_circle(*centre, 26, angles_deg[0] + angle), on_circle(*centre, 60, angles_deg[0] + angle), BLUE, 3
        )
    canvas.line(
        on_circle(*centre, 26, angles_deg[0] + even), on_circle(*centre, 144, angles_deg[0] + even), INK, 2, dash="7 5"
    )
    x, y = on_circle(*centre, 50, angles_deg[0] + is_at / 2)
    canvas.text(x, y + 6, f"{is_at:g}°", 18, bold=True, colour=BLUE)
    x, y = on_circle(*centre, 146, angles_deg[0] + even)
    canvas.boxed(x, y + 6, f"{even:g}°", 18)
    return f"Bolt {bolt} sits at {is_at:g}°. Evenly spread it would sit at {even:g}° (dashed)."


def _direction(angles_deg: Sequence[float]) -> str:
    """Which way the numbers run, told by the step from bolt 1 to bolt 2."""
    return "clockwise" if (angles_deg[1] - angles_deg[0]) % 360 < 180 else "anticlockwise"


_PARTS = {"round part": "Round part seen from the front", "flywheel": "Flywheel seen from the gearbox side"}


def _ring_alt(part: str, angles_deg: Sequence[float], dowel_deg: float | None, order: Sequence[int]) -> str:
    first = angles_deg[0] % 360
    start = "from the top" if first == 0 else f"from bolt 1, which sits {first:g} degrees clockwise from the top"
    told = f"{_PARTS[part]}: a ring of {len(angles_deg)} bolts, numbered {_direction(angles_deg)} {start}."
    if dowel_deg is not None:
        told += f" A dowel sits {dowel_deg:g} degrees clockwise from the top."
    if order:
        told += f" Arrows show the order of tightening: {', '.join(map(str, order))}."
    return told


def _body(canvas: Canvas, centre: Point, pitch: float, *, toothed: bool) -> None:
    canvas.circle(centre, 180, SHADE, INK, 2)
    if toothed:
        canvas.circle(centre, 185, "none", INK, 10, dash="7 6")
    canvas.circle(centre, 173, METAL)
    canvas.circle(centre, pitch + 66 if pitch < 110 else 168, PALE)
    canvas.circle(centre, 26, WHITE)


def _dowel(canvas: Canvas, centre: Point, pitch: float, angle: float) -> None:
    spot = on_circle(*centre, pitch, angle)
    canvas.circle(spot, 8, INK)
    canvas.circle(spot, 3.5, WHITE, WHITE)
    x, y = on_circle(*centre, pitch + 26, angle)
    canvas.text(x, y + 6, "dowel", 18, bold=True)


def _arrows(canvas: Canvas, spots: Sequence[Point], order: Sequence[int], gap: float, width: float = 3) -> None:
    """Solid where the order goes across, dashed where it moves on to the next pair."""
    reach = max((_apart(spots[a - 1], spots[b - 1]) for a, b in zip(order, order[1:], strict=False)), default=0)
    for a, b in zip(order, order[1:], strict=False):
        across = _apart(spots[a - 1], spots[b - 1]) > 0.97 * reach
        canvas.between(spots[a - 1], spots[b - 1], gap, BLUE, width, dash="" if across else "7 5")


def _apart(a: Point, b: Point) -> float:
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)


def _ordinal(place: int) -> str:
    ending = "th" if place % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(place % 10, "th")
    return f"{place}{ending}"


@picture("star-patterns")
def star_patterns(*, bolts: Sequence[int] = (4, 5, 6, 8, 9)) -> Drawing:
    """Star orders for rings with these numbers of bolts (up to five rings), side by side."""
    orders = {n: star_order(even_circle_deg(n)) for n in tuple(bolts)[:5]}
    canvas = Canvas(560)
    for i, (n, order) in enumerate(orders.items()):
        _pattern(canvas, (122 + 238 * (i % 3), 140 + 278 * (i // 3)), n, order)
    _pattern_key(canvas, 470, 318)
    listed = "; ".join(f"{n} bolts: {', '.join(map(str, order))}" for n, order in orders.items())
    return canvas.drawing(
        alt=f"Rings of bolts numbered clockwise from the top, with arrows for a star order. {listed}.",
        caption="Star orders. With an even number: across, then on. With an odd number: always nearly across.",
    )


def _pattern(canvas: Canvas, centre: Point, n: int, order: Sequence[int]) -> None:
    x, y = centre
    canvas.text(x, y - 108, f"{n} bolts", 22, bold=True)
    canvas.circle(centre, 78, PALE)
    spots = [on_circle(x, y, 78, a) for a in even_circle_deg(n)]
    _arrows(canvas, spots, order, 20, 2.5)
    for bolt, spot in enumerate(spots, start=1):
        canvas.bolt(spot, 18, str(bolt), fill=YELLOW if bolt == order[0] else WHITE, size=19)
    canvas.text(x, y + 126, " ".join(map(str, order)), 21, bold=True, colour=BLUE)


def _pattern_key(canvas: Canvas, x: float, y: float) -> None:
    canvas.bolt((x + 34, y + 22), 18, "1", fill=YELLOW, size=19)
    canvas.text(x + 66, y + 28, "start at any bolt", 18, anchor="start")
    canvas.arrow((x + 8, y + 76), (x + 60, y + 76), BLUE, 3)
    canvas.text(x + 72, y + 82, "across the ring", 18, anchor="start")
    canvas.arrow((x + 8, y + 126), (x + 60, y + 126), BLUE, 3, dash="7 5")
    canvas.text(x + 72, y + 132, "on to the next pair", 18, anchor="start")
    canvas.text(x + 8, y + 182, "1 4 2 …", 21, anchor="start", bold=True, colour=BLUE)
    canvas.text(x + 104, y + 182, "the order", 18, anchor="start")


@picture("circle-against-star")
def circle_against_star(*, bolts: int = 8) -> Drawing:
    """Out-of-balance after each bolt of one stage, in both orders, with the line a star must keep below."""
    angles = even_circle_deg(bolts)
    rows = (("Round the circle", tuple(range(1, bolts + 1)), ORANGE), ("Star", star_order(angles), SKY))
    allowed = best_peak_out_of_balance(angles) + BALANCE_ALLOWANCE
    highest = max(peak_out_of_balance(angles, order) for _, order, _ in rows)
    canvas = Canvas(620)
    told = []
    for i, (name, order, fill) in enumerate(rows):
        steps = [out_of_balance(angles, order[: k + 1]) for k in range(bolts)]
        _steps_panel(
            canvas, 262 + 290 * i, f"{name}: worst moment {max(steps):.1f}", order, steps, allowed, highest, fill
        )
        told.append(f"{name} ({', '.join(map(str, order))}): {', '.join(f'{s:.1f}' for s in steps)}")
    return canvas.drawing(
        alt=(
            f"Two bar charts for {bolts} bolts: out-of-balance, in bolts, after each bolt. {'. '.join(told)}. "
            f"A dashed line marks the {allowed:.2f} allowed; only the star stays below it."
        ),
        caption="How far the pull is out of balance after each bolt. Hatched: more than a star allows.",
    )


def _steps_panel(
    canvas: Canvas, base: float, title: str, order: Sequence[int], steps: Sequence[float],
    allowed: float, highest: float, fill: str,
) -> None:  # fmt: skip
    scale, left, step = 180 / max(3.0, highest), 92.0, 600 / len(order)
    canvas.text(left, base - 212, title, 22, anchor="start", bold=True)
    canvas.text(34, base - 90, "out of balance, bolts", 18, turn=-90)
    labels: list[tuple[float, float, str]] = []
    for tick in range(int(max(3.0, highest)) + 1):
        canvas.line((left - 8, base - tick * scale), (left, base - tick * scale))
        canvas.text(left - 14, base - tick * scale + 6, str(tick), 18, anchor="end")
    for k, (bolt, value) in enumerate(zip(order, steps, strict=True)):
        x, height = left + (k + 0.18) * step, value * scale
        if height > 0.5:
            canvas.rect(x, base - height, step * 0.64, height, fill)
        if value > allowed:
            canvas.hatch(x, base - height, step * 0.64, height)
        labels.append((x + step * 0.32, base - height + 21 if height > 30 else base - height - 7, f"{value:.1f}"))
        canvas.text(x + step * 0.32, base + 24, f"bolt {bolt}" if len(order) < 10 else str(bolt), 18)
    canvas.line((left, base - 190), (left, base), INK, 2)
    canvas.line((left, base), (left + 600, base), INK, 3)
    canvas.line((left, base - allowed * scale), (left + 610, base - allowed * scale), VERMILLION, 3, dash="10 6")
    for x, y, words in labels:
        canvas.boxed(x, y, words, 18)
    canvas.text(left + 608, base - allowed * scale - 8, f"allowed {allowed:.2f}", 18, anchor="end", bold=True)


@picture("paint-marks")
def paint_marks(*, bolts: int = 6, out: int = 3, turn_deg: float = 28, others_deg: float = 0) -> Drawing:
    """Bolts with a paint mark across head and part: bolt `out` has turned by `turn_deg`, the others by `others_deg`.

    In a second round the others stand still and one that turned is the fault; after an angle stage all have turned,
    and one that stands still was missed.
    """
    angles = even_circle_deg(bolts)
    canvas, centre = Canvas(340), (205.0, 170.0)
    canvas.circle(centre, 160, PALE)
    canvas.circle(centre, 32, WHITE)
    for i, angle in enumerate(angles, start=1):
        _marked_bolt(
            canvas,
            on_circle(*centre, 104, angle),
            29,
            angle,
            turn_deg if i == out else others_deg,
            str(i),
            on_circle(*centre, 57, angle),
        )
    good = (f"Turned {others_deg:g}°:", "as the sheet says.") if others_deg else ("In line:", "it has not moved.")
    bad = (
        f"Turned {turn_deg:g}°:" if turn_deg else "In line:",
        "stop, find out why." if turn_deg else "it was missed.",
    )
    for y, turned, told in ((92.0, others_deg, good), (258.0, turn_deg, bad)):
        _marked_bolt(canvas, (468.0, y), 52, 0, turned)
        canvas.text(546, y - 6, told[0], 20, anchor="start", bold=True)
        canvas.text(546, y + 20, told[1], 17, anchor="start")
    alt, caption = _paint_marks_told(bolts, out, turn_deg, others_deg)
    return canvas.drawing(alt=alt, caption=caption)


def _paint_marks_told(bolts: int, out: int, turn_deg: float, others_deg: float) -> tuple[str, str]:
    marked = "each has a paint mark running from the bolt head onto the part. The two halves of the mark"
    if others_deg:
        return (
            f"After the angle stage on {bolts} bolts: {marked} stand {others_deg:g} degrees apart on all bolts except "
            f"bolt {out}, where they stand {turn_deg:g} degrees apart.",
            f"Paint marks after an angle of {others_deg:g}°. Bolt {out} is not like the others.",
        )
    return (
        f"Second round on {bolts} bolts: {marked} are in line on all bolts except bolt {out}, whose head has turned by "
        f"{turn_deg:g} degrees.",
        f"Paint marks after the last stage. Bolt {out} has moved.",
    )


def _marked_bolt(
    canvas: Canvas, spot: Point, r: float, outward: float, turned: float, label: str = "", label_at: Point = (0, 0)
) -> None:
    canvas.circle(spot, r, METAL)
    canvas.polygon([on_circle(*spot, r * 0.86, 60 * i + outward + turned) for i in range(6)], WHITE)
    width = r / 5
    canvas.line(on_circle(*spot, r * 1.04, outward), on_circle(*spot, r * 1.45, outward), VERMILLION, width)
    canvas.line(spot, on_circle(*spot, r * 0.84, outward + turned), VERMILLION, width)
    canvas.line(spot, on_circle(*spot, r * 0.84, outward + turned), INK, 2)
    canvas.line(on_circle(*spot, r * 1.04, outward), on_circle(*spot, r * 1.45, outward), INK, 2)
    if label:
        canvas.text(label_at[0], label_at[1] + 7, label, 20, bold=True)
