"""Dial gauge with its counter of turns, and a flywheel turned to one place of a run-out sweep."""

from collections.abc import Sequence

from bitepoint.errors import OutOfRange
from bitepoint.mechanics.limits import whole, within
from bitepoint.mechanics.scales import dial_gauge_hands, inner_scale_lines
from bitepoint.pictures.canvas import (
    BLUE,
    INK,
    METAL,
    PALE,
    SHADE,
    VERMILLION,
    WHITE,
    YELLOW,
    Canvas,
    Point,
    on_circle,
)
from bitepoint.pictures.measuring.scale_strips import stands, tenths_between
from bitepoint.pictures.registry import Drawing, picture

CENTRE: Point = (250.0, 190.0)
SMALL: Point = (250.0, 244.0)
RADIUS = 164.0
PLACES = 8


@picture("dial-gauge")
def dial_gauge(*, reading_mm: float = -0.15, preload_mm: float = 1.0, zero_lines: float = 0.0) -> Drawing:
    """A dial gauge: 100 lines of 0.01 mm a turn, small hand for whole turns, blue marks where both hands stood when set.

    Parameters
    ----------
    reading_mm : float
        Movement since it was set, plus when the plunger went in; preload + reading 0 to 10.999 mm.
    preload_mm : float
        Where it was set, 0 to 10 mm.
    zero_lines : float
        Line at which the large hand stood when it was set: 0 when the dial was turned to zero, else below 100.
    """
    within("zero_lines", zero_lines, 0, 99.99, "lines", "0 when the dial was turned to zero.")
    dial_gauge_hands(reading_mm, preload_mm=preload_mm)  # refuses what the gauge cannot show
    plunger = preload_mm + reading_mm
    ring = 360 * preload_mm - 3.6 * zero_lines
    hand = round((100 * reading_mm + zero_lines) % 100, 2) % 100
    canvas = Canvas(380)
    _face(canvas, CENTRE, RADIUS, ring, (16, 22))
    canvas.circle(SMALL, 38, PALE)
    for turn in range(10):
        canvas.line(on_circle(*SMALL, 38, 36 * turn), on_circle(*SMALL, 34, 36 * turn))
        canvas.text(*_low(on_circle(*SMALL, 25, 36 * turn)), str(turn), 16)
    for centre, inner, outer, angle in ((CENTRE, 164, 186, 360 * preload_mm), (SMALL, 38, 50, 36 * preload_mm)):
        tip = on_circle(*centre, inner, angle)
        canvas.polygon([tip, *(on_circle(*centre, outer, angle + s * 900 / outer) for s in (-1, 1))], BLUE)
    canvas.line(SMALL, on_circle(*SMALL, 33, 36 * plunger), VERMILLION, 4)
    canvas.circle(SMALL, 5, INK)
    canvas.line(on_circle(*CENTRE, 32, 360 * plunger + 180), on_circle(*CENTRE, 148, 360 * plunger), VERMILLION, 5)
    canvas.circle(CENTRE, 10, INK)
    canvas.lines(484, 46, ("one line", "0.01 mm", "", "small hand:", "whole turns"), 18, anchor="start")
    canvas.lines(484, 204, ("blue: where", "both hands", "stood when set"), 18, anchor="start")
    canvas.lines(484, 312, ("outer: in, +", "inner, blue: out, −"), 18, anchor="start")
    return canvas.drawing(
        alt=(
            "Dial gauge, one line 0.01 mm, outer scale clockwise from 0 to 90, inner scale the other way, small hand for whole "
            f"turns. Now the small hand stands {stands(round(plunger % 10, 6))} and the large hand {tenths_between(hand)} of "
            f"the outer scale ({tenths_between(inner_scale_lines(hand))} of the inner). Blue marks show where they stood when "
            f"the gauge was set: the small hand {stands(round(preload_mm, 6))}, the large hand {tenths_between(zero_lines)} of the "
            "outer scale."
        ),
        caption="Small hand first, then the large one, then take off where both stood when the gauge was set.",
    )


def _low(place: Point) -> Point:
    return place[0], place[1] + 6


def _face(canvas: Canvas, centre: Point, r: float, ring_deg: float, sizes: tuple[float, float]) -> None:
    """Draw a face of 100 lines, its zero turned by `ring_deg`; sizes of the inner and outer figures, inner 0 for none."""
    inner_size, outer_size = sizes
    canvas.circle(centre, r + 24, METAL)
    canvas.circle(centre, r, WHITE, INK, 3)
    for line in range(100):
        angle = ring_deg + 3.6 * line
        reach = 0.1 if line % 10 == 0 else 0.075 if line % 5 == 0 else 0.05
        canvas.line(
            on_circle(*centre, r, angle), on_circle(*centre, r * (1 - reach), angle), INK, 3 if line % 10 == 0 else 2
        )
        if line % 10 == 0:
            x, y = on_circle(*centre, r * 0.82, angle)
            canvas.text(x, y + outer_size * 0.36, str(line), outer_size, bold=True)
            if inner_size:
                x, y = on_circle(*centre, r * 0.63, angle)
                canvas.text(x, y + inner_size * 0.36, str((100 - line) % 100), inner_size, colour=BLUE)


