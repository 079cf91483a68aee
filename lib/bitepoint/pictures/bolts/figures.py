"""The two scales of a click wrench: a window with tens, a ring with ones."""

from bitepoint.mechanics.limits import whole
from bitepoint.pictures.canvas import BLUE, INK, METAL, SHADE, VERMILLION, WHITE, Canvas
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.units import convert

_TEN = 92.0
"""Pixels between two tens of the window."""


@picture("grip-scale")
def grip_scale(*, setting_nm: int = 65) -> Drawing:
    """Draw window and ring of a click wrench set to whole N·m; the window's lower row is in lbf·ft."""
    whole("setting_nm", setting_nm, 10, 200, "Give whole newton-metres.")
    canvas = Canvas(330)
    canvas.rect(16, 66, 430, 196, METAL)
    canvas.rect(40, 96, 380, 136, WHITE)
    canvas.text(40, 54, "Window: tens", 22, anchor="start", bold=True)
    _row(canvas, 230.0, 96, setting_nm, 10, _TEN, "N·m", up=True)
    feet = _TEN / convert(10, "N·m", "lbf·ft") * 10
    _row(canvas, 230.0, 232, convert(setting_nm, "N·m", "lbf·ft"), 10, feet, "lbf·ft", up=False)
    canvas.line((230, 86), (230, 242), VERMILLION, 4)
    canvas.text(230, 286, "fixed line", 18)
    canvas.rect(466, 76, 238, 176, SHADE, round=14)
    canvas.text(585, 54, "Ring: ones, N·m", 22, bold=True)
    _ring(canvas, setting_nm % 10)
    canvas.text(585, 286, "line of the shaft", 18)
    return canvas.drawing(
        alt=(
            f"Window and ring of a click wrench. In the window the fixed line stands "
            f"{'on' if setting_nm % 10 == 0 else 'past'} the mark {setting_nm // 10 * 10} of the upper row, which is in "
            f"N·m; a lower row is in lbf·ft. On the ring, which counts single N·m, the line of the shaft points at "
            f"{setting_nm % 10}."
        ),
        caption="Read the tens that the line has passed, in the row with your unit. Then add the ring.",
    )


def _row(
    canvas: Canvas, line_x: float, edge: float, value: float, step: int, gap: float, unit: str, *, up: bool
) -> None:
    """Draw marks and figures of one row along an edge of the window, so that `value` stands at the line."""
    first = int(value // step) * step
    for mark in range(first - 3 * step, first + 4 * step, step):
        x = line_x + (mark - value) / step * gap
        if 58 <= x <= 402 and mark >= 0:
            canvas.line((x, edge), (x, edge + (22 if up else -22)))
            # A figure under the fixed line could not be read: it moves beside it.
            beside = 22.0 if abs(x - line_x) < 18 else 0.0
            if x < 330:
                canvas.text(x + beside, edge + (46 if up else -30), str(mark), 21, bold=up)
    canvas.text(414, edge + (46 if up else -30), unit, 17, anchor="end")


def _ring(canvas: Canvas, ones: int) -> None:
    for shift in (-2, -1, 0, 1, 2):
        y = 164 - shift * 34.0
        canvas.line((466, y), (494, y), INK, 3)
        canvas.text(524, y + 8, str((ones + shift) % 10), 24, bold=True)
    canvas.arrow((648, 164), (556, 164), BLUE, 5)
