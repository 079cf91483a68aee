"""Point at something on a picture that has named regions."""

from collections.abc import Iterable
from typing import Any, ClassVar

from msgspec import Struct

from bitepoint.errors import NotUnderstood
from bitepoint.questions.question import Answer, Question, Verdict


class Spot(Struct, frozen=True):
    """A named region of the picture; `says` answers a learner who pointed at a wrong one."""

    key: str
    label: str
    right: bool = False
    name: str = ""
    says: str = ""
    critical: bool = False

    @property
    def facts(self) -> list[object]:
        """What of it decides a mark: key, right or not, dangerous or not, named when left out or not."""
        return [self.key, self.right, self.critical, bool(self.name)]


class Region(Question, frozen=True, kw_only=True):
    """One region is right. Typed, an answer is the region's key (the picture shows the keys)."""

    tries_allowed: ClassVar[int] = 2

    spots: tuple[Spot, ...]

    def read(self, answer: object) -> Answer:
        key = answer.strip().casefold() if isinstance(answer, str) and len(answer) < 60 else ""
        if key not in {s.key for s in self.spots}:
            raise NotUnderstood(f"Point at one of: {', '.join(s.key for s in self.spots)}.")
        return key

    def mark(self, answer: object) -> Verdict:
        key = self.read(answer)
        spot = next(s for s in self.spots if s.key == key)
        understood = f"{spot.key}: {spot.label}"
        if spot.right:
            return Verdict(1.0, understood, self.why, f"Pointed at the right place, {spot.label}.")
        reason = f"Pointed at {spot.label}: {spot.name}."
        return Verdict(0.0, understood, spot.says, reason, (spot.name,), spot.critical)

    def right_answer(self) -> Answer:
        return next(s.key for s in self.spots if s.right)

    def offered_texts(self) -> Iterable[str]:
        return (s.label for s in self.spots)

    def own_facts(self) -> dict[str, Any]:
        return {"spots": [s.facts for s in self.spots]}

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        return [(s.key, s.name) for s in self.spots if not s.right]
