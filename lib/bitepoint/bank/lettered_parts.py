"""Questions that ask for a part on a picture with letters: point at it, or say what stands at a letter."""

from collections.abc import Mapping, Sequence

from bitepoint.questions.region import Spot
from bitepoint.workshop.part_names import PartName

LETTERS = "abcdefghi"
Bad = Mapping[str, str]
"""Consequence of taking a part, by its key, for the one asked for."""
_ANY = "Called by the wrong name, the wrong part is ordered and the car stays on the lift."


def spots(target: PartName, lettered: Sequence[tuple[str, PartName]], bad: Bad) -> tuple[Spot, ...]:
    """Return the places of a picture; a wrong one says what is really there, and what the mix-up leads to."""
    found = []
    for letter, part in sorted(lettered, key=lambda pair: pair[0]):
        right = part.key == target.key
        leads_to = bad.get(part.key, _ANY)
        found.append(
            Spot(
                letter,
                f"place {letter.upper()}",
                right,
                "" if right else confusion(part.name, target.name),
                "" if right else f"{part.told} {leads_to}",
            )
        )
    return tuple(found)


def confusion(taken: str, asked: str) -> str:
    """Return the name of the mistake."""
    return f"takes the {taken} for the {asked}"
