"""The whole job, stage by stage: each stage has its own bench of cards, and any safe order is right."""

import re
from collections.abc import Iterable, Sequence
from typing import Any

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

GO_ON = "/"
"""Parts the rows of two stages in an answer: "b a / c a d"."""
_MAX_PICKS = 200
_MOST_SAID = 8


class WorkPart(Struct, frozen=True):
    """A stage of the job: its title, the cards on its bench, one safe order of those that belong.

    `routine` is what somebody else does meanwhile, where it belongs: shown, never asked.
    """

    title: str
    cards: tuple[WorkCard, ...]
    example: tuple[str, ...]
    routine: tuple[str, ...] = ()

    @classmethod
    def of(cls, draw: Draw, title: str, example: Sequence[str], strangers: Sequence[WorkCard]) -> "WorkPart":
        """Return a stage with its cards in a drawn order."""
        cards = draw.shuffle([*(WorkCard(text) for text in example), *strangers])
        return cls(title, tuple(cards), tuple(example))


class Work(Struct, frozen=True):
    """How far a row has come: what each pick did, stage by stage, and the letters still missing in each."""

    picks: tuple[tuple[Pick, ...], ...]
    left: tuple[tuple[str, ...], ...]


class StagedWork(Question, frozen=True, kw_only=True):
    """Pick the cards of one stage after the other; who has gone on to the next stage leaves this one as it is.

    The rules hold across the stages: a card left out holds back what needs it, and the card of a later stage comes too
    early. The answer is one row of letters a stage, joined by "/"; it counts as the sum of its stages.
    """

    parts: tuple[WorkPart, ...]
    rules: tuple[Before, ...]

    def read(self, answer: object) -> Answer:
        return self._joined(self._rows(answer))

    def _rows(self, answer: object) -> list[list[str]]:
        """Return the letters of each stage that was begun; a stage may be empty."""
        if isinstance(answer, (list, tuple)) and all(isinstance(a, str) for a in answer):
            one_row_each = GO_ON not in answer and any(len(a.strip()) > 1 for a in answer)
            answer = (f" {GO_ON} " if one_row_each else " ").join(answer[: 2 * _MAX_PICKS])
        if not isinstance(answer, str):
            raise NotUnderstood("That is no row of letters. Give them stage by stage, with / between the stages.")
        if len(answer) > MAX_LENGTH:
            raise NotUnderstood(f"The row is longer than {MAX_LENGTH} characters. Start again.")
        written = answer.split(GO_ON)
        if len(written) > len(self.parts):
            raise NotUnderstood(f"There are {len(self.parts)} stages, but you gave {len(written)} rows.")
        rows = [
            row_of_letters(row, letters_for(len(part.cards)), most=_MAX_PICKS, where=f"on the bench of “{part.title}”")
            for part, row in zip(self.parts, written, strict=False)
        ]
        if not any(rows):
            raise NotUnderstood("No card was picked. Give the letters stage by stage, with / between the stages.")
        return rows

    @staticmethod
    def _joined(rows: Sequence[Sequence[str]]) -> str:
        return re.sub(" +", " ", f" {GO_ON} ".join(" ".join(row) for row in rows)).strip()

    def work(self, answer: object, *, sent_back: bool = False) -> Work:
        """Return what each pick did; `sent_back` as in a single bench, for the stage that is open."""
        return self._work(self._rows(answer), self._benches(), sent_back=sent_back)

    def _benches(self) -> list[Bench]:
        book = Rulebook(self.rules)
        return [Bench(part.cards, book) for part in self.parts]

    def _work(self, rows: Sequence[Sequence[str]], benches: Sequence[Bench], *, sent_back: bool = False) -> Work:
        placed: set[str] = set()
        picks, left = [], []
        for at, bench in enumerate(benches):
            row = rows[at] if at < len(rows) else ()
            open_now = sent_back and at == len(rows) - 1
            picks.append(tuple(bench.picks(row, placed, sent_back=open_now)))
            own = {letter: card.text for letter, card in bench.cards.items() if card.belongs}
            missing = (k for k, text in own.items() if text not in placed and (open_now or k not in row))
            left.append(tuple(missing))
        return Work(tuple(picks), tuple(left))

    def strangers(self, stage: int, bench: Bench | None = None) -> list[Pick]:
        """Return what picking the cards that do not belong does when all the stage's own cards are done."""
        placed = {text for part in self.parts[: stage + 1] for text in part.example}
        bench = bench or self._benches()[stage]
        return [bench.judge(letter, placed) for letter, card in bench.cards.items() if not card.belongs]

    def mark(self, answer: object) -> Verdict:
        rows, benches = self._rows(answer), self._benches()
        text = self._joined(rows)
        work = self._work(rows, benches)
        faults = gravest_first(pick for picks in work.picks for pick in picks if not pick.safe)
        left = sum(map(len, work.left))
        better = self._advice(rows, benches)
        if not faults and not left:
            return Verdict(1.0, text, self.why, "Every card of every stage in a safe order.", advice=better)
        names = tuple(dict.fromkeys(name for pick in faults for name in pick.names)) or ("cards left on the bench",)
        critical = any(pick.critical for pick in faults)
        share = 1 - (len(faults) + left) / sum(len(part.example) for part in self.parts)
        return Verdict(
            0.0 if critical else max(0.0, min(0.99, share)),
            text,
            self._said(work),
            f"{len(faults)} wrong picks, {left} cards left; first: {names[0]}.",
            names,
            critical,
            better,
            dangers_of(faults),
        )

    def _said(self, work: Work) -> str:
        stages = list(zip(self.parts, work.picks, work.left, strict=True))
        faults = [(f"{part.title}: ", pick) for part, picks, _ in stages for pick in picks if not pick.safe]
        missing = [f"{part.title}: still on the bench: {', '.join(left)}." for part, _, left in stages if left]
        lines = list(dict.fromkeys(told_gravest_first(faults) + missing))
        more = len(lines) - _MOST_SAID
        return "\n".join(lines[:_MOST_SAID] + ([f"And {more} more."] if more > 0 else []))

    def _advice(self, rows: Sequence[Sequence[str]], benches: Sequence[Bench]) -> tuple[str, ...]:
        done = [bench.cards[letter].text for bench, row in zip(benches, rows, strict=False) for letter in row]
        own = {text for part in self.parts for text in part.example}
        return advice(self.rules, [text for text in done if text in own])[:_MOST_SAID]

    def right_answer(self) -> Answer:
        return self._joined([bench.row_of(p.example) for bench, p in zip(self._benches(), self.parts, strict=True)])

    def offered_texts(self) -> Iterable[str]:
        return (card.text for part in self.parts for card in part.cards)

    def own_facts(self) -> dict[str, Any]:
        benches = [[c.facts for c in part.cards] for part in self.parts]
        share = sum(len(part.example) for part in self.parts)
        return {"benches": benches, "edges": edges(self.rules, list(self.offered_texts())), "share": share}

    def known_mistakes(self) -> list[tuple[Answer, str]]:
        """Return each rule within a stage broken alone, and each card picked that does not belong."""
        benches = self._benches()
        right = [bench.row_of(part.example) for bench, part in zip(benches, self.parts, strict=True)]
        stage_of = {text: at for at, part in enumerate(self.parts) for text in part.example}
        found: dict[str, Answer] = {}

        def wrong(stage: int, row: Sequence[str], name: str) -> None:
            found.setdefault(name, self._joined([*right[:stage], row, *right[stage + 1 :]]))

        for rule in self.rules:
            stage = stage_of[rule.then]
            if rule.kind not in ADVICE_ONLY and stage == stage_of[rule.first]:
                wrong(stage, benches[stage].row_of(moved_early(self.parts[stage].example, rule)), rule.name)
        for stage, bench in enumerate(benches):
            for pick in self.strangers(stage, bench):
                wrong(stage, [*right[stage], pick.letter], pick.names[0])
        return [(answer, name) for name, answer in found.items()]
