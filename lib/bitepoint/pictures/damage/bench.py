"""What a fitter finds on the bench: ten parts, each sound or damaged, one drawn large or several side by side."""

from collections.abc import Callable, Sequence

from msgspec import structs

from bitepoint.pictures.bays.parts import number
from bitepoint.pictures.canvas import PALE, SHADE, WHITE, Canvas, Point
from bitepoint.pictures.damage import faces
from bitepoint.pictures.damage import parts as parts_drawn
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import choice
from bitepoint.workshop.damage import check_bench
from bitepoint.workshop.damage import damage as parts_known
from bitepoint.workshop.scenes import LETTERS

DRAWN: dict[str, Callable[[Canvas, bool], Shape]] = {
    "hot-spots": faces.hot_spots,
    "heat-cracks": faces.heat_cracks,
    "oil-on-facing": parts_drawn.oil_on_facing,
    "worn-rivets": parts_drawn.worn_rivets,
    "bent-fingers": parts_drawn.bent_fingers,
    "worn-splines": parts_drawn.worn_splines,
    "leaking-seal": parts_drawn.leaking_seal,
    "torn-mount": parts_drawn.torn_mount,
    "worn-guide-tube": parts_drawn.worn_guide_tube,
    "bent-dowel": parts_drawn.bent_dowel,
}
"""How each kind of damage is drawn: on a canvas, sound or not; what is seen stands in the workshop's data."""

_LARGE, _ASIDE = 0.82, 65.0
_WIDE, _HIGH, _SCALE, _CUT = 344.0, 184.0, 0.4, 58.0


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


@picture("damage")
def damage(*, what: str = "hot-spots", ok: bool = False) -> Drawing:
    """One part as found on the bench; `ok` draws it sound. The words in the picture name the part, not the finding."""
    choice("what", what, tuple(DRAWN))
    part = parts_known()[what]
    canvas, large = Canvas(344), Canvas(430)
    spot = DRAWN[what](large, ok)
    canvas.inset(large, _ASIDE, -8, _LARGE)
    canvas.text(20, 28, _capital(part.name), 20, anchor="start", bold=True)
    x, y, *sizes = spot.points
    points = (_ASIDE + x * _LARGE, y * _LARGE - 8, *(size * _LARGE for size in sizes))
    return canvas.drawing(
        alt=_capital(part.seen(damaged=not ok)),
        caption="As found.",
        regions=(structs.replace(spot, points=points),),
    )


class Wordless(Canvas):
    """A canvas that drops its words: drawn small they could not be read."""

    def text(self, x: float, y: float, words: str, size: float = 18, **_: object) -> None:
        """Drop the words."""

    def boxed(self, x: float, y: float, words: str, size: float) -> None:
        """Drop the words and their box."""

    def pointed(self, x: float, y: float, words: str, to: Point, size: float = 18) -> None:
        """Drop the words and their line."""


@picture("parts-bench")
def parts_bench(
    *,
    parts: Sequence[str] = ("hot-spots", "oil-on-facing", "worn-splines", "torn-mount"),
    damaged: Sequence[str] = (),
) -> Drawing:
    """Two to six parts side by side, lettered; `damaged` names those that are not drawn sound.

    Raises
    ------
    BadInput
        A part is unknown, lies there twice, or is damaged without lying there.
    """
    known = check_bench(parts, damaged)
    rows = (len(known) + 1) // 2
    canvas = Canvas(8 + rows * (_HIGH + 8))
    shapes = []
    for i, part in enumerate(known):
        x, y = 8 + (i % 2) * (_WIDE + 16), 8 + (i // 2) * (_HIGH + 8)
        canvas.rect(x, y, _WIDE, _HIGH, WHITE, SHADE, 2, round=6)
        canvas.rect(x + 1, y + 1, _WIDE - 2, 36, PALE, PALE, 0, round=5)
        small = Wordless(430)
        DRAWN[part.id](small, part.id not in damaged)
        canvas.inset(small, x + 28, y + 40 - _CUT * _SCALE, _SCALE)
        at = (x + 22.0, y + 20.0)
        number(canvas, at, LETTERS[i].upper())
        canvas.text(x + 46, y + 26, part.name, 17, anchor="start", bold=True)
        shapes.append(Shape(LETTERS[i], part.name, "rect", (x, y, _WIDE, _HIGH), at))
    told = " ".join(f"{LETTERS[i].upper()}, {p.seen(damaged=p.id in damaged)}" for i, p in enumerate(known))
    return canvas.drawing(
        alt=f"{len(known)} parts on a bench. {told}",
        caption="Parts as found, lettered. What do you see at each?",
        regions=tuple(shapes),
    )
