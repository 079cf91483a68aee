"""A figure that is found by stepping: the part is turned from place to place, and a dial gauge is read at each."""

from typing import Any, ClassVar

from bitepoint.questions.number import Number


class Sweep(Number, frozen=True, kw_only=True):
    """A number worked out from a dial gauge swept once round a part; where there is no page, its picture shows it all.

    Both rows hold the hand's lines at each place, the first place once more at the end: `held` while the shaft is pushed
    to one side, `loose` while nobody pushes it. They are what the gauge shows, never what follows from it.
    """

    # A number to everybody who marks or counts.
    kind: ClassVar[str] = "number"

    held: tuple[int, ...]
    loose: tuple[int, ...]

    def own_facts(self) -> dict[str, Any]:
        return {**super().own_facts(), "held": self.held, "loose": self.loose}

    @property
    def places(self) -> int:
        """Places marked on the part."""
        return len(self.held) - 1
