"""A strip of a sound: time from left to right, what the pedal does, what turns how fast, each beat as high as it is loud."""

from bitepoint.pictures.canvas import BLUE, INK, PALE, SHADE, WHITE, Canvas
from bitepoint.pictures.framing import frame_words
from bitepoint.pictures.registry import Drawing, Sound, picture, sounding
from bitepoint.pictures.strokes import choice
from bitepoint.workshop.listening import Piece, begins, length_s, pieces
from bitepoint.workshop.noises import NoisyPart
from bitepoint.workshop.tones import beats, heard_in_words, sound, tone_parts
from bitepoint.workshop.vehicles import vehicle, vehicles

_LEFT, _A_SECOND, _SPACE = 108.0, 48.0, 8.0
_LINES = ("engine", "input shaft", "wheels")
_PEDAL, _SPEED, _SOUND = 26.0, 32.0, 46.0
_BAND = 34 + _PEDAL + _SPEED * len(_LINES) + _SOUND + 8
_HIGHEST = {"engine": 3400.0, "input shaft": 3400.0, "wheels": 500.0}


@picture("sound-strip")
def sound_strip(*, car: str = "A", part: str = "final-drive-or-wheel") -> Drawing:
    """Eight ways of listening to one car, in two bands, and the beats of one part; the part is not named."""
    run, noisy = _heard(car, part)
    canvas = Canvas(2 * _BAND + 56)
    for band, some in enumerate((run[:4], run[4:])):
        top = 8 + _BAND * band
        _names(canvas, top)
        x = _LEFT
        for number, piece in enumerate(some, start=1 + 4 * band):
            _column(canvas, noisy, piece, number, (x, top))
            x += piece.seconds * _A_SECOND + _SPACE
    canvas.frame(frame_words())
    return canvas.drawing(
        alt=f"Strip of a made-up sound of {vehicle(car).name}, in eight pieces. " + " ".join(_told(noisy, run)),
        caption="Speeds in rpm. Each bar is one beat of four turns; higher is louder.",
    )


@sounding("sound-strip")
def strip_sound(*, car: str = "A", part: str = "final-drive-or-wheel") -> Sound:
    """The same beats, to be heard."""
    run, noisy = _heard(car, part)
    told = tuple(
        (round(begin, 2), f"{i} of {len(run)}: {piece.text}")
        for i, (begin, piece) in enumerate(zip(begins(run), run, strict=True), start=1)
    )
    return Sound(length_s(run), tuple((b.at, b.hz, b.level) for b in sound(noisy, run)), told)


def _heard(car: str, part: str) -> tuple[tuple[Piece, ...], NoisyPart]:
    choice("car", car, tuple(vehicles()))
    known = {noisy.id: noisy for noisy in tone_parts()}
    choice("part", part, tuple(known))
    return pieces(vehicle(car)), known[part]


def _names(canvas: Canvas, top: float) -> None:
    y = top + 34
    for name, high in (("pedal", _PEDAL), *((line, _SPEED) for line in _LINES), ("sound", _SOUND)):
        canvas.text(_LEFT - 8, y + high / 2 + 6, name, 16, anchor="end", bold=name == "sound")
        y += high


def _column(canvas: Canvas, noisy: NoisyPart, piece: Piece, number: int, corner: tuple[float, float]) -> None:
    (x, top), wide = corner, piece.seconds * _A_SECOND
    canvas.text(x + wide / 2, top + 24, f"{number} {piece.head}", 16, bold=True)
    y = top + 34
    canvas.rect(x, y, wide, _PEDAL, PALE, SHADE, 1)
    canvas.text(x + wide / 2, y + _PEDAL / 2 + 6, piece.pedal, 16)
    y += _PEDAL
    for line in _LINES:
        canvas.rect(x, y, wide, _SPEED, WHITE, SHADE, 1)
        _speed(canvas, piece, line, (x, y))
        y += _SPEED
    canvas.rect(x, y, wide, _SOUND, WHITE, SHADE, 1)
    canvas.line((x, y + _SOUND - 4), (x + wide, y + _SOUND - 4), INK, 1)
    for beat in beats(noisy, piece):
        at = x + beat.at * _A_SECOND
        canvas.line((at, y + _SOUND - 4), (at, y + _SOUND - 4 - (_SOUND - 10) * beat.level), INK, 2.5)


def _speed(canvas: Canvas, piece: Piece, line: str, corner: tuple[float, float]) -> None:
    (x, y), first, last = corner, _rpm(piece, line, 0), _rpm(piece, line, piece.seconds)
    moments = [piece.seconds * i / 20 for i in range(21)]
    scale = (_SPEED - 22) / _HIGHEST[line]
    points = [(x + at * _A_SECOND, y + _SPEED - 3 - _rpm(piece, line, at) * scale) for at in moments]
    canvas.polyline(points if first != last else [points[0], points[-1]], BLUE, 2.5)
    words = f"{first:.0f}" if first == last else f"{first:.0f} to {last:.0f}"
    canvas.text(x + piece.seconds * _A_SECOND / 2, y + 15, words, 16)


def _rpm(piece: Piece, line: str, at: float) -> float:
    return {"engine": piece.turning("engine", at), "input shaft": piece.turning("input shaft", at)}.get(
        line, piece.turning("wheels", at)
    )


def _told(noisy: NoisyPart, run: tuple[Piece, ...]) -> list[str]:
    told = []
    for number, piece in enumerate(run, start=1):
        speeds = ", ".join(f"{line} {_way(piece, line)}" for line in _LINES)
        told.append(
            f"Piece {number}, {piece.seconds:g} seconds. {piece.text}: {speeds}. Heard: {heard_in_words(noisy, piece)}."
        )
    return told


def _way(piece: Piece, line: str) -> str:
    first, last = _rpm(piece, line, 0), _rpm(piece, line, piece.seconds)
    return f"{first:.0f} rpm" if first == last else f"{first:.0f} to {last:.0f} rpm"
