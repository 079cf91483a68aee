"""Graphs of the clutch: what it carries, how its clamp load changes with wear, the spring, the take-up."""

from bitepoint.mechanics.clutch import UNIFORM_PRESSURE, UNIFORM_WEAR, torque_capacity_nm
from bitepoint.mechanics.limits import within
from bitepoint.mechanics.spring import load_ratio, turning_points
from bitepoint.mechanics.wear import clamp_load_after_wear_n
from bitepoint.pictures.axes import Axes, figure, label, round_up
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    ORANGE,
    SHADE,
    SKY,
    VERMILLION,
    WHITE,
    YELLOW,
    Canvas,
    on_circle,
)  # fmt: skip
from bitepoint.pictures.registry import Drawing, picture


@picture("clutch-capacity")
def clutch_capacity(
    *, clamp_load_n: float = 3050, outer_mm: float = 190, inner_mm: float = 132, friction: float = 0.3, faces: int = 2,
    engine_nm: float = 95,
) -> Drawing:  # fmt: skip
    """The facing's ring to scale, and engine torque beside what the clutch carries by both models."""
    wear, pressure = (
        torque_capacity_nm(
            clamp_load_n,
            outer_diameter_mm=outer_mm,
            inner_diameter_mm=inner_mm,
            friction=friction,
            faces=faces,
            theory=theory,
        )
        for theory in (UNIFORM_WEAR, UNIFORM_PRESSURE)
    )
    canvas = Canvas(440)
    _ring(canvas, outer_mm, inner_mm)
    end = round_up(max(engine_nm, wear, pressure) * 1.1)
    axes = Axes(canvas, (386, 40, 690, 330), x=(0, 3), y=(0, end))
    axes.grid("", "", x_ticks=())
    canvas.text(316, 185, "torque, N·m", 19, turn=-90)
    bars = (("engine", engine_nm, ORANGE), ("run in", wear, SKY), ("new", pressure, SKY))
    for i, (name, torque, fill) in enumerate(bars):
        left, top = axes.at(i + 0.14, torque)
        canvas.rect(left, top, 72, 330 - top, fill)
        if not i:
            canvas.hatch(left, top, 72, 330 - top)
        canvas.text(left + 36, top - 8, figure(torque), 20, bold=True)
        canvas.text(left + 36, 356, name, 19)
    canvas.text(538, 384, "clutch: run in = uniform wear,", 18)
    canvas.text(538, 407, "new = uniform pressure", 18)
    canvas.line(axes.at(0, engine_nm), axes.at(3, engine_nm), VERMILLION, 3, dash="10 6")
    return canvas.drawing(
        alt=(
            f"Ring of a facing, {figure(outer_mm)} mm outside and {figure(inner_mm)} mm inside, and "
            "three bars in N·m: engine "
            f"{figure(engine_nm)}, clutch run in {figure(wear)}, clutch new {figure(pressure)}."
        ),
        caption=(
            f"The clutch slips where its bar ends below the dashed line of the engine torque, {figure(engine_nm)} N·m."
        ),
    )


def _ring(canvas: Canvas, outer_mm: float, inner_mm: float) -> None:
    centre, r = (150.0, 190.0), 125.0
    inner = r * inner_mm / outer_mm
    canvas.circle(centre, r, METAL)
    canvas.circle(centre, inner, WHITE)
    mean = (r + inner) / 2
    canvas.circle(centre, mean, "none", VERMILLION, 3, dash="8 6")
    canvas.arrow(centre, on_circle(*centre, mean, 40), VERMILLION, 3)
    canvas.circle(centre, 4, INK)
    canvas.text(150, 214, f"R = {figure((outer_mm + inner_mm) / 4)} mm", 19, bold=True)
    canvas.dimension((25, 352), (275, 352), f"outer {figure(outer_mm)} mm", above=False)
    canvas.text(150, 408, f"inner {figure(inner_mm)} mm", 20, bold=True)


