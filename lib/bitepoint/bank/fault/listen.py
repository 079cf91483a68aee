"""Lesson 3, finding the fault: a made-up tone, which part it stands for and which shaft it follows."""

from typing import Any

from msgspec import structs

from bitepoint.bank.fault.outcomes import DECIDES
from bitepoint.bank.registry import exercise
from bitepoint.questions.choice import Choice, Option
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Picture
from bitepoint.workshop.datafiles import once_a_set
from bitepoint.workshop.listening import Piece, pieces
from bitepoint.workshop.noises import NoisyPart, Shaft, noisy_parts
from bitepoint.workshop.tones import TURNS_A_BEAT, heard_in_words, level_at, tone_parts
from bitepoint.workshop.vehicles import Vehicle, vehicle

_MADE_UP = "The tone is made up: no real bearing sounds just like this. When it comes and what it follows is true."
_FOLLOWS: dict[Shaft, str] = {
    "engine": "The engine: with its speed, also while the input shaft stands still",
    "input shaft": "The input shaft: with the engine, and running down under the foot",
    "difference": "The difference of the two: only while engine and input shaft differ",
    "wheels": "The wheels: with road speed, whatever the pedal and the engine do",
}
_TURNS: dict[Shaft, str] = {
    "engine": "the engine turns at",
    "input shaft": "the input shaft turns at",
    "difference": "engine and input shaft differ by",
    "wheels": "the wheels turn at",
}
_MOMENT_S = 1.0
"""Into a piece: with the pedal down the input shaft has lost a third then, so that each of the four has a speed of its own."""


@exercise("fault.listen", lesson="fault", title="Listen: which part is it?", outcome=DECIDES, minutes=3, beyond=True)
def listen(draw: Draw) -> Choice:
    asked = _which_part(*_case(draw))
    return structs.replace(asked, options=tuple(draw.shuffle(asked.options)))


@once_a_set
def _which_part(letter: str, heard: str) -> Choice:
    """Return the question about a car and the part that is heard on it, its options in the order of the table."""
    car, case = vehicle(letter), _noisy(heard)
    run = pieces(car)
    return Choice(
        ask=(
            f"{car.opening}, engine warm. Play the noise or read the strip: which part does it stand for?\n{_MADE_UP}"
        ),
        options=tuple(_part(part, case, car, run) for part in _one_of_each_name(car)),
        why=f"{case.text}: {case.because}.",
        step="In which pieces is it silent? Strike out every part that would be heard there.",
        solution="\n".join(_heard(case, run)) + f"\n{case.text}.",
        **_shown(car, case, run),
    )


@exercise(
    "fault.listen-shaft", lesson="fault", title="Listen: which shaft does it follow?", outcome=DECIDES, minutes=3,
    beyond=True,
)  # fmt: skip
def listen_shaft(draw: Draw) -> Choice:
    asked = _which_shaft(*_case(draw, further=1))
    return structs.replace(asked, options=tuple(draw.shuffle(asked.options)))


@once_a_set
def _which_shaft(letter: str, heard: str) -> Choice:
    """Return the question about a car and the part that is heard on it, its options as listed above."""
    car, case = vehicle(letter), _noisy(heard)
    run = pieces(car)
    return Choice(
        ask=(f"{car.opening}, engine warm. Play the noise or read the strip: which shaft does it follow?\n{_MADE_UP}"),
        options=tuple(_shaft(shaft, case, run) for shaft in _FOLLOWS),
        why=f"{_FOLLOWS[case.shaft]}. {case.text}: {case.because}.",
        step=f"Take a piece in which you hear it. Beats a second × {TURNS_A_BEAT} × 60 give rpm: what turns at that speed?",
        solution=_worked(case, run) + f".\n{_FOLLOWS[case.shaft]}.",
        **_shown(car, case, run),
    )


def _case(draw: Draw, *, further: int = 0) -> tuple[str, str]:
    """Return the car and the next part of this learner's row; counted from one place in both questions, so that they never share it."""
    letter = draw.vehicle().id
    cases = _cases(letter)
    return letter, cases[(draw.story().form(len(cases)) + draw.turn - 1 + further) % len(cases)]


