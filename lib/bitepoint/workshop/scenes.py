"""Whole workshop bays to look round: every place as it should be or as a hazard, and what each means."""

from collections.abc import Sequence
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_sources, check_unique, read_toml

LETTERS = "abcdefgh"


class Place(StrictStruct, frozen=True, kw_only=True):
    """One place of a bay: what is seen when it is good, and, where it can be a hazard, what is seen then and why."""

    id: str
    name: str
    good: str
    fine: str
    bad: str = ""
    danger: str = ""
    overlooks: str = ""
    hurts: bool = False

    @property
    def can_be_bad(self) -> bool:
        """Whether this place can be drawn as a hazard."""
        return bool(self.bad)


class Scene(StrictStruct, frozen=True, kw_only=True):
    """One bay with its places, lettered in their order."""

    id: str
    title: str
    told: str
    places: tuple[Place, ...]
    source: str = "common-practice"

    def letter(self, id: str) -> str:
        """Return the letter of a place."""
        return LETTERS[[place.id for place in self.places].index(id)]

    def can_be_bad(self) -> tuple[str, ...]:
        """Return the ids of the places that can be hazards, in their order."""
        return tuple(place.id for place in self.places if place.can_be_bad)

    def check(self, wrong: Sequence[str]) -> frozenset[str]:
        """Return the places to be drawn as hazards.

        Raises
        ------
        BadInput
            A place is named that cannot be a hazard here.
        """
        known = self.can_be_bad()
        for id in wrong:
            if id not in known:
                raise BadInput(f"{str(id)[:40]!r} cannot be wrong in {self.id}. Choose from {', '.join(known)}.")
        return frozenset(wrong)

    def alt(self, wrong: Sequence[str]) -> str:
        """Return what is seen at each letter, without a judgement."""
        bad = self.check(wrong)
        seen = [
            f"{LETTERS[i].upper()}, {p.name}: {p.bad if p.id in bad else p.good}." for i, p in enumerate(self.places)
        ]
        return " ".join((self.told, *seen))


class _Scenes(WholeFile, frozen=True, kw_only=True):
    scenes: tuple[Scene, ...]


def read_scenes(path: Path) -> dict[str, Scene]:
    """Read the bays.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    read = read_toml(path, _Scenes, what="list of scenes").scenes
    check_unique(path, "id", [scene.id for scene in read])
    check_sources(path, [(f"{scene.id} source", scene.source) for scene in read])
    for scene in read:
        check_unique(path, f"{scene.id} id", [place.id for place in scene.places])
        if len(scene.places) > len(LETTERS):
            raise broken(path, f"{scene.id} places", f"holds more than {len(LETTERS)}")
        if len(scene.can_be_bad()) < 5:
            raise broken(path, f"{scene.id} places", "must hold at least five that can be a hazard")
        for place in scene.places:
            told = (place.bad, place.danger, place.overlooks)
            if any(told) != all(told):
                raise broken(path, f"{scene.id} {place.id}", "bad, danger and overlooks belong together")
            if place.hurts and not place.bad:
                raise broken(path, f"{scene.id} {place.id}", "hurts only where it can be a hazard")
    return {scene.id: scene for scene in read}


@once_a_set
def scenes() -> dict[str, Scene]:
    """Return every bay by its id."""
    return read_scenes(data_files().path("scenes.toml"))
