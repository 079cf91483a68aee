"""Find them all on a picture: several named regions are right, each wrong one takes one away."""

from collections.abc import Iterable
from typing import Any

from bitepoint.errors import NotUnderstood
from bitepoint.questions.question import Answer, Question, Verdict
from bitepoint.questions.region import Spot


class Spots(Question, frozen=True, kw_only=True):
    """Some regions are right. `says` of a wrong one answers a learner who took it; what was left out is only counted."""

    spots: tuple[Spot, ...]

    def read(self, answer: object) -> Answer:
        if isinstance(answer, str):
            answer = answer.replace(",", " ").replace(";", " ").casefold().split()
        known = {s.key for s in self.spots}
        if not isinstance(answer, (list, tuple)) or len(answer) > len(known):
            raise NotUnderstood(f"Give the places with spaces between: {', '.join(sorted(known))}.")
        keys = [str(a).strip().casefold()[:60] for a in answer]
        for key in keys:
            if key not in known:
                raise NotUnderstood(f"{key!r} is no place of this picture. Use: {', '.join(sorted(known))}.")
        if not keys:
            raise NotUnderstood("No place was marked. Mark at least one.")
        return sorted(set(keys))

    def mark(self, answer: object) -> Verdict:
        picked = set(self.read(answer))
        every = {s.key for s in self.spots if s.right}
        hits, extra = len(picked & every), len(picked - every)
        understood = ", ".join(s.label for s in self.spots if s.key in picked)
        if picked == every:
            return Verdict(1.0, understood, self.why, f"Found all {len(every)} and no other.")
        faults = [s for s in self.spots if (s.key in picked) != s.right]
        faults.sort(key=lambda s: (not s.critical, s.right))
        names = tuple(s.name for s in faults if s.name)
        score = max(0.0, min(0.99, (hits - extra) / len(every)))
        reason = f"{hits} of {len(every)} found, {extra} wrong."
        says = self._said(faults, f"{hits} of {len(every)} found.")
        return Verdict(score, understood, says, reason, names, any(s.critical for s in faults))

    @staticmethod
    def _said(faults: list[Spot], found: str) -> str:
        """Name the fault that hurts; what was overlooked is not pointed out, because looking again is the exercise."""
        wrong = next((s for s in faults if not s.right), None)
        if wrong and (wrong.critical or not faults[0].critical):
            return wrong.says
        if faults[0].critical:
            lines = [
                f"{found} Look again: what can hurt somebody is still there.",
                f"Not dangerous, but marked wrongly: {wrong.says}" if wrong else "",
            ]
            return "\n".join(filter(None, lines))
        return f"{found} Look again: something is still there."

    def right_answer(self) -> Answer:
        return sorted(s.key for s in self.spots if s.right)

    def offered_texts(self) -> Iterable[str]:
        return (s.label for s in self.spots)

    def own_facts(self) -> dict[str, Any]:
        return {"spots": [s.facts for s in self.spots]}

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        every = {s.key for s in self.spots if s.right}
        found: list[tuple[Answer, str]] = []
        for spot in self.spots:
            if spot.right and spot.name and len(every) > 1:
                found.append((sorted(every - {spot.key}), spot.name))
            elif not spot.right:
                found.append((sorted(every | {spot.key}), spot.name))
        return found
