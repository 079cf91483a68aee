"""Cards on a bench and how a row of picks is judged: against the rules of the job, so any safe order is right."""

import re
from collections.abc import Iterable, Sequence

from msgspec import Struct

from bitepoint.errors import NotUnderstood
from bitepoint.questions.facts import key_from
from bitepoint.questions.keys import letters_for
from bitepoint.questions.order import ADVICE_ONLY, Before

MAX_LENGTH = 4000
_LETTERS = re.compile(r"[^\s,;:>→-]+")
_GRAVITY = ("safety", "quality", "physical")


class WorkCard(Struct, frozen=True):
    """A card on the bench. `says` answers a learner who picks one that does not belong; `never` makes that critical.

    `key` names it for good, whatever its words.
    """

    text: str
    belongs: bool = True
    says: str = ""
    never: bool = False
    key: str = ""

    @property
    def facts(self) -> list[object]:
        """What of it decides a mark: key, whether it belongs, whether it is never done."""
        return [self.key or key_from(self.text), self.belongs, self.never]


class Pick(Struct, frozen=True):
    """What one pick did: the card's letter, whether it was safe, every mistake's name, the words, critical or not.

    `dangers` are the names that are critical.
    """

    letter: str
    safe: bool
    names: tuple[str, ...] = ()
    says: str = ""
    critical: bool = False
    dangers: tuple[str, ...] = ()


def dangers_of(faults: Iterable[Pick]) -> tuple[str, ...]:
    """Return the names of all critical mistakes, each once."""
    return tuple(dict.fromkeys(name for pick in faults for name in pick.dangers))


def gravest_first(faults: Iterable[Pick]) -> list[Pick]:
    """Return picks with the dangerous ones first, else as they came; what could hurt is named before what is only wrong."""
    return sorted(faults, key=lambda pick: not pick.critical)


def told_gravest_first(faults: Sequence[tuple[str, Pick]]) -> list[str]:
    """Return the words of faults, each after what stands before it; where not all of them are dangerous, those have a sign."""
    mixed = len({pick.critical for _, pick in faults}) > 1
    ordered = sorted(faults, key=lambda fault: not fault[1].critical)
    return [f"{'⚠ ' if mixed and pick.critical else ''}{before}{pick.says}" for before, pick in ordered]


class Rulebook:
    """The rules that bind, looked up by the card that they hold back, the gravest first."""

    def __init__(self, rules: Iterable[Before]) -> None:
        self._holding: dict[str, list[Before]] = {}
        for rule in rules:
            if rule.kind not in ADVICE_ONLY:
                self._holding.setdefault(rule.then, []).append(rule)
        for held in self._holding.values():
            if len(held) > 1:
                held.sort(key=lambda rule: (not rule.critical, _GRAVITY.index(rule.kind)))

    def broken(self, text: str, placed: set[str]) -> list[Before]:
        """Return the rules that doing `text` now would break."""
        return [rule for rule in self._holding.get(text, ()) if rule.first not in placed]


class Bench:
    """Lettered cards with the rules about them."""

    def __init__(self, cards: Sequence[WorkCard], rules: Rulebook) -> None:
        self.letters = letters_for(len(cards))
        self.cards = dict(zip(self.letters, cards, strict=True))
        self._rules = rules

    def picks(self, row: Sequence[str], placed: set[str], *, sent_back: bool = False) -> list[Pick]:
        """Return what each pick did, in order; `placed` grows by what was put down.

        `sent_back`: the row is not finished and its learner is told at once, so every wrong card lies on the bench
        again, whether it was picked once more since or not.
        """
        last = {letter: at for at, letter in enumerate(row)}
        out: list[Pick] = []
        for at, letter in enumerate(row):
            pick = self.judge(letter, placed)
            out.append(pick)
            card = self.cards[letter]
            if pick.safe or (card.belongs and not sent_back and last[letter] == at):
                placed.add(card.text)
        return out

    def judge(self, letter: str, placed: set[str]) -> Pick:
        """Return what picking this card does when the texts in `placed` are done."""
        card = self.cards[letter]
        if card.never:
            name = (f"picked “{card.text}”",)
            return Pick(letter, False, name, card.says, True, name)
        if card.belongs and card.text in placed:
            return Pick(letter, True)
        broken = self._rules.broken(card.text, placed)
        if broken:
            names, dangers = tuple(r.name for r in broken), tuple(r.name for r in broken if r.critical)
            return Pick(letter, False, names, broken[0].says, bool(dangers), dangers)
        if card.belongs:
            return Pick(letter, True)
        return Pick(letter, False, (f"“{card.text}” does not belong here",), card.says)

    def left(self, row: Sequence[str]) -> list[str]:
        """Return the letters of cards that belong and were never picked."""
        return [letter for letter, card in self.cards.items() if card.belongs and letter not in row]

    def row_of(self, texts: Iterable[str]) -> list[str]:
        """Return the letters of these texts."""
        letters = {card.text: letter for letter, card in self.cards.items()}
        return [letters[text] for text in texts]


def row_of_letters(text: str, offered: str, *, most: int, where: str = "on the bench") -> list[str]:
    """Return the letters of one row as written: together, apart, with commas or arrows.

    Raises
    ------
    NotUnderstood
        A letter is not offered, or there are more picks than `most`.
    """
    parts = _LETTERS.findall(text.casefold())
    if len(parts) == 1 and set(parts[0]) <= set(offered):
        parts = list(parts[0])
    if len(parts) > most:
        raise NotUnderstood(f"There are more than {most} picks. Start again.")
    for part in parts:
        if len(part) != 1 or part not in offered:
            raise NotUnderstood(f"{part[:20]!r} is not {where}. Use letters from a to {offered[-1]}.")
    return parts


def advice(rules: Iterable[Before], order: Iterable[str]) -> tuple[str, ...]:
    """Return what would have been handier or better kept, for the texts in the order in which they were done."""
    place = {text: at for at, text in reversed(list(enumerate(order)))}
    return tuple(
        f"Better: “{r.first}” before “{r.then}”, because {r.because}"
        for r in rules
        if r.kind in ADVICE_ONLY and r.first in place and r.then in place and place[r.first] > place[r.then]
    )


def moved_early(order: Sequence[str], rule: Before) -> list[str]:
    """Return an order with the later card of a rule put just before its earlier one."""
    steps = list(order)
    steps.remove(rule.then)
    steps.insert(steps.index(rule.first), rule.then)
    return steps
