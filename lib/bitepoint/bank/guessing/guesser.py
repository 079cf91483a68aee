"""A guesser who knows no clutch: fitted on other lessons to the looks of their right options, and tried on a lesson.

The model is a conditional logit: each option gets a weighted sum of its looks, and the right one is to have the highest.
numpy does the fit and is imported only when called.
"""

import re
from collections.abc import Iterable, Sequence
from functools import cache
from statistics import fmean
from typing import TYPE_CHECKING, Any

from bitepoint.bank.guessing.offers import Offer, asks, offers

if TYPE_CHECKING:
    from numpy.typing import NDArray

_SOFT = re.compile(
    r"\b(about|if|in doubt|unless|only if|first|before|until|when|where|then|may|might|can|usually|mostly|often|nearly|"
    r"at least|some|little|as the sheet|not yet|too)\b",
    re.IGNORECASE,
)
_HARD = re.compile(
    r"\b(always|never|all|every|any|only|just|nothing|none|nobody|at once|cannot|must|no|not)\b", re.IGNORECASE
)
_ROUNDS, _RIDGE = 12, 1.0


def _looks(offer: Offer) -> list[list[float]]:
    """Return the looks of each option: length, hedging and absolute words, place, whether it is to stop and ask."""
    lengths = [len(text) for text in offer.texts]
    mean, last = fmean(lengths), len(lengths) - 1
    return [
        [
            (length - mean) / mean,
            float(length == max(lengths)),
            float(length == min(lengths)),
            float(len(_SOFT.findall(text))),
            float(len(_HARD.findall(text))),
            float(i == 0),
            float(i == last),
            float(asks(text)),
        ]
        for i, (text, length) in enumerate(zip(offer.texts, lengths, strict=True))
    ]


def _arrays(among: Sequence[Offer]) -> "tuple[NDArray[Any], NDArray[Any]]":
    """Return looks by choice and option, and where there is an option at all: choices differ in how many they offer."""
    import numpy as np

    rows = [_looks(offer) for offer in among]
    most = max(map(len, rows))
    looks, there = np.zeros((len(rows), most, len(rows[0][0]))), np.zeros((len(rows), most), dtype=bool)
    for i, row in enumerate(rows):
        looks[i, : len(row)], there[i, : len(row)] = row, True
    return looks, there


def _fitted(looks: "NDArray[Any]", there: "NDArray[Any]", right: "NDArray[Any]") -> "NDArray[Any]":
    """Return the weights of the looks that make the right options likeliest, by Newton's method."""
    import numpy as np

    count, _, width = looks.shape
    weights = np.zeros(width)
    chosen = looks[np.arange(count), right]
    for _ in range(_ROUNDS):
        shares = np.where(there, np.exp(looks @ weights), 0.0)
        shares /= shares.sum(axis=1, keepdims=True)
        expected = np.einsum("no,now->nw", shares, looks)
        slope = (chosen - expected).sum(axis=0) - _RIDGE * weights
        spread = np.einsum("no,now->wn", shares, looks) @ expected
        bend = np.einsum("now,nov->wv", looks * shares[..., None], looks) - spread + _RIDGE * np.eye(width)
        weights = weights + np.linalg.solve(bend, slope)
    return weights


@cache
def scores() -> dict[Offer, float]:
    """Return what the guesser gets for each choice of the bank, fitted on every lesson but that choice's own."""
    return scores_of(offers())


def scores_of(among: Sequence[Offer]) -> dict[Offer, float]:
    """Return what the guesser gets for each of these choices, fitted on those of the other lessons."""
    import numpy as np

    looks, there = _arrays(among)
    right = np.array([offer.right for offer in among])
    lesson = np.array([offer.lesson for offer in among])
    found: dict[Offer, float] = {}
    for key in dict.fromkeys(offer.lesson for offer in among):
        others, own = lesson != key, np.flatnonzero(lesson == key)
        weights = _fitted(looks[others], there[others], right[others])
        worth = np.where(there[own], looks[own] @ weights, -np.inf)
        best = np.isclose(worth, worth.max(axis=1, keepdims=True))
        for at, picks in zip(own, best, strict=True):
            found[among[int(at)]] = among[int(at)].score(tuple(map(int, np.flatnonzero(picks))))
    return found


def guessed_right(among: Iterable[Offer]) -> float:
    """Return the share of these choices of the bank that the guesser gets right."""
    known = scores()
    return fmean([known[offer] for offer in among] or [0.0])
