"""Graphs of driving: gears, slip of a road log, shake against engine speed."""

from collections.abc import Sequence

from bitepoint.mechanics.driveline import kmh_per_rpm
from bitepoint.mechanics.limits import within
from bitepoint.mechanics.vibration import firing_frequency_hz, resonance_speed_rpm
from bitepoint.pictures.axes import Axes, figure, label, round_up, ticks
from bitepoint.pictures.canvas import BLUE, GREEN, INK, METAL, ORANGE, PALE, SKY, VERMILLION, Canvas
from bitepoint.pictures.registry import Drawing, picture

GEARS_A = (3.64, 2.05, 1.33, 0.98, 0.78)


@picture("gear-lines")
def gear_lines(
    *, ratios: Sequence[float] = GEARS_A, final: float = 4.12, circumference_mm: float = 1740, rpm: float = 3600,
    kmh: float = 68, gear: int | None = 3,
) -> Drawing:  # fmt: skip
    """Road speed against engine speed: a line a gear, and the point of the log."""
    per_rpm = [kmh_per_rpm(r, final, circumference_mm) for r in ratios]
    top_rpm = round_up(max(4500, rpm * 1.1))
    fastest = round_up(max(min(per_rpm[-1] * top_rpm, 260.0), kmh * 1.1))
    canvas = Canvas(302)
    axes = Axes(canvas, (96, 50, 660, 224), x=(0, top_rpm), y=(0, fastest))
    axes.grid("engine speed, rpm", "road speed, km/h")
    for number, each in enumerate(per_rpm, start=1):
        end = min(top_rpm, fastest / each)
        axes.curve([(0, 0), (end, end * each)], BLUE if number == gear else INK, 7 if number == gear else 3)
        place = axes.at(end, end * each)
        label(canvas, (place[0] + 12, place[1] + (6 if end == top_rpm else -4)), str(number), 22, anchor="start")
    axes.dot(rpm, kmh, ORANGE, 11)
    found = f"gear {gear} fits" if gear else "no gear fits"
    canvas.text(96, 32, f"dot: {figure(rpm)} rpm, {figure(kmh)} km/h: {found}", 20, anchor="start", bold=True)
    listed = ", ".join(f"gear {i} {1000 * each:.1f}" for i, each in enumerate(per_rpm, start=1))
    return canvas.drawing(
        alt=(
            "Graph of road speed against engine speed, one straight line a gear, in km/h at 1000 rpm: "
            f"{listed}. "
            f"The log's point, {figure(rpm)} rpm and {figure(kmh)} km/h: {found}."
        ),
        caption="Each gear is a straight line through 0. A point beside every line is slip, or a wrong figure.",
    )


@picture("slip-interval")
def slip_interval(
    *, engine_rpm: float = 3600, input_rpm: float = 3310, slip_pct: float = 8.06, expanded_pct: float = 3.2
) -> Drawing:
    """Engine speed against gearbox input speed; below, slip with its uncertainty against no slip."""
    within("engine_rpm", engine_rpm, 300, 12_000, "rpm", "A running engine turns faster than 300 rpm.")
    canvas = Canvas(342)
    end = round_up(max(engine_rpm, input_rpm) * 1.02, most=8)
    upper = Axes(canvas, (40, 48, 680, 134), x=(0, end), y=(0, 1))
    canvas.text(40, 32, "Turns a minute, rpm", 20, anchor="start", bold=True)
    for top, value, words, fill in (
        (48.0, engine_rpm, "engine", SKY),
        (90.0, input_rpm, "gearbox input (from the road speed)", METAL),
    ):
        right = upper.at(value, 0)[0]
        canvas.rect(40, top, right - 40, 36, fill)
        label(canvas, (52, top + 25), f"{words} {value:.0f}", 18, anchor="start")
    if engine_rpm > input_rpm:
        left, right = upper.at(input_rpm, 0)[0], upper.at(engine_rpm, 0)[0]
        canvas.rect(left, 90, right - left, 36, ORANGE)
        canvas.hatch(left, 90, right - left, 36)
    _scale(canvas, upper, 134)
    low, high = min(slip_pct - expanded_pct, 0), max(slip_pct + expanded_pct, 0)
    room = 0.12 * (high - low) + 0.5
    lower = Axes(canvas, (40, 204, 680, 274), x=(low - room, high + room), y=(0, 1))
    canvas.text(40, 192, f"Slip {slip_pct:.1f} % ± {expanded_pct:.1f} %", 20, anchor="start", bold=True)
    zero = lower.at(0, 0)[0]
    canvas.line((zero, 200), (zero, 274), VERMILLION, 5, dash="12 6")
    left, right = lower.at(slip_pct - expanded_pct, 0)[0], lower.at(slip_pct + expanded_pct, 0)[0]
    canvas.line((left, 239), (right, 239), BLUE, 10)
    for x in (left, right):
        canvas.line((x, 222), (x, 256), BLUE, 5)
    lower.dot(slip_pct, 0.5, ORANGE)
    _scale(canvas, lower, 274)
    canvas.text(360, 328, "slip, % (dashed line: no slip; bar: where the true figure may lie)", 18)
    return canvas.drawing(
        alt=(
            f"Two bars: engine {engine_rpm:.0f} rpm, gearbox input {input_rpm:.0f} rpm; the hatched "
            "rest is slip. Below, a scale in "
            f"percent: slip {slip_pct:.1f} plus or minus {expanded_pct:.1f}, against a line at 0."
        ),
        caption="A bar that reaches 0 is no finding.",
    )


