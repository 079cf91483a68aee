"""Wrong answers that are no known mistake, one a kind, each with its score by the published rule and not by marking it."""

from random import Random

from msgspec import Struct

from bitepoint import units
from bitepoint.questions.choice import Several
from bitepoint.questions.keys import letters_for
from bitepoint.questions.number import Number
from bitepoint.questions.question import Answer
from bitepoint.questions.spots import Spots
from bitepoint.questions.staged_work import StagedWork
from bitepoint.questions.work_order import WorkOrder

_SLIPS = 0.25


class Decided(Struct, frozen=True):
    """One answer as decided: what is written, its score, the mistake behind it."""

    answer: Answer
    score: float
    mistake: str | None = None


def slip_of_the_calculator(question: Number, rng: Random) -> Decided | None:
    """Return, one time in four, a figure that is wrong for no known reason."""
    if rng.random() >= _SLIPS:
        return None
    figures = [question.answer, *(m.value for m in question.mistakes)]
    value = float(f"{question.answer * (0.4 + 1.4 * rng.random()):.4g}")
    if any(abs(value - figure) < 3 * question.within.width(figure) for figure in figures):
        return None
    return Decided(f"{units.unambiguous(f'{value:.6g}')} {question.unit}".strip(), 0.0)


def some_picks(question: Several, rng: Random) -> Decided:
    """Pick some right ones and perhaps a wrong one: right less wrong picks, by the number of right ones."""
    letters = letters_for(len(question.options))
    right = [k for k, o in zip(letters, question.options, strict=True) if o.right]
    wrong = [k for k in letters if k not in right]
    dropped = rng.choice(right) if len(right) > 1 and rng.random() < 0.7 else ""
    extra = rng.sample(wrong, 1) if wrong and (not dropped or rng.random() < 0.4) else []
    picked = sorted([k for k in right if k != dropped] + extra)
    hits = len(right) - bool(dropped)
    return Decided(picked, max(0.0, min(0.99, (hits - len(extra)) / len(right))))


def one_overlooked(question: Spots, rng: Random) -> Decided | None:
    """Leave one place out, where there are two or more: what is found, by the number of all."""
    right = sorted(s.key for s in question.spots if s.right)
    if len(right) < 2:
        return None
    kept = sorted(set(right) - {rng.choice(right)})
    return Decided(list(kept), min(0.99, len(kept) / len(right)))


def one_wrong_card(question: WorkOrder, rng: Random) -> Decided:
    """Pick a card that does not belong, or leave the last one: one fault by the number of cards that belong."""
    letters = dict(zip((c.text for c in question.cards), letters_for(len(question.cards)), strict=True))
    row = [letters[text] for text in question.example]
    strangers = [c for c in question.cards if not c.belongs]
    share = min(0.99, max(0.0, 1 - 1 / len(question.example)))
    if not strangers:
        return Decided(" ".join(row[:-1]), share)
    card = rng.choice(strangers)
    return Decided(" ".join([letters[card.text], *row]), 0.0 if card.never else share)


def one_wrong_card_of_a_stage(question: StagedWork, rng: Random) -> Decided:
    """Pick what is never done at one stage, or leave the last card of all: one fault by the cards of all stages."""
    rows = [
        [letters_for(len(part.cards))[[c.text for c in part.cards].index(text)] for text in part.example]
        for part in question.parts
    ]
    at = rng.randrange(len(rows))
    if rng.random() < 0.5:
        never = next(k for k, c in enumerate(question.parts[at].cards) if c.never)
        rows[at].insert(0, letters_for(never + 1)[-1])
        return Decided(" / ".join(" ".join(row) for row in rows), 0.0)
    rows[-1].pop()
    share = 1 - 1 / sum(len(part.example) for part in question.parts)
    return Decided(" / ".join(" ".join(row) for row in rows), share)
