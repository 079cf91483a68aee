"""A part drawn twice, sound beside damaged, with a ring round the place and the sign in words below."""

from textwrap import wrap

from bitepoint.pictures.canvas import GREEN, INK, VERMILLION, Canvas
from bitepoint.pictures.damage.bench import DRAWN, Wordless
from bitepoint.pictures.registry import Drawing, Shape, picture
from bitepoint.pictures.strokes import choice
from bitepoint.workshop.damage import damage as parts_known

_SCALE, _TOP, _LETTERS = 0.49, 14.0, 33
_PLACES: tuple[tuple[float, bool], ...] = ((0.0, True), (366.0, False))


def _capital(words: str) -> str:
    return words[0].upper() + words[1:]


@picture("damage-pair")
def damage_pair(*, what: str = "leaking-seal") -> Drawing:
    """One part sound and damaged side by side, for a lesson to name the sign; an exercise shows one alone."""
    choice("what", what, tuple(DRAWN))
    part = parts_known()[what]
    canvas = Canvas(336)
    canvas.text(20, 30, _capital(part.name), 21, anchor="start", bold=True)
    rings = []
    for left, sound in _PLACES:
        one = Wordless(430)
        spot = DRAWN[what](one, sound)
        x, y, width, height = spot.points
        one.rect(x - 8, y - 8, width + 16, height + 16, "none", GREEN if sound else VERMILLION, 7, round=26)
        canvas.inset(one, left, _TOP, _SCALE)
        _told(canvas, left, part.sound if sound else part.damaged, sound=sound)
        rings.append((left + x * _SCALE, _TOP + y * _SCALE, width * _SCALE, height * _SCALE))
    canvas.line((360, 44), (360, 326), INK, 2, dash="10 6")
    return canvas.drawing(
        alt=f"{_capital(part.name)}, twice. Left, sound: {part.sound}. Right, damaged: {part.damaged}.",
        caption=f"Left as it is: {part.does}.",
        regions=tuple(Shape(key, key, "rect", ring) for key, ring in zip(("sound", "damaged"), rings, strict=True)),
    )


def _told(canvas: Canvas, left: float, seen: str, *, sound: bool) -> None:
    colour = GREEN if sound else VERMILLION
    canvas.rect(left + 16, 236, 20, 20, "none", colour, 5, round=7)
    canvas.text(left + 46, 254, "SOUND" if sound else "DAMAGED", 20, anchor="start", bold=True)
    canvas.lines(left + 16, 286, wrap(_capital(seen), _LETTERS), 18, anchor="start")
