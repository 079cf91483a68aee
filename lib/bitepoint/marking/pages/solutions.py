"""Worked solutions for instructors: each exercise of one learner with its answer, reason and known mistakes."""

from base64 import b64encode
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from bitepoint import pictures
from bitepoint.bank import exercises_of
from bitepoint.bank.coverage import left_out
from bitepoint.bank.lessons import lessons_in_use
from bitepoint.bank.registry import Exercise
from bitepoint.errors import BadInput
from bitepoint.logbook.identity import checked_learner, checked_name
from bitepoint.logbook.one_step import write_in_one_step
from bitepoint.marking.pages.render import render
from bitepoint.questions.draw import STANDARD, own_letter
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question
from bitepoint.sources import source


def write_solutions(
    out: Path,
    *,
    class_word: str,
    learner: str,
    lesson: str = "",
    turns: Sequence[int] = (1, 2),
    sitting: str = "",
    vehicle: str = "",
    cars: Sequence[str] = STANDARD,
) -> list[Path]:
    """Write one page a lesson for this learner's figures and return the files.

    Parameters
    ----------
    out : Path
        Folder for the pages; pages of the same names are replaced.
    class_word, learner : str
        Whose figures: the same words that the workbook has.
    lesson : str
        Only the lesson with this key or number ("star" or "8"); default all.
    turns : sequence of int
        Which turns of each exercise, each from 1.
    sitting, vehicle, cars
        Word of the sitting, the learner's car and the class's cars, as in the start file.

    Raises
    ------
    BadInput
        A name cannot be used, there is no such lesson, or the folder cannot be written.
    """
    word = checked_name(class_word, "The class word")
    who = checked_learner(learner, word)
    sitting = checked_name(sitting, "The sitting word") if sitting else ""
    made = []
    try:
        out.mkdir(parents=True, exist_ok=True)
        known = lessons_in_use()
        for key in _keys(lesson):
            gone = left_out(cars, (key,))
            found = [
                _solved(
                    e,
                    e.draw(
                        class_word=word, learner=who, turn=turn, sitting=sitting, vehicle=vehicle or None, cars=cars
                    ),
                    turn,
                )
                for e in exercises_of(key)
                for turn in turns
                if e.id not in gone
            ]
            path = out / f"solutions-{known[key].notebook.partition('.')[0]}.html"
            page = render(
                "solutions.html.jinja",
                title=known[key].title,
                learner=who,
                class_word=word,
                sitting=sitting,
                car=vehicle or own_letter(word, who),
                questions=found,
                left_out=gone,
            )
            write_in_one_step(path, page.encode("utf-8"))
            made.append(path)
    except OSError as error:
        raise BadInput(f"{out}: cannot be written ({error.strerror}). Name another folder with --out.") from None
    return made


def _keys(lesson: str) -> list[str]:
    if not lesson:
        return list(lessons_in_use())
    for key, entry in lessons_in_use().items():
        if lesson.casefold() == key or (lesson.isdigit() and int(lesson) == int(entry.notebook[:2])):
            return [key]
    known = ", ".join(f"{int(entry.notebook[:2])} ({key})" for key, entry in lessons_in_use().items())
    raise BadInput(f"There is no lesson {lesson[:40]!r}. Choose one of {known}.")


def _solved(exercise: Exercise, question: Question, turn: int) -> dict[str, Any]:
    right = question.right_answer()
    return {
        "id": exercise.id,
        "title": exercise.title,
        "turn": turn,
        "beyond": exercise.beyond,
        "ask": question.ask,
        "table": question.table,
        "offer": kind_of(question).offered(question),
        "picture": picture_of(question),
        "answer": question.mark(right).understood,
        "typed": right if isinstance(right, str) else " ".join(map(str, right)),
        "why": question.why,
        "solution": question.solution,
        "source": source(question.source).title,
        "mistakes": [_mistake(question, answer, name) for answer, name in question.known_mistakes()],
    }


def _mistake(question: Question, answer: Any, name: str) -> dict[str, Any]:
    verdict = question.mark(answer)
    return {"name": name, "answer": verdict.understood, "says": verdict.feedback, "critical": verdict.critical}


def picture_of(question: Question) -> dict[str, str] | None:
    """Return a question's picture as an address that holds it, with its alt text; None where it has none."""
    if question.picture is None:
        return None
    drawing = pictures.draw(question.picture.key, **question.picture.parameters)
    svg = isinstance(drawing.content, str)
    content = drawing.content.encode("utf-8") if isinstance(drawing.content, str) else drawing.content
    kind = "svg+xml" if svg else "png"
    return {"alt": drawing.alt, "src": f"data:image/{kind};base64,{b64encode(content).decode('ascii')}"}
