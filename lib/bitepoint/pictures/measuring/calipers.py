"""Vernier caliper and micrometer, drawn exactly by their scales: every line stands where the value puts it."""

from bitepoint.mechanics.limits import within
from bitepoint.mechanics.scales import micrometer_setting, vernier_setting
from bitepoint.pictures.canvas import BLUE, INK, METAL, PALE, VERMILLION, Canvas
from bitepoint.pictures.measuring.scale_strips import break_line
from bitepoint.pictures.registry import Drawing, picture

PER_MM, LEFT, EDGE = 10.6, 36.0, 124.0
LENS_EDGE, LENS_LEFT, LENS_RIGHT = 272.0, 36.0, 684.0
SLEEVE_MM, SLEEVE_LEFT = 36.0, 60.0
DATUM, MARK = 182.0, 17.0


@picture("vernier")
def vernier(*, value_mm: float = 12.34, resolution: float = 0.02) -> Drawing:
    """Scales of a vernier caliper; below, five numbered divisions of the vernier enlarged.

    Parameters
    ----------
    value_mm : float
        What the caliper shows, 0 to 150 mm; drawn at the nearest position its vernier can show.
    resolution : float
        0.02 (50 lines on 49 mm) or 0.05 (20 lines on 39 mm), as printed on the slider.
    """
    within("value_mm", value_mm, 0, 150, "mm", "This caliper measures up to 150 mm.")
    main, line = vernier_setting(value_mm, least_count_mm=resolution)
    lines = round(1 / resolution)
    shown, pitch = main + line * resolution, (0.98 if lines == 50 else 1.95)
    canvas = Canvas(370)
    start = max(0, main - 6)
    _main_scale(canvas, (start, start + 61), PER_MM, LEFT, EDGE)
    zero = LEFT + (shown - start) * PER_MM
    canvas.rect(zero - 20, EDGE, min(lines * pitch * PER_MM + 40, 716 - zero), 66, METAL)
    per_number = lines // 10
    for k in range(lines + 1):
        _vernier_line(canvas, zero + k * pitch * PER_MM, EDGE, k, per_number, 16)
    canvas.text(36, 34, "above: main scale, mm", 18, anchor="start")
    canvas.text(684, 34, f"below: vernier {resolution:g} mm", 18, anchor="end")
    _vernier_lens(canvas, (start, shown, pitch, lines), line)
    after = f"line {line} of the vernier, counted from its zero line as 0," if line else "the zero line of the vernier"
    zero_at = f"exactly on the {main} mm mark" if line == 0 else f"between the {main} and {main + 1} mm marks"
    return canvas.drawing(
        alt=(
            f"Vernier caliper: main scale in mm, slider with {lines} lines and {resolution:g} mm printed on it. The vernier's "
            f"zero line stands {zero_at} of the main scale. In the enlarged part, {after} meets a line of the main scale; "
            "its neighbours stand a little beside theirs."
        ),
        caption="Read the whole millimetres at the zero of the vernier, then find the line that meets a line.",
    )


def _main_scale(canvas: Canvas, span: tuple[int, int], per_mm: float, left: float, edge: float) -> None:
    canvas.rect(left - 8, edge - 74, (span[1] - span[0]) * per_mm + 16, 74, PALE)
    for mm in range(span[0], span[1] + 1):
        x = left + (mm - span[0]) * per_mm
        canvas.line((x, edge), (x, edge - (36 if mm % 10 == 0 else 27 if mm % 5 == 0 else 18)))
        if mm % 10 == 0:
            canvas.text(x, edge - 44, str(mm), 18, bold=True)


