"""Which cars a class works on, and who has which: as the class file and its list of learners recorded it."""

from collections.abc import Mapping

from msgspec import Struct

from bitepoint.logbook.identity import key_of
from bitepoint.questions.draw import STANDARD


class ClassCars(Struct, frozen=True, kw_only=True):
    """The letters of the class's cars in its order, and the letter of each learner by case-folded id.

    A learner who is not listed has the car that the rule over the standard cars gives.
    """

    letters: tuple[str, ...] = STANDARD
    by_learner: Mapping[str, str] = {}

    def of(self, learner: str) -> str:
        """Return the letter recorded for a learner, "" when none is."""
        return self.by_learner.get(key_of(learner), "")


ORDINARY = ClassCars()
"""A class that names no cars."""
