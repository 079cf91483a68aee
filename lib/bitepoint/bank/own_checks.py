"""A college's questions tried out before a class meets them: drawn three hundred times, marked, measured for what gives them away.

What cannot be used is told apart from what a person should look at: a draw that does not mark right is the one, a right
option that is always the longest the other.
"""

import re
from collections.abc import Iterator, Sequence
from pathlib import Path

from msgspec import Struct

from bitepoint.bank.guessing.offers import Offer, is_one_of, offer_of
from bitepoint.bank.guessing.rules import always_longest, longest_right
from bitepoint.bank.own import OwnQuestions, examined, exercises_made
from bitepoint.bank.own.making import shown_answer
from bitepoint.bank.own.rows import NO_SOURCE, OwnQuestion
from bitepoint.bank.own.texts import texts_of
from bitepoint.bank.registry import Exercise
from bitepoint.errors import BadData, NotCovered
from bitepoint.printable import printable
from bitepoint.questions.draw import STANDARD
from bitepoint.questions.kinds import kind_of
from bitepoint.questions.question import Question

LEARNERS, TURNS = 100, (1, 2, 3)
MOST_LONGEST = 0.35
"""In so large a share of all choices drawn the right option may be the longest; with three or four options chance is a third."""
LONG_SENTENCE = 30
_SENTENCE_END = re.compile(r"[.!?:;]\s+|\n")


class Checked(Struct, frozen=True, kw_only=True):
    """What came of checking a file: lines on what cannot be used, lines on what a person should look at, one line a question."""

    questions: OwnQuestions | None
    refused: tuple[str, ...] = ()
    look: tuple[str, ...] = ()
    told: tuple[str, ...] = ()


def check_questions(path: Path, *, cars: Sequence[str] = STANDARD) -> Checked:
    """Check a college's file of questions, drawn for a class on these cars of the data files in use."""
    found = examined(path)
    if found.questions is None:
        return Checked(questions=None, refused=found.faults)
    refused, look, told, offers = [], [], [], []
    made = exercises_made(found.questions)
    for row, exercise in zip(found.questions.question, made.values(), strict=True):
        try:
            drawn = list(_drawn(exercise, cars))
            problem = next((p for q in drawn if (p := _problem(row, q))), "")
        except NotCovered as error:
            look.append(_line(path, row, f"is left out in this class: {error}"))
            continue
        except BadData as error:
            drawn, problem = [], str(error)
        if problem:
            refused.append(_line(path, row, f"{problem.rstrip('.')}. Change figures, tolerance or mistake"))
            continue
        offers += [offer_of(exercise.id, kind_of(q).judged(q)) for q in drawn if is_one_of(q)]
        look += [_line(path, row, rule) for rule in _giveaways(drawn) if rule]
        look += [_line(path, row, rule) for rule in _hard_to_read(row)]
        told.append(_summary(exercise, row, drawn))
    look += _guessable(path, offers)
    return Checked(questions=found.questions, refused=tuple(refused), look=tuple(look), told=tuple(told))


def _line(path: Path, row: OwnQuestion, rule: str) -> str:
    return printable(f"{path.name}: question {row.topic!r}: {rule}.")


def _drawn(exercise: Exercise, cars: Sequence[str]) -> Iterator[Question]:
    for number in range(LEARNERS):
        for turn in TURNS:
            letter = cars[number % len(cars)]
            yield exercise.draw(class_word="check", learner=f"learner-{number}", turn=turn, vehicle=letter, cars=cars)


def _problem(row: OwnQuestion, question: Question) -> str:
    """Say what is wrong with how one draw is marked; "" when right is right and each mistake is itself."""
    # That no two figures of a number lie too near is looked after by the draw itself.
    if not question.mark(question.right_answer()).right:
        return f"the right answer {question.right_answer()} is not marked right"
    if figure := kind_of(question).figure(question):
        shown = shown_answer(figure.answer, figure.unit, row.decimals)
        if not question.mark(shown).right:
            return f"the solution prints {shown}, which is not marked right: more decimals or a wider tolerance"
    for answer, name in question.known_mistakes():
        verdict = question.mark(answer)
        if verdict.right or name not in verdict.mistakes:
            return f"the mistake {name!r} is not recognised"
    return ""


def _giveaways(drawn: Sequence[Question]) -> Iterator[str]:
    """Yield what gives a question away whenever it is drawn."""
    severals = [judged for q in drawn if not is_one_of(q) and (judged := kind_of(q).judged(q))]
    if severals and all(min(_lengths(j, True)) > max(_lengths(j, False)) for j in severals):
        yield "every right option is longer than every wrong one; make them equally long"
    choices = [offer_of("", kind_of(q).judged(q)) for q in drawn if is_one_of(q)]
    if choices and always_longest(choices):
        yield "the right option is the longest in every draw; make the options equally long"


def _lengths(judged: Sequence[tuple[str, bool]], wanted: bool) -> list[int]:
    return [len(text) for text, right in judged if right == wanted]


def _guessable(path: Path, offers: Sequence[Offer]) -> list[str]:
    """Say that who always takes the longest option gets too many right, where no single question says so already."""
    if not offers or always_longest(offers) or (share := longest_right(offers)) <= MOST_LONGEST:
        return []
    rule = f"the right option is the longest in {share:.0%} of the choices drawn, and {MOST_LONGEST:.0%} is the most"
    return [f"{path.name}: {rule}. Make some right options shorter or wrong ones longer."]


def _hard_to_read(row: OwnQuestion) -> Iterator[str]:
    for where, text, _, _ in texts_of(row):
        longest = max((len(sentence.split()) for sentence in _SENTENCE_END.split(text)), default=0)
        if longest > LONG_SENTENCE:
            yield f"{where}: a sentence has {longest} words, and {LONG_SENTENCE} is the most; make two of it"
            return


def _summary(exercise: Exercise, row: OwnQuestion, drawn: Sequence[Question]) -> str:
    forms = len({q.form for q in drawn})
    source = "common practice" if row.source == NO_SOURCE else "own document"
    many = "1 form" if forms == 1 else f"{forms} forms"
    return f"{exercise.id}: {row.kind}, {many}, {len(drawn)} draws marked as they should be; source: {source}."
