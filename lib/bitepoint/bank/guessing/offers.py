"""Every choice of the bank as it is drawn for some learners: its options in their order, and which one is right."""

import re
from collections.abc import Iterable
from functools import cache
from itertools import product
from statistics import fmean

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.registry import Exercise
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

_ONE = "choice"
"""Kind of the questions in which one option is right."""
LEARNERS, TURNS = 12, (1, 2, 3)
"""Three turns meet three forms of an exercise; a fourth comes first with some of the learners."""

_ASKS = re.compile(
    r"\bstop\b.*\bask\b|\b(?:and|then) ask\b(?! the (?:customer|driver))|\bask (?:your|the|a) (?:supervisor|person in charge|fitter)",
    re.IGNORECASE,
)


class Offer(Struct, frozen=True):
    """A choice as one learner sees it; `right` counts from 0."""

    exercise: str
    texts: tuple[str, ...]
    right: int

    @property
    def lesson(self) -> str:
        """Key of its lesson."""
        return self.exercise.partition(".")[0]

    @property
    def chance(self) -> float:
        """What blind guessing gets."""
        return 1 / len(self.texts)

    @property
    def longest(self) -> tuple[int, ...]:
        """The longest option, or those that share the greatest length."""
        lengths = [len(text) for text in self.texts]
        return tuple(i for i, length in enumerate(lengths) if length == max(lengths))

    @property
    def asking(self) -> tuple[int, ...]:
        """The options that put the decision before somebody else."""
        return tuple(i for i, text in enumerate(self.texts) if asks(text))

    def score(self, picked: tuple[int, ...]) -> float:
        """What picking blindly among these options gets on average; chance where there is none."""
        return (self.right in picked) / len(picked) if picked else self.chance


def asks(text: str) -> bool:
    """Whether an option is to stop and ask; to ask the customer or the driver is part of the work."""
    return bool(_ASKS.search(text))


@cache
def offers() -> tuple[Offer, ...]:
    """Return the choices of every exercise that has some, in the order of the bank."""
    return tuple(offer_of(id, kind_of(q).judged(q)) for id, q in _drawn() if is_one_of(q))


def is_one_of(question: Question) -> bool:
    """Whether one option of several is to be chosen."""
    return kind_of(question).name == _ONE


def offer_of(id: str, judged: list[tuple[str, bool]]) -> Offer:
    """Return a choice of one exercise from its options in their order, each with whether it is right."""
    return Offer(id, tuple(text for text, _ in judged), [right for _, right in judged].index(True))


def by_exercise(among: Iterable[Offer]) -> dict[str, list[Offer]]:
    """Return the choices by their exercise."""
    found: dict[str, list[Offer]] = {}
    for offer in among:
        found.setdefault(offer.exercise, []).append(offer)
    return found


@cache
def right_beside_wrong() -> dict[str, float]:
    """Return, for each exercise that asks for several, how often a right option is longer than a wrong one beside it."""
    found: dict[str, list[float]] = {}
    for id, question in _drawn():
        if not is_one_of(question):
            judged = kind_of(question).judged(question)
            rights, wrongs = ([len(text) for text, right in judged if right == wanted] for wanted in (True, False))
            pairs = [0.5 * ((right > wrong) + (right >= wrong)) for right, wrong in product(rights, wrongs)]
            found.setdefault(id, []).extend(pairs)
    return {id: fmean(pairs) for id, pairs in found.items() if pairs}


@cache
def _drawn() -> tuple[tuple[str, Question], ...]:
    """Return id and questions of each exercise that has choices, of one or of several options, among its first ones."""
    return tuple((exercise.id, question) for exercise in exercises().values() for question in _questions(exercise))


def _questions(exercise: Exercise) -> list[Question]:
    first = [_draw(exercise, 0, turn) for turn in TURNS]
    if not any(kind_of(question).judged(question) for question in first):
        return []
    return first + [_draw(exercise, learner, turn) for learner in range(1, LEARNERS) for turn in TURNS]


def _draw(exercise: Exercise, learner: int, turn: int) -> Question:
    return exercise.draw(class_word="amber", learner=f"learner-{learner}", turn=turn)
