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

_WIDE, _DRAWN, _WORDS, _SCALE, _CUT = 344.0, 172.0, 72.0, 0.47, 58.0
_HIGH = 40 + _DRAWN + _WORDS


@picture("sound-beside-damaged")
def sound_beside_damaged(*, parts: Sequence[str] = ("oil-on-facing", "torn-mount")) -> Drawing:
    """One to three parts, each drawn sound on the left and damaged on the right.

    Raises
    ------
    OutOfRange
        None, more than three, one of them twice or one that is not known.
    """
    if not 1 <= len(set(parts)) == len(parts) <= 3:
        raise OutOfRange("parts", "one to three different ones", ", ".join(parts) or "none", "Name them once each.")
    for part in parts:
        choice("part", part, tuple(DRAWN))
    canvas = Canvas(8 + len(parts) * (_HIGH + 10))
    for row, part in enumerate(parts):
        for column, ok in enumerate((True, False)):
            _tile(canvas, parts_known()[part], 8 + column * (_WIDE + 16), 8 + row * (_HIGH + 10), ok=ok)
    told = " ".join(f"{p.name}: sound, {p.sound}; damaged, {p.damaged}." for p in (parts_known()[id] for id in parts))
    return canvas.drawing(
        alt=f"Each part drawn twice, sound on the left, damaged on the right. {told}",
        caption="Left sound, right damaged. Cover the words first: what is different?",
    )


def _tile(canvas: Canvas, part: Damage, x: float, y: float, *, ok: bool) -> None:
    canvas.rect(x, y, _WIDE, _HIGH, WHITE, SHADE, 2, round=6)
    canvas.rect(x + 1, y + 1, _WIDE - 2, 36, PALE, PALE, 0, round=5)
    small = Wordless(430)
    DRAWN[part.id](small, ok)
    canvas.inset(small, x + 3, y + 42 - _CUT * _SCALE, _SCALE)
    canvas.text(x + 14, y + 26, part.name[0].upper() + part.name[1:], 16, anchor="start", bold=True)
    told = f"Sound: {part.sound}" if ok else f"Damaged: {part.damaged}"
    for line, words in enumerate(wrap(told, 36)):
        canvas.text(x + 14, y + 40 + _DRAWN + 20 + 21 * line, words, 16, anchor="start")
