"""Which part makes the noise: the workshop's table of noises for one car, as signs that read in grey."""

from bitepoint.pictures.canvas import INK, PALE, SHADE, WHITE, Canvas
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, picture
from bitepoint.pictures.strokes import choice
from bitepoint.workshop.noises import NoisyPart, noises, noisy_parts
from bitepoint.workshop.vehicles import vehicle, vehicles

_HEADS = {
    "up": ("idle", "up"),
    "resting": ("idle", "touch"),
    "down": ("idle", "down"),
    "down-in-gear": ("first", "down"),
    "driving": ("drive", "up"),
    "coasting": ("coast", "up"),
    "start-stop": ("start,", "stop"),
    "pedal-moving": ("engine", "off"),
}
_QUIET, _WEAK, _LOUD, _MORE = range(4)
_SIGNS = {
    "quiet": (_QUIET, ""),
    "noise": (_LOUD, ""),
    "squeak": (_LOUD, ""),
    "clack": (_LOUD, ""),
    "deep knock": (_LOUD, ""),
    "louder": (_MORE, "+"),
    "louder still": (_MORE, "++"),
    "less": (_WEAK, ""),
    "fades, then gone": (_WEAK, ""),
    "faint, comes as the shaft runs down": (_WEAK, ""),
    "with engine speed": (_LOUD, "E"),
    "with road speed": (_LOUD, "R"),
    "at low engine speed only": (_WEAK, "L"),
}
"""How each sound of the table is drawn: how full the circle is, and the letter beside it."""
_LEGEND = (
    ((_LOUD, ""), "noise"),
    ((_WEAK, ""), "weaker, or fades"),
    ((_QUIET, ""), "quiet"),
    ((_MORE, "+"), "louder"),
)
_LEFT, _STEP, _ROW, _TOP = 250.0, 62.0, 52.0, 92.0


@picture("noise-table")
def noise_table(*, car: str = "A") -> Drawing:
    """What is heard of each part of one car in each way of listening."""
    choice("car", car, tuple(vehicles()))
    parts = noisy_parts(vehicle(car))
    bottom = _TOP + _ROW * len(parts)
    canvas = Canvas(bottom + 130)
    for i, heads in enumerate(_HEADS.values()):
        for line, word in enumerate(heads):
            canvas.text(_LEFT + _STEP * i, 34 + 24 * line, word, 16, bold=line == 1)
    for row, part in enumerate(parts):
        _row(canvas, part, _TOP + _ROW * row, shaded=row % 2 == 0)
    for x, (sign, word) in zip((32.0, 150.0, 370.0, 510.0), _LEGEND, strict=True):
        _sign(canvas, x, bottom + 24, *sign)
        canvas.text(x + (36 if sign[1] else 18), bottom + 30, word, 16, anchor="start")
    canvas.text(20, bottom + 62, "E with engine speed · R with road speed · L at low engine speed", 16, anchor="start")
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=f"Table of noises of {vehicle(car).name}, engine warm. " + " ".join(_told(part) for part in parts),
        caption=f"Training vehicle {car}: what is heard of each part. Heads: what the car does, then the pedal.",
    )


def _row(canvas: Canvas, part: NoisyPart, top: float, *, shaded: bool) -> None:
    canvas.rect(10, top - 26, 700, _ROW, PALE if shaded else WHITE, SHADE, 1)
    lines = _lines(part.text.partition(":")[0])
    for line, words in enumerate(lines):
        canvas.text(20, top + 17 - 11 * len(lines) + 21 * line, words, 17, anchor="start", bold=True)
    for i, position in enumerate(_HEADS):
        if part.heard[position]:
            _sign(canvas, _LEFT + _STEP * i, top, *_SIGNS[part.heard[position]])
        else:
            canvas.text(_LEFT + _STEP * i, top + 6, "–", 18)


def _lines(words: str) -> tuple[str, ...]:
    """Return the name of a part in at most two lines of about 20 letters."""
    if len(words) <= 20:
        return (words,)
    cut = words.rfind(" ", 0, 21)
    return words[:cut], words[cut + 1 :]


def _sign(canvas: Canvas, x: float, y: float, full: int, letter: str) -> None:
    """A circle: empty is quiet, half is weak, full is noise, full in a ring is louder; a letter says what it goes with."""
    x -= 9 if letter else 0
    if full == _MORE:
        canvas.circle((x, y), 14, WHITE, INK, 2)
    canvas.circle((x, y), 10, INK if full in (_LOUD, _MORE) else WHITE, INK, 2)
    if full == _WEAK:
        canvas.polygon([(x - 10, y), (x + 10, y), (x + 7, y + 7), (x, y + 10), (x - 7, y + 7)], INK)
    if letter:
        canvas.text(x + (17 if full == _MORE else 14), y + 6, letter, 17, anchor="start", bold=True)


def _told(part: NoisyPart) -> str:
    texts = {position.id: position.text for position in noises().positions}
    heard = "; ".join(f"{texts[key]}: {part.heard[key] or 'not known'}" for key in _HEADS)
    return f"{part.text.partition(':')[0]}: {heard}."
