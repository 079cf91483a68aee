"""Two rules of thumb that need no knowledge: always take the longest option, always take "stop and ask"."""

from collections.abc import Collection, Iterable
from statistics import fmean

from bitepoint.bank.guessing.offers import Offer, by_exercise


def longest_right(among: Collection[Offer]) -> float:
    """Return the share of choices in which the longest option is right; options of one length share it."""
    return fmean(offer.score(offer.longest) for offer in among)


def always_longest(among: Iterable[Offer]) -> list[str]:
    """Return the exercises in which the right option is the longest whenever they are drawn."""
    return [
        exercise
        for exercise, group in by_exercise(among).items()
        if all(offer.longest == (offer.right,) for offer in group)
    ]


def offering_to_ask(among: Iterable[Offer]) -> list[Offer]:
    """Return the choices that offer to stop and ask."""
    return [offer for offer in among if offer.asking]


def asking_right(among: Iterable[Offer]) -> float:
    """Return the share of choices that offer to stop and ask in which that is right; 0 where none does."""
    return fmean([offer.score(offer.asking) for offer in offering_to_ask(among)] or [0.0])


def chance(among: Collection[Offer]) -> float:
    """Return what blind guessing gets; 0 where there is no choice."""
    return fmean([offer.chance for offer in among] or [0.0])
