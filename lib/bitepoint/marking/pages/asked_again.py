"""What one learner was asked again weeks later, as the learner's and the assessor's page tell it."""

from collections.abc import Sequence

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.errors import BitepointError
from bitepoint.logbook.record import RECALL
from bitepoint.marking.recalled import Recalled
from bitepoint.marking.result import Result
from bitepoint.questions.question import Question

_LONGEST = 700


class ToldAgain(Struct, frozen=True, kw_only=True):
    """One answer in recall as it is read; `after` says how long it was since the one before, `why` the course's reason."""

    one: Recalled
    title: str
    after: str
    why: str = ""


class AskedAgain(Struct, frozen=True, kw_only=True):
    """All of them, newest first; of each exercise the newest: dangers still open, what is missed, what is right. And the reasons."""

    answers: tuple[ToldAgain, ...]
    dangers: tuple[ToldAgain, ...]
    missed: tuple[ToldAgain, ...]
    firm: tuple[ToldAgain, ...]
    reasons: tuple[ToldAgain, ...]

    @property
    def right(self) -> int:
        """How many were right."""
        return sum(told.one.right for told in self.answers)


def asked_again(result: Result) -> AskedAgain:
    """Return what a learner was asked again; empty where nothing was."""
    told = [_told(result, one) for one in reversed(result.recalled) if one.exercise in exercises()]
    dangers = _newest([t for t in told if t.one.danger_open])
    open_in = {t.one.exercise for t in dangers}
    newest = _newest(told)
    return AskedAgain(
        answers=tuple(told),
        dangers=dangers,
        missed=tuple(t for t in newest if not t.one.right and t.one.exercise not in open_in),
        firm=tuple(t for t in newest if t.one.right),
        reasons=tuple(t for t in told if t.one.own_words),
    )


def _newest(told: Sequence[ToldAgain]) -> tuple[ToldAgain, ...]:
    """Return of each exercise the newest answer."""
    found: dict[str, ToldAgain] = {}
    for one in told:
        found.setdefault(one.one.exercise, one)
    return tuple(found.values())


def _told(result: Result, one: Recalled) -> ToldAgain:
    question = _question(result, one) if one.own_words else None
    return ToldAgain(
        one=one,
        title=exercises()[one.exercise].title,
        after=after_words(one.days),
        why=question.why[:_LONGEST] if question else "",
    )


def after_words(days: float | None) -> str:
    """Say how long it was since an exercise was last answered; "" where nobody knows.

    Examples
    --------
    >>> after_words(0.2), after_words(1), after_words(9.6), after_words(30), after_words(None)
    ('the same day', 'after 1 day', 'after 10 days', 'after 4 weeks', '')
    """
    if days is None:
        return ""
    whole = round(days)
    if whole < 1:
        return "the same day"
    if whole >= 14:
        return f"after {round(days / 7)} weeks"
    return f"after {whole} {'day' if whole == 1 else 'days'}"


def _question(result: Result, one: Recalled) -> Question | None:
    """Return the question of a turn of recall, None where it cannot be drawn any more."""
    exercise = exercises()[one.exercise]
    try:
        return exercise.draw(
            class_word=result.class_word,
            learner=result.name,
            turn=one.turn,
            sitting=RECALL,
            vehicle=result.cars.of(result.name) or None,
            cars=result.cars.letters,
        )
    except (BitepointError, KeyError, RuntimeError, ValueError, ArithmeticError):
        return None
