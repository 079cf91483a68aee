"""How an exercise is written down and drawn: one function, one decorator."""

from collections.abc import Callable
from typing import TypeVar

from msgspec import Struct

from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Question

Q = TypeVar("Q", bound=Question)
Make = Callable[[Draw], Question]


class Exercise(Struct, frozen=True, kw_only=True):
    """One thing to answer: its id `lesson.topic`, what it shows (outcome), minutes, and the function that draws it.

    `beyond` marks a "Go deeper" exercise outside the pass rule. `makers` holds the function of every released
    revision, so that an old hand-in can still be marked.
    """

    id: str
    lesson: str
    title: str
    outcome: str
    minutes: float
    revision: int
    beyond: bool
    makers: dict[int, Make]

    @property
    def module(self) -> str:
        """Name of the module that holds the newest revision."""
        return self.makers[self.revision].__module__

    def draw(self, *, class_word: str, learner: str, turn: int = 1, sitting: str = "", revision: int = 0) -> Question:
        """Return the question of this learner and turn; the same call gives the same question everywhere.

        Raises
        ------
        KeyError
            There is no such revision.
        """
        maker = self.makers[revision or self.revision]
        return maker(Draw(class_word=class_word, learner=learner, exercise=self.id, turn=turn, sitting=sitting))


_EXERCISES: dict[str, Exercise] = {}


def exercise(
    id: str, *, lesson: str, outcome: str, minutes: float, revision: int = 1, beyond: bool = False, title: str = ""
) -> Callable[[Callable[[Draw], Q]], Callable[[Draw], Q]]:
    """Register the function below as an exercise; the newest revision is the one that is asked.

    The title is made from the id's topic when none is given.
    """

    def register(make: Callable[[Draw], Q]) -> Callable[[Draw], Q]:
        older = _EXERCISES.get(id)
        makers: dict[int, Make] = {**(older.makers if older else {}), revision: make}
        if older and older.revision > revision:
            _EXERCISES[id] = Exercise(**{**{f: getattr(older, f) for f in older.__struct_fields__}, "makers": makers})
            return make
        _EXERCISES[id] = Exercise(
            id=id,
            lesson=lesson,
            title=title or id.partition(".")[2].replace("-", " ").capitalize(),
            outcome=outcome,
            minutes=minutes,
            revision=revision,
            beyond=beyond,
            makers=makers,
        )
        return make

    return register


def registered() -> dict[str, Exercise]:
    """Return every exercise registered so far, in the order of writing."""
    return dict(_EXERCISES)