@once_a_set
def _cases(letter: str) -> tuple[str, ...]:
    return tuple(part.id for part in noisy_parts(vehicle(letter)) if part.shaft)


def _noisy(name: str) -> NoisyPart:
    return next(part for part in noisy_parts() if part.id == name)


def _shown(car: Vehicle, case: NoisyPart, run: tuple[Piece, ...]) -> dict[str, Any]:
    """Return what both questions show: the strip, and in words what is heard in each piece."""
    rows = ((str(i), piece.text, heard_in_words(case, piece)) for i, piece in enumerate(run, start=1))
    return {
        "table": (("No.", "What the car does", "What you hear"), *rows),
        "table_under": "The strip in words: what you hear in each piece",
        "picture": Picture("sound-strip", {"car": car.id, "part": case.id}),
        "source": case.source,
        "vehicle": car.id,
        "form": case.id,
    }


def _one_of_each_name(car: Vehicle) -> list[NoisyPart]:
    """Return a part for each name of the table, this car's own where it has one: everybody chooses from the same names."""
    own = {part.text: part for part in noisy_parts(car)}
    return [own.get(text, part) for text, part in {part.text: part for part in tone_parts()}.items()]


def _part(part: NoisyPart, case: NoisyPart, car: Vehicle, run: tuple[Piece, ...]) -> Option:
    if part.id == case.id:
        return Option(part.text, True, key=part.text.casefold())
    piece = next(p for p in run if heard_in_words(part, p) != heard_in_words(case, p))
    fitted = "" if part in noisy_parts(car) else "This car has none. "
    says = (
        f"{fitted}{piece.text}: of this part you would hear {heard_in_words(part, piece)}. Of this car you hear "
        f"{heard_in_words(case, piece)}.\nChanged all the same, the noise stays and the work was for nothing."
    )
    return Option(part.text, False, f"blames: {part.text}", says, key=part.text.casefold())


def _shaft(shaft: Shaft, case: NoisyPart, run: tuple[Piece, ...]) -> Option:
    if shaft == case.shaft:
        return Option(_FOLLOWS[shaft], True, key=shaft)
    piece = next(p for p in run if _is_heard(case, p) and abs(_rpm(shaft, p) - _rpm(case.shaft, p)) > 100)
    says = (
        f"{piece.text}, after {_MOMENT_S:g} second: {_TURNS[shaft]} {_rpm(shaft, piece):.0f} rpm. {_counted(case, piece)}, "
        "so it follows something else.\nA bearing sought on the wrong shaft is not found, and the gearbox came out for nothing."
    )
    return Option(_FOLLOWS[shaft], False, f"takes it to follow: {shaft}", says, key=shaft)


def _worked(case: NoisyPart, run: tuple[Piece, ...]) -> str:
    """Work out one piece in which the shaft has a speed that nothing else has, if there is one."""
    heard = [piece for piece in run if _is_heard(case, piece)]
    piece = max(heard, key=lambda p: min(abs(_rpm(s, p) - _rpm(case.shaft, p)) for s in _FOLLOWS if s != case.shaft))
    return (
        f"{piece.text}, after {_MOMENT_S:g} second: {_counted(case, piece)}.\n"
        f"At that moment {_TURNS[case.shaft]} {_rpm(case.shaft, piece):.0f} rpm"
    )


def _counted(case: NoisyPart, piece: Piece) -> str:
    rpm = _rpm(case.shaft, piece)
    return f"{rpm / 60 / TURNS_A_BEAT:.1f} beats a second of four turns each make about {rpm:.0f} rpm"


def _rpm(shaft: Shaft, piece: Piece) -> float:
    return piece.turning(shaft, _MOMENT_S)


def _is_heard(case: NoisyPart, piece: Piece) -> bool:
    return level_at(case, piece, _MOMENT_S) > 0


def _heard(case: NoisyPart, run: tuple[Piece, ...]) -> list[str]:
    return [f"{piece.text}: {heard_in_words(case, piece)}." for piece in run]
