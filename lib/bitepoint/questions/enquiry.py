"""Ask for one more observation at a time, then name the cause: the fewest questions to a sure answer are best."""

import re
from collections.abc import Iterable
from functools import cache
from typing import Any

from msgspec import Struct

from bitepoint.errors import NotUnderstood
from bitepoint.questions.question import Answer, Question, Verdict

_MAX_LENGTH = 400
_NOT_CONFIRMED = "confirms on part of the facts"


class Observation(Struct, frozen=True):
    """Something that can be looked at or listened for, and what it shows in this case."""

    key: str
    label: str
    shows: str


class Suspect(Struct, frozen=True):
    """A possible cause with what each observation would show if it were this one; `says` answers a wrong choice.

    `against`: by observation, what to say in place of `says` when that is the first one asked for that rules it out.
    """

    key: str
    label: str
    shows: dict[str, str]
    right: bool = False
    name: str = ""
    says: str = ""
    critical: bool = False
    against: dict[str, str] = {}


class Enquiry(Question, frozen=True, kw_only=True):
    """An answer is the row of observations asked for and the cause named: "down rest > release-bearing".

    `heads` stand over what is asked and what it shows; `cause` is the word for what is named at the end.
    `whole`: to name it rightly everything must have been asked for, since one finding can only rule others out.
    """

    observations: tuple[Observation, ...]
    suspects: tuple[Suspect, ...]
    free: tuple[str, ...] = ()
    heads: tuple[str, str] = ("Condition", "What you see or hear")
    cause: str = "cause"
    whole: bool = False

    def read(self, answer: object) -> Answer:
        if not isinstance(answer, str) or len(answer) > _MAX_LENGTH or answer.count(">") != 1:
            raise NotUnderstood(
                f"Write what you asked for, then >, then the {self.cause}, such as: {self.right_form()}."
            )
        asked, _, named = answer.casefold().partition(">")
        keys = list(dict.fromkeys(re.findall(r"[a-z0-9-]+", asked)))
        known = {o.key for o in self.observations}
        for key in keys:
            if key not in known:
                raise NotUnderstood(f"{key[:20]!r} cannot be asked here. Use: {', '.join(sorted(known))}.")
        cause = named.strip()
        if cause not in {s.key for s in self.suspects}:
            raise NotUnderstood(
                f"{cause[:30]!r} is no {self.cause} here. Use: {', '.join(s.key for s in self.suspects)}."
            )
        return f"{' '.join(keys)} > {cause}".strip()

    def right_form(self) -> str:
        """Return an answer that is written rightly, whatever it says."""
        asks = [o.key for o in self.observations if o.key not in self.free]
        return f"{' '.join(asks[:2])} > {self.suspects[0].key}"

    def shown(self, key: str) -> str:
        """Return what an observation shows in this case."""
        return next(o.shows for o in self.observations if o.key == key)

    def left(self, asked: list[str]) -> list[Suspect]:
        """Return the suspects that agree with everything seen so far."""
        here = self._here()
        seen = {key: here[key] for key in (*self.free, *asked)}.items()
        # All of what is seen is among what the suspect shows.
        return [s for s in self.suspects if seen <= s.shows.items()]

    def fewest(self) -> int:
        """Return the smallest number of observations after which only the right cause is left in this case."""
        return _fewest(tuple(o.key for o in self.observations), self._differs(), frozenset(self.free))

    def _differs(self) -> tuple[frozenset[str], ...]:
        """For each other suspect: the observations that tell it from what is seen here."""
        here = self._here().items()
        return tuple(frozenset(k for k, _ in here - s.shows.items()) for s in self.suspects if not s.right)

    def _here(self) -> dict[str, str]:
        """What each observation shows in this case."""
        return {o.key: o.shows for o in self.observations}

    def mark(self, answer: object) -> Verdict:
        text = str(self.read(answer))
        asked, _, cause = text.partition(" > ") if " > " in text else ("", "", text.lstrip("> "))
        keys = asked.split()
        suspect = next(s for s in self.suspects if s.key == cause)
        understood = f"asked {len(keys)}, named {suspect.label}"
        if not suspect.right:
            reason = f"Named {suspect.label}: {suspect.name}."
            return Verdict(0.0, understood, self._answer(suspect, keys), reason, (suspect.name,), suspect.critical)
        if len(left := self.left(keys)) > 1:
            others = " or ".join(s.label for s in left if not s.right)
            says = f"What you asked for does not settle it yet: it could as well be {others}. Ask for one thing more."
            return Verdict(0.5, understood, says, "Right cause, but guessed.", ("guessed too early",))
        if self.whole and (open_ones := self._open(keys)):
            return self._not_confirmed(understood, open_ones)
        if self.whole:
            return Verdict(1.0, understood, self.why, f"Right {self.cause}, and everything agrees.")
        fewest = self.fewest()
        advice = () if len(keys) - fewest <= 1 else (f"Sure after {fewest} questions; you took {len(keys)}.",)
        return Verdict(1.0, understood, self.why, f"Right cause, sure after {len(keys)} questions.", advice=advice)

    def _open(self, asked: list[str]) -> list[str]:
        """Return the labels of what was not asked for."""
        return [o.label for o in self.observations if o.key not in (*self.free, *asked)]

    def _not_confirmed(self, understood: str, open_ones: list[str]) -> Verdict:
        says = (
            f"One thing that disagrees rules a {self.cause} out, but everything must agree before you take it. "
            f"Not looked up: {', '.join(open_ones)}."
        )
        return Verdict(0.5, understood, says, f"Right {self.cause}, but not confirmed.", (_NOT_CONFIRMED,))

    def _answer(self, named: Suspect, asked: list[str]) -> str:
        """Answer a wrong cause by what was seen; where nothing seen rules it out, it was guessed."""
        here = self._here()
        against = [key for key in (*asked, *self.free) if named.shows.get(key) != here[key]]
        if not against:
            return f"What you asked for fits {named.label}, and other causes too. Ask for one thing more that tells them apart."
        return named.against.get(against[0], named.says)

    def right_answer(self) -> Answer:
        keys = [o.key for o in self.observations if o.key not in self.free]
        cause = next(s.key for s in self.suspects if s.right)
        return f"{' '.join(keys)} > {cause}"

    def offered_texts(self) -> Iterable[str]:
        return (*(text for o in self.observations for text in (o.label, o.shows)), *(s.label for s in self.suspects))

    def own_facts(self) -> dict[str, Any]:
        here = self._here()
        return {
            "observations": list(here),
            "free": self.free,
            "suspects": [
                [s.key, s.right, s.critical, [k for k, seen in here.items() if s.shows.get(k) == seen]]
                for s in self.suspects
            ],
            **({"whole": True} if self.whole else {}),
        }

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        keys = " ".join(o.key for o in self.observations if o.key not in self.free)
        found: list[tuple[Answer, str]] = [(f"{keys} > {s.key}", s.name) for s in self.suspects if not s.right]
        if len(self.left([])) > 1:
            found.append((f"> {next(s.key for s in self.suspects if s.right)}", "guessed too early"))
        if self.whole:
            found.append((f"{self._almost_all()} > {next(s.key for s in self.suspects if s.right)}", _NOT_CONFIRMED))
        return found

    def _almost_all(self) -> str:
        """Return everything that can be asked for but one, with which only the right one is left all the same."""
        asks = [o.key for o in self.observations if o.key not in self.free]
        rows = ([key for key in asks if key != left_out] for left_out in asks)
        return " ".join(next((row for row in rows if len(self.left(row)) == 1), asks[1:]))


@cache
def _fewest(keys: tuple[str, ...], differs: tuple[frozenset[str], ...], free: frozenset[str]) -> int:
    from itertools import combinations

    open_ones = [d for d in differs if not d & free]
    for count in range(len(keys) + 1):
        if any(all(d & set(chosen) for d in open_ones) for chosen in combinations(keys, count)):
            return count
    return len(keys)
