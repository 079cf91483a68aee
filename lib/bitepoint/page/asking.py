"""The verb `ask`: a question, a form to answer it, the last verdict from the logbook."""

from threading import Lock
from typing import Any

from bitepoint.bank import exercise_named
from bitepoint.bank.corrections import withdrawal_of
from bitepoint.errors import BitepointError, NotCovered, NotUnderstood
from bitepoint.page import begun_rows, output
from bitepoint.page.cards import Card
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import view_of
from bitepoint.questions.kinds import kind_of

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
    note = "" if answer is _NOTHING or answer is None or answer is ... else _take(session, answer, "typed", turn)
    if turn is not None and answer is _NOTHING and turn >= 1:
        session.turn = turn
    redraw = output.show_static(Card(session, note))
    if output.page_watches():
        _Control(session, redraw).show()


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


def _take(session: ExerciseSession, answer: object, how: str, turn: int | None = None) -> str:
    """Record an answer; return what to say when that was not possible."""
    try:
        question = session.question(turn)
        seen = view_of(question).look(question, answer) if how == "typed" else ""
        if not seen:
            session.answer(answer, how=how, turn=turn)
        return seen
    except BitepointError as error:
        return str(error)


class _Control:
    """Ties a live control to a session: hears answers, says verdicts, redraws the card."""

    def __init__(self, session: ExerciseSession, redraw: Any) -> None:
        self.session, self.redraw, self.n = session, redraw, 0
        self._one_at_a_time = Lock()
        self.view = view_of(session.question())
        self.widget = self.view.control(session, self._spec())
        self._lay_out_begun()
        self.widget.on_msg(self._heard)
        self._say("")

    def _spec(self) -> dict[str, Any]:
        told_at_once = not self.session.withheld
        return self.view.spec(self.session.question(), self.session.exercise.title, told_at_once)

    def _lay_out_begun(self) -> None:
        """Lay out what was begun in another kernel or on another page, then keep each change."""
        if (begun := self.view.begun) is None:
            return
        if kept := begun_rows.begun(self.session):
            begun.resume(self.widget, self.session, kept)
        self.widget.observe(lambda change: begun_rows.keep(self.session, begun.kept(change["new"])), begun.trait)

    def show(self) -> None:
        output.show_live(self.widget)

    def _heard(self, _: Any, content: dict[str, Any], buffers: Any) -> None:
        """Take a message of the page. It runs beside the cells, in a thread of its own, and nobody sees what it raises."""
        with self._one_at_a_time:
            try:
                if content.get("do") in ("pick", "ask"):
                    self.view.tell(self.widget, self.session, content)
                    return
                note = self._act(content)
            except BitepointError as error:
                note = str(error)
            except Exception as error:  # a silent form would leave the learner guessing
                note = f"Something went wrong ({type(error).__name__}). Run this cell again, then answer once more."
            self._say(note)
            self.redraw(Card(self.session, note))

    def _act(self, content: dict[str, Any]) -> str:
        if content.get("do") == "answer":
            how = kind_of(self.session.question()).how
            note = _take(self.session, self.view.answer(self.widget, content), how)
            if not note and self.view.begun and self.view.begun.is_the_answer:
                # Handed over: laid out again it would be taken for work that is still to be checked.
                begun_rows.keep(self.session, None)
            return note
        if content.get("do") == "again" and self.session.may_go_on:
            self._again()
        return ""

    def _again(self) -> None:
        self.session.again()
        if view_of(self.session.question()) is not self.view:
            raise NotUnderstood("The corrected question is answered in another way. Run this cell again.")
        for name in self.view.fresh:
            setattr(self.widget, name, type(getattr(self.widget, name))())
        self.widget.spec = self._spec()

    def _say(self, note: str) -> None:
        from bitepoint.page.widgets.common import said

        tone, word, text = self.session.feedback()
        finished = self.session.right or self.session.closed
        more = self.session.may_go_on
        self.n += 1
        self.view.mark(self.widget, self.session)
        told = tone and self.view.tells_understood
        understood = f"Your answer, as understood: {self.session.understood}" if told else ""
        words = "\n\n".join(part for part in (f"{word} {text}".strip(), understood, note) if part)
        text = note if note and not finished else words
        self.widget.said = said(self.n, "note" if note else tone, text, closed=finished, again=more)
