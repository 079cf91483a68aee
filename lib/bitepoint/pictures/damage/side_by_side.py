"""Up to three parts, each twice: sound beside damaged, with the sign that tells them apart named below."""

from collections.abc import Sequence
from textwrap import wrap

from bitepoint.errors import OutOfRange
from bitepoint.pictures.canvas import PALE, SHADE, WHITE, Canvas
from bitepoint.pictures.damage.bench import DRAWN, Wordless
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import choice
from bitepoint.workshop.damage import Damage
from bitepoint.workshop.damage import damage as parts_known

_SCALE_TO, _CUT, _GAP, _LINE = 732.0, 58.0, 10.0, 20.0
"""How wide a tile must be for its drawing to stand in it as large as it was drawn, and what of its top is cut off."""


@picture("sound-beside-damaged")
def sound_beside_damaged(*, parts: Sequence[str] = ("oil-on-facing", "torn-mount")) -> Drawing:
    """One to three parts, each drawn sound and damaged: beside each other, three parts as columns with sound above.

    Raises
    ------
    OutOfRange
        None, more than three, one of them twice or one that is not known.
    """
    if not 1 <= len(set(parts)) == len(parts) <= 3:
        raise OutOfRange("parts", "one to three different ones", ", ".join(parts) or "none", "Name them once each.")
    for name in parts:
        choice("part", name, tuple(DRAWN))
    across = 3 if len(parts) == 3 else 2
    wide = (704 - _GAP * (across - 1)) / across
    pairs = [(parts_known()[part], ok) for part in parts for ok in (True, False)]
    rows = [pairs[::2], pairs[1::2]] if across == 3 else [pairs[i : i + 2] for i in range(0, len(pairs), 2)]
    highs = [44 + wide / 2 + _LINE * max(len(_told(*each, wide)) for each in row) for row in rows]
    canvas = Canvas(8 + sum(high + _GAP for high in highs))
    y = 8.0
    for row, high in zip(rows, highs, strict=True):
        for column, (part, ok) in enumerate(row):
            _tile(canvas, part, (8 + column * (wide + _GAP), y, wide, high), ok=ok)
        y += high + _GAP
    where = ("above", "below") if across == 3 else ("on the left", "on the right")
    told = " ".join(f"{p.name}: sound, {p.sound}; damaged, {p.damaged}." for p in (parts_known()[id] for id in parts))
    return canvas.drawing(
        alt=f"Each part drawn twice, sound {where[0]}, damaged {where[1]}. {told}",
        caption="Cover the words first: what is different?",
    )


def _short(name: str) -> str:
    """Return the name of a part as a heading, without "of a …" behind it: the drawing shows of what."""
    words = name.partition(" of ")[0]
    return words[0].upper() + words[1:]


def _told(part: Damage, ok: bool, wide: float) -> list[str]:
    return wrap(f"Sound: {part.sound}" if ok else f"Damaged: {part.damaged}", int(wide / 9.4))


def _tile(canvas: Canvas, part: Damage, place: tuple[float, float, float, float], *, ok: bool) -> None:
    x, y, wide, high = place
    scale = wide / _SCALE_TO
    canvas.rect(x, y, wide, high, WHITE, SHADE, 2, round=6)
    canvas.rect(x + 1, y + 1, wide - 2, 32, PALE, PALE, 0, round=5)
    small = Wordless(430)
    DRAWN[part.id](small, ok)
    canvas.inset(small, x + 3, y + 38 - _CUT * scale, scale)
    canvas.text(x + 10, y + 23, _short(part.name), 16, anchor="start", bold=True)
    for line, words in enumerate(_told(part, ok, wide)):
        canvas.text(x + 10, y + 38 + wide / 2 + 18 + _LINE * line, words, 16, anchor="start")
