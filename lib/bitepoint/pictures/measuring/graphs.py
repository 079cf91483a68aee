"""Pictures of measuring: a figure on two scales, run-out over one turn, a figure against its limit, a wrench's scale."""

from collections.abc import Sequence
from math import exp

from bitepoint import units
from bitepoint.mechanics.decisions import CANNOT_TELL, CONFIDENCE, OUTSIDE, WITHIN, decide, guard_band
from bitepoint.mechanics.limits import whole, within
from bitepoint.mechanics.metrology import run_out_bounds_mm, run_out_mm
from bitepoint.pictures.axes import Axes, figure, label, round_up, ticks
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, VERMILLION, WHITE, YELLOW, Canvas
from bitepoint.pictures.registry import Drawing, picture

ZONES = {WITHIN: "keeps the limit", CANNOT_TELL: "stop and ask", OUTSIDE: "breaks the limit"}


@picture("double-scale")
def double_scale(*, value: float = 65, unit: str = "N·m", other: str = "lbf·ft") -> Drawing:
    """One figure on two scales that lie against each other."""
    within("value", value, 0, 1e7, unit, "Give a figure from 0 upward.")
    same = units.convert(value, unit, other)
    end = round_up(value * 1.15, most=8)
    canvas = Canvas(300)
    left, right, middle = 60.0, 660.0, 150.0
    canvas.rect(left, middle - 34, right - left, 68, PALE)
    canvas.line((left, middle), (right, middle), INK, 3)
    for scale, words, high, way in ((end, unit, -34, -1), (units.convert(end, unit, other), other, 34, 1)):
        for tick in ticks(0, scale, most=6):
            x = left + (right - left) * tick / scale
            canvas.line((x, middle), (x, middle + high * 0.7), INK, 3)
            canvas.text(x, middle + high + (-10 if way < 0 else 24), figure(tick, 4), 18)
        canvas.text(right, middle + high + (-36 if way < 0 else 50), words, 20, anchor="end", bold=True)
    x = left + (right - left) * value / end
    canvas.line((x, middle - 40), (x, middle + 40), VERMILLION, 6)
    canvas.text(left, 46, f"{figure(value, 4)} {unit} = {figure(same, 4)} {other}", 30, anchor="start", bold=True)
    canvas.text(left, 276, "Both scales start at 0. The thick line marks the figure on both.", 18, anchor="start")
    return canvas.drawing(
        alt=(
            f"Two scales against each other, above in {unit}, below in {other}, both from 0. A line marks "
            f"{figure(value, 4)} {unit}, which is {figure(same, 4)} {other}."
        ),
        caption=f"The same size on two scales: {figure(value, 4)} {unit} is {figure(same, 4)} {other}.",
    )


@picture("run-out-readings")
def run_out_readings(
    *,
    readings: Sequence[float] = (0, 0.02, 0.04, 0.06, 0.07, 0.05, 0.03, 0.01),
    limit: float = 0.08,
    end_float: float = 0.0,
) -> Drawing:
    """Readings over one turn, highest less lowest, and a band as high as the limit laid on the lowest.

    `end_float` is 0 where the crankshaft was pushed to one side, else how much of it may be in the readings.
    """
    found = run_out_mm(readings)
    within("limit", limit, 0.001, 10, "mm", "Take the limit from the data sheet.")
    n, low, high = len(readings), min(readings), max(readings)
    room = max(found, limit) * 0.18
    canvas = Canvas(330)
    axes = Axes(canvas, (104, 40, 540, 246), x=(0, 360), y=(low - room, max(high, low + limit) + room))
    top, base = axes.at(0, low + limit)[1], axes.at(0, low)[1]
    canvas.rect(104, top, 436, base - top, YELLOW)
    axes.grid("angle turned, °", "reading, mm", x_ticks=[360 * i / n for i in range(n + 1)] if n <= 8 else None)
    turn = [(360 * i / n, r) for i, r in enumerate([*readings, readings[0]])]
    axes.curve(turn, BLUE, 4)
    for angle, reading in turn[:-1]:
        axes.dot(angle, reading, VERMILLION if reading in (low, high) else WHITE, 9)
    x = 570.0
    for value in (low, high):
        y = axes.at(0, value)[1]
        canvas.line((540, y), (x + 14, y))
    canvas.line((x, axes.at(0, low)[1]), (x, axes.at(0, high)[1]), VERMILLION, 8)
    middle = (axes.at(0, low)[1] + axes.at(0, high)[1]) / 2
    canvas.lines(588, middle - 6, ("run-out", f"{found:.3f} mm"), 20, anchor="start")
    canvas.text(322, 26, f"yellow: {figure(limit)} mm allowed, from the lowest reading", 18)
    against = _against_limit(run_out_bounds_mm(found, end_float_mm=end_float), limit)
    listed = ", ".join(f"{r:g}" for r in readings)
    return canvas.drawing(
        alt=(
            f"Graph of {n} dial gauge readings over one turn: {listed} mm. Highest less lowest is "
            f"{found:.3f} mm. A band as "
            f"high as the limit of {figure(limit)} mm lies on the lowest reading; {against[0]}."
        ),
        caption=(
            f"Run-out is the highest reading less the lowest: {found:.3f} mm, {against[1]} limit of {figure(limit)} mm."
        ),
    )


