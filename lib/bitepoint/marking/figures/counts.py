"""One exercise counted over the class."""

from collections import Counter

import msgspec
from msgspec import Struct

from bitepoint.marking.result import OUTCOMES


class ExerciseCount(Struct, kw_only=True):
    """One exercise over the class; `counts` by outcome, `mistakes` how often each was made."""

    id: str
    title: str
    outcome: str
    counts: dict[str, int] = msgspec.field(default_factory=lambda: dict.fromkeys(OUTCOMES, 0))
    mistakes: Counter[str] = msgspec.field(default_factory=Counter)

    @property
    def answered(self) -> int:
        """How many learners have a mark in it."""
        return sum(self.counts.values()) - self.counts["not marked"]

    @property
    def first_share(self) -> float:
        """Share of them who were right at first try."""
        return self.counts["right at first try"] / self.answered if self.answered else 0.0

    @property
    def commonest(self) -> tuple[str, int]:
        """Return the commonest mistake and how often it was made; ("", 0) when none was."""
        if not self.mistakes:
            return "", 0
        name, count = min(self.mistakes.items(), key=lambda item: (-item[1], item[0]))
        return name, count
