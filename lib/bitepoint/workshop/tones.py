"""A made-up tone for a noisy part: when it sounds stands in the noise table, how fast it beats in the car's data sheet.

No real bearing sounds like this. What is true of it is with which pedal and gear it comes and goes, and which shaft its
beat and its pitch follow.
"""

from collections.abc import Callable
from typing import NamedTuple

from bitepoint.errors import BadData
from bitepoint.workshop.listening import Piece, begins
from bitepoint.workshop.noises import NoisyPart, noises

TURNS_A_BEAT = 4
"""One beat in so many turns: one a turn would be too fast to be counted."""
HZ_PER_TURN = 32
_STEP_S = 0.002
_FAINTEST = 0.02
_CLEAR, _FAINT = 0.5, 0.3


class Beat(NamedTuple):
    """One beat of the sound: when [s], its pitch [Hz], how loud (0 to 1)."""

    at: float
    hz: float
    level: float


def tone_parts() -> tuple[NoisyPart, ...]:
    """Parts of the table that have a steady tone: what follows no one shaft has no part in this."""
    return tuple(part for part in noises().parts if part.shaft)


def level_at(part: NoisyPart, piece: Piece, at: float) -> float:
    """How loud the part is at a moment of a piece, 0 to 1, from the word of the table.

    Raises
    ------
    BadData
        The table says it in a word that has no loudness here.
    """
    word = part.heard[piece.position]
    if word not in _LOUDNESS:
        raise BadData(f"{word!r} has no loudness. Use one of {', '.join(_LOUDNESS)}.")
    running = piece.turning("input shaft", at) / piece.turning("engine", at)
    return _LOUDNESS[word](running)


def beats(part: NoisyPart, piece: Piece) -> tuple[Beat, ...]:
    """Beats of a part in one piece, counted from its begin: one in each four turns of the shaft it follows."""
    found, turned = [], TURNS_A_BEAT / 2
    for step in range(round(piece.seconds / _STEP_S)):
        at = step * _STEP_S
        a_second = piece.turning(part.shaft, at) / 60
        turned += a_second * _STEP_S
        if turned >= TURNS_A_BEAT:
            turned -= TURNS_A_BEAT
            loud = level_at(part, piece, at)
            if loud >= _FAINTEST:
                found.append(Beat(round(at, 3), round(a_second * HZ_PER_TURN, 1), round(loud, 2)))
    return tuple(found)


def sound(part: NoisyPart, run: tuple[Piece, ...]) -> tuple[Beat, ...]:
    """Beats of all pieces in one row."""
    return tuple(
        Beat(round(begin + beat.at, 3), beat.hz, beat.level)
        for begin, piece in zip(begins(run), run, strict=True)
        for beat in beats(part, piece)
    )


def heard_in_words(part: NoisyPart, piece: Piece) -> str:
    """What is heard in one piece, as beats a second and loudness, for who cannot hear it."""
    first, last = ((piece.turning(part.shaft, at), level_at(part, piece, at)) for at in (0.0, piece.seconds))
    if max(first[1], last[1]) < _FAINTEST:
        return "nothing"
    fast, slow = (f"{rpm / 60 / TURNS_A_BEAT:.1f}" for rpm, _ in (first, last))
    if last[0] == 0:
        return f"{fast} beats a second, {_word(first[1])}; slower, deeper and fainter, then nothing"
    if first[0] == 0:
        return f"nothing at first; then faint and rising to {slow} beats a second"
    if fast == slow:
        return f"{fast} beats a second, {_word(last[1])}"
    way = "faster and higher up" if last[0] > first[0] else "slower and deeper down"
    return f"{fast} beats a second, {way} to {slow}, {_word(last[1])}"


_LOUDNESS: dict[str, Callable[[float], float]] = {
    "quiet": lambda running: 0.0,
    "noise": lambda running: _CLEAR,
    "with engine speed": lambda running: _CLEAR,
    "with road speed": lambda running: _CLEAR,
    "louder": lambda running: 0.75,
    "louder still": lambda running: 1.0,
    "fades, then gone": lambda running: _CLEAR * running,
    "faint, comes as the shaft runs down": lambda running: _FAINT * (1 - running),
}
"""How loud each word of the table is; `running` is the speed of the input shaft as a share of the engine's."""


def _word(level: float) -> str:
    return "clear" if level <= _CLEAR else "louder" if level < 1 else "loudest"