@picture("clamp-load-and-wear")
def clamp_load_and_wear(
    *, clamp_load_n: float = 3050, slip_load_n: float = 1967, height_ratio: float = 1.75, cone_mm: float = 3,
    travel_new: float = 1.2, coil_rate_n_per_mm: float = 600, wear_mm: float = 1.0, allowed_mm: float = 1.4,
    to_read: bool = False,
) -> Drawing:  # fmt: skip
    """Clamp load against facing wear, diaphragm spring and coil springs, with slip load and the sheet's limit.

    `to_read`: somebody is asked to read the dot, so the alt text gives the curve's course and not the dot's load.
    """
    cover = {
        "clamp_load_new_n": clamp_load_n,
        "height_ratio": height_ratio,
        "cone_height_mm": cone_mm,
        "travel_ratio_new": travel_new,
    }
    last = min(10.0, cone_mm * travel_new)
    wears = [min(last, last * i / 120) for i in range(121)]
    diaphragm = [(w, clamp_load_after_wear_n(w, **cover) / 1000) for w in wears]
    coil = [(w, (clamp_load_n - coil_rate_n_per_mm * w) / 1000) for w in wears]
    canvas = Canvas(410)
    high = max(max(y for _, y in diaphragm), slip_load_n / 1000)
    end = round_up(max(last, allowed_mm, wear_mm) * 1.02, most=8)
    axes = Axes(canvas, (96, 50, 690, 332), x=(0, end), y=(0, round_up(high * 1.15)))
    left, right = axes.at(0, 0)[0], axes.at(allowed_mm, 0)[0]
    canvas.rect(left, 50, right - left, 282, YELLOW)
    axes.grid("wear of both facings together, mm", "clamp load, kN")
    canvas.text(left + 8, 72, f"allowed: {figure(allowed_mm)} mm", 18, anchor="start")
    axes.level(slip_load_n / 1000, VERMILLION, f"slips below {slip_load_n / 1000:.2f} kN", below=True, start=True)
    axes.curve(coil, INK, 5, dashed=True)
    axes.curve(diaphragm, BLUE, 6)
    now = clamp_load_after_wear_n(wear_mm, **cover) if wear_mm <= last else 0.0
    axes.dot(wear_mm, now / 1000, ORANGE)
    canvas.text(96, 32, "thick line: diaphragm spring · dashed: coil springs · dot: wear now", 18, anchor="start")
    return canvas.drawing(
        alt=(
            f"Graph of clamp load in kN against wear in mm. Diaphragm spring: {clamp_load_n / 1000:.2f} "
            "kN when new, "
            f"{max(y for _, y in diaphragm):.2f} kN at most, then falling to nothing. Coil springs fall "
            "from the first tenth. "
            f"Slip load {slip_load_n / 1000:.2f} kN; wear allowed {figure(allowed_mm)} mm. "
            + (
                f"The dot sits on the diaphragm's curve at {figure(wear_mm)} mm of wear; the curve passes "
                f"{_course(cover, last)}."
                if to_read
                else f"At {figure(wear_mm)} mm of wear {now / 1000:.2f} kN."
            )
        ),
        caption=(
            "A diaphragm spring presses harder as the facing wears, then lets go fast; coil "
            "springs lose from the start."
        ),
    )


def _course(cover: dict[str, float], last: float) -> str:
    """The curve at every half millimetre, in words, for someone who cannot see it."""
    halves = [i / 2 for i in range(int(last * 2) + 1)]
    return ", ".join(f"{clamp_load_after_wear_n(w, **cover) / 1000:.1f} kN at {w:g} mm" for w in halves)


