"""Which part makes the noise: by when it sounds; and what to try next so that the fewest trials give a sure answer."""

from collections.abc import Mapping
from pathlib import Path
from typing import Literal

from bitepoint.errors import BadData
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.fitted import Only, applies
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_sources, check_unique, read_toml
from bitepoint.workshop.vehicles import Vehicle

Parts = frozenset[str]
Shaft = Literal["", "engine", "input shaft", "difference", "wheels"]
"""What the noise of a part follows; difference: of engine and input shaft; none where it has no steady tone."""


class Position(StrictStruct, frozen=True, kw_only=True):
    """When one listens: pedal, gear, what the car does."""

    id: str
    text: str


class NoisyPart(StrictStruct, frozen=True, kw_only=True):
    """A part and what is heard of it at each position; an empty text means that it is not known."""

    id: str
    text: str
    because: str
    heard: dict[str, str]
    only: Only = ""
    shaft: Shaft = ""
    source: str = "common-practice"


class Noises(WholeFile, frozen=True, kw_only=True):
    """The noise table."""

    positions: tuple[Position, ...]
    parts: tuple[NoisyPart, ...]


def read_noises(path: Path) -> Noises:
    """Read the noise table.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    read = read_toml(path, Noises, what="noise table")
    check_unique(path, "positions id", [position.id for position in read.positions])
    check_unique(path, "parts id", [part.id for part in read.parts])
    check_sources(path, [(f"{part.id} source", part.source) for part in read.parts])
    columns = [position.id for position in read.positions]
    for part in read.parts:
        if sorted(part.heard) != sorted(columns):
            raise broken(path, f"{part.id} heard", f"must have one entry for each of {', '.join(columns)}")
    return read


@once_a_set
def noises() -> Noises:
    """Return the noise table."""
    return read_noises(data_files().path("noises.toml"))


def noisy_parts(v: Vehicle | None = None) -> tuple[NoisyPart, ...]:
    """Parts of the noise table, on one vehicle only those it has."""
    return tuple(part for part in noises().parts if v is None or applies(part.only, v))


def possible_parts(heard: Mapping[str, str], v: Vehicle | None = None) -> tuple[NoisyPart, ...]:
    """Parts that agree with everything heard so far: position id to what was heard there.

    Raises
    ------
    BadData
        No such position, or nothing in the table sounds like that there.
    """
    for position, sound in heard.items():
        if sound not in sounds_at(position, v):
            told = f"{sound!r} is not in the noise table for {position!r}."
            raise BadData(f"{told} Choose one of {', '.join(sounds_at(position, v))}.")
    return tuple(part for part in noisy_parts(v) if all(part.heard[p] in (sound, "") for p, sound in heard.items()))


def sounds_at(position: str, v: Vehicle | None = None) -> tuple[str, ...]:
    """What may be heard at a position, each once, in the order of the table."""
    if position not in [known.id for known in noises().positions]:
        raise BadData(f"There is no position {position!r}. Choose one of {_positions()}.")
    return tuple(dict.fromkeys(part.heard[position] for part in noisy_parts(v) if part.heard[position]))


def best_next_question(heard: Mapping[str, str], v: Vehicle | None = None) -> Position | None:
    """The position to listen at next: fewest trials in the worst case, then on average, then first in the table.

    None when one part is left, or nothing tells those left apart.
    """
    best = _best(frozenset(part.id for part in possible_parts(heard, v)))
    return None if best is None else next(p for p in noises().positions if p.id == best[2])


def questions_needed(heard: Mapping[str, str], v: Vehicle | None = None) -> int:
    """How many more trials give a sure answer in the worst case, if each next one is the best; 0 when none helps."""
    best = _best(frozenset(part.id for part in possible_parts(heard, v)))
    return 0 if best is None else best[0]


@once_a_set
def _best(parts: Parts) -> tuple[int, float, str] | None:
    """Worst case, sum over the parts, and the position that reaches them; None when no trial splits the parts."""
    found: list[tuple[int, float, int, str]] = []
    for place, position in enumerate(noises().positions):
        groups = _groups(parts, position.id)
        if len(groups) > 1 and all(len(group) < len(parts) for group in groups):
            after = [_best(group) or (0, 0.0, "") for group in groups]
            worst = 1 + max(result[0] for result in after)
            found.append((worst, len(parts) + sum(result[1] for result in after), place, position.id))
    if not found:
        return None
    worst, total, _, name = min(found)
    return worst, total, name


@once_a_set
def _groups(parts: Parts, position: str) -> tuple[Parts, ...]:
    """Parts that stay possible after each sound at a position; a part not known there stays after every sound."""
    cells = {part.id: part.heard[position] for part in noises().parts if part.id in parts}
    sounds = sorted({cell for cell in cells.values() if cell})
    return tuple(frozenset(name for name, cell in cells.items() if cell in (sound, "")) for sound in sounds)


def _positions() -> str:
    return ", ".join(position.id for position in noises().positions)
