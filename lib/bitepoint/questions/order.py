"""Put in order: marked against "before" rules with reasons, so any safe order is right."""

from collections.abc import Iterable, Sequence
from typing import Any, Literal

from msgspec import Struct

from bitepoint.errors import NotUnderstood
from bitepoint.questions.draw import Draw
from bitepoint.questions.facts import key_from
from bitepoint.questions.keys import LETTERS, letters_for, read_letters
from bitepoint.questions.question import Answer, Question, Verdict

ADVICE_ONLY = ("economy", "evidence")


class Before(Struct, frozen=True, gc=False):
    """A rule: `first` comes before `then` (texts of two steps), because of something.

    Physical, safety and quality rules count; economy and evidence rules only advise. `critical`: broken on a car it
    would hurt someone or let a part come loose. `keys` name the two steps for good, whatever their words.
    """

    first: str
    then: str
    because: str
    kind: Literal["physical", "safety", "quality", "economy", "evidence"] = "quality"
    critical: bool = False
    keys: tuple[str, str] = ("", "")

    @property
    def facts(self) -> list[object]:
        """What of it decides a mark: the keys of both steps, the kind of rule, dangerous or not."""
        first, then = self.keys
        return [first or key_from(self.first), then or key_from(self.then), self.kind, self.critical]

    @property
    def name(self) -> str:
        """Name of the mistake that breaks the rule."""
        return f"“{self.then}” before “{self.first}”"

    @property
    def says(self) -> str:
        """What whoever broke it reads: the step, what had to come first, why."""
        return f"“{self.then}” comes too early: first “{self.first}”, because {self.because}"


def edges(rules: Iterable[Before], shown: Sequence[str]) -> list[list[object]]:
    """Return the facts of rules over the texts shown, sorted: each with the places of the two texts that it binds.

    A rule finds its steps by their text: the keys alone would hide that it finds one no longer.
    """
    places: dict[str, list[int]] = {}
    for place, text in enumerate(shown):
        places.setdefault(text, []).append(place)
    return sorted([*rule.facts, places.get(rule.first, []), places.get(rule.then, [])] for rule in rules)


class Order(Question, frozen=True, kw_only=True):
    """Steps offered in a drawn order; `example` is one right order of their texts, `keys` the key of each step."""

    steps: tuple[str, ...]
    keys: tuple[str, ...] = ()
    rules: tuple[Before, ...]
    example: tuple[str, ...]

    @classmethod
    def of(
        cls, draw: Draw, *, example: Sequence[str], rules: Sequence[Before], keys: Sequence[str] = (), **common: object
    ) -> "Order":
        """Return the question with its steps in a drawn order that is not already right; a key a step of `example`."""

        binding = [(rule.first, rule.then) for rule in rules if rule.kind not in ADVICE_ONLY]

        def breaks_a_rule(steps: list[str]) -> bool:
            place = steps.index
            return any(place(then) < place(first) for first, then in binding)

        steps = draw.until(breaks_a_rule, lambda: draw.shuffle(example))
        named = dict(zip(example, keys, strict=True)) if keys else {}
        return cls(
            steps=tuple(steps),
            keys=tuple(named[step] for step in steps) if named else (),
            rules=tuple(rules),
            example=tuple(example),
            **common,  # type: ignore[arg-type]
        )

    def read(self, answer: object) -> Answer:
        letters = read_letters(answer, len(self.steps))
        # No letter is there twice.
        if len(letters) < len(self.steps):
            missing = sorted(set(letters_for(len(self.steps))) - set(letters))
            raise NotUnderstood(
                f"{', '.join(missing)} {'is' if len(missing) == 1 else 'are'} missing. Give every letter once."
            )
        return letters

    def mark(self, answer: object) -> Verdict:
        letters = self.read(answer)
        understood = " → ".join(letters)
        broken = self._broken(letters)
        advice = tuple(f"Better: “{r.first}” before “{r.then}”: {r.because}" for r in broken if r.kind in ADVICE_ONLY)
        counted = [r for r in broken if r.kind not in ADVICE_ONLY]
        if not counted:
            return Verdict(1.0, understood, self.why, "Keeps every rule of the order.", advice=advice)
        first = counted[0]
        says = first.says + _and_more(len({r.then for r in counted}) - 1)
        return Verdict(
            0.0,
            understood,
            says,
            f"Breaks {len(counted)} of {len(self.rules)} rules, first: {first.name}.",
            tuple(r.name for r in counted),
            any(r.critical for r in counted),
            advice,
            tuple(r.name for r in counted if r.critical),
        )

    def broken(self, answer: object) -> list[Before]:
        """Return the rules that an order breaks, the dangerous ones first, then by where the step stands that is too early."""
        return self._broken(self.read(answer))

    def _broken(self, letters: Iterable[str]) -> list[Before]:
        place = {self.steps[LETTERS.index(letter)]: i for i, letter in enumerate(letters)}
        broken = [r for r in self.rules if place[r.first] > place[r.then]]
        return sorted(broken, key=lambda r: (not r.critical, place[r.then]))

    def right_answer(self) -> Answer:
        letters = letters_for(len(self.steps))
        return [letters[self.steps.index(step)] for step in self.example]

    def offered_texts(self) -> Iterable[str]:
        return self.steps

    def own_facts(self) -> dict[str, Any]:
        return {"steps": self.keys or [key_from(s) for s in self.steps], "edges": edges(self.rules, self.steps)}

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        found: list[tuple[Answer, str]] = []
        letters = letters_for(len(self.steps))
        for rule in self.rules:
            if rule.kind in ADVICE_ONLY:
                continue
            steps = list(self.example)
            steps.remove(rule.then)
            steps.insert(steps.index(rule.first), rule.then)
            found.append(([letters[self.steps.index(s)] for s in steps], rule.name))
        return found


def _and_more(steps: int) -> str:
    if not steps:
        return ""
    return f"\n{'One more step stands' if steps == 1 else f'{steps} more steps stand'} too early."