def _against_limit(bounds: Sequence[float], limit: float) -> tuple[str, str]:
    """How the least and the greatest run-out that may be true stand to the limit: for the alt text and the caption."""
    decisions = {decide(bound, upper=limit) for bound in bounds}
    if len(decisions) > 1:
        told = "with end float in the readings it cannot be told whether it keeps"
        return f"{told} it", f"but {told} the"
    word = "within" if decisions == {WITHIN} else "above"
    return f"the run-out is {word} it", f"{word} the"


@picture("limit-zones")
def limit_zones(
    *,
    measured: float = 0.07,
    limit: float = 0.08,
    kind: str = "max",
    uncertainty: float = 0.01,
    confidence: float = CONFIDENCE,
) -> Drawing:
    """A measured figure against a limit, with the guard band on both sides if there is an uncertainty (0 for none)."""
    sign = 1 if kind == "max" else -1
    guard = guard_band(uncertainty, confidence=confidence) if uncertainty else 0.0
    reach = max(
        2.6 * guard,
        3.6 * uncertainty + abs(measured - limit),
        1.35 * abs(measured - limit),
        abs(limit) * 0.02,
        1e-6,
    )
    canvas = Canvas(322)
    axes = Axes(canvas, (40, 70, 680, 190), x=(limit - reach, limit + reach), y=(0, 1.05))
    edges = (limit - reach, limit - guard, limit + guard, limit + reach)
    order = (WITHIN, CANNOT_TELL, OUTSIDE)[::sign]
    for zone, start, end in zip(order, edges, edges[1:], strict=False):
        left, right = axes.at(start, 0)[0], axes.at(end, 0)[0]
        if right - left < 1:
            continue
        canvas.rect(left, 190, right - left, 50, {WITHIN: YELLOW, CANNOT_TELL: ORANGE, OUTSIDE: METAL}[zone])
        if zone == OUTSIDE:
            canvas.hatch(left, 190, right - left, 50, gap=16)
        if right - left > 120:
            label(canvas, ((left + right) / 2, 221), ZONES[zone], 18)
        elif zone == CANNOT_TELL:
            canvas.text((left + right) / 2, 294, f"narrow field: {ZONES[zone]}", 18, bold=True)
    axes.upright(limit, INK, dash="")
    canvas.text(axes.at(limit, 0)[0], 56, f"limit {figure(limit)} mm {kind}", 20, bold=True)
    if uncertainty:
        spread = [(measured + uncertainty * i / 10, exp(-((i / 10) ** 2) / 2)) for i in range(-36, 37)]
        axes.curve(spread, BLUE, 4)
    place = axes.at(measured, 0)
    canvas.line((place[0], 190), (place[0], axes.at(0, 1)[1]), BLUE, 4, dash="10 6")
    canvas.circle((place[0], 190), 10, BLUE, INK, 3)
    canvas.line((40, 240), (680, 240), INK, 3)
    for tick in ticks(*axes.x, most=5):
        x = axes.at(tick, 0)[0]
        canvas.line((x, 240), (x, 248))
        canvas.text(x, 268, figure(tick, 4), 18)
    canvas.text(360, 312, "measured figure, mm", 19)
    canvas.text(
        360,
        26,
        f"measured {figure(measured)} mm (dot)" + (", bell: where the true figure may lie" if uncertainty else ""),
        18,
    )
    decision = decide(
        measured, upper=limit if sign > 0 else None, lower=None if sign > 0 else limit,
        uncertainty=uncertainty or None, confidence=confidence,
    )  # fmt: skip
    band = f" with a guard band of {figure(guard, 4)} mm on either side" if guard else ""
    return canvas.drawing(
        alt=(
            f"Scale in mm with the limit {figure(limit)} {kind}{band}. The measured {figure(measured)} "
            f"mm lies where it {ZONES[decision].replace('stop and ask', 'cannot be told: stop and ask')}."
        ),
        caption=f"{figure(measured)} mm against {figure(limit)} mm {kind}: {ZONES[decision]}.",
    )


