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

_SCALE_TO, _CUT, _GAP = 732.0, 58.0, 10.0
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
    for part in parts:
        choice("part", part, tuple(DRAWN))
    across = 3 if len(parts) == 3 else 2
    wide = (704 - _GAP * (across - 1)) / across
    high = 40 + wide / 2 + (64 if across == 2 else 92)  # room for three lines of words, or for four
    canvas = Canvas(8 + (2 if across == 3 else len(parts)) * (high + _GAP))
    for i, part in enumerate(parts):
        for j, ok in enumerate((True, False)):
            column, row = (i, j) if across == 3 else (j, i)
            _tile(canvas, parts_known()[part], (8 + column * (wide + _GAP), 8 + row * (high + _GAP), wide, high), ok=ok)
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


def _tile(canvas: Canvas, part: Damage, place: tuple[float, float, float, float], *, ok: bool) -> None:
    x, y, wide, high = place
    scale = wide / _SCALE_TO
    canvas.rect(x, y, wide, high, WHITE, SHADE, 2, round=6)
    canvas.rect(x + 1, y + 1, wide - 2, 32, PALE, PALE, 0, round=5)
    small = Wordless(430)
    DRAWN[part.id](small, ok)
    canvas.inset(small, x + 3, y + 38 - _CUT * scale, scale)
    canvas.text(x + 10, y + 23, _short(part.name), 16, anchor="start", bold=True)
    told = f"Sound: {part.sound}" if ok else f"Damaged: {part.damaged}"
    for line, words in enumerate(wrap(told, int(wide / 9.4))):
        canvas.text(x + 10, y + 38 + wide / 2 + 18 + 20 * line, words, 16, anchor="start")
