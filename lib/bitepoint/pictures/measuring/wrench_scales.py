"""A torque wrench's double scale with its grip ring, and an angle gauge before and after the turn."""

from math import floor

from bitepoint import units
from bitepoint.mechanics.limits import within
from bitepoint.pictures.canvas import BLUE, INK, METAL, PALE, SHADE, VERMILLION, WHITE, Canvas, Point, on_circle
from bitepoint.pictures.measuring.scale_strips import Strip, break_line, stands, window
from bitepoint.pictures.registry import Drawing, picture

PER_NM, LEFT, MIDDLE, MARK = 6.0, 70.0, 186.0, 30.0
DISC: Point = (184.0, 190.0)
DISC_RADIUS = 172.0
STRIP_DEG = 24.0


@picture("torque-wrench-scale")
def torque_wrench_scale(*, setting_nm: float = 65) -> Drawing:
    """Shaft of a click wrench: tens of N·m above, tens of lbf·ft below, the grip's edge, and the ring of single N·m.

    One turn of the grip is 10 N·m; the ring has a line every 0.5 N·m. `setting_nm` is 20 to 200 N·m.
    """
    within("setting_nm", setting_nm, 20, 200, "N·m", "This wrench is set from 20 to 200 N·m.")
    start = max(0, floor(setting_nm / 10) * 10 - 50)
    canvas, edge = Canvas(394), LEFT + (setting_nm - start) * PER_NM
    canvas.rect(LEFT - 40, MIDDLE - 92, edge - LEFT + 40, 184, PALE)
    break_line(canvas, LEFT - 40, MIDDLE - 92, MIDDLE + 92)
    canvas.line((LEFT - 40, MIDDLE), (edge, MIDDLE), INK, 3)
    for tens in range(start, floor(setting_nm + 1e-9) + 1, 10):
        _scale_line(canvas, LEFT + (tens - start) * PER_NM, edge, -1, str(tens), INK)
    per_foot = units.convert(10, "lbf·ft", "N·m")
    for tens in range(40):
        x = LEFT + (tens * per_foot - start) * PER_NM
        if LEFT - 12 <= x <= edge + 1e-6:
            _scale_line(canvas, x, edge, 1, str(10 * tens), BLUE)
    ring = setting_nm % 10
    _ring(canvas, edge, ring)
    canvas.text(LEFT - 40, MIDDLE - 108, "N·m", 22, anchor="start", bold=True)
    canvas.text(LEFT - 40, MIDDLE + 132, "lbf·ft", 22, anchor="start", bold=True, colour=BLUE)
    canvas.text(700, 380, "ring on the grip: a figure for every N·m", 18, anchor="end")
    last = floor(setting_nm / 10 + 1e-9) * 10
    feet = units.convert(setting_nm, "N·m", "lbf·ft")
    return canvas.drawing(
        alt=(
            f"Torque wrench: upper scale in tens of N·m, lower scale in tens of lbf·ft, grip with a ring from 0 to 9. The last line "
            f"uncovered by the grip's edge is {last} on the upper scale and {floor(feet / 10 + 1e-9) * 10} on the lower one. At the long line "
            f"the ring stands {stands(round(ring, 4), step=0.5)}."
        ),
        caption="Which unit, then the last line uncovered by the edge, then the ring.",
    )


def _scale_line(canvas: Canvas, x: float, edge: float, way: int, words: str, colour: str) -> None:
    """Draw a line and its figure; a figure that the grip's edge would cut stands beside its line."""
    canvas.line((x, MIDDLE), (x, MIDDLE + way * 42), colour, 3)
    beside = min(x, edge - 4 - 6 * len(words))
    canvas.text(beside, MIDDLE + (70 if way > 0 else -52), words, 20, colour=colour, bold=way < 0)


def _ring(canvas: Canvas, edge: float, ring: float) -> None:
    """Draw the grip laid flat: its marks move past the long line as it is turned."""
    canvas.rect(edge, 20, min(220.0, 708 - edge), 332, METAL)
    canvas.rect(edge, 20, 92, 332, WHITE)
    steps = MARK / 2
    for k in range(floor(2 * ring) - 10, floor(2 * ring) + 12):
        y = MIDDLE - (k - 2 * ring) * steps
        if 28 <= y <= 344:
            long = k % 2 == 0
            canvas.line((edge, y), (edge + (40 if long else 20), y), INK, 3 if long else 2)
            if long:
                canvas.text(edge + 62, y + 8, str(k // 2 % 10), 22, bold=True)


@picture("angle-gauge")
def angle_gauge(*, start_deg: float = 15, end_deg: float = 63) -> Drawing:
    """An angle gauge's disc: where the pointer stood before the turn (blue) and after it (red), both enlarged beside it.

    Both are 0 to below 360 degrees; the bolt was turned clockwise from the one to the other, less than one full turn.
    """
    for name, value in (("start_deg", start_deg), ("end_deg", end_deg)):
        within(name, value, 0, 359.99, "°", "Read the disc from 0 to below 360.")
    canvas = Canvas(380)
    canvas.circle(DISC, DISC_RADIUS, PALE, INK, 3)
    for degree in range(0, 360, 5):
        reach = 26 if degree % 30 == 0 else 18 if degree % 10 == 0 else 11
        canvas.line(on_circle(*DISC, DISC_RADIUS, degree), on_circle(*DISC, DISC_RADIUS - reach, degree))
        if degree % 30 == 0:
            x, y = on_circle(*DISC, DISC_RADIUS - 44, degree)
            canvas.text(x, y + 7, str(degree), 20, bold=True)
    for value, colour, width in ((start_deg, BLUE, 4.0), (end_deg, VERMILLION, 6.0)):
        canvas.line(on_circle(*DISC, 34, value), on_circle(*DISC, DISC_RADIUS - 4, value), colour, width)
    canvas.bolt(DISC, 34, fill=SHADE)
    for base, value, colour, words in (
        (176.0, start_deg, BLUE, "blue, thin: before the turn"),
        (330.0, end_deg, VERMILLION, "red, thick: after the turn"),
    ):
        first = window(value, STRIP_DEG, grid=5)
        strip = Strip(canvas, base, (first, first + STRIP_DEG), (392.0, 704.0))
        strip.rule(step=1, middle=5, numbered=10, turn=360, height=40)
        strip.pointer(value, colour, height=40)
        canvas.text(392, base - 84, words, 18, anchor="start", bold=True)
    canvas.text(392, 34, "turned clockwise", 18, anchor="start")
    return canvas.drawing(
        alt=(
            f"Angle gauge with a disc from 0 to 360 degrees, a line every 5, enlarged beside it with a line every degree. Before the turn the "
            f"pointer stands {stands(start_deg)} degrees, after it, turned clockwise, {stands(end_deg)} degrees."
        ),
        caption="How far was the bolt turned? The disc was not set to zero by itself.",
    )