@picture("wrench-scale")
def wrench_scale(
    *, torque: float = 65, lowest: float = 20, highest: float = 100, usable: Sequence[float] = (20, 100),
    deviation: float = 1.5, allowed: float = 4,
) -> Drawing:  # fmt: skip
    """A wrench's scale with its usable part and the torque wanted; below, the deviation of the record."""
    within("highest", highest, 0.2, 5000, "N·m", "Read the end of the scale.")
    whole("number of usable", len(usable), 2, 2, "Give start and end of the usable part.")
    end = round_up(max(highest, torque), most=8)
    canvas = Canvas(420)
    upper = Axes(canvas, (50, 64, 670, 130), x=(0, end), y=(0, 1))
    canvas.text(50, 32, "Scale of the wrench, N·m: usable part yellow", 20, anchor="start", bold=True)
    _band(canvas, upper, (0, highest), WHITE)
    _band(canvas, upper, (lowest, highest), METAL)
    _band(canvas, upper, (max(usable[0], lowest), usable[1]), YELLOW)
    _marks(canvas, upper)
    _pointer(canvas, upper, torque, f"wanted {figure(torque)} N·m")
    reach = max(abs(deviation) * 1.15, allowed * 1.6)
    lower = Axes(canvas, (50, 276, 670, 336), x=(-reach, reach), y=(0, 1))
    canvas.text(
        50,
        232,
        f"Deviation in its record, %: allowed ±{figure(allowed)} % yellow",
        20,
        anchor="start",
        bold=True,
    )
    _band(canvas, lower, lower.x, METAL)
    _band(canvas, lower, (-allowed, allowed), YELLOW)
    _marks(canvas, lower)
    _pointer(canvas, lower, deviation, f"{deviation:+.2f} %")
    return canvas.drawing(
        alt=(
            f"Scale of a torque wrench to {figure(highest)} N·m, usable from {figure(usable[0])} to "
            f"{figure(usable[1])} N·m; "
            f"{figure(torque)} N·m wanted. Below, the deviation in its record, {deviation:+.2f} percent, "
            f"against plus or minus {figure(allowed)} percent allowed."
        ),
        caption="Both pointers must stand on yellow, the limits included.",
    )


def _band(canvas: Canvas, axes: Axes, span: Sequence[float], fill: str) -> None:
    left, right = axes.at(span[0], 0)[0], axes.at(span[1], 0)[0]
    canvas.rect(left, axes.area[1], right - left, axes.area[3] - axes.area[1], fill)


def _marks(canvas: Canvas, axes: Axes) -> None:
    base = axes.area[3]
    for tick in ticks(*axes.x, most=8):
        x = axes.at(tick, 0)[0]
        canvas.line((x, base), (x, base + 8))
        canvas.text(x, base + 28, figure(tick, 4), 18)


def _pointer(canvas: Canvas, axes: Axes, value: float, words: str) -> None:
    x = axes.at(value, 0)[0]
    canvas.arrow((x, axes.area[3] + 8), (x, axes.area[1]), BLUE, 6)
    half = len(words) * 6.0
    label(canvas, (min(max(x, 44 + half), 676 - half), axes.area[3] + 58), words, 20)
