"""The exercises that a class is asked now, worked out once for all its learners."""

from bitepoint.bank.corrections import withdrawn_now
from bitepoint.bank.registry import Exercise
from bitepoint.marking.rules import ClassRules
from bitepoint.workshop.datafiles import once_a_set


def asked_of(rules: ClassRules) -> tuple[Exercise, ...]:
    """Return the exercises that are assessed under these rules and whose question is not withdrawn, in the bank's order."""
    return _asked(rules.lessons, rules.vehicles)


@once_a_set
def _asked(lessons: tuple[str, ...], vehicles: tuple[str, ...]) -> tuple[Exercise, ...]:
    assessed = ClassRules(lessons=lessons, vehicles=vehicles).assessed()
    return tuple(e for e in assessed if e.id not in withdrawn_now())
