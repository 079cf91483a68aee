"""Choose one, and choose several."""

from collections.abc import Iterable, Sequence
from typing import Any, ClassVar

from msgspec import Struct

from bitepoint.errors import NotUnderstood
from bitepoint.questions.draw import Draw
from bitepoint.questions.facts import key_from
from bitepoint.questions.keys import LETTERS, letters_for, read_letters
from bitepoint.questions.question import Answer, Mistake, Question, Verdict


class Option(Struct, frozen=True):
    """One thing on offer. `says` answers a learner who took a wrong one, or left out a right one.

    `key` names it for good, whatever its words; without one it is made from the text.
    """

    text: str
    right: bool
    name: str = ""
    says: str = ""
    critical: bool = False
    key: str = ""

    @property
    def stable_key(self) -> str:
        """The key given, else one made from the text."""
        return self.key or key_from(self.text)

    @property
    def facts(self) -> list[object]:
        """What of it decides a mark: key, right or not, dangerous or not, named when left out or not."""
        return [self.key or key_from(self.text), self.right, self.critical, bool(self.name)]


def right(text: str) -> Option:
    """Return a right option that needs no words when it is left out."""
    return Option(text, True)


def needed(text: str, name: str, says: str, *, critical: bool = False) -> Option:
    """Return a right option with what to say when it is left out."""
    return Option(text, True, name, says, critical)


def wrong(text: str, name: str, says: str, *, critical: bool = False) -> Option:
    """Return a wrong option with the misconception behind it and what to say."""
    return Option(text, False, name, says, critical)


class Choice(Question, frozen=True, kw_only=True):
    """One of the options is right."""

    tries_allowed: ClassVar[int] = 2

    options: tuple[Option, ...]

    @classmethod
    def of(cls, draw: Draw, *, right: str, wrong: Sequence[Mistake], **common: object) -> "Choice":
        """Return a choice with the options in a drawn order; each wrong one is a mistake whose value is its text."""
        offered = [Option(right, True)] + [Option(m.value, False, m.name, m.says, m.critical, m.key) for m in wrong]
        return cls(options=tuple(draw.shuffle(offered)), **common)  # type: ignore[arg-type]

    def read(self, answer: object) -> Answer:
        letters = read_letters(answer, len(self.options))
        if len(letters) != 1:
            raise NotUnderstood(f"One letter is asked, but there are {len(letters)}. Choose one.")
        return letters[0]

    def mark(self, answer: object) -> Verdict:
        letter = str(self.read(answer))
        option = self.options[LETTERS.index(letter)]
        understood = f"{letter}: {option.text}"
        if option.right:
            return Verdict(1.0, understood, self.why, f"Chose the right answer, {letter}.")
        reason = f"Chose {letter} instead of {self.right_answer()}: {option.name}."
        return Verdict(0.0, understood, option.says, reason, (option.name,), option.critical)

    def right_answer(self) -> Answer:
        return next(k for k, o in zip(letters_for(len(self.options)), self.options, strict=True) if o.right)

    def offered_texts(self) -> Iterable[str]:
        return [o.text for o in self.options]

    def own_facts(self) -> dict[str, Any]:
        return {"options": [o.facts for o in self.options]}

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        letters = letters_for(len(self.options))
        return [(k, o.name) for k, o in zip(letters, self.options, strict=True) if not o.right]


class Several(Question, frozen=True, kw_only=True):
    """Some of the options are right: each right pick counts, each wrong pick takes one away."""

    options: tuple[Option, ...]

    @classmethod
    def of(cls, draw: Draw, *, options: Sequence[Option], **common: object) -> "Several":
        """Return the question with its options in a drawn order."""
        return cls(options=tuple(draw.shuffle(options)), **common)  # type: ignore[arg-type]

    def read(self, answer: object) -> Answer:
        letters = read_letters(answer, len(self.options))
        if not letters:
            raise NotUnderstood("No letter is given. Pick at least one.")
        return sorted(letters)

    def mark(self, answer: object) -> Verdict:
        picked = set(self.read(answer))
        offered = dict(zip(LETTERS, self.options, strict=False))
        all_right = {k for k, o in offered.items() if o.right}
        hits, extra = len(picked & all_right), len(picked - all_right)
        score = max(0.0, (hits - extra) / len(all_right))
        understood = ", ".join(sorted(picked))
        if picked == all_right:
            return Verdict(1.0, understood, self.why, f"Picked all {len(all_right)} right ones and no other.")
        faults = [offered[k] for k in sorted(picked - all_right)] + [
            offered[k] for k in sorted(all_right - picked) if offered[k].name
        ]
        faults.sort(key=lambda o: not o.critical)
        says = faults[0].says if faults else f"{hits} of {len(all_right)} found. Something is still missing."
        reason = f"{hits} of {len(all_right)} right ones picked, {extra} wrong."
        names = tuple(o.name for o in faults)
        # What was left out is not named: finding it is the exercise.
        dangers = tuple(o.name for o in faults if o.critical and not o.right)
        critical = any(o.critical for o in faults)
        return Verdict(min(score, 0.99), understood, says, reason, names, critical, dangers=dangers)

    def right_answer(self) -> Answer:
        return [k for k, o in zip(letters_for(len(self.options)), self.options, strict=True) if o.right]

    def offered_texts(self) -> Iterable[str]:
        return [o.text for o in self.options]

    def own_facts(self) -> dict[str, Any]:
        return {"options": [o.facts for o in self.options]}

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        letters = letters_for(len(self.options))
        all_right = set(self.right_answer())
        found: list[tuple[Answer, str]] = []
        for letter, option in zip(letters, self.options, strict=True):
            if not option.right:
                found.append((sorted(all_right | {letter}), option.name))
            elif option.name and len(all_right) > 1:
                found.append((sorted(all_right - {letter}), option.name))
        return found
