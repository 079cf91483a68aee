"""Pictures of the release system: from the pad to the plate, and what air in the line costs."""

from bitepoint.pictures.axes import Axes, figure, label, round_up, ticks
from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, SKY, VERMILLION, YELLOW, Canvas
from bitepoint.pictures.registry import Drawing, picture


@picture("pedal-to-plate")
def pedal_to_plate(
    *, pedal_mm: float = 140, free_mm: float = 18, ratio: float = 13.34, bearing_mm: float = 8.23, needed_mm: float = 7.2,
    most_mm: float = 9.5, lift_mm: float = 1.96, lift_needed_mm: float = 1.5, effort_n: float = 109,
) -> Drawing:  # fmt: skip
    """A chain from pad to plate with its figures; below, bearing travel and plate lift against what is needed."""
    canvas = Canvas(500)
    boxes = (
        ("pedal pad", f"{figure(pedal_mm)} mm", f"{figure(effort_n)} N"),
        ("ratio", f"{ratio:.2f} to 1", "less travel, more force"),
        ("release bearing", f"{bearing_mm:.2f} mm", ""),
        ("pressure plate", f"{lift_mm:.2f} mm", "lift"),
    )
    lefts, widths = (20, 160, 388, 560), (112, 200, 144, 140)
    for (name, first, second), left, width in zip(boxes, lefts, widths, strict=True):
        canvas.rect(left, 40, width, 106, PALE, round=8)
        canvas.text(left + width / 2, 66, name, 17)
        canvas.text(left + width / 2, 98, first, 22, bold=True)
        canvas.text(left + width / 2, 130, second, 17)
        if left > 20:
            canvas.arrow((left - 28, 93), (left - 2, 93), BLUE, 4)
    canvas.text(20, 26, f"Free play {figure(free_mm)} mm of it moves nothing", 18, anchor="start")
    end = round_up(max(bearing_mm, most_mm) * 1.1, most=8)
    _row(canvas, 216, "travel of the release bearing, mm", bearing_mm, end, (needed_mm, most_mm))
    _row(
        canvas,
        376,
        "lift of the pressure plate, mm",
        lift_mm,
        round_up(max(lift_mm, lift_needed_mm) * 1.3, most=8),
        (lift_needed_mm, None),
    )
    return canvas.drawing(
        alt=(
            f"Chain from pedal to plate: pad {figure(pedal_mm)} mm with {figure(free_mm)} mm free play, "
            f"ratio {ratio:.2f}, "
            f"release bearing {bearing_mm:.2f} mm (needed {figure(needed_mm)}, at most "
            f"{figure(most_mm)}), pressure plate lift "
            f"{lift_mm:.2f} mm (needed {figure(lift_needed_mm)}). Effort at the pad {figure(effort_n)} N."
        ),
        caption="The blue bar must reach into the yellow field.",
    )


def _row(canvas: Canvas, top: float, words: str, value: float, end: float, span: tuple[float, float | None]) -> None:
    axes = Axes(canvas, (30, top, 690, top + 60), x=(0, end), y=(0, 1))
    left, right = axes.at(span[0], 0)[0], axes.at(end if span[1] is None else span[1], 0)[0]
    canvas.text(30, top - 12, words, 20, anchor="start", bold=True)
    canvas.text(
        690,
        top - 12,
        f"needed from {figure(span[0])}" + ("" if span[1] is None else f" to {figure(span[1])}"),
        18,
        anchor="end",
    )
    canvas.rect(30, top, 660, 60, METAL)
    if right > left:
        canvas.rect(left, top, right - left, 60, YELLOW)
    place = axes.at(max(value, 0.0), 0)[0]
    canvas.rect(30, top + 18, place - 30, 24, BLUE)
    canvas.line((place, top + 4), (place, top + 56), INK, 5)
    label(canvas, (min(place + 10, 620), top + 38), f"{value:.2f}", 19, anchor="start")
    for tick in ticks(0, end, most=8):
        x = axes.at(tick, 0)[0]
        canvas.line((x, top + 60), (x, top + 68))
        canvas.text(x, top + 88, figure(tick), 18)


@picture("stroke-with-air")
def stroke_with_air(
    *,
    pedal_mm: float = 140,
    free_mm: float = 6,
    lost_mm: float = 33.7,
    needed_mm: float = 114,
    air_ml: float = 1,
) -> Drawing:
    """One stroke of the pedal without and with air: free play, travel that only squeezes air, travel that releases."""
    canvas = Canvas(430)
    lost = min(lost_mm, pedal_mm - free_mm)
    end = max(pedal_mm, free_mm + lost + needed_mm)
    axes = Axes(canvas, (30, 90, 690, 320), x=(0, round_up(end * 1.02, most=8)), y=(0, 1))
    for top, air, name in (
        (90.0, 0.0, "no air in the line"),
        (220.0, lost, f"{figure(air_ml)} ml of air at rest"),
    ):
        useful = pedal_mm - free_mm - air
        canvas.text(30, top - 10, name, 20, anchor="start", bold=True)
        start = 0.0
        for words, part, fill in (
            ("free", free_mm, METAL),
            ("squeezes air", air, ORANGE),
            ("left for the bearing:", useful, SKY),
        ):
            left, right = axes.at(start, 0)[0], axes.at(start + part, 0)[0]
            if part > 0:
                canvas.rect(left, top, right - left, 56, fill)
                if fill == ORANGE:
                    canvas.hatch(left, top, right - left, 56)
                if right - left > 12 * len(words) + 60:
                    label(canvas, ((left + right) / 2, top + 35), f"{words} {part:.0f} mm", 18)
            start += part
        from_mm = free_mm + air
        need = axes.at(from_mm + needed_mm, 0)[0]
        canvas.line((need, top - 8), (need, top + 64), VERMILLION, 6)
    for tick in ticks(*axes.x, most=8):
        x = axes.at(tick, 0)[0]
        canvas.line((x, 320), (x, 328))
        canvas.text(x, 350, figure(tick), 18)
    canvas.line((30, 320), (690, 320), INK, 3)
    canvas.text(360, 378, "travel of the pedal pad, mm", 19)
    canvas.text(360, 410, "thick upright line: where the clutch would be fully released", 18)
    canvas.text(30, 34, f"Air takes {figure(lost)} mm of the stroke (hatched)", 22, anchor="start", bold=True)
    reaches = "is still reached" if from_mm + needed_mm <= pedal_mm else "lies beyond the end of the pedal"
    return canvas.drawing(
        alt=(
            f"Two bars of the pedal's {figure(pedal_mm)} mm stroke. Without air: {figure(free_mm)} mm "
            "free play, the rest moves "
            f"the bearing. With {figure(air_ml)} ml of air: {figure(lost)} mm only squeeze air, "
            f"{figure(pedal_mm - free_mm - lost)} mm are left; full release {reaches}."
        ),
        caption=(
            f"With air, {figure(pedal_mm - free_mm - lost)} mm of {figure(pedal_mm)} mm are left: "
            f"full release {reaches}."
        ),
    )
