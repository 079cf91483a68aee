"""The verb `ask`: a question, a form to answer it, the last verdict from the logbook."""

from threading import Lock
from typing import Any

from bitepoint.bank import exercise_named
from bitepoint.errors import BitepointError
from bitepoint.page import shell
from bitepoint.page.cards import Card
from bitepoint.page.desk import Desk
from bitepoint.questions.tightening import Tightening

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
        desk = Desk(exercise_named(exercise), shell.who_asks())
    except BitepointError as error:
        shell.say(error)
        return
    asked.append(desk.exercise.lesson)
    note = "" if answer is _NOTHING or answer is None or answer is ... else _take(desk, answer, "typed", turn)
    if turn is not None and answer is _NOTHING and turn >= 1:
        desk.turn = turn
    redraw = shell.show_static(Card(desk, note))
    if shell.page_watches():
        _Control(desk, redraw).show()


def _take(desk: Desk, answer: object, how: str, turn: int | None = None) -> str:
    """Record an answer; return what to say when that was not possible."""
    try:
        desk.answer(answer, how=how, turn=turn)
    except BitepointError as error:
        return str(error)
    return ""


class _Control:
    """Ties a live control to a desk: hears answers, says verdicts, redraws the card."""

    def __init__(self, desk: Desk, redraw: Any) -> None:
        self.desk, self.redraw, self.n = desk, redraw, 0
        self._one_at_a_time = Lock()
        self.widget = self._widget()
        self.widget.on_msg(self._heard)
        self._say("")

    def _widget(self) -> Any:
        from bitepoint.page import specs, widgets

        question, title = self.desk.question(), self.desk.exercise.title
        if isinstance(question, Tightening):
            return widgets.BoltCircle(spec=specs.drill_spec(question, title), pulls=[], said={})
        return widgets.AnswerForm(spec=specs.form_spec(question, title), said={})

    def show(self) -> None:
        shell.show_live(self.widget)

    def _heard(self, _: Any, content: dict[str, Any], buffers: Any) -> None:
        """Take a message of the page. It runs beside the cells, in a thread of its own, and nobody sees what it raises."""
        with self._one_at_a_time:
            try:
                note = self._act(content)
            except Exception as error:  # a silent form would leave the learner guessing
                note = f"Something went wrong ({type(error).__name__}). Run this cell again, then answer once more."
            self._say(note)
            self.redraw(Card(self.desk, note))

    def _act(self, content: dict[str, Any]) -> str:
        drill = isinstance(self.desk.question(), Tightening)
        if content.get("do") == "answer":
            answer = content.get("pulls", self.widget.pulls) if drill else content.get("answer")
            return _take(self.desk, answer, "drill" if drill else "form")
        if content.get("do") == "again" and (self.desk.right or self.desk.closed):
            self._again()
        return ""

    def _again(self) -> None:
        from bitepoint.page import specs

        self.desk.again()
        question, title = self.desk.question(), self.desk.exercise.title
        if isinstance(question, Tightening):
            self.widget.pulls = []
            self.widget.spec = specs.drill_spec(question, title)
        else:
            self.widget.spec = specs.form_spec(question, title)

    def _say(self, note: str) -> None:
        from bitepoint.page.widgets.common import said

        tone, word, text = self.desk.feedback()
        finished = self.desk.right or self.desk.closed
        self.n += 1
        words = "\n\n".join(part for part in (f"{word} {text}".strip(), note) if part)
        text = note if note and not finished else words
        self.widget.said = said(self.n, "note" if note else tone, text, closed=finished, again=finished)