def _scale(canvas: Canvas, axes: Axes, base: float) -> None:
    canvas.line((axes.area[0], base), (axes.area[2], base), INK, 3)
    for tick in ticks(*axes.x, most=7):
        x = axes.at(tick, 0)[0]
        canvas.line((x, base), (x, base + 8))
        canvas.text(x, base + 28, figure(tick, 4), 18)


@picture("firing-and-resonance")
def firing_and_resonance(
    *,
    cylinders: int = 4,
    idle_rpm: float = 820,
    speed_rpm: float = 1500,
    rigid_hz: float = 42.7,
    dual_hz: float = 13.1,
) -> Drawing:
    """Firing frequency against engine speed; where it meets a natural frequency the driveline shakes most."""
    reach = [resonance_speed_rpm(hz, cylinders=cylinders) for hz in (rigid_hz, dual_hz)]
    top_rpm = round_up(max(2500.0, speed_rpm * 1.05, *(rpm * 1.1 for rpm in reach if rpm < 9000)))
    top_hz = round_up(min(firing_frequency_hz(top_rpm, cylinders=cylinders), max(rigid_hz, dual_hz, 20.0) * 1.6))
    canvas = Canvas(390)
    axes = Axes(canvas, (96, 50, 690, 312), x=(0, top_rpm), y=(0, top_hz))
    idle = axes.at(idle_rpm, 0)[0]
    canvas.rect(idle, 50, 690 - idle, 262, PALE)
    axes.grid("engine speed, rpm", "frequency, Hz")
    last = min(top_rpm, top_hz * 120 / cylinders)
    axes.curve([(0, 0), (last, firing_frequency_hz(last, cylinders=cylinders))], BLUE, 6)
    for hz, rpm, words, up in (
        (rigid_hz, reach[0], "rigid flywheel", False),
        (dual_hz, reach[1], "dual-mass", True),
    ):
        axes.level(hz, VERMILLION if words.startswith("rigid") else GREEN, f"{words} {figure(hz)} Hz", below=up)
        if rpm <= top_rpm and hz <= top_hz:
            axes.dot(rpm, hz, ORANGE)
    canvas.text(96, 32, "thick line: firing strokes · grey: idle and above · dots: resonance", 18, anchor="start")
    told = " and ".join(
        f"{words} {figure(hz)} Hz at {rpm:.0f} rpm"
        for words, hz, rpm in (("rigid", rigid_hz, reach[0]), ("dual-mass", dual_hz, reach[1]))
    )
    return canvas.drawing(
        alt=(
            f"Graph of firing frequency of {cylinders} cylinders against engine speed; idle "
            f"{figure(idle_rpm)} rpm. It meets the "
            f"natural frequencies: {told}."
        ),
        caption=f"Resonance: {told}. Idle: {figure(idle_rpm)} rpm.",
    )