@picture("run-out-sweep")
def run_out_sweep(
    *, position: int = 3, readings: Sequence[float] = (0, 0.02, 0.04, 0.06, 0.07, 0.05, 0.03, 0.01), held: bool = True
) -> Drawing:
    """The flywheel turned to one of its eight places, and the dial gauge's reading there.

    Parameters
    ----------
    position : int
        Place under the stylus, 1 to 8; place 1 was set to zero.
    readings : sequence of float, shape (8,)
        Readings in mm in the order of the places, -0.45 to 0.45.
    held : bool
        Whether the crankshaft is pushed to one side while it is read.
    """
    whole("position", position, 1, PLACES, "The flywheel is marked at eight places.")
    if len(readings) != PLACES:
        raise OutOfRange("readings", f"{PLACES} figures, one a place", f"{len(readings)}", "Give one for every place.")
    for i, value in enumerate(readings, start=1):
        within(f"reading {i}", value, -0.45, 0.45, "mm", "A sweep stays within one turn of the gauge.")
    canvas = Canvas(500)
    _turned_flywheel(canvas, (170.0, 260.0), position)
    gauge: Point = (528.0, 196.0)
    _face(canvas, gauge, 150, 0, (0, 20))
    reading = readings[position - 1]
    canvas.line(on_circle(*gauge, 30, 360 * reading + 180), on_circle(*gauge, 136, 360 * reading), VERMILLION, 5)
    canvas.circle(gauge, 9, INK)
    canvas.text(gauge[0], 250, "0.01 mm", 18)
    _crankshaft(canvas, held)
    hand = round(100 * reading % 100, 2) % 100
    way = {True: "clockwise from 0", False: "anticlockwise from 0"}[reading >= 0]
    pushed = "An arrow shows that the crankshaft is pushed to one side." if held else (
        "No arrow: nobody pushes the crankshaft, it may move in its end float."
    )  # fmt: skip
    return canvas.drawing(
        alt=(
            f"Flywheel marked at eight places, turned until place {position} stands under the stylus at the top, which stands square "
            "on the face at the radius of the sheet, its stand on the block. The dial gauge, "
            f"one line 0.01 mm, was set to zero at place 1; its hand has gone {way} and stands {tenths_between(hand)} of its "
            f"clockwise scale of 100 lines. {pushed}"
        ),
        caption="One place of a run-out sweep. Turn, push the crankshaft the same way, read, write it down.",
    )


def _turned_flywheel(canvas: Canvas, centre: Point, position: int) -> None:
    """The face from the front: places numbered on the rim, the circle of the sheet, the stylus square on it at the top."""
    canvas.circle(centre, 140, METAL, INK, 3)
    canvas.circle(centre, 106, PALE)
    canvas.circle(centre, 52, WHITE)
    canvas.circle(centre, 80, "none", BLUE, 2, dash="8 6")
    for place in range(1, PLACES + 1):
        angle = 45 * (place - position)
        spot = on_circle(*centre, 123, angle)
        canvas.circle(spot, 16, YELLOW if place == 1 else WHITE)
        canvas.text(spot[0], spot[1] + 6, str(place), 18, bold=True)
        canvas.circle(on_circle(*centre, 34, angle + 22.5), 7, SHADE)
    canvas.circle((centre[0], centre[1] - 80), 9, VERMILLION, INK, 3)
    canvas.line((centre[0] + 7, centre[1] - 86), (centre[0] + 96, centre[1] - 168), INK, 2)
    canvas.text(centre[0] + 20, 84, "stylus, square on the face", 18)
    canvas.text(centre[0], 430, "blue: radius of the sheet", 18)
    canvas.text(centre[0], 458, "yellow: set to zero here", 18)


def _crankshaft(canvas: Canvas, held: bool) -> None:
    """The same from the side: block, crankshaft, flywheel, stylus square on its face."""
    y = 426.0
    canvas.rect(396, y - 60, 50, 124, SHADE)
    canvas.rect(420, y - 12, 96, 24, METAL)
    canvas.rect(516, y - 54, 20, 108, PALE)
    canvas.line((536, y - 34), (572, y - 34), INK, 4)
    canvas.rect(572, y - 42, 22, 16, METAL)
    canvas.line((594, y - 34), (622, y - 34), INK, 5)
    canvas.line((622, y - 36), (622, y + 62), INK, 5)
    canvas.line((396, y + 62), (624, y + 62), INK, 5)
    canvas.text(421, y - 66, "block", 16)
    if held:
        canvas.arrow((606, y + 8), (540, y + 8), VERMILLION, 8)
        canvas.text(579, y + 40, "pushed in", 16)
    else:
        canvas.text(579, y + 40, "not held", 16)
