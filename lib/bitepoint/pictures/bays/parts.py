"""Things that stand in a workshop bay, from the side: car, lift, people, bench, bin, tags."""

from collections.abc import Sequence

from bitepoint.pictures.canvas import (
    INK,
    METAL,
    ORANGE,
    PALE,
    SHADE,
    SKY,
    WHITE,
    Canvas,
    Point,
    on_circle,
)
from bitepoint.pictures.strokes import capsule, smooth

BODY = "#C9D6E2"
SKIN = "#E8C9A8"
WHEELS = (78.0, 326.0)
"""Middles of the wheels, from the nose of the car."""


def room(canvas: Canvas, floor: float) -> None:
    """Wall and floor."""
    canvas.rect(0, 44, 720, floor - 44, "#F6F7F8", "#F6F7F8", 0)
    canvas.rect(0, floor, 720, canvas.height - floor, "#DEE1E4", "#DEE1E4", 0)
    canvas.line((0, floor), (720, floor), INK, 3)


def car(
    canvas: Canvas, x: float, base: float, *, bonnet_open: bool = False, boot_open: bool = False, size: float = 1
) -> None:
    """A hatchback from the side, nose to the left, its wheels down to `base`; about 400 units long times `size`."""

    def at(points: Sequence[Point]) -> list[Point]:
        return [(x + size * px, base + size * py) for px, py in points]

    def between(start: Point, end: Point, width: float) -> None:
        first, last = at([start, end])
        canvas.line(first, last, INK, width)

    if bonnet_open:
        canvas.polygon(at([(112, -104), (16, -176), (20, -186), (116, -112)]), BODY, INK, 3)
        between((58, -88), (62, -146), 3)
    if boot_open:
        canvas.polygon(at([(352, -146), (420, -196), (428, -188), (362, -134)]), BODY, INK, 3)
    shell = [
        (10, -40),
        (4, -62),
        (14, -84),
        (60, -96),
        (112, -104),
        (158, -146),
        (190, -154),
        (300, -154),
        (344, -146),
        (382, -100),
        (394, -92),
        (398, -48),
        (388, -36),
    ]
    canvas.polygon(at([*smooth(shell), (354, -34), (300, -34), (110, -34), (40, -34)]), BODY, INK, 3)
    canvas.polygon(at([(128, -104), (164, -140), (226, -144), (226, -104)]), WHITE, INK, 3)
    canvas.polygon(at([(236, -104), (236, -144), (302, -144), (336, -138), (360, -104)]), WHITE, INK, 3)
    between((230, -100), (230, -38), 2)
    between((122, -100), (128, -40), 2)
    canvas.rect(x + size * 206, base - size * 92, size * 18, size * 6, INK)
    canvas.polygon(at([(12, -78), (36, -84), (34, -70), (8, -66)]), PALE)
    canvas.rect(x + size * 380, base - size * 88, size * 14, size * 18, ORANGE)
    for place in WHEELS:
        wheel, round_it = (x + size * place, base - size * 34), range(-90, 91, 10)
        canvas.polygon([on_circle(*wheel, size * 42, angle) for angle in round_it], "#F6F7F8", INK, 0)
        canvas.polyline([on_circle(*wheel, size * 43, angle) for angle in round_it], INK, 3)
        canvas.circle(wheel, size * 34, "#4A4A4A", INK, 3)
        canvas.circle(wheel, size * 20, METAL)
        for k in range(5):
            canvas.line(wheel, on_circle(*wheel, size * 19, 72 * k), INK, 2)