def _vernier_line(canvas: Canvas, x: float, edge: float, k: int, per_number: int, size: float) -> None:
    numbered = k % per_number == 0
    canvas.line((x, edge), (x, edge + (32 if numbered else 20)), BLUE if k else INK, 2)
    if numbered:
        canvas.text(x, edge + 34 + size, str(k // per_number), size)


def _vernier_lens(canvas: Canvas, scale: tuple[int, float, float, int], line: int) -> None:
    """Enlarge the numbered divisions round the line that meets; their first line is a multiple of five."""
    start, shown, pitch, lines = scale
    first = min(line - line % 5, lines - 5)
    low, high = shown + (first - 1.2) * pitch, shown + (first + 6.2) * pitch
    per_mm = (LENS_RIGHT - LENS_LEFT) / (high - low)
    for x, mm in ((LENS_LEFT, low), (LENS_RIGHT, high)):
        canvas.line(
            (min(max(LEFT + (mm - start) * PER_MM, 8), 712), EDGE + 66), (x, LENS_EDGE - 62), BLUE, 2, dash="6 5"
        )
    canvas.rect(LENS_LEFT, LENS_EDGE - 62, LENS_RIGHT - LENS_LEFT, 62, PALE)
    canvas.rect(LENS_LEFT, LENS_EDGE, LENS_RIGHT - LENS_LEFT, 62, METAL)
    for mm in range(int(low) + 1 if low >= 0 else 0, int(high) + 1):
        x = LENS_LEFT + (mm - low) * per_mm
        canvas.line((x, LENS_EDGE), (x, LENS_EDGE - (46 if mm % 5 == 0 else 36)))
        if mm % 5 == 0 and LENS_LEFT + 24 < x < LENS_RIGHT - 24:
            canvas.text(x + 6, LENS_EDGE - 44, str(mm), 16, anchor="start")
    for k in range(max(0, first - 1), min(lines, first + 6) + 1):
        _vernier_line(canvas, LENS_LEFT + (shown + k * pitch - low) * per_mm, LENS_EDGE, k, lines // 10, 18)
    canvas.text(360, LENS_EDGE + 86, "enlarged: which line of the slider meets a line above it?", 18)


@picture("micrometer")
def micrometer(*, value_mm: float = 12.66) -> Drawing:
    """Sleeve and thimble of a micrometer, the thimble laid flat: pitch 0.5 mm, 50 marks.

    `value_mm` is 0 to 25 mm, drawn at the nearest hundredth.
    """
    within("value_mm", value_mm, 0, 25, "mm", "This micrometer measures up to 25 mm.")
    whole, half, mark = micrometer_setting(value_mm)
    shown = whole + 0.5 * half + mark / 100
    start = max(0, whole - 9)
    edge = SLEEVE_LEFT + (shown - start) * SLEEVE_MM
    canvas = Canvas(366)
    canvas.rect(SLEEVE_LEFT - 30, DATUM - 90, edge - SLEEVE_LEFT + 30, 180, PALE)
    if start:
        break_line(canvas, SLEEVE_LEFT - 30, DATUM - 90, DATUM + 90)
    canvas.line((SLEEVE_LEFT - 30, DATUM), (edge, DATUM), INK, 3)
    for halves in range(2 * start, int(2 * shown + 1e-9) + 1):
        x = SLEEVE_LEFT + (halves / 2 - start) * SLEEVE_MM
        _sleeve_line(canvas, x, halves)
    _thimble(canvas, edge, mark)
    canvas.text(SLEEVE_LEFT - 30, 62, "above the line: mm", 18, anchor="start")
    canvas.text(SLEEVE_LEFT - 30, 304, "below the line: half mm", 18, anchor="start")
    canvas.text(SLEEVE_LEFT - 30, 346, "thimble: one mark 0.01 mm", 18, anchor="start")
    halfway = "with the half-millimetre line after it uncovered" if half else "with no half-millimetre line after it"
    numbered = "the figure 0" if whole < 5 else f"the figure {whole // 5 * 5}"
    return canvas.drawing(
        alt=(
            f"Micrometer: sleeve with millimetre lines above and half-millimetre lines below its long line, thimble with 50 marks. "
            f"The last figure uncovered on the sleeve is {numbered.removeprefix('the figure ')}; after it stand {whole % 5} more "
            f"whole-millimetre lines, {halfway}. Mark {mark} of the thimble stands at the long line."
        ),
        caption="Sleeve first, whole lines and the half line; then the mark of the thimble at the long line.",
    )


def _sleeve_line(canvas: Canvas, x: float, halves: int) -> None:
    if halves % 2:
        canvas.line((x, DATUM), (x, DATUM + 30), BLUE, 3)
        return
    mm = halves // 2
    canvas.line((x, DATUM), (x, DATUM - (46 if mm % 5 == 0 else 32)), INK, 3)
    if mm % 5 == 0:
        canvas.text(x, DATUM - 56, str(mm), 22, bold=True)


def _thimble(canvas: Canvas, edge: float, mark: int) -> None:
    canvas.polygon([(edge, 26), (edge + 70, 12), (edge + 70, 352), (edge, 338)], METAL)
    canvas.rect(edge + 70, 12, min(160.0, 712 - edge - 70), 340, METAL)
    for away in range(-8, 9):
        k, y = (mark + away) % 50, DATUM - away * MARK
        long = k % 5 == 0
        canvas.line((edge, y), (edge + (50 if long else 28), y), VERMILLION if k == 0 else INK, 2)
        if long:
            canvas.text(edge + 78, y + 7, str(k), 20, anchor="start", bold=True)
