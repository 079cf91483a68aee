"""The learners of an invented class, after their work."""

from collections.abc import Sequence
from random import Random

import msgspec

from bitepoint.bank import Exercise, exercises
from bitepoint.bank.coverage import left_out
from bitepoint.logbook.identity import REHEARSAL, learner_id
from bitepoint.marking.rehearsal import planted as cases
from bitepoint.marking.rehearsal.apprentice import Apprentice, Habit
from bitepoint.questions.draw import STANDARD, own_letter

_COPIED = 5


def invented_class(
    learners: int,
    seed: int,
    *,
    planted: bool = False,
    lessons: Sequence[str] = (),
    class_word: str = REHEARSAL,
    cars: Sequence[str] = STANDARD,
) -> list[Apprentice]:
    """Return the learners after their work on the cars of the class.

    Some leave exercises out, some work on two machines; the fourth is hasty, the sixth copies figures.
    """
    hardness = hardness_of(seed)
    people, worked = [], lessons_of(lessons, cars)
    for number in range(1, learners + 1):
        rng = Random(f"bitepoint/{seed}/{number}")
        word = cases.OTHER_WORD if planted and number == 10 else class_word
        habit = _planted_habit(number, rng, class_word) if planted else _habit(number, rng, class_word)
        who = learner_id(class_word, number)
        person = Apprentice(word, who, habit, rng, vehicle=_car_of(class_word, number, cars), cars=cars)
        if habit.copies:
            person.copied_vehicle = _car_of(class_word, _COPIED, cars)
        person.work(worked, hardness)
        people.append(person)
    return people


def _car_of(class_word: str, number: int, cars: Sequence[str]) -> str:
    """Return a learner's car as a new class gives it: by the rule over the standard cars, else in turn."""
    if tuple(cars) == STANDARD:
        return own_letter(class_word, learner_id(class_word, number))
    return cars[(number - 1) % len(cars)]


def _habit(number: int, rng: Random, class_word: str) -> Habit:
    return Habit(
        ability=0.5 + 0.5 * rng.random(),
        two_devices=number % 5 == 2,
        hasty=number == 4,
        stops_early=number % 7 == 3,
        copies=learner_id(class_word, _COPIED) if number == 6 else "",
    )


def _planted_habit(number: int, rng: Random, class_word: str) -> Habit:
    """Return a habit that leaves enough work for the case that is planted."""
    planted = {case.number for case in cases.CASES if case.flag}
    return msgspec.structs.replace(
        _habit(number, rng, class_word),
        two_devices=number % 5 == 2 and number not in planted,
        stops_early=number % 7 == 3 and number not in planted,
        typed_ahead=number == 15,
    )


def hardness_of(seed: int) -> dict[str, float]:
    """Return how hard each exercise is; by name, so that a new exercise changes nothing about the others."""
    return {id: 0.45 * Random(f"bitepoint/{seed}/{id}").random() ** 2 for id in exercises()}


def lessons_of(keys: Sequence[str], cars: Sequence[str] = STANDARD) -> Sequence[Sequence[Exercise]]:
    """Return the exercises of each lesson worked on that a car of the class can serve; no keys mean all lessons."""
    gone = left_out(cars)
    found: dict[str, list[Exercise]] = {}
    for exercise in exercises().values():
        if exercise.id in gone or (keys and exercise.lesson not in keys):
            continue
        found.setdefault(exercise.lesson, []).append(exercise)
    return list(found.values())
