"""A class that is asked again, invented without drawing a question: fast enough for many seeds, with its known truth."""

from datetime import timedelta
from random import Random

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.marking.figures.forgetting import RecallCount
from bitepoint.marking.rehearsal.apprentice import FIRST_DAY
from bitepoint.marking.rehearsal.invented import hardness_of
from bitepoint.marking.rehearsal.memory import InventedMemory
from bitepoint.marking.rehearsal.weeks import weeks_there
from bitepoint.recall.choosing import is_asked_again

DAY = timedelta(days=1)


class InventedAnswer(Struct, frozen=True):
    """One answer and the chance that it had of being right."""

    count: RecallCount
    chance: float


def invented_recall(
    seed: int, *, learners: int = 24, weeks: int = 20, questions: int = 10
) -> list[list[InventedAnswer]]:
    """Return the answers of each learner: lessons one a week, then some questions at random in each week of being there."""
    hardness, asked = hardness_of(seed), [e for e in exercises().values() if is_asked_again(e)]
    place = {lesson: n for n, lesson in enumerate(dict.fromkeys(e.lesson for e in exercises().values()))}
    found = []
    for number in range(1, learners + 1):
        rng, memory, own = Random(f"{seed}/{number}"), InventedMemory(f"{seed}/{number}", hardness), []
        for exercise in asked:
            memory.learned(exercise.id, FIRST_DAY + 7 * place[exercise.lesson] * DAY, 1.0)
        for week in weeks_there(number, weeks, rng):
            at = FIRST_DAY + (7 * week + 3) * DAY
            there = [e.id for e in asked if memory.traces[e.id].last < at]
            for id in rng.sample(there, min(questions, len(there))):
                trace = memory.traces[id]
                chance, days = trace.chance(at), (at - trace.last) / DAY
                right = rng.random() < chance
                own.append(InventedAnswer(RecallCount(id, days, right, "" if right else "a slip"), chance))
                memory.answered(id, at, right)
        found.append(own)
    return found
