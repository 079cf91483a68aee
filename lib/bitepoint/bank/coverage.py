"""What a class with certain cars does not get: exercises left out with their reason, outcomes that are not covered."""

from collections.abc import Sequence

from bitepoint.bank import exercises
from bitepoint.bank.registry import Exercise
from bitepoint.errors import NotCovered
from bitepoint.questions.draw import STANDARD
from bitepoint.workshop.datafiles import once_a_set


def left_out(cars: Sequence[str], lessons: Sequence[str] = ()) -> dict[str, str]:
    """Return the exercises that no car of the class can serve, each with its reason; of some lessons, or of all."""
    return dict(_left_out(tuple(cars), tuple(lessons)))


@once_a_set
def _left_out(cars: tuple[str, ...], lessons: tuple[str, ...]) -> dict[str, str]:
    counting = (e for e in exercises().values() if not lessons or e.lesson in lessons)
    return {e.id: reason for e in counting if (reason := e.left_out(cars))}


@once_a_set
def not_covered(cars: tuple[str, ...], lessons: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Return the outcomes all of whose exercises are left out, in the order of the bank."""
    gone = left_out(cars, lessons)
    if not gone:
        return ()
    by_outcome: dict[str, list[Exercise]] = {}
    for exercise in exercises().values():
        if not lessons or exercise.lesson in lessons:
            by_outcome.setdefault(exercise.outcome, []).append(exercise)
    return tuple(outcome for outcome, group in by_outcome.items() if all(e.id in gone for e in group))


@once_a_set
def is_of_safety(outcome: str) -> bool:
    """Whether an outcome is one of safety: it belongs to the lesson on it, or a mistake in it could hurt someone."""
    group = [e for e in exercises().values() if e.outcome == outcome]
    return any(e.lesson == "safe" or can_hurt(e.id) for e in group)


@once_a_set
def can_hurt(id: str) -> bool:
    """Whether a mistake in an exercise could hurt someone or let a part come loose, in one of its first three turns."""
    exercise = exercises()[id]
    for turn in (1, 2, 3):
        try:
            question = exercise.draw(class_word="practice", learner="practice", turn=turn, cars=STANDARD)
        except NotCovered:
            # A college's own question about a figure that the four cars lack: nobody knows it to be harmless.
            return True
        if any(question.mark(answer).critical for answer, _ in question.known_mistakes()):
            return True
    return False
