"""The five questions of a warm-up: what was missed most, in kinds that a wall can ask, drawn with a word of their own."""

import re
from collections import Counter
from collections.abc import Sequence
from contextlib import suppress
from datetime import date
from typing import Any

from msgspec import Struct

from bitepoint.bank import exercises
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.classroom.warm_ups.missed import Missed
from bitepoint.errors import NotCovered
from bitepoint.marking.pages.solutions import picture_of
from bitepoint.questions.choice import Choice, Several
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.number import Number
from bitepoint.questions.question import Question
from bitepoint.recall.choosing import is_asked_again

QUESTIONS = 5
WORD = "warm-up."
"""Word that a warm-up draws with, where a sitting has its own: with its dot at the end no class can choose it."""
_OF_A_LESSON = 2
_KINDS = (Choice, Several, Number)
"""An order of work does not fit a screen with its answer, and what is done on a picture wants a hand."""
_ON_A_SCREEN = 620
"""Letters of question, table and options that a screen shows large enough for the back of a room; tried at 1280 by 720."""
_WITH_A_PICTURE = 430
_TURNS = 6


class WarmUpQuestion(Struct, frozen=True, kw_only=True):
    """One question with its answer; `size` says how large its letters may be, `tempting` are (mistake, what to say, dangerous)."""

    id: str
    title: str
    lesson: str
    kind: str
    car: str
    ask: tuple[str, ...]
    table: tuple[tuple[str, ...], ...]
    offer: tuple[tuple[str, str], ...]
    picture: dict[str, str] | None
    unit: str
    answer: str
    right: tuple[str, ...]
    why: str
    worked: str
    tempting: tuple[tuple[str, str, bool], ...]
    missed: Missed
    size: int


def warm_up_questions(
    missed: Sequence[Missed], *, class_word: str, cars: Sequence[str], day: date
) -> list[WarmUpQuestion]:
    """Return five questions for a day, at most two of a lesson; fewer where the class has answered too little.

    They are drawn for nobody: the word, and a name that no learner has, keep them apart from every turn of a lesson, a
    sitting or recall. Another day brings other figures.
    """
    found: list[WarmUpQuestion] = []
    lessons = Counter[str]()
    for one in missed:
        exercise = exercises()[one.exercise]
        if len(found) == QUESTIONS:
            break
        if lessons[exercise.lesson] == _OF_A_LESSON or not is_asked_again(exercise, cars):
            continue
        question = _for_a_screen(one.exercise, class_word, cars, day, len(found))
        if question:
            lessons[exercise.lesson] += 1
            found.append(_told(question, one))
    return found


def _for_a_screen(id: str, class_word: str, cars: Sequence[str], day: date, place: int) -> Question | None:
    """Return the first drawn question of an exercise that a screen can ask, None where none of some turns can."""
    car = cars[place % len(cars)]
    for turn in range(1, _TURNS + 1):
        with suppress(NotCovered):
            question = exercises()[id].draw(
                class_word=class_word,
                learner=f"class.{day.isoformat()}",
                turn=turn,
                sitting=WORD,
                vehicle=car,
                cars=cars,
            )
            if type(question) in _KINDS and _letters(question) <= _room(question):
                return question
    return None


def _room(question: Question) -> int:
    return _WITH_A_PICTURE if question.picture else _ON_A_SCREEN


def _letters(question: Question) -> int:
    """Count the letters; a row of a table or an option takes a line, which is worth sixty."""
    rows = [" ".join(row) for row in question.table] + [text for _, text in kind_of(question).offered(question)]
    return len(question.ask) + sum(max(60, len(row)) for row in rows)


def _told(question: Question, missed: Missed) -> WarmUpQuestion:
    exercise, known = exercises()[question.exercise], lessons_in_use()
    lesson = known[exercise.lesson].title if exercise.lesson in known else exercise.lesson
    right, figure = question.right_answer(), kind_of(question).figure(question)
    return WarmUpQuestion(
        id=exercise.id,
        title=exercise.title,
        lesson=lesson,
        kind=question.kind,
        car=question.vehicle or question.own_vehicle,
        ask=tuple(question.ask.split("\n\n")),
        table=tuple(tuple(row) for row in question.table),
        offer=tuple(kind_of(question).offered(question)),
        picture=picture_of(question),
        unit=_unit_to_say(question),
        answer=question.mark(right).understood,
        right=_right_letters(question, right),
        why=question.why,
        worked=question.solution if figure and question.solution != question.why else "",
        tempting=_tempting(question, missed.mistake),
        missed=missed,
        size=_size(question),
    )


def _unit_to_say(question: Question) -> str:
    """Return the unit of the answer, "" where it has none or the question says it; a figure with that unit says nothing."""
    figure = kind_of(question).figure(question)
    if not figure or not figure.unit:
        return ""
    asked = re.search(rf"\b(in|how many) {re.escape(figure.unit)}(?!\w)", question.ask, re.IGNORECASE)
    return "" if asked else figure.unit


def _right_letters(question: Question, right: Any) -> tuple[str, ...]:
    """Return the letters of what is right, in order; none for a figure."""
    if kind_of(question).figure(question):
        return ()
    return (right,) if isinstance(right, str) else tuple(map(str, right))


def _size(question: Question) -> int:
    """Return 1 for few letters, shown largest, to 3 for many."""
    share = _letters(question) / _room(question)
    return 1 if share < 0.4 else 2 if share < 0.7 else 3


def _tempting(question: Question, mistake: str) -> tuple[tuple[str, str, bool], ...]:
    """Return up to two known mistakes with what to say to them, first the one that the class made."""
    found = [(name, question.mark(answer)) for answer, name in question.known_mistakes()]
    ordered = sorted(found, key=lambda item: (item[0] != mistake, not item[1].critical))
    return tuple((name, verdict.feedback, verdict.critical) for name, verdict in ordered[:2])
