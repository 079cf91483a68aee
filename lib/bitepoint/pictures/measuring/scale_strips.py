"""Pieces shared by the drawings of instruments: an enlarged strip of a scale, and words for where a mark stands."""

from math import ceil, floor

from bitepoint.pictures.canvas import INK, PALE, VERMILLION, Canvas

NEAR = 1e-6
"""Share of a division below which a mark counts as standing on a line, not beside it."""


def stands(value: float, unit: str = "", *, step: float = 1.0) -> str:
    """Say where a mark stands on a scale with a line every `step`, without giving a figure finer than its lines.

    >>> stands(12), stands(12.34, "mm")
    ('on 12', 'between 12 and 13 mm')
    """
    tail = f" {unit}" if unit else ""
    place = value / step
    if abs(place - round(place)) < NEAR:
        return f"on {round(place) * step:g}{tail}"
    return f"between {floor(place) * step:g} and {ceil(place) * step:g}{tail}"


def tenths_between(place: float) -> str:
    """Say where a hand stands between two lines of a scale, to the nearest tenth of a division.

    >>> tenths_between(7), tenths_between(7.32)
    ('on line 7', 'between lines 7 and 8, about 3 tenths of the way')
    """
    tenths = round(place * 10)
    low, part = divmod(tenths, 10)
    return f"between lines {low} and {low + 1}, about {part} tenths of the way" if part else f"on line {low}"


def window(value: float, length: float, *, grid: float) -> float:
    """Return where a strip of `length` begins that holds `value` off its ends; it starts on a multiple of `grid`.

    The value is not always in the middle, so that the strip tells nothing by itself.
    """
    return floor((value - (length - grid) / 2) / grid) * grid


class Strip:
    """A level strip of a scale, enlarged: `left, right` on the canvas, a line every `step` from `start` to `end`."""

    def __init__(
        self, canvas: Canvas, base: float, span: tuple[float, float], area: tuple[float, float] = (40.0, 680.0)
    ) -> None:
        self.canvas, self.base, self.span, self.area = canvas, base, span, area

    def x(self, value: float) -> float:
        """Place of a figure of the scale."""
        share = (value - self.span[0]) / (self.span[1] - self.span[0])
        return self.area[0] + share * (self.area[1] - self.area[0])

    def rule(self, *, step: float, middle: int, numbered: int, turn: float | None = None, height: float = 46) -> None:
        """Draw the strip: a longer line every `middle` steps, a figure every `numbered` steps; `turn` counts round."""
        left, right = self.area
        self.canvas.rect(left, self.base - height, right - left, height, PALE)
        for i in range(ceil(self.span[0] / step - NEAR), floor(self.span[1] / step + NEAR) + 1):
            x = self.x(i * step)
            long = 0.8 if i % numbered == 0 else 0.6 if i % middle == 0 else 0.36
            self.canvas.line((x, self.base), (x, self.base - height * long))
            if i % numbered == 0 and left + 8 <= x <= right - 8:
                value = i * step if turn is None else i * step % turn
                self.canvas.text(x, self.base + 20, f"{value:g}", 18)

    def pointer(self, value: float, colour: str = VERMILLION, *, height: float = 46) -> None:
        """Draw a pointer from above, its line over the whole strip and its tip exactly on the figure."""
        x = self.x(value)
        self.canvas.line((x, self.base), (x, self.base - height - 20), colour, 3)
        self.canvas.polygon(
            [(x, self.base - height), (x - 8, self.base - height - 20), (x + 8, self.base - height - 20)], colour
        )


def break_line(canvas: Canvas, x: float, top: float, bottom: float) -> None:
    """Draw a zigzag where a part is cut off."""
    step = (bottom - top) / 6
    canvas.polyline([(x + (-7, 7)[i % 2] * (0 < i < 6), top + i * step) for i in range(7)], INK, 2)
