"""The exercises: one package a lesson, one function an exercise."""

from collections.abc import Mapping
from difflib import get_close_matches
from functools import cache
from importlib import import_module
from types import MappingProxyType

from bitepoint.bank.lessons import LESSONS
from bitepoint.bank.own import own_exercises
from bitepoint.bank.registry import Exercise, registered
from bitepoint.errors import BadInput
from bitepoint.workshop.datafiles import data_files, once_a_set

__all__ = ["Exercise", "exercise_named", "exercises", "exercises_of", "shipped_exercise"]


@once_a_set
def exercises() -> Mapping[str, Exercise]:
    """Return every exercise by its id, lesson by lesson in the order in which they are asked.

    Where the data files in use have questions of a college's own, these come last.
    """
    own = {} if data_files().is_shipped else own_exercises()
    return MappingProxyType({**_shipped(), **own}) if own else _shipped()


@cache
def _shipped() -> Mapping[str, Exercise]:
    modules = [module for lesson in LESSONS for module in _modules(lesson)]
    place = {module: at for at, module in enumerate(modules)}
    return MappingProxyType(dict(sorted(registered().items(), key=lambda item: place[item[1].module])))


@cache
def _modules(lesson: str) -> tuple[str, ...]:
    """Import the modules of a lesson, which registers its exercises, and return their names."""
    package = f"{__name__}.{lesson}"
    return tuple(import_module(f"{package}.{module}").__name__ for module in import_module(package).MODULES)


def shipped_exercise(id: str) -> Exercise | None:
    """Return an exercise of the course without importing other lessons: nobody who opens one waits for all. None: there is none."""
    lesson = id.partition(".")[0] if isinstance(id, str) else ""
    if lesson not in LESSONS:
        return None
    _modules(lesson)
    return registered().get(id)


def exercises_of(lesson: str) -> list[Exercise]:
    """Return the exercises of a lesson in the order in which they are asked."""
    return [e for e in exercises().values() if e.lesson == lesson]


def exercise_named(id: str) -> Exercise:
    """Return the exercise with this id.

    Raises
    ------
    BadInput
        There is no such exercise; the nearest id is named.
    """
    if data_files().is_shipped and (found := shipped_exercise(id)):
        return found
    known = exercises()
    if id not in known:
        near = get_close_matches(str(id), known, n=1, cutoff=0.0)
        raise BadInput(f"There is no exercise {str(id)[:60]!r}. Did you mean {near[0]!r}?")
    return known[id]
