"""Wrong answers of an invented apprentice, each with its score by the published rule of its kind, not by marking it."""

from random import Random

from bitepoint.questions.kinds import kind_of
from bitepoint.questions.partly_wrong import Decided
from bitepoint.questions.question import Question

_HALF_RIGHT = ("guessed too early", "confirms on part of the facts")


def wrong_answer(question: Question, rng: Random) -> Decided:
    """Return a wrong answer: a named mistake, a slip of the calculator, or something left out."""
    return kind_of(question).slip(question, rng) or _known(question, rng)


def _known(question: Question, rng: Random) -> Decided:
    """Return a known mistake, most often the first; a right cause that was guessed or not confirmed is worth half."""
    known = question.known_mistakes()
    answer, name = known[0 if rng.random() < 0.55 else rng.randrange(len(known))]
    return Decided(answer, 0.5 if name in _HALF_RIGHT else 0.0, name)
