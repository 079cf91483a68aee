"""What in an own sheet is questioned: figures that a slip of unit, decimal or line would explain. Nothing is refused."""

from msgspec import Struct

from bitepoint.workshop.sheet_rules import FIGURES, broken_rules
from bitepoint.workshop.sheets import Vehicle


class Questioned(Struct, frozen=True):
    """One figure that a person should look at again: its key, and why."""

    key: str
    says: str


def questioned(v: Vehicle) -> list[Questioned]:
    """Return what is questioned in the figures of a vehicle, each key once."""
    return [Questioned(rule.key, f"{rule.says}.") for rule in broken_rules(v, FIGURES)]
