"""Which part makes the noise: the workshop's table of noises for one or two cars, as signs that read in grey."""

from collections.abc import Sequence

from bitepoint.errors import OutOfRange
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
_LEFT, _STEP, _ROW, _TOP = 250.0, 62.0, 42.0, 84.0


@picture("noise-table")
def noise_table(*, cars: Sequence[str] = ("A", "B")) -> Drawing:
    """What is heard of each part in each way of listening; a row that differs between the cars stands once for each.

    Raises
    ------
    OutOfRange
        None, more than two, the same one twice or one that there is not.
    """
    if not 1 <= len(set(cars)) == len(cars) <= 2:
        raise OutOfRange("cars", "one or two different ones", ", ".join(cars) or "none", "Name them once each.")
    for car in cars:
        choice("car", car, tuple(vehicles()))
    rows = _rows(cars)
    bottom = _TOP + _ROW * len(rows) - 8
    canvas = Canvas(bottom + 108)
    for i, heads in enumerate(_HEADS.values()):
        for line, word in enumerate(heads):
            canvas.text(_LEFT + _STEP * i, 34 + 24 * line, word, 16, bold=line == 1)
    for row, (words, part) in enumerate(rows):
        _row(canvas, words, part, _TOP + _ROW * row, shaded=row % 2 == 0)
    for x, (sign, word) in zip((32.0, 150.0, 370.0, 510.0), _LEGEND, strict=True):
        _sign(canvas, x, bottom + 18, *sign)
        canvas.text(x + (36 if sign[1] else 18), bottom + 24, word, 16, anchor="start")
    canvas.text(20, bottom + 52, "E with engine speed · R with road speed · L at low engine speed", 16, anchor="start")
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=f"Table of noises of {' and '.join(vehicle(car).name for car in cars)}, engine warm. "
        + " ".join(_told(words, part) for words, part in rows),
        caption="Heads: what the car does, then the pedal.",
    )


def _rows(cars: Sequence[str]) -> list[tuple[str, NoisyPart]]:
    """Return name and part of each row. Where two cars have different parts of one name, the name says how each is released."""
    found = {part.id: (part, car) for car in reversed(cars) for part in noisy_parts(vehicle(car))}
    names = [part.text.partition(":")[0] for part, _ in found.values()]
    rows = []
    for part in (part for part in noisy_parts() if part.id in found):
        words = part.text.partition(":")[0]
        by = "cable" if vehicle(found[part.id][1]).release.master_bore_mm is None else "fluid"
        rows.append((f"{words}, {by}" if names.count(words) > 1 else words, part))
    return rows


def _row(canvas: Canvas, words: str, part: NoisyPart, top: float, *, shaded: bool) -> None:
    canvas.rect(10, top - _ROW / 2, 700, _ROW, PALE if shaded else WHITE, SHADE, 1)
    lines = _lines(words)
    for line, written in enumerate(lines):
        canvas.text(20, top + 17 - 11 * len(lines) + 21 * line, written, 17, anchor="start", bold=True)
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


def _told(words: str, part: NoisyPart) -> str:
    texts = {position.id: position.text for position in noises().positions}
    heard = "; ".join(f"{texts[key]}: {part.heard[key] or 'not known'}" for key in _HEADS)
    return f"{words}: {heard}."
