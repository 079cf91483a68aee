"""Parts as a fitter finds them on the bench: how each looks sound and damaged, what it does, what is decided."""

from collections.abc import Sequence
from pathlib import Path

from bitepoint.errors import BadInput
from bitepoint.workshop.criteria import Decision, Weight, criteria
from bitepoint.workshop.datafiles import data_files, once_a_set
from bitepoint.workshop.reading import StrictStruct, WholeFile, broken, check_sources, check_unique, read_toml


class Damage(StrictStruct, frozen=True, kw_only=True):
    """A part with one kind of damage; `sound` and `damaged` say what is seen, `does` what follows if it stays."""

    id: str
    name: str
    sound: str
    damaged: str
    does: str
    fine: str
    overlooks: str
    decision: Decision
    weight: Weight
    criterion: str = ""
    source: str = "common-practice"

    def seen(self, *, damaged: bool) -> str:
        """Return part and what is seen, as an alt text tells it."""
        return f"{self.name}: {self.damaged if damaged else self.sound}."


class _Parts(WholeFile, frozen=True, kw_only=True):
    parts: tuple[Damage, ...]


def read_damage(path: Path) -> dict[str, Damage]:
    """Read the parts.

    Raises
    ------
    BadData
        Names the file, the key and the rule.
    """
    read = read_toml(path, _Parts, what="list of damage").parts
    check_unique(path, "id", [part.id for part in read])
    check_sources(path, [(f"{part.id} source", part.source) for part in read])
    decided: dict[str, tuple[str, int]] = {one.id: (one.decision, one.weight) for one in criteria().seen}
    decided |= {one.id: (one.outside, one.weight) for one in criteria().measured}
    for part in read:
        if part.criterion and part.criterion not in decided:
            raise broken(path, f"{part.id} criterion", f"{part.criterion!r} is no criterion")
        if part.criterion and decided[part.criterion] != (part.decision, part.weight):
            raise broken(path, f"{part.id} decision", f"differs from that of {part.criterion!r}")
        if part.decision == "reuse":
            raise broken(path, f"{part.id} decision", "damage is never reused as it is")
    return {part.id: part for part in read}


@once_a_set
def damage() -> dict[str, Damage]:
    """Return every part by its id."""
    return read_damage(data_files().path("damage.toml"))


def check_bench(parts: Sequence[str], damaged: Sequence[str]) -> tuple[Damage, ...]:
    """Return the parts that lie on a bench, in their order.

    Raises
    ------
    BadInput
        Too few or too many parts, one that is unknown or lies there twice, or damage on a part that is not there.
    """
    known = damage()
    if not 2 <= len(parts) <= 6 or len(set(parts)) != len(parts):
        raise BadInput(f"A bench holds 2 to 6 different parts, but you gave {', '.join(map(str, parts)) or 'none'}.")
    for id in (*parts, *damaged):
        if id not in known:
            raise BadInput(f"{str(id)[:40]!r} is no part of the bench. Choose from {', '.join(known)}.")
    for id in damaged:
        if id not in parts:
            raise BadInput(f"{id!r} is not on this bench. Damaged can be only {', '.join(parts)}.")
    return tuple(known[id] for id in parts)