def person(
    canvas: Canvas, x: float, foot: float, *, reach: Point | None = None, facing: int = 1, overall: str = SKY, goggles: bool = False, ears: bool = False,
) -> None:  # fmt: skip
    """A fitter standing at x, 165 units tall; one hand reaches to a point."""
    hip, shoulder = (x, foot - 80), (x, foot - 128)
    for step in (-9, 9):
        canvas.polygon(capsule(hip, (x + step, foot - 8), 10), overall)
        canvas.polygon(capsule((x + step - 2, foot - 6), (x + step + 10 * facing, foot - 6), 6), INK)
    canvas.polygon(capsule((x, foot - 84), shoulder, 17), overall)
    hand = reach or (x + 16 * facing, foot - 78)
    elbow = ((shoulder[0] + hand[0]) / 2, (shoulder[1] + hand[1]) / 2 + (14 if reach is None else 6))
    canvas.polygon(capsule(shoulder, elbow, 8), overall)
    canvas.polygon(capsule(elbow, hand, 7), overall)
    canvas.circle(hand, 8, SKIN)
    canvas.circle((x + 2 * facing, foot - 156), 17, SKIN)
    canvas.polygon([on_circle(x + 2 * facing, foot - 157, 18, a) for a in range(-95, 96, 19)], INK)
    if goggles:
        canvas.rect(x + (4 if facing > 0 else -18), foot - 160, 16, 9, WHITE, round=3)
    if ears:
        canvas.circle((x, foot - 154), 8, ORANGE)


def post(canvas: Canvas, x: float, top: float, floor: float) -> None:
    """The post of a lift behind the car."""
    canvas.rect(x - 26, top, 52, floor - top, METAL, INK, 3)
    canvas.rect(x - 8, top + 10, 16, floor - top - 10, SHADE)
    canvas.rect(x - 44, floor - 14, 88, 14, SHADE)


def bench(canvas: Canvas, x: float, floor: float, width: float = 150) -> None:
    """A workbench with two boxes under it."""
    canvas.rect(x, floor - 92, width, 12, ORANGE, INK, 3)
    for leg in (x + 8, x + width - 18):
        canvas.rect(leg, floor - 80, 10, 80, METAL)


def boxes(canvas: Canvas, x: float, floor: float) -> None:
    """Two cardboard boxes."""
    for left, width, height in ((x, 46, 36), (x + 52, 40, 50)):
        canvas.rect(left, floor - height, width, height, "#D9C3A0")
        canvas.line((left, floor - height + 10), (left + width, floor - height + 10))


def bin_closed(canvas: Canvas, x: float, floor: float) -> None:
    """A waste bin with its lid on."""
    canvas.polygon([(x, floor - 66), (x + 50, floor - 66), (x + 44, floor), (x + 6, floor)], METAL, INK, 3)
    canvas.polygon(
        [(x - 5, floor - 66), (x + 6, floor - 80), (x + 44, floor - 80), (x + 55, floor - 66)], SHADE, INK, 3
    )
    canvas.rect(x + 20, floor - 86, 10, 6, INK)


def extinguisher(canvas: Canvas, x: float, y: float) -> None:
    """A fire extinguisher on the wall."""
    canvas.rect(x, y, 24, 58, "#D55E00", INK, 3, round=8)
    canvas.rect(x + 7, y - 12, 10, 12, METAL)
    canvas.polyline(smooth([(x + 17, y - 8), (x + 34, y + 4), (x + 34, y + 34)]), INK, 4)


def chock(canvas: Canvas, x: float, floor: float, *, facing: int = 1) -> None:
    """A wheel chock, its steep side towards the wheel."""
    canvas.polygon(
        [
            (x, floor),
            (x + 26 * facing, floor),
            (x + 26 * facing, floor - 4),
            (x + 3 * facing, floor - 22),
            (x, floor - 22),
        ],
        ORANGE,
        INK,
        3,
    )


def tag(canvas: Canvas, x: float, y: float, rows: Sequence[str], width: float = 132) -> None:
    """A tag with rows of words."""
    canvas.rect(x, y, width, 12 + 21 * len(rows), WHITE, INK, 2, round=4)
    for i, row in enumerate(rows):
        canvas.text(x + width / 2, y + 22 + 21 * i, row, 16)


def lamp(canvas: Canvas, x: float, floor: float) -> None:
    """A lamp on its stand."""
    canvas.line((x, floor - 92), (x, floor - 12), INK, 4)
    canvas.line((x, floor - 14), (x - 20, floor), INK, 4)
    canvas.line((x, floor - 14), (x + 20, floor), INK, 4)
    canvas.rect(x - 22, floor - 120, 44, 28, WHITE, INK, 3, round=5)


def number(canvas: Canvas, at: Point, letter: str) -> None:
    """The letter by which a place is called."""
    canvas.circle(at, 15, WHITE, INK, 3)
    canvas.text(at[0], at[1] + 7, letter, 19, bold=True)
