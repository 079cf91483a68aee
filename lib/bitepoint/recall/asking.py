"""Which question recall asks: drawn with its own word, in another form than the one seen last."""

from collections.abc import Sequence
from contextlib import suppress

from bitepoint.bank import Exercise, exercise_named
from bitepoint.errors import BitepointError, NotCovered
from bitepoint.logbook import Identity
from bitepoint.logbook.record import RECALL, Record
from bitepoint.questions.question import Question

_TURNS_TRIED = 4


def recall_question(id: str, identity: Identity, answered: Sequence[Record]) -> tuple[Question, int]:
    """Return the question to ask again and its turn in recall, the first one after those answered.

    `answered` are the learner's lines about this exercise, oldest first. The same lines give the same question, on every
    device; no turn of the lesson is used.

    Raises
    ------
    BadInput
        There is no such exercise.
    NotCovered
        No car of the class serves it.
    """
    exercise = exercise_named(id)
    first = 1 + max((r.turn for r in answered if r.is_recall), default=0)
    seen = _form_of(exercise, answered[-1]) if answered else ""
    found: tuple[Question, int] | None = None
    for turn in range(first, first + _TURNS_TRIED):
        with suppress(NotCovered):
            question = draw_in_recall(exercise, identity, turn)
            if not question.form or question.form != seen:
                return question, turn
            found = found or (question, turn)
    return found or (draw_in_recall(exercise, identity, first), first)


def draw_in_recall(exercise: Exercise, identity: Identity, turn: int) -> Question:
    """Return the question of one turn of recall, for this learner and car."""
    return exercise.draw(
        class_word=identity.class_word,
        learner=identity.learner,
        turn=turn,
        sitting=RECALL,
        vehicle=identity.vehicle or None,
        cars=identity.vehicles,
    )


def _form_of(exercise: Exercise, record: Record) -> str:
    """Return the form of words that a line answers, "" where that cannot be told any more."""
    try:
        return exercise.draw(
            class_word=record.class_word,
            learner=record.learner,
            turn=record.turn,
            sitting=record.sitting,
            revision=record.revision,
            vehicle=record.vehicle or None,
            edition=record.edition,
            cars=record.class_cars,
        ).form
    except (BitepointError, KeyError, RuntimeError, ValueError, ArithmeticError):
        return ""
