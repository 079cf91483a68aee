"""One line style for all drawings: SVG as plain text, rounded coordinates, opaque white ground, nothing random.

Lines are black, blue, vermillion or green only; orange, sky blue and yellow are fills with a dark outline, because
only the first four keep a contrast of 3:1 on white. Yellow fills the place where something should be, green is right and
vermillion wrong, a limit or a push; docs/architecture.md has the whole list.
"""

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from html import escape
from math import atan2, cos, hypot, radians, sin

from bitepoint.pictures.registry import Drawing, Shape

INK, BLUE, VERMILLION, GREEN = "#000000", "#0072B2", "#D55E00", "#009E73"
ORANGE, SKY, YELLOW = "#E69F00", "#56B4E9", "#F0E442"
WHITE, PALE, METAL, SHADE = "#FFFFFF", "#F2F2F2", "#DADADA", "#B8B8B8"
WIDTH = 720
_FRAME_LETTERS = 56
FONT = "Arial, Helvetica, 'Liberation Sans', sans-serif"

_BOLD_LETTER = 0.7
"""Width of a bold figure in sizes of its type, in the widest of the fonts that a browser may fall back to."""

Point = tuple[float, float]


def number(value: float) -> str:
    """Return a coordinate with at most two decimals, the same text on every machine."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def on_circle(x: float, y: float, radius: float, angle_deg: float) -> Point:
    """Return the point at an angle measured clockwise from 12 o'clock, as a fitter looks at the part."""
    return x + radius * sin(radians(angle_deg)), y - radius * cos(radians(angle_deg))


