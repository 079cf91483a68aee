"""The verb `ask`: a question, a form to answer it, the last verdict from the logbook."""

from contextlib import suppress
from functools import cache
from threading import Thread

from bitepoint.bank import exercise_named
from bitepoint.bank.corrections import withdrawal_of
from bitepoint.bank.version import bank_digest
from bitepoint.errors import BitepointError, NotCovered
from bitepoint.page import output
from bitepoint.page.answer_control import AnswerControl, take_answer
from bitepoint.page.cards import Card
from bitepoint.page.exercise_session import ExerciseSession

_NOTHING = object()
asked: list[str] = []
"""Lessons asked about in this kernel, newest last: `summary()` without a name takes the newest."""


def ask(exercise: str, answer: object = _NOTHING, *, turn: int | None = None) -> None:
    """Show an exercise; with an answer, mark and record it.

    Parameters
    ----------
    exercise : str
        Its id, such as "torque.crow-foot".
    answer : text, number or list, optional
        Such as "84,2 Nm", "b", [1, 4, 2, 5, 3, 6]. The same answer typed again is not recorded again.
    turn : int, optional
        2, 3, …: new figures of the same exercise. Default: the turn that is open.
    """
    try:
        # Whose workbook it is says which questions there are: a class may have some of its college's own.
        identity = output.who_asks()
        session = ExerciseSession(exercise_named(exercise), identity)
    except BitepointError as error:
        output.say(error)
        return
    asked.append(session.exercise.lesson)
    if reason := not_asked(session):
        output.tell("Not asked.", reason)
        return
    if output.opening():
        # What stands in a cell may be a draft: opening a lesson shows the form and answers nothing.
        answer = _NOTHING
    note = "" if answer is _NOTHING or answer is None or answer is ... else take_answer(session, answer, "typed", turn)
    if turn is not None and answer is _NOTHING and turn >= 1:
        session.turn = turn
    redraw = output.show_static(Card(session, note))
    if output.page_watches():
        AnswerControl(session, redraw).show()
        _work_ahead()


@cache
def _work_ahead() -> None:
    """Work out the digest of the bank while the first question is read: each line names it, and the first answer would wait."""
    # A browser's own Python starts no threads: there the first answer waits.
    with suppress(RuntimeError):
        Thread(target=_try_digest, daemon=True).start()


def _try_digest() -> None:
    # Whoever needs it says what is wrong; from here nobody would know what to do about it.
    with suppress(OSError):
        bank_digest()


def not_asked(session: ExerciseSession) -> str:
    """Return why this learner is not asked this exercise, as a sentence; "" for one that is asked."""
    exercise = session.exercise
    if reason := exercise.left_out(session.identity.vehicles):
        return f"{exercise.title} ({exercise.id}) is not part of your course. {reason}"
    try:
        session.question()
    except NotCovered as error:
        # A figure that only this learner's turn needs is not on the sheet.
        return f"{exercise.title} ({exercise.id}) cannot be asked now. {error}"
    gone = withdrawal_of(exercise.id, exercise.revision)
    if gone and not session.lines:
        return (
            f"{exercise.title} ({exercise.id}) was withdrawn on {gone.date.isoformat()}. {gone.why} Nothing is to do."
        )
    return ""
