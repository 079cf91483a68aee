"""Order of work: pick the next operation from a shuffled bench, any safe order is right.

Some cards on the bench do not belong: operations of another part of the job, or things that are never done.
"""

import re
from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

from bitepoint.errors import NotUnderstood
from bitepoint.questions.draw import Draw
from bitepoint.questions.keys import letters_for
from bitepoint.questions.order import ADVICE_ONLY, Before
from bitepoint.questions.question import Answer, Question, Verdict

_MAX_PICKS = 200
_MAX_LENGTH = 4000


class WorkCard(Struct, frozen=True):
    """A card on the bench. `says` answers a learner who picks one that does not belong; `never` makes that critical."""

    text: str
    belongs: bool = True
    says: str = ""
    never: bool = False


class Pick(Struct, frozen=True):
    """What one pick did: the card's letter, whether it was safe, the mistake's name, the words, and critical or not."""

    letter: str
    safe: bool
    name: str = ""
    says: str = ""
    critical: bool = False


class WorkStage(Struct, frozen=True):
    """A part of the whole job, for the strip above the bench: its title and how far it is."""

    title: str
    state: Literal["done", "now", "to come"]


class WorkOrder(Question, frozen=True, kw_only=True):
    """Pick every card that belongs, each when nothing that must come before it is still on the bench.

    The answer is the row of letters as picked. Where the learner is told at once, a wrong pick goes back to the bench
    and its letter stands again later; where not, it stays where it was put.
    """

    cards: tuple[WorkCard, ...]
    rules: tuple[Before, ...]
    example: tuple[str, ...]
    done: tuple[str, ...] = ()
    stages: tuple[WorkStage, ...] = ()

    @classmethod
    def of(
        cls,
        draw: Draw,
        *,
        example: Sequence[str],
        rules: Sequence[Before],
        strangers: Sequence[WorkCard] = (),
        **common: object,
    ) -> "WorkOrder":
        """Return the drill with its cards in a drawn order; `example` is one safe order of those that belong."""
        cards = draw.shuffle([*(WorkCard(text) for text in example), *strangers])
        return cls(cards=tuple(cards), rules=tuple(rules), example=tuple(example), **common)  # type: ignore[arg-type]

    @property
    def _letters(self) -> str:
        return letters_for(len(self.cards))

    def read(self, answer: object) -> Answer:
        parts = self._parts(answer)
        for part in parts:
            if len(part) != 1 or part not in self._letters:
                raise NotUnderstood(f"{part[:20]!r} is not on the bench. Use letters from a to {self._letters[-1]}.")
        if not parts:
            raise NotUnderstood("No card was picked. Give the letters in the order in which you would do the work.")
        return " ".join(parts)

    def _parts(self, answer: object) -> list[str]:
        if isinstance(answer, (list, tuple)) and all(isinstance(a, str) for a in answer):
            answer = " ".join(answer[: _MAX_PICKS + 1])
        if not isinstance(answer, str):
            raise NotUnderstood("That is no row of letters. Give the letters in the order of the work.")
        if len(answer) > _MAX_LENGTH:
            raise NotUnderstood(f"The row is longer than {_MAX_LENGTH} characters. Start again.")
        parts = re.findall(r"[^\s,;:>→-]+", answer.casefold())
        if len(parts) == 1 and set(parts[0]) <= set(self._letters):
            parts = list(parts[0])
        if len(parts) > _MAX_PICKS:
            raise NotUnderstood(f"There are more than {_MAX_PICKS} picks. Start again.")
        return parts

    def picks(self, answer: object, *, sent_back: bool = False) -> list[Pick]:
        """Return what each pick did, in order.

        `sent_back`: the row is not finished and its learner is told at once, so every wrong card lies on the bench
        again, whether it was picked once more since or not.
        """
        row = str(self.read(answer)).split()
        placed: list[str] = list(self.done)
        out: list[Pick] = []
        for at, letter in enumerate(row):
            pick = self._judge(letter, placed)
            out.append(pick)
            card = self.cards[self._letters.index(letter)]
            if pick.safe or (card.belongs and not sent_back and letter not in row[at + 1 :]):
                placed.append(card.text)
        return out

    def _judge(self, letter: str, placed: Sequence[str]) -> Pick:
        card = self.cards[self._letters.index(letter)]
        if not card.belongs:
            name = f"picked “{card.text}”" if card.never else f"“{card.text}” does not belong here"
            return Pick(letter, False, name, card.says, card.never)
        if card.text in placed:
            return Pick(letter, True)
        for rule in self.rules:
            if rule.then == card.text and rule.kind not in ADVICE_ONLY and self._open(rule.first, placed):
                says = f"“{rule.then}” comes too early: first “{rule.first}”, because {rule.because}"
                return Pick(letter, False, rule.name, says, rule.critical)
        return Pick(letter, True)

    def _open(self, text: str, placed: Sequence[str]) -> bool:
        """Whether an operation is still to be done in this drill."""
        return text not in placed and text in self.example

    def mark(self, answer: object) -> Verdict:
        row = str(self.read(answer)).split()
        picks = self.picks(answer)
        faults = [p for p in picks if not p.safe]
        left = [k for k, card in zip(self._letters, self.cards, strict=True) if card.belongs and k not in row]
        understood = " → ".join(row)
        if not faults and not left:
            return Verdict(1.0, understood, self.why, "Every card in a safe order.", advice=self._advice(row))
        says = [p.says for p in faults] + ([f"Still on the bench: {', '.join(left)}."] if left else [])
        names = tuple(dict.fromkeys(p.name for p in faults)) or ("cards left on the bench",)
        critical = any(p.critical for p in faults)
        share = 1 - (len(faults) + len(left)) / len(self.example)
        return Verdict(
            0.0 if critical else max(0.0, min(0.99, share)),
            understood,
            "\n".join(dict.fromkeys(says)),
            f"{len(faults)} wrong picks, {len(left)} cards left; first: {names[0]}.",
            names,
            critical,
            self._advice(row),
        )

    def _advice(self, row: Sequence[str]) -> tuple[str, ...]:
        texts = [self.cards[self._letters.index(k)].text for k in dict.fromkeys(row)]
        place = {text: i for i, text in enumerate(texts)}
        return tuple(
            f"Better: “{r.first}” before “{r.then}”, because {r.because}"
            for r in self.rules
            if r.kind in ADVICE_ONLY and r.first in place and r.then in place and place[r.first] > place[r.then]
        )

    def right_answer(self) -> Answer:
        texts = [card.text for card in self.cards]
        return " ".join(self._letters[texts.index(text)] for text in self.example)

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        letters = {card.text: k for k, card in zip(self._letters, self.cards, strict=True)}
        found: list[tuple[Answer, str]] = []
        for rule in self.rules:
            if rule.kind in ADVICE_ONLY or rule.first not in self.example or rule.then not in self.example:
                continue
            steps = list(self.example)
            steps.remove(rule.then)
            steps.insert(steps.index(rule.first), rule.then)
            found.append((" ".join(letters[s] for s in steps), rule.name))
        for card in self.cards:
            if not card.belongs:
                row = " ".join([letters[card.text], *(letters[s] for s in self.example)])
                found.append((row, self._judge(letters[card.text], ()).name))
        return [(answer, name) for answer, name in found if name in self.mark(answer).mistakes]
