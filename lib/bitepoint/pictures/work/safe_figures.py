"""Working safely: what to look for on every car first, then making the 12 V side dead, step by step."""

from collections.abc import Callable

from bitepoint.pictures.canvas import BLUE, INK, METAL, ORANGE, PALE, SHADE, SKY, VERMILLION, WHITE, YELLOW, Canvas
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import smooth

Draw = Callable[[Canvas, float, float], None]
_WIDE, _HIGH = 224.0, 196.0


def _orange_cable(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x + 20, y + 60, 184, 46, METAL, round=6)
    canvas.text(x + 112, y + 90, "gearbox", 16)
    way = smooth([(x + 14, y + 48), (x + 60, y + 30), (x + 112, y + 46), (x + 164, y + 30), (x + 210, y + 48)])
    canvas.polyline(way, INK, 19)
    canvas.polyline(way, ORANGE, 14)


def _label_48(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x + 40, y + 14, 144, 92, METAL, round=10)
    canvas.circle((x + 184, y + 60), 26, SHADE)
    canvas.circle((x + 184, y + 60), 8, WHITE)
    canvas.rect(x + 62, y + 36, 84, 46, WHITE, VERMILLION, 4)
    canvas.text(x + 104, y + 67, "48 V", 24, bold=True)


def _airbag(canvas: Canvas, x: float, y: float) -> None:
    canvas.circle((x + 84, y + 60), 48, "none", INK, 9)
    canvas.rect(x + 43, y + 42, 82, 36, SHADE, round=8)
    canvas.text(x + 84, y + 66, "AIRBAG", 16, bold=True)
    canvas.polyline(smooth([(x + 132, y + 60), (x + 156, y + 44), (x + 176, y + 62)]), INK, 4)
    canvas.rect(x + 170, y + 54, 34, 24, YELLOW, round=4)


def _second_battery(canvas: Canvas, x: float, y: float) -> None:
    shell = [(14, 84), (20, 62), (64, 54), (92, 28), (168, 28), (198, 56), (210, 62), (210, 90)]
    canvas.polygon([(x + a, y + b) for a, b in shell], WHITE, INK, 3)
    for wheel in (58.0, 172.0):
        canvas.circle((x + wheel, y + 92), 16, SHADE, INK, 3)
    for left, word in ((28.0, "1"), (176.0, "2")):
        canvas.rect(x + left, y + 62, 26, 17, SKY)
        canvas.text(x + left + 13, y + 76, word, 16, bold=True)


def _card(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x + 24, y + 34, 78, 52, PALE, round=8)
    canvas.text(x + 63, y + 66, "card", 18, bold=True)
    for r in (10.0, 20.0, 30.0):
        arc = [(x + 108 + r * 0.5, y + 60 - r), (x + 108 + r, y + 60), (x + 108 + r * 0.5, y + 60 + r)]
        canvas.polyline(smooth(arc), BLUE, 3)
    canvas.circle((x + 182, y + 60), 32, METAL, INK, 3)
    canvas.text(x + 182, y + 56, "start", 16, bold=True)
    canvas.text(x + 182, y + 74, "stop", 16, bold=True)


_FIRST: tuple[tuple[str, str, str, Draw], ...] = (
    ("Orange cable", "keep off, all of you:", "stop and ask", _orange_cable),
    ("48 V label", "keep off, all of you:", "stop and ask", _label_48),
    ("Airbag, yellow plug", "leave it shut, no meter,", "in the way: ask", _airbag),
    ("Second battery", "a lamp still lights?", "Look it up first", _second_battery),
    ("Start by card", "every card goes", "out of range", _card),
)
"""Name, what to do in two lines, and how it is drawn."""


@picture("look-first")
def look_first() -> Drawing:
    """Five things to look for on every car before a tool goes in."""
    return _tiles(
        _FIRST,
        alt="Five things to look for on every car. ",
        caption="Look for these five before any tool goes in. The first two are not for you.",
    )


