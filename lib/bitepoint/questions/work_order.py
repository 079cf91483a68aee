"""Order of work: pick the next operation from a shuffled bench, any safe order is right.

Some cards on the bench do not belong: operations of another part of the job, or things that are never done.
"""

from collections.abc import Iterable, Sequence
from typing import Any, Literal

from msgspec import Struct

from bitepoint.errors import NotUnderstood
from bitepoint.questions.bench import (
    MAX_LENGTH,
    Bench,
    Pick,
    Rulebook,
    WorkCard,
    advice,
    dangers_of,
    gravest_first,
    moved_early,
    row_of_letters,
    told_gravest_first,
)
from bitepoint.questions.draw import Draw
from bitepoint.questions.keys import letters_for
from bitepoint.questions.order import ADVICE_ONLY, Before, edges
from bitepoint.questions.question import Answer, Question, Verdict

__all__ = ["Pick", "WorkCard", "WorkOrder", "WorkStage"]
_MAX_PICKS = 200


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

    def _bench(self) -> Bench:
        return Bench(self.cards, Rulebook(self.rules))

    def read(self, answer: object) -> Answer:
        if isinstance(answer, (list, tuple)) and all(isinstance(a, str) for a in answer):
            answer = " ".join(answer[: _MAX_PICKS + 1])
        if not isinstance(answer, str):
            raise NotUnderstood("That is no row of letters. Give the letters in the order of the work.")
        if len(answer) > MAX_LENGTH:
            raise NotUnderstood(f"The row is longer than {MAX_LENGTH} characters. Start again.")
        row = row_of_letters(answer, letters_for(len(self.cards)), most=_MAX_PICKS)
        if not row:
            raise NotUnderstood("No card was picked. Give the letters in the order in which you would do the work.")
        return " ".join(row)

    def picks(self, answer: object, *, sent_back: bool = False) -> list[Pick]:
        """Return what each pick did, in order.

        `sent_back`: the row is not finished and its learner is told at once, so every wrong card lies on the bench
        again, whether it was picked once more since or not.
        """
        return self._bench().picks(str(self.read(answer)).split(), self._done(), sent_back=sent_back)

    def _done(self) -> set[str]:
        """What is done before the first pick: a rule about something outside this drill holds nothing back."""
        known = {card.text for card in self.cards if card.belongs}
        return {*self.done, *(rule.first for rule in self.rules if rule.first not in known)}

    def mark(self, answer: object) -> Verdict:
        row = str(self.read(answer)).split()
        bench = self._bench()
        faults = gravest_first(p for p in bench.picks(row, self._done()) if not p.safe)
        left = bench.left(row)
        understood = " → ".join(row)
        better = advice(self.rules, [bench.cards[letter].text for letter in row])
        if not faults and not left:
            return Verdict(1.0, understood, self.why, "Every card in a safe order.", advice=better)
        says = told_gravest_first([("", p) for p in faults]) + (
            [f"Still on the bench: {', '.join(left)}."] if left else []
        )
        names = tuple(dict.fromkeys(name for p in faults for name in p.names)) or ("cards left on the bench",)
        critical = any(p.critical for p in faults)
        share = 1 - (len(faults) + len(left)) / len(self.example)
        return Verdict(
            0.0 if critical else max(0.0, min(0.99, share)),
            understood,
            "\n".join(dict.fromkeys(says)),
            f"{len(faults)} wrong picks, {len(left)} cards left; first: {names[0]}.",
            names,
            critical,
            better,
            dangers_of(faults),
        )

    def right_answer(self) -> Answer:
        return " ".join(self._bench().row_of(self.example))

    def offered_texts(self) -> Iterable[str]:
        return (card.text for card in self.cards)

    def own_facts(self) -> dict[str, Any]:
        texts = [c.text for c in self.cards]
        return {
            "cards": [c.facts for c in self.cards],
            "edges": edges(self.rules, texts),
            "done": [i for i, text in enumerate(texts) if text in self.done],
            "share": len(self.example),
        }

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        bench, own = self._bench(), set(self.example)
        found: list[tuple[Answer, str]] = [
            (" ".join(bench.row_of(moved_early(self.example, rule))), rule.name)
            for rule in self.rules
            if rule.kind not in ADVICE_ONLY and {rule.first, rule.then} <= own
        ]
        right, nothing = bench.row_of(self.example), self._done()
        for letter, card in bench.cards.items():
            if not card.belongs:
                found.append((" ".join([letter, *right]), bench.judge(letter, nothing).names[0]))
        return found