@picture("diaphragm-curve")
def diaphragm_curve(
    *, flat_load_n: float = 4500, height_ratio: float = 1.5, cone_mm: float = 3.98, travel_mm: float = 4.4
) -> Drawing:
    """Load of a diaphragm spring against its travel, with the working point, flat, greatest and least load."""
    curve = [(cone_mm * u / 60, flat_load_n * load_ratio(u / 60, height_ratio=height_ratio) / 1000) for u in range(106)]
    load = flat_load_n * load_ratio(travel_mm / cone_mm, height_ratio=height_ratio) / 1000
    low, high = min(0.0, *(y for _, y in curve)), max(y for _, y in curve)
    canvas = Canvas(390)
    axes = Axes(
        canvas,
        (96, 50, 690, 312),
        x=(0, max(1.75 * cone_mm, travel_mm)),
        y=(low * 1.15, round_up(high * 1.12)),
    )
    axes.grid("travel at the edge, mm", "load, kN")
    axes.upright(cone_mm, SHADE)
    label(canvas, (axes.at(cone_mm, 0)[0], 304), f"flat at {figure(cone_mm)} mm", 18)
    if low < 0:
        axes.level(0, INK, dash="")
    axes.curve(curve, BLUE, 6)
    peaks = [
        (cone_mm * u, flat_load_n * load_ratio(u, height_ratio=height_ratio) / 1000)
        for u in turning_points(height_ratio)
    ]
    for (x, y), words, up in zip(peaks, ("greatest", "least"), (-16, 34 if low >= 0 else -44), strict=False):
        place = axes.dot(x, y, WHITE, 8)
        label(canvas, (place[0], place[1] + up), f"{words} {y:.2f} kN", 18)
    place = axes.dot(travel_mm, load, ORANGE, 11)
    canvas.text(96, 32, f"dot: {figure(travel_mm)} mm of travel, {load:.2f} kN", 20, anchor="start", bold=True)
    told = "; ".join(
        f"{words} load {y:.2f} kN at {x:.2f} mm" for (x, y), words in zip(peaks, ("greatest", "least"), strict=False)
    )
    return canvas.drawing(
        alt=(
            f"Curve of spring load in kN against travel in mm; flat at {figure(cone_mm)} mm with "
            f"{flat_load_n / 1000:.2f} kN. "
            f"{told or 'The load only rises'}. Working point: {figure(travel_mm)} mm, {load:.2f} kN."
        ),
        caption="Wear moves the dot to the left: over the top, then down.",
    )


@picture("take-up")
def take_up(
    *,
    engine_rpm: float = 1500,
    time_s: float = 1.2,
    energy_j: float = 5000,
    rise_k: float = 2,
    clutch_nm: float = 60,
) -> Drawing:
    """Engine speed held, gearbox input rising to it: the hatched triangle is the slip."""
    within("time_s", time_s, 1e-6, 1e6, "s", "Work out the slip time first.")
    canvas = Canvas(370)
    axes = Axes(canvas, (110, 50, 690, 292), x=(0, time_s * 1.35), y=(0, round_up(engine_rpm * 1.15)))
    start, low, meet = axes.at(0, engine_rpm), axes.at(0, 0), axes.at(time_s, engine_rpm)
    canvas.polygon([start, low, meet], ORANGE)
    axes.grid("time, s", "turns a minute, rpm")
    axes.curve([(0, engine_rpm), (time_s * 1.35, engine_rpm)], BLUE, 6)
    axes.curve([(0, 0), (time_s, engine_rpm)], INK, 6)
    label(canvas, (680, meet[1] - 14), f"engine held at {figure(engine_rpm)} rpm", 19, anchor="end")
    axes.dot(time_s, engine_rpm, WHITE, 8)
    middle = ((low[0] + meet[0]) / 2 + 24, (low[1] + meet[1]) / 2 + 40)
    label(canvas, middle, "gearbox input", 19, anchor="start")
    canvas.text(start[0] + 12, start[1] + 34, "slip: heat", 20, anchor="start", bold=True)
    canvas.text(
        110,
        30,
        f"{figure(time_s)} s at {figure(clutch_nm)} N·m: {figure(energy_j / 1000)} kJ, {figure(rise_k)} K hotter",
        20,
        anchor="start",
        bold=True,
    )
    return canvas.drawing(
        alt=(
            f"Graph of speed against time. The engine stays at {figure(engine_rpm)} rpm, the gearbox "
            "input rises from 0 to it in "
            f"{figure(time_s)} s. The triangle between them is the slip: {figure(energy_j / 1000)} kJ "
            "of heat, "
            f"{figure(rise_k)} K of temperature rise."
        ),
        caption=f"While the lines are apart the clutch slips and heats: {figure(energy_j / 1000)} kJ.",
    )