def _note(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x + 66, y + 10, 92, 100, PALE, round=4)
    for row in range(4):
        canvas.line((x + 80, y + 34 + 20 * row), (x + 144, y + 34 + 20 * row), SHADE, 4)


def _key(canvas: Canvas, x: float, y: float) -> None:
    canvas.circle((x + 70, y + 60), 26, METAL, INK, 3)
    canvas.circle((x + 62, y + 60), 7, WHITE)
    canvas.polygon([(x + 96, y + 54), (x + 170, y + 54), (x + 178, y + 60), (x + 170, y + 66), (x + 96, y + 66)], METAL)
    for tooth in (120.0, 140.0, 158.0):
        canvas.rect(x + tooth, y + 66, 8, 9, METAL)


def _clock(canvas: Canvas, x: float, y: float) -> None:
    canvas.circle((x + 112, y + 60), 46, WHITE, INK, 4)
    canvas.line((x + 112, y + 60), (x + 112, y + 28), INK, 4)
    canvas.line((x + 112, y + 60), (x + 134, y + 72), INK, 4)


def _negative_off(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x + 50, y + 46, 124, 60, METAL, round=4)
    canvas.rect(x + 136, y + 32, 16, 14, SHADE)
    canvas.text(x + 144, y + 74, "+", 24, bold=True)
    canvas.text(x + 80, y + 74, "−", 24, bold=True)
    canvas.rect(x + 66, y + 26, 28, 20, SKY, round=5)
    canvas.polyline(smooth([(x + 8, y + 96), (x + 14, y + 40), (x + 34, y + 14)]), INK, 7)
    canvas.rect(x + 24, y + 0, 30, 20, SKY, round=5)


def _starter(canvas: Canvas, x: float, y: float) -> None:
    canvas.rect(x + 46, y + 56, 120, 46, METAL, round=8)
    canvas.rect(x + 66, y + 26, 82, 30, SHADE, round=8)
    canvas.rect(x + 166, y + 66, 34, 26, WHITE)
    canvas.polyline(smooth([(x + 8, y + 14), (x + 36, y + 20), (x + 66, y + 38)]), VERMILLION, 7)
    canvas.circle((x + 66, y + 39), 7, WHITE)


_DEAD: tuple[tuple[str, str, str, Draw], ...] = (
    ("1 Look and note", "orange, 48 V, battery 2;", "what the car forgets", _note),
    ("2 Ignition off", "key on you,", "cards out of range", _key),
    ("3 Wait", "until the control", "units sleep", _clock),
    ("4 Negative lead off", "lead and post", "each under a cap", _negative_off),
    ("5 Starter cable", "only now:", "it has no fuse", _starter),
)


@picture("make-it-dead")
def make_it_dead() -> Drawing:
    """Five steps of the 12 V side, from the look to the starter cable."""
    return _tiles(
        _DEAD,
        alt="Five steps on a car with nothing but a 12 V battery. ",
        caption="Only where there is a 12 V battery and nothing more. The starter cable comes last.",
    )


def _tiles(tiles: tuple[tuple[str, str, str, Draw], ...], *, alt: str, caption: str) -> Drawing:
    """Three tiles above two, each drawn with its name above and what to do below."""
    canvas = Canvas(2 * _HIGH + 20)
    for i, (name, first, second, drawn) in enumerate(tiles):
        x = 10 + 238.0 * i if i < 3 else 129 + 238.0 * (i - 3)
        y = 6 + (_HIGH + 8) * (i // 3)
        canvas.rect(x, y, _WIDE, _HIGH, WHITE, SHADE, 2, round=8)
        canvas.text(x + 112, y + 25, name, 18, bold=True)
        drawn(canvas, x, y + 34)
        canvas.lines(x + 112, y + 163, (first, second), 16)
    return canvas.drawing(alt=alt + " ".join(f"{n}: {a} {b}." for n, a, b, _ in tiles), caption=caption)