class Canvas:
    """Collects the marks of one drawing; y runs down, units are those of the view box (720 wide)."""

    def __init__(self, height: float) -> None:
        self.height = height
        self._marks: list[str] = []

    def _mark(self, tag: str, words: str = "", **attributes: float | str) -> None:
        shown = [
            f'{name.replace("_", "-")}="{escape(number(value) if not isinstance(value, str) else value)}"'
            for name, value in attributes.items()
            if value != ""
        ]
        body = f"<{tag} {' '.join(shown)}"
        self._marks.append(f"{body}>{escape(words, quote=False)}</{tag}>" if words else f"{body}/>")

    @contextmanager
    def group(self, name: str) -> Iterator[None]:
        """Keep the marks drawn inside together under a name, so that they can be moved as one."""
        self._marks.append(f'<g class="bp-part-{escape(name)}">')
        yield
        self._marks.append("</g>")

    def line(self, start: Point, end: Point, colour: str = INK, width: float = 2, *, dash: str = "") -> None:
        """Draw a straight line."""
        self._mark(
            "line",
            x1=start[0],
            y1=start[1],
            x2=end[0],
            y2=end[1],
            stroke=colour,
            stroke_width=width,
            stroke_dasharray=dash,
        )

    def circle(
        self, centre: Point, r: float, fill: str = "none", colour: str = INK, width: float = 2, *, dash: str = ""
    ) -> None:
        """Draw a circle."""
        self._mark(
            "circle",
            cx=centre[0],
            cy=centre[1],
            r=r,
            fill=fill,
            stroke=colour,
            stroke_width=width,
            stroke_dasharray=dash,
        )

    def rect(
        self, x: float, y: float, width: float, height: float, fill: str = "none", colour: str = INK, line: float = 2,
        *, round: float = 0,
    ) -> None:  # fmt: skip
        """Draw an upright rectangle, its corners rounded by `round`."""
        self._mark("rect", x=x, y=y, width=width, height=height, rx=round, fill=fill, stroke=colour, stroke_width=line)

    def polygon(self, points: Iterable[Point], fill: str = "none", colour: str = INK, width: float = 2) -> None:
        """Draw a closed shape."""
        self._mark(
            "polygon", points=_joined(points), fill=fill, stroke=colour, stroke_width=width, stroke_linejoin="round"
        )

    def polyline(self, points: Iterable[Point], colour: str = INK, width: float = 2) -> None:
        """Draw an open chain of lines."""
        self._mark(
            "polyline", points=_joined(points), fill="none", stroke=colour, stroke_width=width, stroke_linejoin="round"
        )

    def text(
        self, x: float, y: float, words: str, size: float = 18, *,
        anchor: str = "middle", bold: bool = False, colour: str = INK, turn: float = 0,
    ) -> None:  # fmt: skip
        """Write words; (x, y) is the base line, `turn` in degrees clockwise round that point."""
        self._mark(
            "text", words, x=x, y=y, font_size=size, text_anchor=anchor, fill=colour,
            font_weight="bold" if bold else "", transform=f"rotate({number(turn)} {number(x)} {number(y)})" if turn else "",
        )  # fmt: skip

    def lines(self, x: float, y: float, words: Sequence[str], size: float = 18, *, anchor: str = "middle") -> None:
        """Write several lines under each other."""
        for i, line in enumerate(words):
            self.text(x, y + i * size * 1.3, line, size, anchor=anchor)

    def arrow(self, start: Point, end: Point, colour: str = INK, width: float = 3, *, dash: str = "") -> None:
        """Draw a line with a head at its end."""
        head = 5 + 3 * width
        angle = atan2(end[1] - start[1], end[0] - start[0])
        back = (end[0] - head * 0.8 * cos(angle), end[1] - head * 0.8 * sin(angle))
        self.line(start, back, colour, width, dash=dash)
        wings = [(end[0] - head * cos(angle + s), end[1] - head * sin(angle + s)) for s in (0.4, -0.4)]
        self.polygon([end, *wings], colour, colour, 1)

    def dimension(self, start: Point, end: Point, words: str, *, above: bool = True, size: float = 20) -> None:
        """Draw a dimension line with arrows at both ends and its words beside the middle (level lines only)."""
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        self.arrow(middle, start, INK, 2)
        self.arrow(middle, end, INK, 2)
        for x, y in (start, end):
            self.line((x, y - 9), (x, y + 9))
        if words:
            self.text(middle[0], middle[1] + (-15 if above else 10 + size * 0.8), words, size, bold=True)

    def hatch(self, x: float, y: float, width: float, height: float, colour: str = INK, gap: float = 12) -> None:
        """Fill an upright rectangle with slanting lines, so that it differs in grey too."""
        shift = gap
        while shift < width + height:
            low = (x + max(0.0, shift - height), y + min(shift, height))
            high = (x + min(shift, width), y + max(0.0, shift - width))
            self.line(low, high, colour, 2)
            shift += gap

    def bolt(self, centre: Point, r: float, label: str = "", *, fill: str = WHITE, size: float = 0) -> None:
        """Draw a bolt head seen from the front: its washer face, its hexagon and a number."""
        self.circle(centre, r, METAL)
        self.polygon([on_circle(*centre, r * 0.93, 60 * i) for i in range(6)], fill)
        if label:
            size = size or max(16.0, r * 0.95)
            self.text(centre[0], centre[1] + size * 0.36, label, size, bold=True)

    def boxed(self, x: float, y: float, words: str, size: float) -> None:
        """Write bold words on a white box, so that they read over bars and lines."""
        half = len(words) * size * _BOLD_LETTER / 2 + 2
        self.rect(x - half, y - size * 0.86, 2 * half, size * 1.1, WHITE, WHITE, 0)
        self.text(x, y, words, size, bold=True)

    def pointed(self, x: float, y: float, words: str, to: Point, size: float = 18) -> None:
        """Write words that begin at x, and a thin line from them to what they name."""
        self.text(x, y, words, size, anchor="start")
        self.line((x - 6, y - size / 3), to, INK, 2)

    def inset(self, other: "Canvas", x: float, y: float, scale: float) -> None:
        """Draw another canvas smaller or larger, its corner at (x, y)."""
        place = f"translate({number(x)} {number(y)}) scale({number(scale)})"
        self._marks += [f'<g transform="{place}">', *other._marks, "</g>"]

    def between(
        self, start: Point, end: Point, gap: float, colour: str = BLUE, width: float = 3, *, dash: str = ""
    ) -> None:
        """Draw an arrow from one bolt to another, leaving a gap at both."""
        length = hypot(end[0] - start[0], end[1] - start[1])
        if length <= 2 * gap:
            return
        part = gap / length
        x, y = (end[0] - start[0]) * part, (end[1] - start[1]) * part
        self.arrow((start[0] + x, start[1] + y), (end[0] - x, end[1] - y), colour, width, dash=dash)

    def frame(self, words: str) -> None:
        """Write the frame along the lower edge, long words in smaller type."""
        self.rect(20, self.height - 38, WIDTH - 40, 30, WHITE, VERMILLION, 3)
        size = 17 if len(words) <= _FRAME_LETTERS else round(17 * _FRAME_LETTERS / len(words), 1)
        self.text(WIDTH / 2, self.height - 17, words, size, bold=True)

    def drawing(self, *, alt: str, caption: str, regions: tuple[Shape, ...] = ()) -> Drawing:
        """Return the finished picture."""
        box = f"0 0 {WIDTH} {number(self.height)}"
        ground = f'<rect width="{WIDTH}" height="{number(self.height)}" fill="{WHITE}"/>'
        head = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" width="{WIDTH}" height="{number(self.height)}"'
            f' font-family="{FONT}">'
        )
        content = "\n".join([head, ground, *self._marks, "</svg>"])
        return Drawing(content=content, alt=alt, caption=caption, regions=regions, width_px=WIDTH)


def _joined(points: Iterable[Point]) -> str:
    return " ".join(f"{number(x)},{number(y)}" for x, y in points)
