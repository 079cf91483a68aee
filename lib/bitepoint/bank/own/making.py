"""Exercises made of a college's questions: drawn, asked and marked like those of the course."""

from collections.abc import Callable

from msgspec import structs

from bitepoint.bank.forms.form import Form
from bitepoint.bank.forms.reading import Forms, with_shared
from bitepoint.bank.own.figuring import figured
from bitepoint.bank.own.rows import NO_SOURCE, OwnQuestion, OwnQuestions
from bitepoint.bank.registry import Exercise, Maker
from bitepoint.questions.draw import Draw
from bitepoint.questions.question import Question, shown_number
from bitepoint.sources import OWN_DOCUMENT

KEY = "own"
"""Key of the lesson of a college's own questions, and the first part of their exercises' ids."""


def exercises_made(questions: OwnQuestions) -> dict[str, Exercise]:
    """Return the exercises of a file by id, in its order."""
    digest = questions.digest()
    return {f"{KEY}.{row.topic}": _exercise(row, digest) for row in questions.question}


def _exercise(row: OwnQuestion, digest: str) -> Exercise:
    return Exercise(
        id=f"{KEY}.{row.topic}",
        lesson=KEY,
        title=row.title or row.topic.replace("-", " ").capitalize(),
        outcome=row.outcome,
        minutes=row.minutes,
        revision=1,
        beyond=False,
        makers={1: Maker(make=_maker(row, digest))},
        figures=row.sheet_paths,
    )


def _maker(row: OwnQuestion, digest: str) -> Callable[[Draw], Question]:
    forms = Forms([_whole(row, form) for form in row.form])

    def make(draw: Draw) -> Question:
        return structs.replace(_QUESTIONS[row.kind](row, forms.drawn(draw), draw), own_file=digest)

    return make


def _choice(row: OwnQuestion, form: Form, draw: Draw) -> Question:
    return form.choice(draw)


def _several(row: OwnQuestion, form: Form, draw: Draw) -> Question:
    return form.several(draw)


def _order(row: OwnQuestion, form: Form, draw: Draw) -> Question:
    return form.order(draw)


def _number(row: OwnQuestion, form: Form, draw: Draw) -> Question:
    found = figured(row, draw)
    car = found.car
    fill = {**found.printed, **({"car": car.name, "Car": car.opening} if car else {})}
    mistakes = [structs.replace(m, says=m.says.format_map(fill)) for m in found.mistakes]
    return form.number(
        draw,
        shown=shown_answer(found.answer, found.unit, row.decimals),
        answer=found.answer,
        unit=found.unit,
        within=found.within,
        mistakes=mistakes,
        decimals=row.decimals,
        vehicle=car.id if car else "",
        **fill,
    )


_QUESTIONS = {"choice": _choice, "several": _several, "order": _order, "number": _number}


def shown_answer(answer: float, unit: str, decimals: int | None) -> str:
    """Return the right figure as the solution prints it, with its unit."""
    shown = shown_number(answer, decimals)
    return f"{shown}°" if unit == "°" else f"{shown} {unit}".strip()


def _whole(row: OwnQuestion, form: Form) -> Form:
    """Return a form with its shared options, its source, and the danger beside each mistake that could hurt."""
    whole = with_shared(form, row.shared)
    source = "common-practice" if row.source == NO_SOURCE else f"{OWN_DOCUMENT}{row.source}"
    return structs.replace(
        whole,
        source=source,
        option=tuple(structs.replace(o, says=f"{o.says} {row.danger}") if o.hurts else o for o in whole.option),
        rule=tuple(structs.replace(r, because=f"{r.because} {row.danger}") if r.hurts else r for r in whole.rule),
    )
