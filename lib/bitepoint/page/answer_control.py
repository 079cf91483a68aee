"""The live control of a question, tied to its session: hears answers, says verdicts, redraws the card."""

from threading import Lock
from typing import Any

from bitepoint.errors import BitepointError, NotUnderstood
from bitepoint.page import begun_rows, output
from bitepoint.page.cards import Card
from bitepoint.page.exercise_session import ExerciseSession
from bitepoint.page.kinds import view_of
from bitepoint.questions.kinds import kind_of


def take_answer(session: ExerciseSession, answer: object, how: str, turn: int | None = None) -> str:
    """Record an answer; return what to say when that was not possible."""
    try:
        question = session.question(turn)
        seen = view_of(question).look(question, answer) if how == "typed" else ""
        if not seen:
            session.answer(answer, how=how, turn=turn)
        return seen
    except BitepointError as error:
        return str(error)


class AnswerControl:
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
            self._tell(note)

    def _tell(self, note: str) -> None:
        """Say how it stands now, in the control and on the card."""
        self._say(note)
        self.redraw(self._card(note))

    def _card(self, note: str) -> Card:
        return Card(self.session, note)

    @property
    def _how(self) -> str:
        """How an answer by this control is recorded."""
        return kind_of(self.session.question()).how

    def _act(self, content: dict[str, Any]) -> str:
        if content.get("do") == "answer":
            note = take_answer(self.session, self.view.answer(self.widget, content), self._how)
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
