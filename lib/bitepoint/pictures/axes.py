"""Axes with units for graphs drawn from figures, and helpers to write figures short."""

from collections.abc import Iterable, Sequence
from math import floor, isfinite, log10

from bitepoint.errors import OutOfRange
from bitepoint.pictures.canvas import INK, SHADE, WHITE, Canvas, Point

Span = tuple[float, float]


def figure(value: float, digits: int = 3) -> str:
    """Return a figure with so many digits, never with an exponent; whole numbers keep all of theirs.

    >>> figure(38235.3), figure(0.064849), figure(1.5), figure(0)
    ('38235', '0.0648', '1.5', '0')
    """
    if value == 0 or not isfinite(value):
        return "0" if value == 0 else str(value)
    decimals = max(0, digits - 1 - floor(log10(abs(value))))
    text = f"{value:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text == "-0" else text


def step_between(low: float, high: float, most: int = 6) -> float:
    """Return the round step (1, 2 or 5 times a power of ten) that gives at most so many steps."""
    rough = (high - low) / most
    power = 10.0 ** floor(log10(rough))
    return next(power * factor for factor in (1, 2, 5, 10) if power * factor >= rough * (1 - 1e-9))


def ticks(low: float, high: float, most: int = 6) -> tuple[float, ...]:
    """Return round figures from low to high, at most one more than `most`."""
    step = step_between(low, high, most)
    first = -floor(-low / step + 1e-9)
    last = floor(high / step + 1e-9)
    return tuple(round(i * step, 9) for i in range(first, last + 1))


def round_up(value: float, most: int = 6) -> float:
    """Return the end of a scale from 0 that holds `value` and ends on a tick."""
    if value <= 0:
        return 1.0
    step = step_between(0, value, most)
    return -floor(-value / step + 1e-9) * step


class Axes:
    """A pair of axes on a canvas: `left, top, right, bottom` in its units, spans in the units of the graph."""

    def __init__(self, canvas: Canvas, area: tuple[float, float, float, float], *, x: Span, y: Span) -> None:
        if not (x[0] < x[1] and y[0] < y[1]):
            raise OutOfRange("span of an axis", "more than nothing", f"{x} and {y}", "Give figures that differ.")
        self.canvas, self.area, self.x, self.y = canvas, area, x, y

    def at(self, x: float, y: float) -> Point:
        """Return the place of a point of the graph on the canvas."""
        left, top, right, bottom = self.area
        across = (x - self.x[0]) / (self.x[1] - self.x[0])
        up = (y - self.y[0]) / (self.y[1] - self.y[0])
        return left + across * (right - left), bottom - up * (bottom - top)

    def grid(self, x_words: str, y_words: str, *, x_ticks: Sequence[float] | None = None, most: int = 6) -> None:
        """Draw grid, figures and what the axes show, with its unit; `x_ticks` replaces the figures of the level axis."""
        left, top, right, bottom = self.area
        for value in ticks(*self.y, most=most):
            y = self.at(self.x[0], value)[1]
            self.canvas.line((left, y), (right, y), SHADE)
            self.canvas.text(left - 10, y + 6, figure(value, 4), 18, anchor="end")
        for value in ticks(*self.x, most=most) if x_ticks is None else x_ticks:
            x = self.at(value, self.y[0])[0]
            self.canvas.line((x, bottom), (x, bottom + 8))
            self.canvas.text(x, bottom + 28, figure(value, 4), 18)
        self.canvas.line((left, top), (left, bottom), INK, 3)
        self.canvas.line((left, bottom), (right, bottom), INK, 3)
        self.canvas.text((left + right) / 2, bottom + 56, x_words, 19)
        self.canvas.text(24, (top + bottom) / 2, y_words, 19, turn=-90)

    def curve(self, points: Iterable[Point], colour: str, width: float = 5, *, dashed: bool = False) -> None:
        """Draw a curve, left out where it leaves the area; dashed in pieces of three points."""
        piece: list[Point] = []
        pieces = [piece]
        for x, y in points:
            if self.x[0] - 1e-9 <= x <= self.x[1] + 1e-9 and self.y[0] - 1e-9 <= y <= self.y[1] + 1e-9:
                piece.append(self.at(x, y))
            elif piece:
                pieces.append(piece := [])
        for run in pieces:
            parts = [run[i : i + 4] for i in range(0, len(run), 6)] if dashed else [run]
            for part in parts:
                if len(part) > 1:
                    self.canvas.polyline(part, colour, width)

    def level(
        self,
        y: float,
        colour: str,
        words: str = "",
        *,
        dash: str = "12 7",
        below: bool = False,
        start: bool = False,
    ) -> None:
        """Draw a level line across the area with its words at one end, left out if outside."""
        if not self.y[0] <= y <= self.y[1]:
            return
        left, _, right, _ = self.area
        height = self.at(0, y)[1]
        self.canvas.line((left, height), (right, height), colour, 4, dash=dash)
        if words:
            x = left + 12 if start else right - 6
            label(self.canvas, (x, height + (24 if below else -10)), words, anchor="start" if start else "end")

    def upright(self, x: float, colour: str, *, dash: str = "12 7") -> None:
        """Draw an upright line over the whole height."""
        self.canvas.line(self.at(x, self.y[0]), self.at(x, self.y[1]), colour, 4, dash=dash)

    def dot(self, x: float, y: float, colour: str, r: float = 10) -> Point:
        """Draw a dot with a dark outline; return its place."""
        place = self.at(x, y)
        self.canvas.circle(place, r, colour, INK, 3)
        return place


def label(canvas: Canvas, place: Point, words: str, size: float = 19, *, anchor: str = "middle") -> None:
    """Write bold words on a white box of their own, so that they read over lines."""
    width = (len(words) + 0.8) * size * 0.64
    left = place[0] - 4 - width * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
    canvas.rect(left, place[1] - size * 0.88, width + 8, size * 1.16, WHITE, WHITE, 0)
    canvas.text(place[0], place[1], words, size, anchor=anchor, bold=True)
