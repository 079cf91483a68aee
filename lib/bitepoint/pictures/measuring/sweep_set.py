"""All readings of a run-out sweep side by side: the upper half of the dial at each place."""

from collections.abc import Sequence

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import within
from bitepoint.pictures.canvas import INK, METAL, PALE, VERMILLION, WHITE, YELLOW, Canvas, Point, on_circle
from bitepoint.pictures.measuring.scale_strips import tenths_between
from bitepoint.pictures.registry import Drawing, picture

READINGS = 9
RADIUS = 100.0
REACH = 25
"""Lines shown to either side of nought."""


@picture("run-out-set")
def run_out_set(*, readings: Sequence[float] = (0, 0.02, 0.04, 0.06, 0.07, 0.05, 0.03, 0.01, 0)) -> Drawing:
    """Draw the dial gauge at each of the eight places of a flywheel, and at place 1 once more.

    Parameters
    ----------
    readings : sequence of float, shape (9,)
        Readings in mm, -0.25 to 0.25, the crankshaft pushed to one side for each.
    """
    if len(readings) != READINGS:
        rule = "9 figures, one a place and place 1 once more"
        raise OutOfRange("readings", rule, f"{len(readings)}", "Give one for every place.")
    for i, value in enumerate(readings, start=1):
        within(f"reading {i}", value, -0.25, 0.25, "mm", "Only the upper half of the dial is drawn.")
    canvas = Canvas(568)
    told = []
    for i, reading in enumerate(readings):
        centre: Point = (124.0 + 236 * (i % 3), 146.0 + 176 * (i // 3))
        _half_dial(canvas, centre, reading, "1 again" if i == READINGS - 1 else str(i + 1))
        lines = round(100 * reading, 2)
        place = "place 1 again" if i == READINGS - 1 else f"place {i + 1}"
        told.append(f"{place}, {tenths_between(lines % 100)}")
    canvas.text(24, 28, "outer scale, one line 0.01 mm; the crankshaft is pushed in at every place", 18, anchor="start")
    canvas.text(24, 556, "right of 0: plunger in, plus.  left of 0: plunger out, minus", 18, anchor="start")
    return canvas.drawing(
        alt=(
            "The upper half of a dial gauge, one line 0.01 mm, at each of eight places of a flywheel and at place 1 again. On "
            f"its clockwise scale of 100 lines the hand stands: {'; '.join(told)}."
        ),
        caption="One turn of the flywheel. Find the highest and the lowest place; left of 0 is below 0.",
    )


def _half_dial(canvas: Canvas, centre: Point, reading: float, name: str) -> None:
    x, y = centre
    canvas.polygon([on_circle(x, y, RADIUS + 8, 3.6 * k) for k in range(-REACH, REACH + 1)], METAL)
    canvas.polygon([on_circle(x, y, RADIUS, 3.6 * k) for k in range(-REACH, REACH + 1)], WHITE)
    canvas.line((x, y), on_circle(x, y, RADIUS * 0.96, 360 * reading), VERMILLION, 4)
    for line in range(-REACH, REACH + 1):
        reach = 0.86 if line % 10 == 0 else 0.9 if line % 5 == 0 else 0.93
        width = 3.0 if line % 10 == 0 else 2.0
        canvas.line(on_circle(x, y, RADIUS, 3.6 * line), on_circle(x, y, RADIUS * reach, 3.6 * line), INK, width)
        if line % 10 == 0:
            place = on_circle(x, y, RADIUS * 0.74, 3.6 * line)
            canvas.text(place[0], place[1] + 6, str(line % 100), 17, bold=True)
    canvas.rect(x - RADIUS - 8, y, 2 * RADIUS + 16, 30, YELLOW if name.startswith("1") else PALE)
    canvas.text(x, y + 22, f"place {name}", 19, bold=True)
